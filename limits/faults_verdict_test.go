package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// judgedAlone is an assessment whose normal operation is known and harmless, with the
// faults given and a limit of 1 J.
func judgedAlone(l *Launcher, faults ...FaultResult) *Assessment {
	a := &Assessment{Launcher: l, Stated: l, Normal: &worst{result: search.Result{Found: true}},
		Energy: &EnergyReport{Basis: OnCeiling, Judged: 0.01}, Faults: &FaultReport{Faults: faults}}
	a.Limits.Total.Value = 1
	return a
}

// above is the next figure above another.
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }

func TestEnergyFault(t *testing.T) {
	one := func(judged float64, status Status) FaultResult {
		return FaultResult{Part: "part", Mode: StuckOpen, State: "any", Effect: ChangesShot,
			Energy: judged / ModelFactor, Judged: judged, Status: status}
	}
	none := FaultResult{Part: "quiet", Mode: StuckShut, State: "any", Effect: NoEffect, Energy: 9, Judged: 9, Status: Pass}
	open := one(math.NaN(), Unknown)
	open.Reason = "no figure"
	for _, c := range []struct {
		name   string
		faults []FaultResult
		want   Status
		value  float64
		why    string
	}{
		{"at the limit", []FaultResult{none, one(1, Pass)}, Pass, 1, "worst of 2 single faults, 1 of which can change the shot"},
		{"above it", []FaultResult{one(0.2, Pass), one(above(1), Fail)}, Fail, above(1), "worst of 2"},
		{"one unknown, the others below", []FaultResult{one(1, Pass), open}, Unknown, 0, "no figure"},
		{"one unknown, another above", []FaultResult{open, one(above(1), Fail)}, Fail, above(1), "others are unknown"},
		{"none can change the shot", []FaultResult{none}, NotApplicable, 0, "none of 1 single faults"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := energyFault(judgedAlone(plain(), c.faults...))
			require.Equal(t, c.want, v.Status, v.Why)
			assert.Contains(t, v.Why, c.why)
			if c.value > 0 {
				require.NotNil(t, v.Value)
				assert.Equal(t, c.value, *v.Value)
				assert.Equal(t, 1.0, *v.Limit)
			}
			assert.Equal(t, c.want == Fail, v.Advice != "")
		})
	}
	a := judgedAlone(plain(), one(0.1, Pass))
	a.NoStart = "no pressure known"
	assert.Equal(t, Unknown, energyFault(a).Status, "normal operation is not known")
	assert.Equal(t, Unknown, shotUnasked(a).Status)
}

func TestShotUnasked(t *testing.T) {
	shoots := func(state pneumatics.State, judged float64) FaultResult {
		return FaultResult{Part: "fire", Mode: StuckOpen, State: state.String(), Effect: FiresUnasked,
			Energy: judged / ModelFactor, Judged: judged, Status: Pass}
	}
	lost := shoots(pneumatics.Armed, 0.1)
	lost.Part, lost.Mode = "power", NoPower
	open := shoots(pneumatics.Charging, math.NaN())
	open.Status, open.Reason = Unknown, "no figure"
	loadsOpen := func(l *Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }
	guarded := func(l *Launcher) { l.Barrel.SealGuard = "ring with slots" }
	toBeMade := func(l *Launcher) { l.Barrel.SealGuard = "to be made" }
	for _, c := range []struct {
		name   string
		change func(*Launcher)
		faults []FaultResult
		want   Status
		value  float64
		why    string
	}{
		{"none", guarded, nil, Pass, 0, "none of 0 faults"},
		{"air that does not move it", guarded, []FaultResult{shoots(pneumatics.Loading, 0)}, Pass, 0, "none of 1 faults"},
		{"at the limit, with a guard", guarded, []FaultResult{shoots(pneumatics.Armed, 1)}, Pass, 1, ItemTwoActions + ", open"},
		{"above it, with a guard", guarded, []FaultResult{shoots(pneumatics.Armed, above(1))}, Fail, above(1), "1 of 1"},
		{"without a guard", func(*Launcher) {}, []FaultResult{shoots(pneumatics.Armed, 0.1)}, Fail, 0.1,
			"the hardest: fire stuck open while armed"},
		{"with a guard to be made", toBeMade, []FaultResult{shoots(pneumatics.Armed, 0.1)}, Fail, 0.1, "1 of 1"},
		{"with hands at the muzzle", guarded, []FaultResult{shoots(pneumatics.Armed, 0.3), shoots(pneumatics.Loading, 0.1)}, Fail, 0.3,
			"one of them while hands are at the muzzle"},
		{"by loss of power", guarded, []FaultResult{shoots(pneumatics.Armed, 0.3), lost}, Fail, 0.1, "losing power while armed"},
		{"one unknown", guarded, []FaultResult{shoots(pneumatics.Armed, 0.3), open}, Unknown, 0, "no figure"},
		{"one unknown, none known to shoot", guarded, []FaultResult{open}, Unknown, 0, "no figure"},
		{"one unknown, another above", guarded, []FaultResult{open, shoots(pneumatics.Armed, above(1))}, Fail, above(1), "1 of 2 faults"},
		{"opens on loading", loadsOpen, nil, Fail, 0.01, "no fault is needed"},
		{"opens on loading, and a fault shoots harder", loadsOpen, []FaultResult{shoots(pneumatics.Armed, 0.3)}, Fail, 0.3, "no fault is needed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := shotUnasked(judgedAlone(plain(c.change), c.faults...))
			require.Equal(t, c.want, v.Status, v.Why)
			assert.Contains(t, v.Why, c.why)
			if c.want != Unknown {
				assert.Equal(t, c.value, *v.Value)
			}
			if c.want == Pass {
				assert.Equal(t, c.value > 0, v.Basis == OnProcedure, "with a shot it holds only on procedure")
			}
		})
	}
}

// The faults stand worst first in the report; where two are equal the verdicts name
// the first in the order of the parts.
func TestVerdictsReadTheFaultsInTheOrderOfTheParts(t *testing.T) {
	late := FaultResult{Part: "late", Mode: StuckOpen, State: "any", Effect: ChangesShot, Judged: 0.5, WorstGauge: 2, Status: Pass, place: 1}
	early := FaultResult{Part: "early", Mode: StuckOpen, State: "any", Effect: ChangesShot, Judged: 0.5, WorstGauge: 1, Status: Pass, place: 0}
	assert.Contains(t, energyFault(judgedAlone(plain(), late, early)).Why, "early")
}
