package verdict

import (
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// judgedAlone is an assessment whose normal operation is known and harmless, with the
// faults given and a limit of 1 J.
func judgedAlone(l *launcher.Launcher, faults ...fault.Result) *assessment.Assessment {
	a := &assessment.Assessment{Launcher: l, Stated: l, Normal: &worst.Case{Result: search.Result{Found: true}},
		Energy: &worst.EnergyReport{Basis: finding.OnCeiling, Judged: 0.01}, Faults: &fault.Report{Faults: faults}}
	a.Limits.Total.Value = 1
	return a
}

// above is the next figure above another.
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }

func TestEnergyFault(t *testing.T) {
	one := func(judged float64, status finding.Status) fault.Result {
		return fault.Result{Part: "part", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: status}
	}
	none := fault.Result{Part: "quiet", Mode: fault.StuckShut, State: "any", Effect: fault.NoEffect, Energy: 9, Judged: 9, Status: finding.Pass}
	open := one(math.NaN(), finding.Unknown)
	open.Reason = finding.Words("no figure")
	for _, c := range []struct {
		name   string
		faults []fault.Result
		want   finding.Status
		value  float64
		why    string
	}{
		{"at the limit", []fault.Result{none, one(1, finding.Pass)}, finding.Pass, 1, "worst of 2 single faults, 1 of which can change the shot"},
		{"above it", []fault.Result{one(0.2, finding.Pass), one(above(1), finding.Fail)}, finding.Fail, above(1), "worst of 2"},
		{"one unknown, the others below", []fault.Result{one(1, finding.Pass), open}, finding.Unknown, 0, "no figure"},
		{"one unknown, another above", []fault.Result{open, one(above(1), finding.Fail)}, finding.Fail, above(1), "others are unknown"},
		{"none can change the shot", []fault.Result{none}, finding.NotApplicable, 0, "none of 1 single faults"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := EnergyFault(judgedAlone(sample.Plain(), c.faults...))
			require.Equal(t, c.want, v.Status, v.Why.String())
			assert.Contains(t, v.Why.String(), c.why)
			if c.value > 0 {
				require.NotNil(t, v.Value)
				assert.Equal(t, c.value, *v.Value)
				assert.Equal(t, 1.0, *v.Limit)
			}
			assert.Equal(t, c.want == finding.Fail, len(v.Advice) != 0)
		})
	}
	a := judgedAlone(sample.Plain(), one(0.1, finding.Pass))
	a.NoStart = finding.Words("no pressure known")
	assert.Equal(t, finding.Unknown, EnergyFault(a).Status, "normal operation is not known")
	assert.Equal(t, finding.Unknown, ShotUnasked(a).Status)
}

func TestShotUnasked(t *testing.T) {
	shoots := func(state pneumatics.State, judged float64) fault.Result {
		return fault.Result{Part: "fire", Mode: fault.StuckOpen, State: state.String(), Effect: fault.FiresUnasked,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: finding.Pass}
	}
	lost := shoots(pneumatics.Armed, 0.1)
	lost.Part, lost.Mode = "power", fault.NoPower
	open := shoots(pneumatics.Charging, math.NaN())
	open.Status, open.Reason = finding.Unknown, finding.Words("no figure")
	loadsOpen := func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }
	guarded := func(l *launcher.Launcher) { l.Barrel.SealGuard = "ring with slots" }
	toBeMade := func(l *launcher.Launcher) { l.Barrel.SealGuard = "to be made" }
	for _, c := range []struct {
		name   string
		change func(*launcher.Launcher)
		faults []fault.Result
		want   finding.Status
		value  float64
		why    string
	}{
		{"none", guarded, nil, finding.Pass, 0, "none of 0 faults"},
		{"air that does not move it", guarded, []fault.Result{shoots(pneumatics.Loading, 0)}, finding.Pass, 0, "none of 1 faults"},
		{"at the limit, with a guard", guarded, []fault.Result{shoots(pneumatics.Armed, 1)}, finding.Pass, 1, finding.ItemTwoActions + ", open"},
		{"above it, with a guard", guarded, []fault.Result{shoots(pneumatics.Armed, above(1))}, finding.Fail, above(1), "1 of 1"},
		{"without a guard", func(*launcher.Launcher) {}, []fault.Result{shoots(pneumatics.Armed, 0.1)}, finding.Fail, 0.1,
			"the hardest: fire stuck open while armed"},
		{"with a guard to be made", toBeMade, []fault.Result{shoots(pneumatics.Armed, 0.1)}, finding.Fail, 0.1, "1 of 1"},
		{"with hands at the muzzle", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), shoots(pneumatics.Loading, 0.1)}, finding.Fail, 0.3,
			"one of them while hands are at the muzzle"},
		{"by loss of power", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), lost}, finding.Fail, 0.1, "losing power while armed"},
		{"one unknown", guarded, []fault.Result{shoots(pneumatics.Armed, 0.3), open}, finding.Unknown, 0, "no figure"},
		{"one unknown, none known to shoot", guarded, []fault.Result{open}, finding.Unknown, 0, "no figure"},
		{"one unknown, another above", guarded, []fault.Result{open, shoots(pneumatics.Armed, above(1))}, finding.Fail, above(1), "1 of 2 faults"},
		{"opens on loading", loadsOpen, nil, finding.Fail, 0.01, "no fault is needed"},
		{"opens on loading, and a fault shoots harder", loadsOpen, []fault.Result{shoots(pneumatics.Armed, 0.3)}, finding.Fail, 0.3, "no fault is needed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := ShotUnasked(judgedAlone(sample.Plain(c.change), c.faults...))
			require.Equal(t, c.want, v.Status, v.Why.String())
			assert.Contains(t, v.Why.String(), c.why)
			if c.want != finding.Unknown {
				assert.Equal(t, c.value, *v.Value)
			}
			if c.want == finding.Pass {
				assert.Equal(t, c.value > 0, v.Basis == finding.OnProcedure, "with a shot it holds only on procedure")
			}
		})
	}
}

// The faults stand worst first in the report; where two are equal the verdicts name
// the first in the order of the parts.
func TestVerdictsReadTheFaultsInTheOrderOfTheParts(t *testing.T) {
	late := fault.Result{Part: "late", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 2, Status: finding.Pass, Place: 1}
	early := fault.Result{Part: "early", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 1, Status: finding.Pass, Place: 0}
	assert.Contains(t, EnergyFault(judgedAlone(sample.Plain(), late, early)).Why.String(), "early")
}
