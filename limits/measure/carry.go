package measure

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Report says what the measurements do to the energy verdicts.
type Report struct {
	Log        string
	Groups     []SpeedGroup     // all, by rising pressure
	Group      *SpeedGroup      // the shots that count; nil: none do
	Carry      float64          // largest ratio of energies from Group to the highest start pressure and the worst seat [-]; 0: not carried
	Top        float64          // the start pressure that it is carried to [Pa gauge]
	Bound      *float64         // carried bound, relative to a person standing still [J]; nil: none
	Floor      float64          // largest bound over all groups, also those that do not count: it holds the judged energy up [J]
	NotCarried finding.Text     // why there is no bound at the highest start pressure; "" there is
	Doubted    bool             // the model does not agree with the shots, or they scatter oddly: its factor stays
	Disagrees  finding.Text     // how the shots differ from the model; "" they do not
	Wrong      finding.Text     // how model and measurement contradict each other; "" they do not
	Clashes    []launcher.Clash // bench tests that contradict the design
	Narrowed   []Narrowing

	Remarks []finding.Text // what is odd about the readings, in sentences

	Contradicted *Contradiction
}

// UseFindings takes the measured basis into the energy report, after the model's
// energies (of the narrowed box) are known. Deciding rule:
//
//   - ceiling within the limit: the ceiling decides;
//   - no admissible measurement: the model's worst case times the factor;
//   - else the larger of the measured bound and the model's worst case without
//     the factor;
//   - where shots can be fired from no more than a supply comes to rest at (launcher.FiredHigh), the bound need reach no further; above it,
//     with what lets the air out blocked, the model counts with its factor;
//   - where the model does not agree with the shots, or they do not scatter
//     normally, its factor stays, and the basis is the model's where it is the larger;
//   - a measured bound above the factor times the model of the stated box, or a
//     shot above the ceiling, fails whatever the figures, of any group;
//   - where a bench test contradicts the design nothing passes.
//
// l is the narrowed launcher; the energies' normal case has been found. The error is
// the context's.
func UseFindings(ctx context.Context, e *worst.EnergyReport, l *launcher.Launcher, ev *Findings) (*Report, error) {
	m := &Report{Log: ev.Log, Groups: ev.Groups, Narrowed: ev.Narrowed, Group: ev.Best()}
	for _, r := range ev.Remarks {
		m.Remarks = append(m.Remarks, r.in(ev.Log))
	}
	m.Clashes, m.Disagrees = ev.Clashes, ev.disagreement()
	e.ModelBounds = e.ModelBounds && len(ev.Contradiction()) == 0
	if m.Contradicted = ev.Wrong; ev.Wrong != nil {
		m.Wrong = ev.Wrong.Text
	}
	if m.Group == nil {
		m.NotCarried = finding.Say("no group of shots counts: %s", FirstFault(ev))
		return m, nil
	}
	fired, _ := l.FiredHigh()
	fired = min(fired, e.StartHigh)
	if fired > CarryUp*m.Group.Gauge {
		m.NotCarried = finding.Say("measured at %s; the highest start pressure is %s, and a bound is carried up to %.3g times the gauge "+
			"pressure only: measure at %s or more", finding.Bars.Of(m.Group.Gauge, 3), finding.Bars.Of(fired, 3), CarryUp,
			finding.Bars.Of(1000*math.Ceil(fired/CarryUp/1000-1e-9), 3))
		return m, nil
	}
	m.Top = min(e.StartHigh, CarryUp*m.Group.Gauge)
	ratio, err := CarryRatio(ctx, l, m.Group, l.SensedGaugeError(), m.Top, search.Options{})
	if err != nil {
		return m, err
	}
	if !(ratio > 0) {
		m.NotCarried = finding.Words("no point of the tolerance box shoots like the measured shots, so the model cannot carry the bound")
		return m, nil
	}
	m.Carry = ratio
	v := m.Group.UpperSpeed*math.Sqrt(ratio) + worst.MovingAt(l)
	bound := 0.5 * m.Group.MassHigh * v * v
	m.Bound, e.Measured = &bound, &bound
	if e.Basis == finding.OnCeiling {
		return m, nil
	}
	model := e.WorstEnergy
	if m.Top < e.StartHigh {
		model, e.Beyond = e.Model, m.Top
	}
	if m.Doubted = ev.Fit == nil || !ev.Fit.Credible || len(ev.Clashes) > 0 || m.Group.NotNormal(); m.Doubted {
		model = e.Model
	}
	// Shots that do not count for a bound still hold the judged energy up.
	m.Floor = ev.LargestContrast(worst.MovingAt(l))
	shots := max(bound, m.Floor)
	e.Judged, e.Basis = max(shots, model), finding.OnMeasured
	if m.Doubted && model >= shots {
		e.Basis = finding.OnModel
	}
	e.UseAreas(&l.Projectile)
	return m, nil
}

