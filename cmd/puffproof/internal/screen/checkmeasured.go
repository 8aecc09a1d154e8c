package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
)

// writeMeasured prints what measurements did to the energies.
func (c *CheckScreen) writeMeasured(b *strings.Builder) {
	m, s := c.Report.Measured, c.Style
	if m == nil {
		return
	}
	for _, x := range m.Clashes {
		fmt.Fprintln(b, s.paint(red, Wrap("Contradiction: "+s.text(x.Says())+".", s.Width, "  ", "    ")))
	}
	if len(m.Disagrees) != 0 {
		fmt.Fprintln(b, s.paint(yellow, Wrap("The shots do not agree with the model: "+s.text(m.Disagrees)+".", s.Width, "  ", "    ")))
	}
	if m.Bound == nil && len(m.NotCarried) != 0 {
		s.say(b, "  ", "  ", "Measured bound unknown: "+s.text(m.NotCarried)+".")
	}
	if m.Bound != nil {
		s.sayf(b, "  ", "  ", "Measured: %s at %s, bound %s there, energy times %s to the highest start pressure and the worst seating.",
			show.Plural(m.Group.Shots, "shot", "shots"), s.Units.Near(show.Gauge, m.Group.Gauge), s.Units.Worst(show.Energy, m.Group.UpperEnergy),
			show.Number(m.Carry, 3))
	}
	if len(m.Narrowed) > 0 {
		fmt.Fprintln(b, "  The model uses bands narrowed by measurement:")
		writeNarrowings(b, s, m.Narrowed, func(key string, v float64) string {
			if t, ok := c.keyValue(key, v); ok {
				return t
			}
			return show.Number(v, 3)
		})
	}
}
