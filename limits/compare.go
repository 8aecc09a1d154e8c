package limits

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/setpoint"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Writing says how a compared figure may be rounded.
type Writing uint8

const (
	AsItIs    Writing = iota // to the nearest digit
	NotLess                  // upwards: it must not look smaller than it is
	SettingBy                // a pressure that somebody sets by: never upwards
)

// Compared is one figure of two launchers.
type Compared struct {
	Name    string
	Unit    finding.Quantity
	Writing Writing
	A, B    *float64 // SI; nil: not known, without end, or the launcher has none
}

// ComparedStatus is a verdict to which two launchers have different answers; "" where the question does not arise.
type ComparedStatus struct {
	ID, Title string
	A, B      finding.Status
}

// Comparison is two launchers side by side.
type Comparison struct {
	A, B     Report
	Figures  []Compared
	Verdicts []ComparedStatus // those whose answers differ, in the order of the table
}

// SetPressures says whether a comparison finds the highest set pressures of both launchers as well, which takes longer.
type SetPressures uint8

const (
	WithoutSetPressures SetPressures = iota
	WithSetPressures
)

// figure is one figure of one launcher.
type figure struct {
	name    string
	unit    finding.Quantity
	writing Writing
	value   float64 // SI; not finite: there is none to show
}

// Compare judges two launchers side by side, each as Check does. The error is as of assessment.Make, that of the first where
// both have one.
func Compare(ctx context.Context, a, b *launcher.Launcher, day string, set SetPressures) (Comparison, error) {
	var reports [2]Report
	var figures [2][]figure
	launchers, names := [2]*launcher.Launcher{a, b}, [2]string{"A", "B"}
	err := worst.SideBySide(2, func(i int) error {
		at := progress.Looking(ctx, finding.Words(names[i]))
		one, err := assessment.Make(at, launchers[i], assessment.Options{Day: day})
		if err != nil {
			return err
		}
		reports[i], figures[i] = ReportOf(one), figuresOf(one)
		figures[i] = append(figures[i], figure{"open items of the checklist", finding.InCount, AsItIs, float64(reports[i].OpenItems)})
		if set == WithSetPressures {
			answer, err := setpoint.Find(at, launchers[i], setpoint.Options{Day: day})
			if err != nil {
				return err
			}
			figures[i] = append(figures[i], settings(&answer)...)
		}
		figures[i] = append(figures[i], highest(one)...)
		return nil
	})
	if err != nil {
		return Comparison{}, err
	}
	return Comparison{reports[0], reports[1], sideBySide(figures[0], figures[1]), statusesApart(&reports[0], &reports[1])}, nil
}

// ComparisonOf is the comparison of two launchers that were assessed, every stage of them; without the set pressures.
func ComparisonOf(a, b *assessment.Assessment) Comparison {
	var reports [2]Report
	var figures [2][]figure
	for i, one := range [...]*assessment.Assessment{a, b} {
		reports[i], figures[i] = ReportOf(one), figuresOf(one)
		figures[i] = append(figures[i], figure{"open items of the checklist", finding.InCount, AsItIs, float64(reports[i].OpenItems)})
		figures[i] = append(figures[i], highest(one)...)
	}
	return Comparison{reports[0], reports[1], sideBySide(figures[0], figures[1]), statusesApart(&reports[0], &reports[1])}
}

