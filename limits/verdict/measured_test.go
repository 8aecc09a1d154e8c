package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
)

// Shots on the slow side leave the item open and the basis the model's, with its factor:
// slow readings never make a launcher safer. What does not agree is said.
func TestSlowShotsConfirmNothing(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	r, found := judgedWhole(t, l, assessed.ShotsAt(0.30*sample.Bars, 2, 0.4*v, 0.41*v, 0.39*v, 0.405*v, 0.395*v))
	require.False(t, found.Fit.Credible)
	assert.Nil(t, found.Wrong)
	require.NotNil(t, r.Measured.Bound)
	assert.Equal(t, finding.OnModel, r.Energy.Basis)
	assert.GreaterOrEqual(t, r.Energy.Judged, r.Energy.Model*(1-1e-12))
	assert.InEpsilon(t, worst.ModelFactor*r.Energy.WorstEnergy, r.Energy.Model, 1e-12)
	assert.Contains(t, r.Measured.Contradiction().String(), "slower than the nominal model")
	it := finding.Item{ID: finding.ItemShots}
	AnsweredByShots(&it, r.Measured)
	assert.Nil(t, it.Done)
}

// An emptying test that reads less flow than the design states does not lower the
// worst case, and no energy passes while the two differ.
func TestContradictingBenchTestDoesNotPass(t *testing.T) {
	l := sample.Gentle()
	e := &measure.Findings{Log: "b.csv"}
	e.UseBench(l, &measure.BenchValue{Kind: measure.Emptying, Lines: []int{2}, Band: measure.MeasuredBand("paths.fire.Cv", 0.5, 0.6, 0.7,
		finding.Words("emptying"))})
	require.Len(t, e.Clashes, 1)
	const strength = 0.2 // of both searches
	a := assessed.Energies(t, l, assessment.Options{Measured: e, Strength: strength})
	plainly := assessed.Energies(t, l, assessment.Options{Strength: strength})
	assert.GreaterOrEqual(t, a.Energy.WorstEnergy, plainly.Energy.WorstEnergy*(1-1e-3), "the search finds the same worst corner to 0.1 %")
	total := Of(a, finding.EnergyTotal)
	assert.Equal(t, finding.Unknown, total.Status)
	assert.Contains(t, total.Why.String(), "one of the two is wrong")
}

// Shots that agree with the model take its factor away; not where a bench test contradicts the design, for the fit may have moved what the
// test moved, and agree with nothing that is stated.
func TestShotsBesideAContradictionKeepTheFactor(t *testing.T) {
	l := sample.Gentle()
	v, _ := measure.NewShotModel(l.Clone()).Shot(0.30*sample.Bars, 0)
	agrees, found := judgedWhole(t, l, assessed.ShotsAt(0.30*sample.Bars, 2, v, 1.01*v, 0.99*v, 1.005*v, 0.995*v))
	require.True(t, found.Agrees())
	require.Less(t, agrees.Energy.Judged, agrees.Energy.Model, "its factor is gone")
	found.Clashes = []launcher.Clash{{Key: "paths.fire.opening_time", Test: "click to pop"}}
	doubted := assessed.Energies(t, l, assessment.Options{Measured: found, Strength: 0.05})
	assert.GreaterOrEqual(t, doubted.Energy.Judged, doubted.Energy.Model*(1-1e-12))
	assert.True(t, doubted.Measured.Doubted)
}

func judgedWhole(t *testing.T, l *launcher.Launcher, shots []measure.Shot) (*assessment.Assessment, *measure.Findings) {
	t.Helper()
	found, err := measure.Evaluate(assessed.Weakly(), l, &measure.ShotLog{Name: "s.csv", Shots: shots})
	require.NoError(t, err)
	return assessed.Energies(t, l, assessment.Options{Measured: found, Strength: 0.05}), found
}

