package verdict

import (
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
)

// findingsWhy says in the verdict what the measurements decide.
func findingsWhy(e *worst.EnergyReport, m *measure.Report) finding.Text {
	g := m.Group
	why := finding.Say("%d shots at %s: with %.0f %% confidence %.0f %% stay below %s; carried to %s and the worst seat (energy times %.3g) "+
		"%s; worst of the narrowed model %s", g.Shots, shortBar(g.Gauge), 100*benchmark.BoundConfidence, 100*benchmark.BoundCoverage,
		finding.Speed(g.UpperSpeed).In(finding.Shortest,
			3), shortBar(m.Top), m.Carry, finding.WorstJoule(*m.Bound), finding.WorstJoule(e.WorstEnergy))
	if m.Floor > *m.Bound {
		why = why.Say("; other shots of the log hold it up at %s", finding.WorstJoule(m.Floor))
	}
	if e.Beyond > 0 {
		why = why.Say("; above that it is fired from only with what is open while it fills blocked, up to %s: there the model counts, with its "+
			"factor %.3g", finding.WorstBar(e.StartHigh), e.Factor)
	}
	if m.Doubted {
		why = why.Say("; %s, so the model's factor stays and the worse of the two is judged", shotsDoubt(m))
	}
	if !g.Normal.Tested {
		why = why.Say("; assumes normal scatter")
	}
	return why
}

// shortBar is a gauge reading [Pa] as shots are written down.
func shortBar(p float64) finding.Shown { return finding.Bar(p).In(finding.Shortest, 3) }

// totalMeasured lets the measurements speak in energy.total.
func totalMeasured(a *assessment.Assessment, v *finding.Verdict) {
	m := a.Measured
	if m == nil {
		return
	}
	switch {
	case len(m.Wrong) != 0:
		v.Contradicted(m.Contradicted.Energy, m.Contradicted.Allowed, m.Contradicted.Text)
		v.Advice = finding.Words("Find out which before anyone plays: weigh the projectile, check gauge and distances, measure the valve; " +
			"few or scattered shots widen the bound, more shots may settle it. puffproof calibrate shows what does not fit.")
		return
	case a.Energy.Basis == finding.OnMeasured:
		v.Why = findingsWhy(a.Energy, m)
		if v.Status == finding.Pass {
			v.Advice = nil
		}
	case len(m.NotCarried) != 0:
		v.Why = v.Why.Say("; measured: unknown, %s", m.NotCarried)
	case m.Doubted && m.Bound != nil:
		v.Why = v.Why.Say("; the shots do not confirm it: %s", shotsDoubt(m))
		if v.Status == finding.Pass {
			v.Advice = finding.Words("On the model, which the shots do not confirm: puffproof calibrate shows what does not fit. Slow readings " +
				"prove nothing.")
		}
	}
	if len(m.Clashes) > 0 {
		oneIsWrong(m, v)
		v.Advice = finding.Words("Repeat the bench test, then correct the design or the log: a test may narrow only what the design states.")
	}
}

// areaMeasured lets the measurements speak in energy.area.
func areaMeasured(a *assessment.Assessment, v *finding.Verdict) {
	switch m := a.Measured; {
	case m == nil:
	case len(m.Wrong) != 0:
		energy, allowed := 0.0, 0.0
		if area := a.Energy.ContactArea; area > 0 {
			energy, allowed = m.Contradicted.Energy/area, m.Contradicted.Allowed/area
		}
		v.Contradicted(energy, allowed, m.Contradicted.Text)
	default:
		oneIsWrong(m, v)
	}
}

// faultMeasured keeps energy.fault from showing less than energy.total: what normal
// operation can do a fault can do as well.
func faultMeasured(a *assessment.Assessment, v *finding.Verdict) {
	m := a.Measured
	if m == nil || v.Status == finding.Unknown {
		return
	}
	if len(m.Clashes) > 0 && v.Status == finding.Pass {
		oneIsWrong(m, v)
		return
	}
	switch e := a.Energy; {
	case m.Contradicted != nil:
		if total := *Of(a, finding.EnergyTotal).Value; v.Value == nil || *v.Value < total {
			v.Judge(total, e.Limit)
			v.Contradicted(m.Contradicted.Energy, m.Contradicted.Allowed, m.Wrong)
		}
	case (v.Value == nil || *v.Value < e.Judged) && e.Basis != finding.OnCeiling:
		v.Judge(e.Judged, e.Limit)
		v.Basis, v.Why = e.Basis, finding.Words("no fault does more than normal operation on the measured shots")
	}
}

// onShots are the verdicts that rest on the model's shots and have no measured figure of their own.
var onShots = [...]string{finding.BarrelStalled, finding.MisuseOfObjects, finding.SourceLimited, finding.VentPoints, finding.ShotUnasked,
	finding.PeopleLanding, finding.PeopleWheels, finding.SoundAtPeak}

// RestsOnShots tells that the verdict of an identifier is wrong where the model's shots are: an energy, or one that rests on them.
func RestsOnShots(id string) bool {
	return id == finding.EnergyTotal || id == finding.EnergyArea || id == finding.EnergyFault || slices.Contains(onShots[:], id)
}

// disproved lets no verdict hold on shots of the model which measured ones, or a bench test, show to be wrong; a failure says that it
// may be worse.
func disproved(a *assessment.Assessment, v *finding.Verdict) {
	m := a.Measured
	if m == nil || !slices.Contains(onShots[:], v.ID) {
		return
	}
	if oneIsWrong(m, v); m.Contradicted == nil {
		return
	}
	switch v.Status {
	case finding.Pass, finding.Conditional:
		v.Unknown(finding.Say("the model or an input is wrong: %s", m.Contradicted.Text))
		v.Advice = finding.Words("Find out which first: the figure is of a model that the measured shots disprove, and may be far higher.")
	case finding.Fail:
		v.Why = v.Why.Say("; it is of a model that the measured shots disprove: it may be far worse")
	}
}

// oneIsWrong makes a verdict unknown where a bench test contradicts the design. A
// failure stays.
func oneIsWrong(m *measure.Report, v *finding.Verdict) {
	if len(m.Clashes) > 0 && v.Status != finding.Fail {
		v.Unknown(finding.OneIsWrong().Say(": %s", m.Clashes[0].Says()))
	}
}

// shotsDoubt says why the model's factor stays beside the bound.
func shotsDoubt(m *measure.Report) finding.Text {
	if len(m.Disagrees) == 0 && m.Group.NotNormal() {
		return finding.Say("the speeds are not normally scattered (Shapiro-Wilk W %.3f, probability %.2g)", m.Group.Normal.W, m.Group.Normal.P)
	}
	return m.Disagrees
}

// MeasuredDecides tells whether energy.total passes on measured shots with which
// the model agrees.
func MeasuredDecides(a *assessment.Assessment) bool {
	total := Of(a, finding.EnergyTotal)
	return total.Status == finding.Pass && total.Basis == finding.OnMeasured && !a.Measured.Doubted
}

// AnsweredByShots enters shots that count as the answer of the item that asks for
// them, unless it has one.
func AnsweredByShots(it *finding.Item, m *measure.Report) {
	if m == nil || m.Bound == nil || m.Doubted || len(m.Wrong) != 0 || len(m.Clashes) > 0 {
		return
	}
	it.AnswerBy(m.Log, finding.Say("%d shots at %s, bound %s", m.Group.Shots, shortBar(m.Group.Gauge), finding.WorstJoule(*m.Bound)))
}
