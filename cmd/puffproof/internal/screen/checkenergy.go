package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// writeEnergy prints how hard the launcher shoots, each basis on its own line.
// Without a basis nothing was judged: a figure of 0 then means "not known" and is
// not printed.
func (c *CheckScreen) writeEnergy() {
	e := c.Report.Energy
	if e == nil {
		c.println("\nHow hard it shoots: not known, see below.")
		return
	}
	t := c.grid("How hard it shoots", "speed", "energy", "")
	t.right(2, 3)
	shot := func(name string, f worst.ShotFigures, up func(quantity.Kind, float64) string) {
		if f.Outcome == "" { // not computed
			t.add(name, "-", "not known")
			return
		}
		if f.Outcome != show.OutcomeLeft && !(f.StartGauge > 0) {
			t.add(name, "-", "-", "start pressure not known")
			return
		}
		at := "from " + c.Units.Near(quantity.Gauge, f.StartGauge)
		if f.Outcome != show.OutcomeLeft {
			t.add(name, "-", "-", show.Shorten(show.Clean(f.Outcome), 14)+", "+at)
			return
		}
		t.add(name, up(quantity.Speed, f.FinalSpeed), up(quantity.Energy, f.FinalEnergy), at)
	}
	shot("  nominal", e.NominalShot, c.Units.Near)
	shot("  nominal, worst seating", e.NominalMax, c.Units.Near)
	if b := c.Report.Budget; b != nil && b.Weakest.Known {
		w := c.weakestLine(b.Weakest)
		t.add("  "+w.name, w.speed, w.energy, w.note)
	}
	shot("  worst case", e.Worst, c.Units.Worst)
	known := e.Basis != ""
	if known {
		t.add("  model: worst x "+quantity.Number(e.Factor, 3), "", c.Units.Worst(quantity.Energy, e.Model),
			show.JudgedMark(c.Units, c.Report, finding.OnModel))
	}
	if one := e.DecidingEntered(); one != nil {
		t.add("  by "+one.Does(), "", c.Units.Worst(quantity.Energy, one.Judged), show.JudgedLimit(c.Units, e))
	}
	if e.Measured != nil {
		t.add("  measured bound", "", c.Units.Worst(quantity.Energy, *e.Measured), show.JudgedMark(c.Units, c.Report, finding.OnMeasured))
	} else {
		t.add("  measured bound", "", "none", "needs 5 shots or more")
	}
	if known {
		t.add("  ceiling", "", c.Units.Worst(quantity.Energy, e.Ceiling), c.ceilingNote(e))
	}
	c.printTable(t)
	if !known {
		c.say("  ", "  ", "The energy that would be judged is not known, see below.")
		return
	}
	if v, _ := c.Report.Verdict(finding.EnergyArea); e.ContactArea > 0 && v.Status != finding.Unknown {
		c.sayf("  ", "  ", "On the contact area of %s: %s, limit %s, %s.", c.Units.Near(quantity.Area, e.ContactArea),
			c.Units.Worst(quantity.EnergyPerArea, e.AreaJudged), c.Units.Near(quantity.EnergyPerArea, e.AreaLimit),
			quantity.Margin(1-e.AreaJudged/e.AreaLimit))
	}
	if p := c.point(e.WorstPoint); p != "" {
		c.say("  ", "  ", "The worst case lies at: "+p+".")
	}
}

// ceilingNote says what the ceiling means where it does not decide.
func (c *CheckScreen) ceilingNote(e *worst.EnergyReport) string {
	if e.Basis == finding.OnCeiling {
		return show.JudgedMark(c.Units, c.Report, finding.OnCeiling)
	}
	if e.CeilingDose > 0 {
		return "over the limit above " + c.Units.Near(quantity.Volume, e.CeilingDose) + " of air"
	}
	return "the most the air could do"
}

// point names the coordinates of the worst case that are off nominal.
func (c *CheckScreen) point(p worst.Point) string {
	var parts []string
	for _, co := range p {
		if co.Side == "nominal" {
			continue
		}
		t := show.Clean(co.Key)
		if v, ok := c.keys().Value(co.Key, co.Value); ok {
			t += " " + v
		}
		switch co.Side {
		case "inside":
			t += " (inside its band)"
		case "":
		default:
			t += " (" + show.Clean(co.Side) + ")"
		}
		parts = append(parts, t)
	}
	const shown = 8
	if len(parts) > shown+1 {
		return strings.Join(parts[:shown], ", ") + fmt.Sprintf(" and %d more (--json lists them)", len(parts)-shown)
	}
	return strings.Join(parts, ", ")
}
