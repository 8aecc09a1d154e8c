package limits

import (
	"context"
	"fmt"
	"math"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// MeasuredReport says what the measurements do to the energy verdicts.
type MeasuredReport struct {
	Log        string
	Group      *SpeedGroup // the shots that count; nil: none do
	Carry      float64     // largest ratio of energies from Group to the highest start pressure and the worst seat [-]; 0: not carried
	Bound      *float64    // carried bound, relative to a person standing still [J]; nil: none
	NotCarried string      // why there is no bound at the highest start pressure; "" there is
	Doubted    bool        // the model does not agree with the shots, or they scatter oddly: its factor stays
	Disagrees  string      // how the shots differ from the model; "" they do not
	Wrong      string      // how model and measurement contradict each other; "" they do not
	Clashes    []Clash     // bench tests that contradict the design
	Narrowed   []Narrowing

	contradiction *Contradiction
}

// useFindings takes the measured basis into the energy report, after the model's
// energies (of the narrowed box) are known. Deciding rule:
//
//   - ceiling within the limit: the ceiling decides;
//   - no admissible measurement: the model's worst case times the factor;
//   - else the larger of the measured bound and the model's worst case without
//     the factor;
//   - where the model does not agree with the shots, or they do not scatter
//     normally, its factor stays, and the basis is the model's where it is the larger;
//   - a measured bound above the factor times the model of the stated box, or a
//     shot above the ceiling, fails whatever the figures, of any group;
//   - where a bench test contradicts the design nothing passes.
func (j *judge) useFindings(ev *Findings) error {
	e := j.Energy
	if ev == nil || e == nil || j.NoStart != "" || e.StartHigh <= 0 || j.Normal == nil || !j.Normal.result.Found {
		return nil
	}
	for _, r := range ev.Remarks {
		j.report.Notes = append(j.report.Notes, r.in(ev.Log))
	}
	m := &MeasuredReport{Log: ev.Log, Narrowed: ev.Narrowed, Group: ev.Best()}
	j.Measured = m
	m.Clashes, m.Disagrees = ev.Clashes, ev.disagreement()
	if m.contradiction = ev.Wrong; ev.Wrong != nil {
		m.Wrong = ev.Wrong.Text
	}
	if m.Group == nil {
		m.NotCarried = "no group of shots counts: " + firstFault(ev)
		return nil
	}
	if e.StartHigh > CarryUp*m.Group.Gauge {
		m.NotCarried = fmt.Sprintf("measured at %.3g bar; the highest start pressure is %.3g bar, and a bound is carried up to %.3g times the gauge pressure only: measure at %.3g bar or more",
			m.Group.Gauge/oneBar, e.StartHigh/oneBar, CarryUp, math.Ceil(e.StartHigh/CarryUp/1000-1e-9)/100)
		return nil
	}
	ratio, err := j.Launcher.carryRatio(j.ctx, m.Group, j.Launcher.gaugeError(), e.StartHigh, search.Options{})
	if err != nil {
		return err
	}
	if !(ratio > 0) {
		m.NotCarried = "no point of the tolerance box shoots like the measured shots, so the model cannot carry the bound"
		return nil
	}
	m.Carry = ratio
	v := m.Group.UpperSpeed*math.Sqrt(ratio) + j.Launcher.movingAt()
	bound := 0.5 * m.Group.MassHigh * v * v
	m.Bound, e.Measured = &bound, &bound
	if e.Basis == OnCeiling {
		return nil
	}
	model := e.WorstEnergy
	if m.Doubted = ev.Fit == nil || !ev.Fit.Credible || m.Group.NotNormal(); m.Doubted {
		model = e.Model
	}
	// Shots that do not count for a bound still hold the judged energy up.
	bound = math.Max(bound, ev.largestContrast(j.Launcher.movingAt()))
	e.Judged, e.Basis = math.Max(bound, model), OnMeasured
	if m.Doubted && model >= bound {
		e.Basis = OnModel
	}
	j.areas()
	return nil
}

// firstFault says why the best-filled group does not count.
func firstFault(ev *Findings) string {
	best := -1
	for i := range ev.Groups {
		if best < 0 || ev.Groups[i].Shots >= ev.Groups[best].Shots {
			best = i
		}
	}
	if best < 0 {
		return "the log has no shots"
	}
	return ev.Groups[best].Faults[0]
}

// carryRatio is the largest ratio, over the box and over every start pressure
// from the measured one to high, of the final energy from the worst seat to that
// at the measured pressure, at the temperature of the shots, from the stated
// seat. Points of the box that shoot,
// even with the model factor, weaker than the slow tolerance bound of the shots
// are not this launcher and do not count. 0: no point counts.
func (l *Launcher) carryRatio(ctx context.Context, g *SpeedGroup, gaugeError, high float64, o search.Options) (float64, error) {
	slow := math.Max(0, g.Mean-g.K*g.SD-g.Systematic)
	least := 0.5 * l.Projectile.Mass.Low * slow * slow / ModelFactor
	from := math.Max(0, g.Gauge-gaugeError)
	q := l.energyQuestion(high)
	b := newBox(l, q)
	newCarried := func() *carried {
		return &carried{e: b.evaluator(), from: from, high: math.Max(high, from), least: least, temperature: g.Temperature}
	}
	res, err := search.Maximise(ctx, b.dim, func() search.Objective { return newCarried() }, o)
	if err != nil || !res.Found || res.Best.Value == 0 {
		return 0, err
	}
	// The search orders points; the ratio itself is computed at full accuracy.
	at := newCarried()
	at.e.o = pneumatics.Options{}
	return math.Max(at.Value(res.Best.Point), res.Best.Value), nil
}

// carried evaluates the ratio of energies at points of the box; the coordinate
// of the start pressure runs from the measured pressure to the highest.
type carried struct {
	e           *evaluator
	from, high  float64 // [Pa gauge]
	least       float64 // [J]
	temperature float64 // of the measured shots [K]
	u           []float64
}

// Value gives the ratio at u.
func (c *carried) Value(u []float64) float64 {
	b := c.e.b
	c.u = append(c.u[:0], u...)
	still := finalEnergy(0)
	at := func(gauge float64) float64 { return math.Min(1, gauge/b.q.startMax) }
	// The measured shot: its pressure and temperature, the stated seat, armed.
	c.u[b.start] = at(c.from)
	if b.seat >= 0 {
		c.u[b.seat] = 0
	}
	if b.from >= 0 {
		c.u[b.from] = 0
	}
	for i, label := range b.labels[:len(b.bands)] {
		if t := &b.l.Ambient.Temperature; label == t.Key && c.temperature > 0 {
			c.u[i] = math.Min(1, math.Max(0, (c.temperature-t.Low)/(b.l.hottest()-t.Low)))
		}
	}
	base := still(&c.e.c, c.e.run(c.u))
	if !(base > 0) || base < c.least {
		return 0
	}
	copy(c.u, u)
	c.u[b.start] = at(c.from + u[b.start]*(c.high-c.from))
	return still(&c.e.c, c.e.run(c.u)) / base
}

// findingsWhy says in the verdict what the measurements decide.
func (j *judge) findingsWhy() string {
	e, m := j.Energy, j.Measured
	g := m.Group
	s := fmt.Sprintf("%d shots at %.3g bar: with %.0f %% confidence %.0f %% stay below %.3g m/s; carried to %.3g bar and the worst seat (energy times %.3g) %s; worst of the narrowed model %s",
		g.Shots, g.Gauge/oneBar, 100*BoundConfidence, 100*BoundCoverage, g.UpperSpeed, e.StartHigh/oneBar, m.Carry, joule(*m.Bound), joule(e.WorstEnergy))
	if m.Doubted {
		s += "; " + m.doubt() + ", so the model's factor stays and the worse of the two is judged"
	}
	if !g.Normal.Tested {
		s += "; assumes normal scatter"
	}
	return s
}

// measuredVerdict lets the measurements speak in energy.total and energy.area.
func (j *judge) measuredVerdict(total, area *Verdict) {
	m := j.Measured
	if m == nil {
		return
	}
	e := j.Energy
	switch {
	case m.Wrong != "":
		c := m.contradiction
		total.contradicted(c.Energy, c.Allowed, c.Text)
		areaOf, allowed := 0.0, 0.0
		if e.ContactArea > 0 {
			areaOf, allowed = c.Energy/e.ContactArea, c.Allowed/e.ContactArea
		}
		area.contradicted(areaOf, allowed, c.Text)
		total.Advice = "Find out which before anyone plays: weigh the projectile, check gauge and distances, measure the valve; few or scattered shots widen the bound, more shots may settle it. puffproof calibrate shows what does not fit."
		return
	case e.Basis == OnMeasured:
		total.Why = j.findingsWhy()
		if total.Status == Pass {
			total.Advice = ""
		}
	case m.NotCarried != "":
		total.Why += "; measured: unknown, " + m.NotCarried
	case m.Doubted && m.Bound != nil:
		total.Why += "; the shots do not confirm it: " + m.doubt()
		if total.Status == Pass {
			total.Advice = "On the model, which the shots do not confirm: puffproof calibrate shows what does not fit. Slow readings prove nothing."
		}
	}
	if len(m.Clashes) == 0 {
		return
	}
	for _, v := range []*Verdict{total, area} {
		if v.Status != Fail {
			v.unknown("one of the two is wrong: " + m.Clashes[0].String())
		}
	}
	total.Advice = "Repeat the bench test, then correct the design or the log: a test may narrow only what the design states."
}

// doubt says why the model's factor stays beside the bound.
func (m *MeasuredReport) doubt() string {
	if m.Disagrees == "" && m.Group.NotNormal() {
		return fmt.Sprintf("the speeds are not normally scattered (Shapiro-Wilk W %.3f, probability %.2g)", m.Group.Normal.W, m.Group.Normal.P)
	}
	return m.Disagrees
}

// contradicted fails a verdict on a measured figure that the model cannot make.
// Where that figure is within the verdict's own limit, what it is above is shown
// as the limit: no failure stands beside a figure that would pass.
func (v *Verdict) contradicted(value, allowed float64, text string) {
	limit := allowed
	if v.Limit != nil && value > *v.Limit {
		limit = *v.Limit
	} else if value > 0 {
		v.Caveat = "the limit shown is not the rule's: it is the most that the model with its factor, or the air, can do there"
	}
	if value > 0 {
		v.judge(value, limit)
	}
	v.Status, v.Basis, v.Why = Fail, OnMeasured, "The model or an input is wrong: "+text+"."
}

// faultHoldsMeasured keeps energy.fault from showing less than energy.total: what
// normal operation can do a fault can do as well.
func (j *judge) faultHoldsMeasured() {
	var total, fault *Verdict
	for i := range j.report.Verdicts {
		switch v := &j.report.Verdicts[i]; v.ID {
		case "energy.total":
			total = v
		case "energy.fault":
			fault = v
		}
	}
	m := j.Measured
	if m == nil || total == nil || fault == nil || fault.Status == Unknown {
		return
	}
	if len(m.Clashes) > 0 && fault.Status == Pass {
		fault.unknown("one of the two is wrong: " + m.Clashes[0].String())
		return
	}
	if m.contradiction != nil && (fault.Value == nil || *fault.Value < *total.Value) {
		fault.contradicted(m.contradiction.Energy, m.contradiction.Allowed, m.Wrong)
		return
	}
	if e := j.Energy; m.contradiction == nil && (fault.Value == nil || *fault.Value < e.Judged) && e.Basis != OnCeiling {
		fault.judge(e.Judged, e.Limit)
		fault.Basis, fault.Why = e.Basis, "no fault does more than normal operation on the measured shots"
	}
}

// measuredDecides tells whether energy.total passes on measured shots with which
// the model agrees.
func (j *judge) measuredDecides() bool {
	for _, v := range j.report.Verdicts {
		if v.ID == "energy.total" {
			return v.Status == Pass && v.Basis == OnMeasured && !j.Measured.Doubted
		}
	}
	return false
}

// shotsItem enters the item that asks for measured shots; shots that count answer
// it.
func (j *judge) shotsItem(it Item) {
	j.item(it)
	m := j.Measured
	if m == nil || m.Bound == nil || m.Doubted || m.Wrong != "" || len(m.Clashes) > 0 {
		return
	}
	last := &j.report.Items[len(j.report.Items)-1]
	if last.Done == nil {
		last.Done = &Confirmation{Item: it.ID, Who: m.Log,
			Value: fmt.Sprintf("%d shots at %.3g bar, bound %s", m.Group.Shots, m.Group.Gauge/oneBar, joule(*m.Bound))}
	}
}
