package screen

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// writeEnergy prints how hard the launcher shoots, each basis on its own line.
// Without a basis nothing was judged: a figure of 0 then means "not known" and is
// not printed.
func (c *CheckScreen) writeEnergy(b *strings.Builder) {
	e := c.Report.Energy
	if e == nil {
		fmt.Fprintln(b, "\nHow hard it shoots: not known, see below.")
		return
	}
	s := c.Style
	t := plainTable()
	t.SetColumnConfigs([]table.ColumnConfig{
		{Number: 2, Align: text.AlignRight}, {Number: 3, Align: text.AlignRight},
	})
	t.AppendRow(s.heads("How hard it shoots", "speed", "energy", ""))
	shot := func(name string, f worst.ShotFigures, up func(show.Quantity, float64) string) {
		if f.Outcome == "" { // not computed
			t.AppendRow(table.Row{name, "-", "not known"})
			return
		}
		at := "from " + s.Units.Near(show.Gauge, f.StartGauge)
		if f.Outcome != show.OutcomeLeft {
			t.AppendRow(table.Row{name, "-", "-", shorten(show.Clean(f.Outcome), 14) + ", " + at})
			return
		}
		t.AppendRow(table.Row{name, up(show.Speed, f.FinalSpeed), up(show.Energy, f.FinalEnergy), at})
	}
	shot("  nominal", e.NominalShot, s.Units.Near)
	shot("  nominal, worst seating", e.NominalMax, s.Units.Near)
	shot("  worst case", e.Worst, s.Units.Worst)
	known := e.Basis != ""
	if known {
		t.AppendRow(table.Row{"  model: worst x " + show.Number(e.Factor, 3), "", s.Units.Worst(show.Energy, e.Model),
			c.judgedMark(e, finding.OnModel)})
	}
	if e.Measured != nil {
		t.AppendRow(table.Row{"  measured bound", "", s.Units.Worst(show.Energy, *e.Measured), c.judgedMark(e, finding.OnMeasured)})
	} else {
		t.AppendRow(table.Row{"  measured bound", "", "none", "needs 5 shots or more"})
	}
	if known {
		t.AppendRow(table.Row{"  ceiling", "", s.Units.Worst(show.Energy, e.Ceiling), c.ceilingNote(e)})
	}
	printTable(b, t)
	if !known {
		s.say(b, "  ", "  ", "The energy that would be judged is not known, see below.")
		return
	}
	if e.ContactArea > 0 && c.statusOf("energy.area") != finding.Unknown {
		s.sayf(b, "  ", "  ", "On the contact area of %s: %s, limit %s, %s.", s.Units.Near(show.Area, e.ContactArea),
			s.Units.Worst(show.EnergyPerArea, e.AreaJudged), s.Units.Near(show.EnergyPerArea, e.AreaLimit), show.Margin(1-e.AreaJudged/e.AreaLimit))
	}
	if p := c.point(e.WorstPoint); p != "" {
		s.say(b, "  ", "  ", "The worst case lies at: "+p+".")
	}
}

// judgedMark marks the line whose energy is judged with its limit and margin.
func (c *CheckScreen) judgedMark(e *worst.EnergyReport, basis finding.Basis) string {
	if e.Basis != basis {
		return ""
	}
	if c.statusOf("energy.total") == finding.Unknown {
		return "not judged: energy.total is unknown"
	}
	return fmt.Sprintf("judged: limit %s, %s", c.Style.Units.Near(show.Energy, e.Limit), show.Margin(1-e.Judged/e.Limit))
}

// statusOf gives the status of a verdict; "" where there is none of that name.
func (c *CheckScreen) statusOf(id string) finding.Status {
	for _, v := range c.Report.Verdicts {
		if v.ID == id {
			return v.Status
		}
	}
	return ""
}

// ceilingNote says what the ceiling means where it does not decide.
func (c *CheckScreen) ceilingNote(e *worst.EnergyReport) string {
	if e.Basis == finding.OnCeiling {
		return c.judgedMark(e, finding.OnCeiling)
	}
	if e.CeilingDose > 0 {
		return "would pass " + c.Style.Units.Near(show.Volume, e.CeilingDose) + " of air"
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
		if v, ok := c.keyValue(co.Key, co.Value); ok {
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

// keyValue shows a value of a key of the design file, where its dimension is known.
func (c *CheckScreen) keyValue(key string, si float64) (string, bool) {
	return show.Keys{Units: c.Style.Units, DimensionOf: c.DimensionOf}.Value(key, si)
}
