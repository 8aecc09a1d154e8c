package paper

import (
	"fmt"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// energy is one table, then the curves.
func (b *builder) energy() {
	b.chapter(9, "Energy and sound")
	in, e := b.in, b.in.Report.Energy
	if e == nil || e.Basis == "" {
		v, _ := b.in.Report.Verdict("energy.total")
		b.say("How hard it shoots is not known" + show.Lead(": ", in.Units.Text(v.Why)) + ".")
		return
	}
	total, _ := b.in.Report.Verdict("energy.total")
	flag := ""
	if fromMemory(total.Source) {
		flag = memoryFlag
	}
	limit := in.Units.Near(quantity.Energy, e.Limit) + flag
	t := document.Table{Caption: "How hard the projectile hits: its final energy, by what the figure rests on",
		Head: []string{"Rests on", "Energy", "Limit", "What it means", "Source"}, Widths: []int{20, 12, 14, 40, 14}}
	row := func(basis finding.Basis, name, energy, means, source string) {
		tone := show.Neutral
		if e.Basis == basis && e.DecidingEntered() == nil && !(basis == finding.OnMeasured && e.ModelDecides()) {
			name += " (judged)"
			tone = show.ToneOf(total.Status)
		}
		t.AddToned(tone, name, energy, limit, means, source)
	}
	row(finding.OnCeiling, "ceiling", in.Units.Worst(quantity.Energy, e.Ceiling),
		"the most the air could do, whatever the valve and the friction; it decides for very small doses only", b.source(total.Source))
	if e.ModelDecides() {
		t.AddToned(show.ToneOf(total.Status), "narrowed model (judged)", in.Units.Worst(quantity.Energy, e.Judged),
			limit, "the worst computed shot with the bands that measurements narrowed, without a factor; the larger of it and the measured "+
				"bound is judged", b.source(total.Source))
	}
	row(finding.OnModel, "model", in.Units.Worst(quantity.Energy, e.Model),
		fmt.Sprintf("the worst of %d computed shots, %s, times the model factor %s (%s)", e.Runs, in.Units.Worst(quantity.Energy, e.WorstEnergy),
			quantity.Number(e.Factor, 3), in.Units.Text(e.FactorSource)), b.source(total.Source))
	if one := e.DecidingEntered(); one != nil {
		t.AddToned(show.ToneOf(total.Status), one.Does()+" (judged)", in.Units.Worst(quantity.Energy, one.Judged), limit,
			"the worst shot that this change of state lets off without any fault: "+one.Opens(), b.source(total.Source))
	}
	if e.Measured != nil {
		row(finding.OnMeasured, "measured", in.Units.Worst(quantity.Energy, *e.Measured),
			"one-sided bound from measured shots, 95 % confidence, 99 % coverage", b.source(total.Source))
	} else {
		row(finding.OnMeasured, "measured", "none", "at least 5 shots of this launcher at a known pressure are needed", b.source(total.Source))
	}
	b.add(t)
	b.verdictLines("energy.total", "energy.area", "energy.fault")
	b.energyFigure(e, limit)
	b.verdictLines(finding.SoundAtPeak)
}

// energyDetails are the eye, the nominal shot and the worst combination.
func (b *builder) energyDetails() {
	e := b.in.Report.Energy
	if e == nil || e.Basis == "" {
		return
	}
	b.eye()
	b.shot()
	b.worstPoint(e)
}

// further are the energies that are judged besides that of the shot, each by its verdict: what exceeds is drawn as well.
var further = []struct{ id, name string }{
	{finding.EnergyFault, "worst single fault"}, {finding.ShotUnasked, "fires unasked"}, {finding.MisuseOfObjects, "another object"},
	{finding.BarrelStalled, "stuck in a shot, freed"}, {finding.BarrelJammed, "never moved (jam), freed"}, {finding.VentPoints,
		"outlet into the barrel"},
}

// energyFigure puts all energies on one axis, each against its limit.
func (b *builder) energyFigure(e *worst.EnergyReport, limit string) {
	f := figure.Rows{Axis: "Energy, J (each step ten times the one before)", Scale: figure.Decades, Wide: true,
		Limit: &figure.RowLimit{Name: "limit " + limit, At: e.Limit}}
	var words []string
	add := func(name string, joule float64, value string, row figure.Row) {
		if !(joule > 0) || math.IsInf(joule, 1) {
			return
		}
		words = append(words, name+" "+value)
		row.Name, row.Low, row.Mark, row.Top, row.Value = name, joule, joule, joule, value
		f.Rows = append(f.Rows, row)
	}
	plain := func(name string, joule float64, kind figure.RowKind) {
		add(name, joule, b.in.Units.Worst(quantity.Energy, joule), figure.Row{Kind: kind})
	}
	if e.NominalShot.Outcome == show.OutcomeLeft {
		joule := e.NominalShot.FinalEnergy
		add("nominal shot", joule, b.in.Units.Near(quantity.Energy, joule), figure.Row{Kind: figure.Stated})
	}
	plain("worst shot", e.WorstEnergy, figure.Stated)
	plain("model: worst x "+quantity.Number(e.Factor, 3), e.Model, figure.Computed)
	if e.Measured != nil {
		plain("measured bound", *e.Measured, figure.Computed)
	}
	plain("ceiling: all of the air's work", e.Ceiling, figure.Stated)
	over := 0
	for _, q := range further {
		v, ok := b.in.Report.Verdict(q.id)
		if !ok || v.Value == nil || v.Limit == nil || !show.Judged(v) {
			continue
		}
		value, own := b.in.figures(v)
		row := figure.Row{Kind: figure.Computed}
		if *v.Value > *v.Limit {
			over++
			row.Kind = figure.Boundary
			value += ", OVER " + own
		}
		if *v.Limit != e.Limit {
			row.Limit = *v.Limit
		}
		add(q.name, *v.Value, value, row)
	}
	if len(f.Rows) == 0 {
		return
	}
	caption := "Energies against the limit, faults, misuse and what a hand could free included."
	if over > 0 {
		caption += " Red, and said in words: above its limit; whether that fails, or holds on a condition, its verdict says."
	}
	b.draw(caption, "Energies: "+strings.Join(words, "; ")+"; limit "+limit+".", f.Draw)
}

// eye is information, not a verdict.
func (b *builder) eye() {
	if len(b.in.Report.Eye) == 0 {
		return
	}
	b.section("The eye, for information")
	b.say("The worst energy per frontal area as a multiple of that with a 50 % chance of the injury, in adult eyes. No figure for children " +
		"was found. " +
		b.source(benchmark.BenchmarkOf(benchmark.EyeCornealAbrasion).Source()))
	published := benchmark.EyeInjuries()
	b.say(published.Text + " " + b.source(published.Source))
	t := document.Table{Caption: "Eye injuries", Head: []string{"Injury", "50 % chance at", "This launcher's share"}, Shape: document.Narrow}
	for _, e := range b.in.Report.Eye {
		t.Add(e.Injury, b.in.Units.Near(quantity.EnergyPerArea, e.Half), quantity.Significant(e.Ratio, 2, quantity.Up))
	}
	b.add(t)
}

// shot is the nominal shot in figures and curves.
func (b *builder) shot() {
	s, in := b.in.Shot, b.in
	if s == nil {
		return
	}
	b.section("One nominal shot")
	t := document.Table{Caption: "Nominal values, stated travel; nothing is judged by it", Head: []string{"Figure", "Value"},
		Shape: document.Narrow}
	row := func(name, value string) {
		t.Add(name, value)
	}
	for _, n := range s.Start {
		row("start, "+document.AsGiven(n.Name).String(), in.Units.Near(quantity.Gauge, n.Gauge))
	}
	row("outcome", s.Outcome)
	if s.Outcome == show.OutcomeLeft {
		row("muzzle speed", in.Units.Near(quantity.Speed, s.MuzzleSpeed))
		row("muzzle energy", in.Units.Near(quantity.Energy, s.MuzzleEnergy))
		row("final energy, with the push behind the muzzle", in.Units.Near(quantity.Energy, s.FinalEnergy))
		row("leaves after", in.Units.Near(quantity.Time, s.ExitTime))
	}
	row("highest pressure in the barrel", in.Units.Near(quantity.Gauge, s.PeakGauge))
	row("ceiling of this shot", in.Units.Worst(quantity.Energy, s.Ceiling))
	row("mass balance open by", quantity.Short(math.Abs(s.MassResidual), 1)+" of the mass moved")
	row("energy balance open by", quantity.Short(math.Abs(s.EnergyResidual), 1)+" of the final energy")
	b.add(t)
	if n := len(s.Series.Time); n < 2 || !(s.Series.Time[n-1] > 0) {
		return
	}
	time, gauge, rate := in.Units.Axis(quantity.Time, s.Series.Time[len(s.Series.Time)-1]), in.Units.Axis(quantity.Gauge, s.PeakGauge),
		in.Units.Axis(quantity.Speed, s.MuzzleSpeed)
	x, ran := time.All(s.Series.Time), "Time after the command to fire, "+time.Name
	pressure := figure.Chart{X: ran, Y: "Barrel pressure, " + gauge.Name, Lines: []figure.ChartLine{{X: x, Y: gauge.All(s.Series.Gauge)}}}
	speed := figure.Chart{X: ran, Y: "Speed, " + rate.Name, Lines: []figure.ChartLine{{X: x, Y: rate.All(s.Series.Speed)}}}
	b.draw("Pressure behind the projectile, nominal shot.", "Barrel pressure over time with a peak of "+
		in.Units.Near(quantity.Gauge, s.PeakGauge)+".", pressure.Draw)
	last := "at last " + in.Units.Near(quantity.Speed, s.MuzzleSpeed)
	if s.Outcome != show.OutcomeLeft {
		last = "the projectile does not leave the barrel"
	}
	b.draw("Speed of the projectile, nominal shot.", "Speed over time, "+last+".", speed.Draw)
}

// worstPoint says where in the tolerances the worst case lies.
func (b *builder) worstPoint(e *worst.EnergyReport) {
	t := document.Table{Caption: "Where the worst shot lies: the quantities that are off their nominal value",
		Head: []string{"Quantity", "Value", "Side of its band"}, Shape: document.Narrow}
	for _, c := range e.WorstPoint {
		if c.Side == "nominal" {
			continue
		}
		value := b.coordinate(c)
		t.Add(document.AsCode(c.Key), value, c.Side)
	}
	if len(t.Rows) > 0 {
		b.section("The worst combination")
		b.add(t)
	}
}

// coordinate shows the value of a coordinate of the search in its unit.
func (b *builder) coordinate(c worst.Coordinate) string {
	switch c.Key {
	case "start pressure":
		return b.in.Units.Near(quantity.Gauge, c.Value)
	case "seating":
		return quantity.Number(100*c.Value, 2) + " % of the travel from the rear"
	}
	return b.in.keys().ValueOrNumber(c.Key, c.Value)
}
