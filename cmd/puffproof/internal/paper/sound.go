package paper

import (
	"math"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/sound"
)

// sound says how loud a shot is, at whose ear and from what.
func (b *builder) sound() {
	b.section("How loud it is")
	v, _ := b.in.Report.Verdict(finding.SoundAtPeak)
	r := b.in.Report.Sound
	if r == nil {
		b.say("It is not known" + show.Lead(": ", b.text(v.Why)) + ".")
		return
	}
	b.say("Peak sound pressure level, C-weighted. Expected is the nominal shot into the open; the upper end is the loudest shot over the " +
		"tolerances, its bore opened at once, before a hard wall. The interval is wide, and a recording narrows it. " + b.source(v.Source))
	t := document.Table{Caption: "At the ear", Head: []string{"Ear", "From the muzzle", "Expected", "At most", "From"},
		Widths: []int{28, 14, 14, 14, 30}}
	for _, e := range append(append([]sound.Ear{}, r.Ears...), r.Near) {
		tone := show.Neutral
		if len(r.Ears) > 0 && e == r.Ears[0] {
			tone = show.ToneOf(v.Status)
		}
		t.AddToned(tone, e.Who, b.in.Units.Near(quantity.Length, e.Distance), b.level(e.Expected), b.level(e.Upper), b.text(r.NameOf(e.By)))
	}
	b.add(t)
	lines := show.Sound(b.in.Units, r)
	for _, line := range lines[len(r.Ears)+1:] {
		b.say(line)
	}
	if v.Status == finding.Conditional {
		b.say(show.Clean(show.Condition(b.in.Units, v)))
	}
}

// level is a peak level, rounded up; a dash where there is none.
func (b *builder) level(dB float64) string {
	if math.IsNaN(dB) || math.IsInf(dB, 0) {
		return "–"
	}
	return b.in.Units.Worst(quantity.PeakLevel, dB)
}
