package control

import (
	"regexp"
	"slices"
	"strings"

	"puffproof/pneumatics"
)

// The ways in which people write what stands in series, side by side, or the other way round; none is understood, each is told.
var (
	inSeries   = regexp.MustCompile(`(?i)\s+and\s+|\s+then\s+|\s*(?:&&?|[+,;>]|->)\s*`)
	sideBySide = regexp.MustCompile(`(?i)\s+or\s+|\s*(?:\|\|?|/)\s*`)
	dropped    = regexp.MustCompile(`(?i)^(?:not\s+|!\s*|nc\s+)`)
	numbered   = regexp.MustCompile(`^(.+?)[\s:_#/-]*([0-9]+)$`)
)

// Hint says how a text that is no step is probably meant; "" nothing is known of it.
func Hint(text string) string {
	var series []string
	for _, one := range inSeries.Split(strings.TrimSpace(text), -1) {
		sides := sideBySide.Split(one, -1)
		for i, s := range sides {
			if name := dropped.ReplaceAllString(s, ""); name != s {
				sides[i] = "not " + name
			}
		}
		series = append(series, strings.Join(sides, " or "))
	}
	for _, s := range series {
		if _, err := ParseStep(s); err != nil {
			return ""
		}
	}
	switch {
	case len(series) > 1:
		return `what the current passes one after the other are texts of their own: "` + strings.Join(series, `", "`) + `"`
	case series[0] != text:
		return `did you mean "` + series[0] + `"?`
	}
	return ""
}

// HintOf says how a contact of a part that there is not is probably meant: a number that is written otherwise, a longer or shorter
// name of a part; or that it is a load. "" nothing of the kind.
func (w *Wiring) HintOf(c Contact) string {
	if i := w.Index(c.Part); i >= 0 && w.Parts[i].Kind == Load {
		return `"` + c.Part + `" is a load, and has no contacts: name what its current passes`
	}
	if m := numbered.FindStringSubmatch(c.Part); m != nil && w.hasContacts(m[1]) {
		if contact := m[1] + "." + m[2]; len(Hint("!"+contact)) > 0 {
			return `did you mean "` + contact + `"?`
		}
	}
	name, alike := strings.ToLower(c.Part), []string{}
	for i := range w.Parts {
		if p := strings.ToLower(w.Parts[i].Name); w.hasContacts(w.Parts[i].Name) && len(p) > 2 && len(name) > 2 &&
			(strings.Contains(name, p) || strings.Contains(p, name)) {
			alike = append(alike, w.Parts[i].Name)
		}
	}
	if len(alike) != 1 {
		return ""
	}
	return `did you mean "` + alike[0] + `"?`
}

// hasContacts tells whether there is a part of that name that has contacts.
func (w *Wiring) hasContacts(name string) bool {
	i := w.Index(name)
	return i >= 0 && w.Parts[i].Kind != Load
}

// Restless names the relays that never come to rest in a state as built: those that each other's, or their own, contacts move for
// ever, without those that only follow them. Empty: all do.
func (w *Wiring) Restless(s pneumatics.State) []string {
	turning := make(On, len(w.Parts))
	note := func(before On, pulse bool) On {
		after, calm := w.settle(Case{State: s}, nil, before, pulse)
		if !calm {
			w.round(Case{State: s}, after, pulse, turning)
		}
		return after
	}
	for _, other := range append(pneumatics.States(), s) {
		before := w.dropped()
		if other != s {
			before = w.Normal(other)
		}
		note(note(before, true), false)
	}
	var out []string
	for i := range w.Parts {
		if turning[i] && w.Parts[i].Kind == Relay && w.movedBy(i, w.Parts[i].Name, turning, nil) {
			out = append(out, w.Parts[i].Name)
		}
	}
	return out
}

// mostSteps is how many steps a round of relays that never rest is followed.
const mostSteps = 5000

// round marks what moves in the round that a wiring without rest goes.
func (w *Wiring) round(c Case, on On, pulse bool, turning On) {
	from, kept := on, 1
	for n, since := 0, 0; n < mostSteps; n++ { // Brent's way to the length of a round: what is kept is renewed at powers of two
		on = w.step(c, nil, on, pulse)
		if since++; slices.Equal(on, from) {
			break
		} else if since == kept {
			from, kept, since = on, 2*kept, 0
		}
	}
	for at, n := from, 0; n < mostSteps; n++ {
		next := w.step(c, nil, at, pulse)
		for i := range next {
			turning[i] = turning[i] || next[i] != at[i]
		}
		if at = next; slices.Equal(at, from) {
			return
		}
	}
}

// movedBy tells whether a contact of a relay stands in the way of a part, directly or by other relays that turn.
func (w *Wiring) movedBy(i int, relay string, turning On, seen []int) bool {
	for _, step := range w.Parts[i].Through {
		for _, c := range step {
			k := w.Index(c.Part)
			switch {
			case k < 0 || !turning[k]:
			case c.Part == relay:
				return true
			case !slices.Contains(seen, k) && w.movedBy(k, relay, turning, append(seen, i, k)):
				return true
			}
		}
	}
	return false
}