// figuresOf lists the figures of one launcher.
func figuresOf(a *assessment.Assessment) []figure {
	e := a.Energy
	none := math.NaN()
	speed, energy, judged, ceiling, start, jam := none, none, none, none, none, none
	if e.NominalShot.Outcome == pneumatics.Left.String() {
		speed, energy = e.NominalShot.FinalSpeed, e.NominalShot.FinalEnergy
	}
	if len(a.EnergyUnknown()) == 0 {
		judged, ceiling, start = e.Judged, e.Ceiling, e.StartHigh
	}
	if a.Faults.Jam != nil && len(a.Faults.Jam.Unknown) == 0 {
		jam = a.Faults.Jam.AtOnce
	}
	return []figure{
		{"nominal speed", finding.InMetrePerSecond, AsItIs, speed},
		{"nominal energy", finding.InJoule, AsItIs, energy},
		{"judged energy", finding.InJoule, NotLess, judged},
		{"energy limit", finding.InJoule, AsItIs, a.Limits.Total.Value},
		{"ceiling of the energy", finding.InJoule, NotLess, ceiling},
		{"stuck projectile, freed", finding.InJoule, NotLess, judgedValue(a, finding.BarrelStalled)},
		{"projectile that never moved, freed at once", finding.InJoule, NotLess, jam},
		{"lung pressure", finding.InPascalGauge, NotLess, judgedValue(a, finding.MuzzleSealed)},
		{"time to empty, switched off", finding.InSecond, NotLess, timeOf(a, vent.Shutdown)},
		{"time to empty, power lost", finding.InSecond, NotLess, timeOf(a, vent.PowerLost)},
		{"highest pressure of normal use", finding.InPascalGauge, NotLess, start},
	}
}

// highest lists the highest pressures of the vessels and the barrel.
func highest(a *assessment.Assessment) (out []figure) {
	for _, p := range a.Parts() {
		out = append(out, figure{"highest pressure at a fault, " + p.Name, finding.InPascalGauge, NotLess, p.Top})
	}
	return out
}

// judgedValue is the figure that a verdict judged; NaN: none.
func judgedValue(a *assessment.Assessment, id string) float64 {
	if v := verdict.Of(a, id); v.Value != nil {
		return *v.Value
	}
	return math.NaN()
}

// timeOf is the longest time that a kind of emptying takes [s]; NaN: not known.
func timeOf(a *assessment.Assessment, kind vent.Kind) float64 {
	if len(a.Emptying.Trouble) != 0 {
		return math.NaN()
	}
	if c := a.Emptying.WorstOf(kind); c != nil {
		return c.Slowest
	}
	return math.NaN()
}

// settings lists the pressures that somebody sets by.
func settings(s *setpoint.Answer) []figure {
	of := func(p *float64) float64 {
		if p == nil || len(s.Unknown) != 0 {
			return math.NaN()
		}
		return *p
	}
	return []figure{
		{"highest cut-out", finding.InPascalGauge, SettingBy, of(s.CutOut)},
		{"its cut-in", finding.InPascalGauge, SettingBy, of(s.CutIn)},
		{"relief valve, highest set pressure", finding.InPascalGauge, SettingBy, of(s.ReliefSetMax)},
	}
}

// sideBySide puts the figures of the same name beside each other, those of the second launcher alone behind the others.
func sideBySide(a, b []figure) []Compared {
	var out []Compared
	find := func(list []figure, name string) *float64 {
		i := slices.IndexFunc(list, func(f figure) bool { return f.name == name })
		if i < 0 || math.IsNaN(list[i].value) || math.IsInf(list[i].value, 0) {
			return nil
		}
		return &list[i].value
	}
	for i, f := range slices.Concat(a, b) {
		if i >= len(a) && slices.ContainsFunc(a, func(g figure) bool { return g.name == f.name }) {
			continue
		}
		out = append(out, Compared{f.name, f.unit, f.writing, find(a, f.name), find(b, f.name)})
	}
	return out
}

// statusesApart lists the verdicts whose answers differ.
func statusesApart(a, b *Report) []ComparedStatus {
	var out []ComparedStatus
	for _, q := range verdict.Table() {
		va, _ := a.Verdict(q.ID)
		vb, _ := b.Verdict(q.ID)
		if va.Status != vb.Status {
			out = append(out, ComparedStatus{q.ID, q.Title, va.Status, vb.Status})
		}
	}
	return out
}
