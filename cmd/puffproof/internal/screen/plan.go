package screen

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
)

// PlanScreen shows a test plan, on a terminal or in a pipe.
type PlanScreen struct {
	Style  Style
	Design show.DesignID
	Plan   *measure.ShotPlan
	Detail Detail
}

// Write prints the screen.
func (p *PlanScreen) Write(w io.Writer) error {
	s, plan := p.Style, p.Plan
	return s.write(w, p.Detail, p.finding(), s.design(p.Design), s.list("Who stands where", plan.Stand), s.list("Stop and vent at", plan.Stop),
		p.writePressures, p.writeCount, p.writeBench, s.notes(plan.Notes))
}

func (p *PlanScreen) finding() string {
	s, n := p.Style, len(p.Plan.Pressures)
	if n == 0 {
		return s.paint(yellow, "No plan yet: the highest working pressure is not known.")
	}
	if len(p.Plan.Refused) != 0 {
		return s.paint(red, Wrap("Do NOT test this build: "+s.text(p.Plan.Refused)+".", s.Width, "", ""))
	}
	total := 0
	for _, x := range p.Plan.Pressures {
		total += x.Shots
	}
	return s.paint(bold, Wrap(fmt.Sprintf("%s at %s, the last at %s.", show.Plural(total, "shot", "shots"),
		show.Plural(n, "pressure", "pressures"), s.Units.Near(show.Gauge, p.Plan.Pressures[n-1].Gauge)), s.Width, "", ""))
}

// list prints what is to be kept in mind, under its heading.
func (s Style) list(title string, items []finding.Text) part {
	return func(b *strings.Builder) {
		if len(items) == 0 {
			return
		}
		fmt.Fprintln(b)
		fmt.Fprintln(b, s.paint(bold, title))
		for _, it := range items {
			s.say(b, "  - ", "    ", s.text(it))
		}
	}
}

func (p *PlanScreen) writePressures(b *strings.Builder) {
	s := p.Style
	for _, x := range p.Plan.Pressures {
		fmt.Fprintln(b)
		s.say(b, "", "  ", s.paint(bold, s.Units.Near(show.Gauge, x.Gauge))+fmt.Sprintf(": %d shots or more: %s.", x.Shots, s.text(x.Why)))
		s.sayf(b, "  ", "  ", "Expect %s, between %s and %s over the tolerances. A shot faster than %s ends the session.",
			s.Units.Near(show.Speed, x.Nominal), s.orStall(x.Low), s.Units.Near(show.Speed, x.High), s.Units.Near(show.Speed, x.Stop))
		for _, r := range x.Readings {
			s.sayf(b, "  ", "    ", "%s (%s): %s", show.Clean(r.Method.String()), s.text(r.Setup), s.reading(r))
		}
	}
}

// orStall shows a speed, or that the shot may not come out.
func (s Style) orStall(v float64) string {
	if v == 0 {
		return "a stall"
	}
	return s.Units.Near(show.Speed, v)
}

// reading shows what an instrument should show: nominal and range.
func (s Style) reading(r measure.PlanReading) string {
	if r.Nominal == 0 {
		return "stalls"
	}
	show := func(v float64) string {
		if r.Quantity == finding.InCount {
			return show.Number(v, 3) + " frames"
		}
		return s.Units.Near(show.OfVerdict(r.Quantity), v)
	}
	low := "none, it may stall"
	if r.Low != 0 {
		low = show(r.Low)
	}
	return fmt.Sprintf("%s; weakest %s, strongest %s", show(r.Nominal), low, show(r.High))
}

func (p *PlanScreen) writeCount(b *strings.Builder) {
	s := p.Style
	if len(p.Plan.Count) == 0 {
		return
	}
	fmt.Fprintln(b)
	s.sayf(b, "", "  ", "How many shots keep the bound below %s, carried to %s and the worst seating (energy times %s):",
		s.Units.Near(show.Energy, p.Plan.Limit), s.Units.Near(show.Gauge, p.Plan.StartHigh), show.Number(p.Plan.Carry, 3))
	for _, c := range p.Plan.Count {
		t := fmt.Sprintf("scatter %s: %d shots, k = %s, bound %s", wholePercent(c.Scatter), c.Shots, three(c.K),
			s.Units.Worst(show.Energy, c.Bound))
		if c.Shots == 0 {
			t = fmt.Sprintf("scatter %s: not even 100 shots would do, the bound stays at %s", wholePercent(c.Scatter),
				s.Units.Worst(show.Energy, c.Bound))
		}
		s.say(b, "  ", "    ", t)
	}
}

func (p *PlanScreen) writeBench(b *strings.Builder) {
	if len(p.Plan.Bench) == 0 {
		return
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, p.Style.paint(bold, "Bench tests that narrow the model"))
	for _, t := range p.Plan.Bench {
		p.Style.sayf(b, "  - ", "    ", "%s: %s. Expect %s. Column %s.", show.Clean(t.Kind.String()), p.Style.text(t.How), p.Style.text(t.Expect),
			t.Column)
	}
}