// FirstFault says why the best-filled group does not count.
func FirstFault(ev *Findings) finding.Text {
	best := -1
	for i := range ev.Groups {
		if best < 0 || ev.Groups[i].Shots >= ev.Groups[best].Shots {
			best = i
		}
	}
	if best < 0 {
		return finding.Words("the log has no shots")
	}
	return ev.Groups[best].Faults[0]
}

// CarryRatio is the largest ratio, over the box and over every start pressure
// from the measured one to high, of the final energy from the worst seat to that
// at the measured pressure, at the temperature of the shots, from the stated
// seat. Points of the box that shoot, even with the model factor, weaker than the
// slow tolerance bound of the shots are not this launcher and do not count. 0: no
// point counts. The error is the context's.
func CarryRatio(ctx context.Context, l *launcher.Launcher, g *SpeedGroup, gaugeError, high float64, o search.Options) (float64, error) {
	slow := math.Max(0, g.Mean-g.K*g.SD-g.Systematic)
	least := 0.5 * l.Projectile.Mass.Low * slow * slow / worst.ModelFactor
	from := math.Max(0, g.Gauge-gaugeError)
	q := worst.EnergyQuestion(l, high)
	b := worst.NewBox(l, q)
	newCarried := func() *carried {
		return &carried{e: b.Evaluator(), from: from, high: math.Max(high, from), least: least, temperature: g.Temperature}
	}
	ctx = progress.Looking(ctx, finding.Words("what the measured shots say of higher pressures"))
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return newCarried() }, o)
	if err != nil || !res.Found || res.Best.Value == 0 {
		return 0, err
	}
	// The search orders points; the ratio itself is computed at full accuracy.
	at := newCarried()
	at.e.Options = pneumatics.Options{}
	return math.Max(at.Value(res.Best.Point), res.Best.Value), nil
}

// carried evaluates the ratio of energies at points of the box; the coordinate
// of the start pressure runs from the measured pressure to the highest.
type carried struct {
	e           *worst.Evaluator
	from, high  float64 // [Pa gauge]
	least       float64 // [J]
	temperature float64 // of the measured shots [K]
	u           []float64
}

// Value gives the ratio at u.
func (c *carried) Value(u []float64) float64 {
	b := c.e.Box
	c.u = append(c.u[:0], u...)
	still := worst.FinalEnergy(0)
	at := func(gauge float64) float64 { return math.Min(1, gauge/b.Question.StartMax) }
	// The measured shot: its pressure and temperature, the stated seat, armed.
	c.u[b.Start] = at(c.from)
	if b.Seat >= 0 {
		c.u[b.Seat] = 0
	}
	if b.From >= 0 {
		c.u[b.From] = 0
	}
	for i := range b.Quantities {
		if q := &b.Quantities[i]; q.Band == &b.Launcher.Ambient.Temperature && c.temperature > 0 {
			c.u[i] = q.Fraction(c.temperature)
		}
	}
	base := still(&c.e.Circuit, c.e.Run(c.u))
	if !(base > 0) || base < c.least {
		return 0
	}
	copy(c.u, u)
	c.u[b.Start] = at(c.from + u[b.Start]*(c.high-c.from))
	return still(&c.e.Circuit, c.e.Run(c.u)) / base
}

// Contradiction says in words how model and measurements contradict each other;
// "" they do not.
func (m *Report) Contradiction() finding.Text {
	return firstContradiction(m.Wrong, m.Clashes, m.Disagrees)
}
