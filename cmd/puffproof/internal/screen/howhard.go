package screen

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// hardLine is one line of how hard the launcher shoots. A note that does not fit stands
// under its line if it is due, otherwise nowhere.
type hardLine struct {
	name, speed, energy, note string
	due                       bool
	under                     string // a line of its own under it; "" none
}

// howHard tells in one line each how the energy that is judged comes about: the nominal
// shot, the worst one, the vehicle's speed where it moves, the factor, the energy judged.
func (c *CheckScreen) howHard() []string {
	e := c.Report.Energy
	if e == nil {
		return []string{"How hard it shoots: not known."}
	}
	rows := []hardLine{c.hardShot("nominal", e.NominalShot, c.Units.Near)}
	if b := c.Report.Budget; b != nil && b.Weakest.Known {
		rows = append(rows, c.weakestLine(b.Weakest))
		if c.weakestStays() && !strings.HasPrefix(c.next(), "next: puffproof advise") {
			rows[1].under = c.toLeave("  for it to leave")
		}
	}
	rows = append(rows, c.hardShot("worst over the tolerances", e.Worst, c.Units.Worst))
	if e.Basis == "" {
		return c.hardLines(append(rows, hardLine{name: "judged", energy: "-", note: "not known: --full says why", due: true}))
	}
	moved := "with all that its air can give"
	if e.MovingAt > 0 {
		moved = "with the vehicle's " + c.Units.Near(quantity.Speed, e.MovingAt)
	}
	if counted := c.Units.Worst(quantity.Energy, e.WorstEnergy); e.MovingAt > 0 || counted != rows[len(rows)-1].energy && e.WorstEnergy > 0 {
		rows = append(rows, hardLine{name: moved, energy: counted})
	}
	rows = append(rows, hardLine{name: "model factor x " + quantity.Number(e.Factor, 3), energy: c.Units.Worst(quantity.Energy, e.Model)})
	if one := e.DecidingEntered(); one != nil {
		rows = append(rows, hardLine{name: "shot by " + one.Does(), energy: c.Units.Worst(quantity.Energy, one.Judged)})
	}
	judged := hardLine{name: "judged", energy: c.Units.Worst(quantity.Energy, e.Judged), due: true,
		note: fmt.Sprintf("of %s, %s", c.Units.Near(quantity.Energy, e.Limit), quantity.Margin(1-e.Judged/e.Limit))}
	switch e.Basis {
	case finding.OnCeiling:
		judged.name = "judged on the ceiling"
	case finding.OnMeasured:
		judged.name = "judged on measured shots"
	}
	if v, _ := c.Report.Verdict(finding.EnergyTotal); v.Status == finding.Unknown {
		judged.note = "not judged: " + finding.EnergyTotal + " is unknown"
	}
	return c.hardLines(append(rows, judged))
}

// weakestLine is what the launcher that does least makes of a shot when it is filled.
func (c *CheckScreen) weakestLine(w worst.Weakest) hardLine {
	s := show.Weakest(c.Units, w)
	return hardLine{name: s.Name, speed: s.Speed, energy: s.Energy, note: s.Note, due: !w.Leaves}
}

// weakestStays tells that the projectile of the weakest launcher does not leave, and that neither advise nor an editor comes next anyway.
func (c *CheckScreen) weakestStays() bool {
	r := &c.Report
	return r.Budget != nil && r.Budget.Weakest.Known && !r.Budget.Weakest.Leaves && r.Energy != nil && len(r.Template) == 0 &&
		show.Tally(r.Verdicts, finding.Fail) == 0
}

// toLeave is the command that looks for what lets the projectile of the weakest launcher leave as well.
func (c *CheckScreen) toLeave(lead string) string {
	if s := c.Report.Energy.NominalShot; s.Outcome == show.OutcomeLeft && s.FinalSpeed < mostGoal {
		if line := c.command(lead, "advise", ` --goal "speed `+c.Units.Near(quantity.Speed, s.FinalSpeed)+`"`); show.Columns(line) <= c.Width {
			return line
		}
	}
	return c.command(lead, "advise", "")
}

// mostGoal is below the fastest goal that advise takes [m/s].
const mostGoal = 99.0

// hardShot is the line of one shot.
func (c *CheckScreen) hardShot(name string, f worst.ShotFigures, up func(quantity.Kind, float64) string) hardLine {
	from := "from " + c.Units.Near(quantity.Gauge, f.StartGauge)
	switch {
	case f.Outcome == "":
		return hardLine{name: name, speed: "-", energy: "-", note: "not known"}
	case f.Outcome != show.OutcomeLeft && !(f.StartGauge > 0): // nothing says up to which pressure it is filled
		return hardLine{name: name, speed: "-", energy: "-", note: "start pressure not known"}
	case f.Outcome == show.OutcomeLeft:
		return hardLine{name: name, speed: up(quantity.Speed, f.FinalSpeed), energy: up(quantity.Energy, f.FinalEnergy), note: from}
	}
	return hardLine{name: name, speed: "-", energy: "-", note: show.Shorten(show.Clean(f.Outcome), 14) + ", " + from}
}

// hardLines sets them in columns.
func (c *CheckScreen) hardLines(rows []hardLine) []string {
	name, speed, energy := 0, 0, 0
	for _, r := range rows {
		name, speed, energy = max(name, show.Columns(r.name)), max(speed, show.Columns(r.speed)), max(energy, show.Columns(r.energy))
	}
	var out []string
	for _, r := range rows {
		line := r.name + strings.Repeat(" ", name-show.Columns(r.name)) + pad(r.speed, speed) + pad(r.energy, energy)
		switch {
		case show.Columns(line)+1+show.Columns(r.note) <= c.Width:
			out = append(out, strings.TrimRight(line+" "+r.note, " "))
		case r.due:
			out = append(out, line, "  "+show.Shorten(r.note, c.Width-2))
		default:
			out = append(out, line)
		}
		if r.under != "" {
			out = append(out, r.under)
		}
	}
	return out
}

// pad sets a cell to the right behind two blanks.
func pad(cell string, columns int) string {
	return "  " + strings.Repeat(" ", columns-show.Columns(cell)) + cell
}
