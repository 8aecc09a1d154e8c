package verdict

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/sound"
	"puffproof/limits/vent"
)

// soundPeak judges the upper end of the peak level at the worse ear. From the toy standard's level on, there or of what is expected
// at its distance, it holds only while a recording shows less or ears are protected.
func soundPeak(a *assessment.Assessment, v *finding.Verdict) {
	toy, work := benchmark.BenchmarkOf(benchmark.SoundPeak), benchmark.BenchmarkOf(benchmark.SoundWork)
	v.Source = "own rule of this project: upper end at the worse ear against " + work.Source() + "; conditional from " + toy.Source()
	v.Basis = finding.OnModel
	v.Caveat = finding.Words("the sources call the sensitivity of a child's ear unknown; broadband noise of jets, rooms and single faults " +
		"are not in it")
	r := a.Sound
	switch {
	case r == nil:
		v.Unknown(finding.Notes(finding.Words("the loudest shot is not known"), a.EnergyUnknown()))
		return
	case len(r.Ears) == 0:
		v.Unknown(finding.Say("missing: %s, from the muzzle to the nearest ear, usually the rider's", finding.Key("event.ear_to_muzzle")))
		return
	}
	if rec := r.Recorded; rec != nil && rec.Measured() {
		v.Basis = finding.OnMeasured
	}
	if rec := r.Recorded; rec != nil && rec.Measured() && rec.High < rec.Model.Expected-misheard {
		v.Unknown(finding.Say("the recording, at most %s, is far below the %s that is expected at %s: %s; record again beside a source of "+
			"known level", finding.Decibel(rec.High), finding.Decibel(rec.Model.Expected), finding.Metre(sound.PlaceOfBenchmark),
			finding.OneIsWrong()))
		return
	}
	worse := r.Ears[0]
	if math.IsInf(worse.Upper, -1) { // nothing leaves, nothing opens
		v.NotApplicable(finding.Words("no shot leaves the barrel, and nothing else opens"))
		return
	}
	v.Judge(worse.Upper, work.Value)
	rests := recorded(r)
	v.Advice = quieter(r)
	if worse.By == "pump" {
		rests = finding.Words(". No recording of a shot narrows that")
		v.Advice = finding.Words("State supply.noise_level as its label or a meter has it; a pump in a box of its own, away from " +
			"ears, is quieter.")
	}
	v.Why = finding.Say("at %s, %s from the muzzle: %s; upper end from %s%s", worse.Who, finding.Metre(worse.Nearest), r.Between(worse.Levels),
		r.NameOf(worse.By), rests)
	switch {
	case v.Status == finding.Fail:
	case worse.Upper >= toy.Value || r.Near.Expected > toy.Value:
		basis := v.Basis
		v.HoldsWhile(defended(r, worse, toy.Value), finding.ItemHearing)
		if basis == finding.OnMeasured {
			v.Why = v.Why.Say("; that is what was recorded")
		}
	default:
		v.Why = finding.Say("below the benchmark of %s for toys: ", finding.Decibel(toy.Value)).And(v.Why)
		v.Advice = nil
	}
	steadyNoise(a, v)
	neverBySlowness(a, v)
}

// Deafening is the A-weighted level of a pump 1 m away from which on nobody near it goes without ear defenders [dB(A)] (own rule of this
// project, no source).
const Deafening = 100.0

// steadyNoise tells of a pump that is stated to be loud: its peaks may be below every limit, and its noise over time is what harms.
func steadyNoise(a *assessment.Assessment, v *finding.Verdict) {
	daily := benchmark.BenchmarkOf(benchmark.SoundDaily)
	level, stated := sound.Steady(a.Launcher)
	if !stated || level < daily.Value {
		return
	}
	v.Why = v.Why.Say("; the pump is steady noise besides, up to %.0f dB(A) beside it: by the %g dB(A) over 8 h of %s an ear has a day's "+
		"share "+
		"after %s", math.Ceil(level), daily.Value, daily.Document, vent.Minutes(sound.DayShare(level, daily.Value)))
	if n := a.Launcher.Supply.NoiseLevel; n.High < Deafening || !v.Holds() {
		return
	}
	keep := finding.Words("everybody near the pump wears ear defenders while it runs")
	if v.Status == finding.Conditional {
		keep = v.Condition.Say("; and %s", keep)
	}
	v.HoldsWhile(keep, finding.ItemHearing)
	v.Advice = finding.Notes(v.Advice, finding.Words("A quieter pump, or one in a box away from ears; children stay away from it while "+
		"it runs."))
}

// defended is what people keep where a level may be too loud: of shots within a distance of the muzzle, of a pump within one of that.
func defended(r *sound.Report, worse sound.Ear, level float64) finding.Text {
	near := r.PumpQuietFrom(level)
	pump := finding.Say("everybody within %s of the pump wears ear defenders while it runs, or supply.noise_level, from its label or a "+
		"meter, is less", finding.Metre(near))
	if worse.By == "pump" {
		return pump
	}
	t := finding.Say("a recording shows less than %s there, or everybody within %s wears ear defenders: the rider, who loads, who stands near",
		finding.Decibel(level), finding.Metre(r.QuietFrom(level)))
	if near > 0 {
		t = t.Say("; and %s", pump)
	}
	return t
}

// misheard is how far [dB] a recording may lie below what the model expects before neither is believed: the ring that opens as a
// projectile leaves is known to a factor of some three (own rule of this project).
const misheard = 10.0

// recorded says what the interval rests on where a peak level is stated.
func recorded(r *sound.Report) finding.Text {
	switch rec := r.Recorded; {
	case rec == nil:
		return finding.Words(". A wide interval: a recording (event.peak_level) narrows it")
	case rec.Guessed():
		return finding.Words(". A wide interval: event.peak_level is a guess, which narrows nothing; a recording does")
	case !rec.Measured():
		return finding.Words(". A wide interval: event.peak_level is not marked as measured, and no label knows this launcher: it narrows " +
			"nothing; a recording does (behind it: measured)")
	}
	return finding.Say(". %s: at most %s at %s, and %.2g dB for the tolerances", r.Recorded.How(), finding.Decibel(r.Recorded.High),
		finding.Metre(sound.PlaceOfBenchmark), r.Recorded.Spread)
}

// quieter says the change that lowers it most, and the next one where that is a distance, which is not everybody's to choose.
func quieter(r *sound.Report) finding.Text {
	if len(r.Changes) == 0 {
		return nil
	}
	say := func(c sound.Change) finding.Text { return finding.Say("%s, to %s", c.What, finding.Decibel(c.Upper)) }
	best := say(r.Changes[0])
	if r.Changes[0].Distance && len(r.Changes) > 1 {
		best = best.Say("; at this distance %s", say(r.Changes[1]))
	}
	return finding.Say("What lowers it most, of what was tried: %s. Change the design so and check it again.", best)
}
