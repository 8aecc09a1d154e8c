package control

import (
	"slices"
	"strings"
)

// Together tells that two things by their names get current at the same moment: one load moves both, or the ways of theirs pass the same
// parts, as with two contacts of one button or relay. Fuses part nothing in time. Where a way is not known they do not.
func (w *Wiring) Together(a, b string) bool {
	one, other := w.LoadOf(a), w.LoadOf(b)
	switch {
	case one == nil || other == nil:
		return false
	case one == other:
		return true
	}
	return len(one.Missing)+len(other.Missing) == 0 && slices.Equal(w.moments(one), w.moments(other))
}

// moments are the steps on the way of a load that decide when it gets current, in a fixed order: of each step its parts, whatever the
// numbers of their contacts.
func (w *Wiring) moments(p *Part) (out []string) {
	for _, step := range p.Through {
		var parts []string
		for _, c := range step {
			if i := w.Index(c.Part); i < 0 || w.Parts[i].Kind != Fuse {
				parts = append(parts, Contact{Part: c.Part, No: 1, Not: c.Not}.String())
			}
		}
		if len(parts) > 0 {
			slices.Sort(parts)
			out = append(out, strings.Join(parts, " or "))
		}
	}
	slices.Sort(out)
	return out
}
