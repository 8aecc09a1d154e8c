package render

import (
	"fmt"
	"io"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"strings"
)

// PlanScreen shows a test plan, on a terminal or in a pipe.
type PlanScreen struct {
	Style  Style
	Design DesignID
	Plan   *measure.ShotPlan
	Detail Detail
}

// Write prints the screen.
func (p *PlanScreen) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintln(&b, p.finding())
	if p.Detail == Everything {
		fmt.Fprintln(&b, Shorten(Clean(titleOf(p.Design)), p.Style.Width-22)+p.Style.paint(faint, fingerprint(p.Design)))
		p.list(&b, "Who stands where", p.Plan.Stand)
		p.list(&b, "Stop and vent at", p.Plan.Stop)
		p.writePressures(&b)
		p.writeCount(&b)
		p.writeBench(&b)
		for _, n := range p.Plan.Notes {
			fmt.Fprintln(&b, Wrap("Note: "+Clean(n), p.Style.Width, "", "  "))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (p *PlanScreen) finding() string {
	s, n := p.Style, len(p.Plan.Pressures)
	if n == 0 {
		return s.paint(yellow, "No plan yet: the highest working pressure is not known.")
	}
	if p.Plan.Refused != "" {
		return s.paint(red, Wrap("Do NOT test this build: "+Clean(p.Plan.Refused)+".", s.Width, "", ""))
	}
	total := 0
	for _, x := range p.Plan.Pressures {
		total += x.Shots
	}
	return s.paint(bold, Wrap(fmt.Sprintf("%s at %s, the last at %s.", plural(total, "shot", "shots"), plural(n, "pressure", "pressures"), s.near(unit.Pressure, p.Plan.Pressures[n-1].Gauge)), s.Width, "", ""))
}

func (p *PlanScreen) list(b *strings.Builder, title string, items []string) {
	if len(items) == 0 {
		return
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, p.Style.paint(bold, title))
	for _, it := range items {
		fmt.Fprintln(b, Wrap(Clean(it), p.Style.Width, "  - ", "    "))
	}
}

func (p *PlanScreen) writePressures(b *strings.Builder) {
	s := p.Style
	for _, x := range p.Plan.Pressures {
		fmt.Fprintln(b)
		fmt.Fprintln(b, Wrap(s.paint(bold, s.near(unit.Pressure, x.Gauge))+fmt.Sprintf(": %d shots or more: %s.", x.Shots, Clean(x.Why)), s.Width, "", "  "))
		fmt.Fprintln(b, Wrap(fmt.Sprintf("Expect %s, between %s and %s over the tolerances. A shot faster than %s ends the session.", s.near(unit.Speed, x.Nominal),
			s.orStall(x.Low), s.near(unit.Speed, x.High), s.near(unit.Speed, x.Stop)), s.Width, "  ", "  "))
		for _, r := range x.Readings {
			fmt.Fprintln(b, Wrap(fmt.Sprintf("%s (%s): %s", Clean(r.Method.String()), Clean(r.Setup), s.reading(r)), s.Width, "  ", "    "))
		}
	}
}

// orStall shows a speed, or that the shot may not come out.
func (s Style) orStall(v float64) string {
	if v == 0 {
		return "a stall"
	}
	return s.near(unit.Speed, v)
}

// reading shows what an instrument should show: nominal and range.
func (s Style) reading(r measure.PlanReading) string {
	if r.Nominal == 0 {
		return "stalls"
	}
	show := func(v float64) string {
		if r.Quantity == finding.InCount {
			return number(v, 3) + " frames"
		}
		return s.near(dimensionOf(r.Quantity), v)
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
	fmt.Fprintln(b, Wrap(fmt.Sprintf("How many shots keep the bound below %s, carried to %s and the worst seating (energy times %s):",
		s.near(unit.Energy, p.Plan.Limit), s.near(unit.Pressure, p.Plan.StartHigh), number(p.Plan.Carry, 3)), s.Width, "", "  "))
	for _, c := range p.Plan.Count {
		t := fmt.Sprintf("scatter %.0f %%: %d shots, k = %.3f, bound %s", 100*c.Scatter, c.Shots, c.K, s.worst(unit.Energy, c.Bound))
		if c.Shots == 0 {
			t = fmt.Sprintf("scatter %.0f %%: not even 100 shots would do, the bound stays at %s", 100*c.Scatter, s.worst(unit.Energy, c.Bound))
		}
		fmt.Fprintln(b, Wrap(t, s.Width, "  ", "    "))
	}
}

func (p *PlanScreen) writeBench(b *strings.Builder) {
	if len(p.Plan.Bench) == 0 {
		return
	}
	fmt.Fprintln(b)
	fmt.Fprintln(b, p.Style.paint(bold, "Bench tests that narrow the model"))
	for _, t := range p.Plan.Bench {
		fmt.Fprintln(b, Wrap(fmt.Sprintf("%s: %s. Expect %s. Column %s.", Clean(t.Kind.String()), Clean(t.How), Clean(t.Expect), t.Column), p.Style.Width, "  - ", "    "))
	}
}

type planDoc struct {
	Design    DesignID          `json:"design"`
	Pressures []planPressureDoc `json:"pressures"`
	Count     []planCountDoc    `json:"shots_needed"`
	Limit     float64           `json:"limit_J"`
	Carry     *float64          `json:"carry_ratio"`
	StartHigh *float64          `json:"start_high_gauge_Pa"`
	Bench     []planBenchDoc    `json:"bench"`
	Stop      []string          `json:"stop"`
	Stand     []string          `json:"stand"`
	Refused   string            `json:"refused"`
	Notes     []string          `json:"notes"`
}

type planPressureDoc struct {
	Gauge    float64          `json:"gauge_Pa"`
	Shots    int              `json:"shots"`
	Why      string           `json:"why"`
	Low      float64          `json:"low_m_s"`
	Nominal  float64          `json:"nominal_m_s"`
	High     float64          `json:"high_m_s"`
	Stop     float64          `json:"stop_above_m_s"`
	Readings []planReadingDoc `json:"readings"`
}

type planReadingDoc struct {
	Method  string  `json:"method"`
	Setup   string  `json:"setup"`
	Unit    string  `json:"unit"`
	Low     float64 `json:"at_low"`
	Nominal float64 `json:"at_nominal"`
	High    float64 `json:"at_high"`
}

type planCountDoc struct {
	Scatter float64 `json:"scatter"`
	Shots   int     `json:"shots"`
	K       float64 `json:"k"`
	Bound   float64 `json:"bound_J"`
}

type planBenchDoc struct {
	Test   string `json:"test"`
	How    string `json:"how"`
	Expect string `json:"expect"`
	Column string `json:"column"`
}

// PlanJSON is the document of plan: SI units.
func PlanJSON(id DesignID, p *measure.ShotPlan) (any, error) {
	doc := planDoc{Design: id, Pressures: []planPressureDoc{}, Count: []planCountDoc{}, Bench: []planBenchDoc{}, Limit: p.Limit, Refused: p.Refused,
		Stop: append([]string{}, p.Stop...), Stand: append([]string{}, p.Stand...), Notes: append([]string{}, p.Notes...)}
	if len(p.Pressures) > 0 {
		doc.Carry, doc.StartHigh = &p.Carry, &p.StartHigh
	}
	for _, x := range p.Pressures {
		d := planPressureDoc{x.Gauge, x.Shots, x.Why, x.Low, x.Nominal, x.High, x.Stop, []planReadingDoc{}}
		for _, r := range x.Readings {
			d.Readings = append(d.Readings, planReadingDoc{r.Method.String(), r.Setup, string(r.Quantity), r.Low, r.Nominal, r.High})
		}
		doc.Pressures = append(doc.Pressures, d)
	}
	for _, c := range p.Count {
		doc.Count = append(doc.Count, planCountDoc(c))
	}
	for _, t := range p.Bench {
		doc.Bench = append(doc.Bench, planBenchDoc{t.Kind.String(), t.How, t.Expect, t.Column})
	}
	return doc, finite(doc)
}