// What normal operation does on the measured shots a fault can do as well: energy.fault
// never shows less than energy.total, and passes nothing that contradicts itself.
func TestAFaultIsNeverBelowWhatWasMeasured(t *testing.T) {
	changes := func(judged float64) fault.Result {
		return fault.Result{Part: "part", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: judged, Status: finding.Pass}
	}
	clash := launcher.Clash{Key: "paths.fire.Cv", Test: "emptying"}
	wrong := &measure.Contradiction{Energy: 0.7, Allowed: 0.3, Text: finding.Words("far too fast")}
	for _, c := range []struct {
		name     string
		basis    finding.Basis
		judged   float64 // in normal operation
		measured *measure.Report
		faults   []fault.Result
		want     finding.Status
		value    float64
		says     string
	}{
		{"not measured", finding.OnModel, 0.6, nil, []fault.Result{changes(0.2)}, finding.Pass, 0.6, "no fault does more"},
		{"the same shot, found again", finding.OnModel, 0.6, nil, []fault.Result{changes(0.599)}, finding.Pass, 0.6, "worst of 1 single faults"},
		{"measured above the hardest fault", finding.OnMeasured, 0.6, &measure.Report{}, []fault.Result{changes(0.2)}, finding.Pass, 0.6,
			"no fault does more"},
		{"measured above the limit", finding.OnMeasured, 1.01, &measure.Report{}, []fault.Result{changes(0.2)}, finding.Fail, 1.01,
			"no fault does more"},
		{"measured below the hardest fault", finding.OnMeasured, 0.6, &measure.Report{}, []fault.Result{changes(0.8)}, finding.Pass, 0.8,
			"worst of 1"},
		{"no fault changes the shot", finding.OnMeasured, 0.6, &measure.Report{}, nil, finding.Pass, 0.6, "no fault does more"},
		{"the ceiling decides", finding.OnCeiling, 0.6, &measure.Report{}, []fault.Result{changes(0.2)}, finding.Pass, 0.6, "no fault does more"},
		{"a bench test clashes", finding.OnModel, 0.6, &measure.Report{Clashes: []launcher.Clash{clash}}, []fault.Result{changes(0.8)},
			finding.Unknown, 0,
			"one of the two is wrong"},
		{"a bench test clashes, a fault fails", finding.OnModel, 0.6, &measure.Report{Clashes: []launcher.Clash{clash}},
			[]fault.Result{changes(1.2)},
			finding.Fail, 1.2, "worst of 1"},
		{"the shots contradict the model", finding.OnModel, 0.2, &measure.Report{Contradicted: wrong, Wrong: wrong.Text},
			[]fault.Result{changes(0.2)},
			finding.Fail, 0.7, "The model or an input is wrong: far too fast."},
	} {
		a := assessed.WithFaults(sample.Plain(), c.faults...)
		a.Energy = &worst.EnergyReport{Basis: c.basis, Judged: c.judged, Limit: 1}
		a.Measured = c.measured
		v := Of(a, finding.EnergyFault)
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why.String())
		assert.Contains(t, v.Why.String(), c.says, c.name)
		if c.want != finding.Unknown {
			assertFigure(t, c.value, v.Value, c.name)
		}
	}
}

// Shots decide, and answer the item that asks for them, only where nothing speaks against
// them: no doubt of the model, no contradiction, no clash.
func TestOnlySoundShotsDecide(t *testing.T) {
	bound := 0.2
	sound := func() *measure.Report {
		return &measure.Report{Log: "s.csv", Bound: &bound, Group: &measure.SpeedGroup{Shots: 6, Gauge: 3e4}}
	}
	for name, c := range map[string]struct {
		change  func(m *measure.Report)
		decides bool
	}{
		"sound":   {func(*measure.Report) {}, true},
		"doubted": {func(m *measure.Report) { m.Doubted = true }, false},
		"contradicted": {func(m *measure.Report) {
			m.Wrong, m.Contradicted = finding.Words("too fast"), &measure.Contradiction{Energy: 2, Allowed: 1}
		}, false},
		"a clash": {func(m *measure.Report) { m.Clashes = []launcher.Clash{{Key: "paths.fire.Cv", Test: "emptying"}} }, false},
	} {
		a := assessed.WithFaults(sample.Plain())
		a.Measured = sound()
		c.change(a.Measured)
		a.Energy = &worst.EnergyReport{Basis: finding.OnMeasured, Judged: 0.3, Limit: 1}
		assert.Equal(t, c.decides, MeasuredDecides(a), name)
		it := finding.Item{ID: finding.ItemShots}
		AnsweredByShots(&it, a.Measured)
		assert.Equal(t, c.decides, it.Done != nil, name)
	}
	a := assessed.WithFaults(sample.Plain())
	a.Measured, a.Energy = sound(), &worst.EnergyReport{Basis: finding.OnModel, Judged: 0.3, Limit: 1}
	assert.False(t, MeasuredDecides(a), "the model decides")
	a.Energy = &worst.EnergyReport{Basis: finding.OnMeasured, Judged: 1.3, Limit: 1}
	assert.False(t, MeasuredDecides(a), "it fails")
}
