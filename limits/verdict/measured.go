package verdict

import (
	"fmt"
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
)

// findingsWhy says in the verdict what the measurements decide.
func findingsWhy(e *worst.EnergyReport, m *measure.Report) string {
	g := m.Group
	s := fmt.Sprintf("%d shots at %.3g bar: with %.0f %% confidence %.0f %% stay below %.3g m/s; carried to %.3g bar and the worst seat (energy times %.3g) %s; worst of the narrowed model %s",
		g.Shots, g.Gauge/measure.OneBar, 100*benchmark.BoundConfidence, 100*benchmark.BoundCoverage, g.UpperSpeed, e.StartHigh/measure.OneBar, m.Carry, finding.Joule(*m.Bound), finding.Joule(e.WorstEnergy))
	if m.Doubted {
		s += "; " + doubt(m) + ", so the model's factor stays and the worse of the two is judged"
	}
	if !g.Normal.Tested {
		s += "; assumes normal scatter"
	}
	return s
}

// measuredVerdict lets the measurements speak in energy.total and energy.area.
func measuredVerdict(a *assessment.Assessment, total, area *finding.Verdict) {
	m := a.Measured
	if m == nil {
		return
	}
	e := a.Energy
	switch {
	case len(m.Wrong) != 0:
		c := m.Contradicted
		total.Contradicted(c.Energy, c.Allowed, c.Text.String())
		areaOf, allowed := 0.0, 0.0
		if e.ContactArea > 0 {
			areaOf, allowed = c.Energy/e.ContactArea, c.Allowed/e.ContactArea
		}
		area.Contradicted(areaOf, allowed, c.Text.String())
		total.Advice = finding.Words("Find out which before anyone plays: weigh the projectile, check gauge and distances, measure the valve; few or scattered shots widen the bound, more shots may settle it. puffproof calibrate shows what does not fit.")
		return
	case e.Basis == finding.OnMeasured:
		total.Why = finding.Words(findingsWhy(e, m))
		if total.Status == finding.Pass {
			total.Advice = nil
		}
	case len(m.NotCarried) != 0:
		total.Why = total.Why.And(finding.Words("; measured: unknown, " + m.NotCarried.String()))
	case m.Doubted && m.Bound != nil:
		total.Why = total.Why.And(finding.Words("; the shots do not confirm it: " + doubt(m)))
		if total.Status == finding.Pass {
			total.Advice = finding.Words("On the model, which the shots do not confirm: puffproof calibrate shows what does not fit. Slow readings prove nothing.")
		}
	}
	if len(m.Clashes) == 0 {
		return
	}
	for _, v := range []*finding.Verdict{total, area} {
		if v.Status != finding.Fail {
			v.Unknown(finding.Words("one of the two is wrong: " + m.Clashes[0].String()))
		}
	}
	total.Advice = finding.Words("Repeat the bench test, then correct the design or the log: a test may narrow only what the design states.")
}

// doubt says why the model's factor stays beside the bound.
func doubt(m *measure.Report) string {
	if len(m.Disagrees) == 0 && m.Group.NotNormal() {
		return fmt.Sprintf("the speeds are not normally scattered (Shapiro-Wilk W %.3f, probability %.2g)", m.Group.Normal.W, m.Group.Normal.P)
	}
	return m.Disagrees.String()
}

// holdMeasured keeps energy.fault from showing less than energy.total: what normal
// operation can do a fault can do as well.
func holdMeasured(a *assessment.Assessment, fault *finding.Verdict) {
	m := a.Measured
	if m == nil || fault.Status == finding.Unknown {
		return
	}
	if len(m.Clashes) > 0 && fault.Status == finding.Pass {
		fault.Unknown(finding.Words("one of the two is wrong: " + m.Clashes[0].String()))
		return
	}
	total := EnergyTotal(a)
	if m.Contradicted != nil && (fault.Value == nil || *fault.Value < *total.Value) {
		fault.Contradicted(m.Contradicted.Energy, m.Contradicted.Allowed, m.Wrong.String())
		return
	}
	if e := a.Energy; m.Contradicted == nil && (fault.Value == nil || *fault.Value < e.Judged) && e.Basis != finding.OnCeiling {
		fault.Judge(e.Judged, e.Limit)
		fault.Basis, fault.Why = e.Basis, finding.Words("no fault does more than normal operation on the measured shots")
	}
}

// MeasuredDecides tells whether energy.total passes on measured shots with which
// the model agrees.
func MeasuredDecides(a *assessment.Assessment) bool {
	total := EnergyTotal(a)
	return total.Status == finding.Pass && total.Basis == finding.OnMeasured && !a.Measured.Doubted
}

// AnsweredByShots enters shots that count as the answer of the item that asks for
// them, unless it has one.
func AnsweredByShots(it *finding.Item, m *measure.Report) {
	if m == nil || m.Bound == nil || m.Doubted || len(m.Wrong) != 0 || len(m.Clashes) > 0 || it.Done != nil {
		return
	}
	it.Done = &finding.Confirmation{Item: it.ID, Who: m.Log,
		Value: fmt.Sprintf("%d shots at %.3g bar, bound %s", m.Group.Shots, m.Group.Gauge/measure.OneBar, finding.Joule(*m.Bound))}
}
