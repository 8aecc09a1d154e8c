package render

import (
	"fmt"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/measure"
	"strings"
)

// writeMeasured prints what measurements did to the energies.
func (c *CheckScreen) writeMeasured(b *strings.Builder) {
	m, s := c.Report.Measured, c.Style
	if m == nil {
		return
	}
	for _, x := range m.Clashes {
		fmt.Fprintln(b, s.paint(red, Wrap("Contradiction: "+Clean(x.String())+".", s.Width, "  ", "    ")))
	}
	if m.Disagrees != "" {
		fmt.Fprintln(b, s.paint(yellow, Wrap("The shots do not agree with the model: "+Clean(m.Disagrees)+".", s.Width, "  ", "    ")))
	}
	if m.Bound == nil && m.NotCarried != "" {
		fmt.Fprintln(b, Wrap("Measured bound unknown: "+Clean(m.NotCarried)+".", s.Width, "  ", "  "))
	}
	if m.Bound != nil {
		fmt.Fprintln(b, Wrap(fmt.Sprintf("Measured: %s at %s, bound %s there, energy times %s to the highest start pressure and the worst seating.",
			plural(m.Group.Shots, "shot", "shots"), s.near(unit.Pressure, m.Group.Gauge), s.worst(unit.Energy, m.Group.UpperEnergy), number(m.Carry, 3)), s.Width, "  ", "  "))
	}
	if len(m.Narrowed) > 0 {
		fmt.Fprintln(b, "  The model uses bands narrowed by measurement:")
		writeNarrowings(b, s, m.Narrowed, func(key string, v float64) string {
			if t, ok := c.keyValue(key, v); ok {
				return t
			}
			return number(v, 3)
		})
	}
}

type measuredDoc struct {
	Log        string        `json:"shots_file"`
	Shots      *boundDoc     `json:"shots"`
	Bound      *float64      `json:"bound_J"`
	Carry      *float64      `json:"carry_ratio"`
	NotCarried string        `json:"not_carried"`
	Wrong      string        `json:"contradiction"`
	Narrowed   []narrowedDoc `json:"narrowed"`
}

// measuredOf is null without a shots file.
func measuredOf(m *measure.Report) *measuredDoc {
	if m == nil {
		return nil
	}
	d := &measuredDoc{Log: m.Log, Bound: m.Bound, NotCarried: m.NotCarried, Wrong: m.Contradiction(), Narrowed: narrowedOf(m.Narrowed)}
	if m.Group != nil {
		g := boundOf(m.Group)
		d.Shots = &g
	}
	if m.Bound != nil {
		d.Carry = &m.Carry
	}
	return d
}
