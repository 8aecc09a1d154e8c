package checklist

import (
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/sound"
	"puffproof/limits/verdict"
)

// hearingItems asks for a recording, or for ear defenders, where a shot may be as loud as what is asked of toys.
func hearingItems(a *assessment.Assessment) []finding.Item {
	if a.Sound == nil || verdict.Of(a, finding.SoundAtPeak).Status != finding.Conditional {
		return nil
	}
	toy, worse := benchmark.BenchmarkOf(benchmark.SoundPeak).Value, a.Sound.Ears[0]
	var pump finding.Text
	if near := a.Sound.PumpQuietFrom(toy); near > 0 {
		pump = finding.Say(" While the pump runs: ear defenders on everybody within %s of it; or state its level as supply.noise_level.",
			finding.Metre(near))
	}
	var says []string
	if n := a.Launcher.Supply; n != nil {
		if _, stated := sound.Steady(a.Launcher); stated && n.NoiseLevel.High >= verdict.Deafening {
			says = []string{"ear defender*", "ear muff*", "earmuff*", "ear plug*", "earplug*", "hearing protection"}
			pump = pump.Say(" It is so loud that a recording of shots answers nothing for it: say who wears ear defenders while it runs.")
		}
	}
	return []finding.Item{{ID: finding.ItemHearing, Title: finding.Words("Record how loud a shot is, or ear defenders on every ear near it"),
		Verdict: finding.SoundAtPeak,
		Why:     finding.Words("One loud pop can hurt an ear for good, a child's too, and what is computed is a wide interval."),
		How: finding.Say("Five shots from %s, a meter with a C-weighted peak or a phone beside a source of known peak, at %s from the "+
			"muzzle; a flat top is clipped and no reading: go twice as far and add 6 dB. Write the loudest into event.peak_level. Without: ear "+
			"defenders on everybody within %s before the first shot.", whereFilled(a.Launcher), finding.Metre(worse.Nearest),
			finding.Metre(a.Sound.QuietFrom(toy))).And(pump),
		Expect: finding.Say("less than %s at %s; the model has %s", finding.Decibel(toy), worse.Who, a.Sound.Between(worse.Levels)),
		May:    finding.FigureBetween(finding.InDecibel, 0, toy), Says: says, Source: practice}}
}
