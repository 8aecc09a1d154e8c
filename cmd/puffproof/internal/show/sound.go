package show

import (
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/finding"
	"puffproof/limits/sound"
)

// Sound says how loud a shot is, a line for each ear, the sources, what makes it quieter and what is not in it; nothing
// where it is not known.
func Sound(u quantity.System, r *sound.Report) (lines []string) {
	if r == nil {
		return nil
	}
	say := func(format string, args ...any) { lines = append(lines, Clean(u.Text(finding.Say(format, args...)))) }
	for _, e := range r.Ears {
		say("Sound at %s, %s from the muzzle: %s (%s).", e.Who, finding.Metre(e.Distance), r.Between(e.Levels), r.NameOf(e.By))
	}
	say("Sound at %s from it, where toys are measured: %s (%s).", finding.Metre(r.Near.Distance), r.Between(r.Near.Levels),
		r.NameOf(r.Near.By))
	if len(r.Changes) > 0 {
		var all []finding.Text
		for _, c := range r.Changes {
			all = append(all, finding.Say("%s, to %s", c.What, finding.Decibel(c.Upper)))
		}
		say("What makes it quieter at the worse ear, each by itself: %s.", finding.Join(all, "; "))
	}
	if rec := r.Recorded; rec != nil {
		say("%s %s from the muzzle: %s, at most %s; the tolerances may add %s. The model alone has %s.",
			rec.How(), finding.Metre(sound.PlaceOfBenchmark), finding.Decibel(rec.Level), finding.Decibel(rec.High),
			finding.Words(quantity.Number(rec.Spread, 2)+" dB"), r.Between(rec.Model))
	}
	for _, n := range r.Notes {
		say("%s.", n)
	}
	return lines
}
