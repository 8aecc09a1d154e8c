package screen

import (
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// writeMeasured prints what measurements did to the energies.
func (c *CheckScreen) writeMeasured() {
	m := c.Report.Measured
	if m == nil {
		return
	}
	for _, x := range m.Clashes {
		c.println(c.lines(red, "  ", "    ", "Contradiction: "+c.text(x.Says())+"."))
	}
	if len(m.Disagrees) != 0 {
		c.println(c.lines(yellow, "  ", "    ", "The shots do not agree with the model: "+c.text(m.Disagrees)+"."))
	}
	if m.Bound == nil && len(m.NotCarried) != 0 {
		c.say("  ", "  ", "Measured bound unknown: "+c.text(m.NotCarried)+".")
	}
	if m.Bound != nil {
		c.sayf("  ", "  ", "Measured: %s at %s, bound %s there, energy times %s to the highest start pressure and the worst seating.",
			show.Plural(m.Group.Shots, "shot", "shots"), c.Units.Near(quantity.Gauge, m.Group.Gauge),
			c.Units.Worst(quantity.Energy, m.Group.UpperEnergy),
			quantity.Number(m.Carry, 3))
	}
	if len(m.Narrowed) > 0 {
		c.println("  The model uses bands narrowed by measurement:")
		c.writeNarrowings(m.Narrowed)
	}
}
