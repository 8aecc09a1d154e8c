package screen

import (
	"fmt"
	"io"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
)

// PlanScreen shows a test plan, on a terminal or in a pipe.
type PlanScreen struct {
	Frame
	Plan *measure.ShotPlan
}

// Write prints the screen.
func (p *PlanScreen) Write(w io.Writer) error {
	plan := p.Plan
	return p.write(w, p.finding(), p.design, p.list("Who stands where", plan.Stand), p.list("Stop and vent at", plan.Stop),
		p.writePressures, p.writeCount, p.writeBench, p.notes(plan.Notes), p.cautions)
}

func (p *PlanScreen) finding() string {
	if len(p.Plan.Refused) != 0 {
		return p.lines(red, "", "", "Do NOT test this build: "+p.text(p.Plan.Refused)+".")
	}
	n := len(p.Plan.Pressures)
	if n == 0 {
		return p.paint(yellow, "No plan yet: the highest working pressure is not known.")
	}
	total := 0
	for _, x := range p.Plan.Pressures {
		total += x.Shots
	}
	return p.lines(bold, "", "", fmt.Sprintf("%s at %s, the last at %s.", show.Plural(total, "shot", "shots"),
		show.Plural(n, "pressure", "pressures"), p.Units.Near(quantity.Gauge, p.Plan.Pressures[n-1].Gauge)))
}

// list prints what is to be kept in mind, under its heading.
func (s *Frame) list(title string, items []finding.Text) part {
	return func() {
		if len(items) == 0 {
			return
		}
		s.heading(title)
		for _, it := range items {
			s.say("  - ", "    ", s.text(it))
		}
	}
}

func (p *PlanScreen) writePressures() {
	for _, x := range p.Plan.Pressures {
		p.gap()
		p.say("", "  ", p.paint(bold, p.Units.Near(quantity.Gauge, x.Gauge))+fmt.Sprintf(": %d shots or more: %s.", x.Shots, p.text(x.Why)))
		p.sayf("  ", "  ", "Expect %s, between %s and %s over the tolerances. A shot faster than %s ends the session.",
			p.Units.Near(quantity.Speed, x.Nominal), p.orStall(x.Low), p.Units.Near(quantity.Speed, x.High), p.Units.Near(quantity.Speed, x.Stop))
		for _, r := range x.Readings {
			p.sayf("  ", "    ", "%s (%s): %s", show.Clean(r.Method.String()), p.text(r.Setup), p.reading(r))
		}
	}
}

// orStall shows a speed, or that the shot may not come out.
func (s Style) orStall(v float64) string {
	if v == 0 {
		return "a stall"
	}
	return s.Units.Near(quantity.Speed, v)
}

// reading shows what an instrument should show: nominal and range.
func (s Style) reading(r measure.PlanReading) string {
	if r.Nominal == 0 {
		return "stalls"
	}
	show := func(v float64) string {
		if r.Quantity == finding.InCount {
			return quantity.Number(v, 3) + " frames"
		}
		return s.Units.Near(quantity.OfVerdict(r.Quantity), v)
	}
	low := "none, it may stall"
	if r.Low != 0 {
		low = show(r.Low)
	}
	return fmt.Sprintf("%s; weakest %s, strongest %s", show(r.Nominal), low, show(r.High))
}

func (p *PlanScreen) writeCount() {
	if len(p.Plan.Count) == 0 {
		return
	}
	p.gap()
	p.sayf("", "  ", "How many shots keep the bound below %s, carried to %s and the worst seating (energy times %s):",
		p.Units.Near(quantity.Energy, p.Plan.Limit), p.Units.Near(quantity.Gauge, p.Plan.Top), quantity.Number(p.Plan.Carry, 3))
	for _, c := range p.Plan.Count {
		t := fmt.Sprintf("scatter %s: %d shots, k = %s, bound %s", wholePercent(c.Scatter), c.Shots, three(c.K),
			p.Units.Worst(quantity.Energy, c.Bound))
		if c.Shots == 0 {
			t = fmt.Sprintf("scatter %s: not even 100 shots would do, the bound stays at %s", wholePercent(c.Scatter),
				p.Units.Worst(quantity.Energy, c.Bound))
		}
		p.say("  ", "    ", t)
	}
}

func (p *PlanScreen) writeBench() {
	if len(p.Plan.Bench) == 0 {
		return
	}
	p.heading("Bench tests that narrow the model")
	for _, t := range p.Plan.Bench {
		p.sayf("  - ", "    ", "%s: %s. Expect %s. Column %s.", show.Clean(t.Kind.String()), p.text(t.How), p.text(t.Expect),
			t.Column)
	}
}
