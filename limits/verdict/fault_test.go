package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

func TestEnergyFault(t *testing.T) {
	one := func(judged float64, status finding.Status) fault.Result {
		return fault.Result{Part: "part", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: status}
	}
	none := fault.Result{Part: "quiet", Mode: fault.StuckShut, State: "any", Effect: fault.NoEffect, Energy: 9, Judged: 9,
		Status: finding.Pass}
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
			v := Of(assessed.WithFaults(sample.Plain(), c.faults...), finding.EnergyFault)
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
	a := assessed.WithFaults(sample.Plain(), one(0.1, finding.Pass))
	a.NoStart = finding.Words("no pressure known")
	assert.Equal(t, finding.Unknown, Of(a, finding.EnergyFault).Status, "normal operation is not known")
	assert.Equal(t, finding.Unknown, Of(a, finding.ShotUnasked).Status)
}

// What only an item of the checklist keeps from being shot is no pass, answered or not, and no failure either: it is judged by its own
// figure, and holds while people keep the item. Another fault above the limit fails all the same, and one that is unknown is.
func TestAProjectileThatIsSoakedIsNeverAPlainPass(t *testing.T) {
	one := func(judged float64, status finding.Status, by string) fault.Result {
		return fault.Result{Part: "projectile", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: status, HeldBy: by}
	}
	other, above1 := one(0.4, finding.Pass, ""), one(above(1), finding.Fail, "")
	unknown := one(math.NaN(), finding.Unknown, "")
	for _, c := range []struct {
		name   string
		faults []fault.Result
		want   finding.Status
		value  float64
	}{
		{"open", []fault.Result{other, one(3, finding.OpenItem, finding.ItemWeighed)}, finding.Conditional, 3},
		{"answered", []fault.Result{other, one(3, finding.Pass, finding.ItemWeighed)}, finding.Conditional, 3},
		{"on its print", []fault.Result{other, one(0.9, finding.OpenItem, finding.ItemWeighed)}, finding.Conditional, 0.9},
		{"on its print, less than another", []fault.Result{other, one(0.3, finding.OpenItem, finding.ItemWeighed)}, finding.Conditional, 0.4},
		{"alone", []fault.Result{one(3, finding.OpenItem, finding.ItemWeighed)}, finding.Conditional, 3},
		{"within the limits", []fault.Result{other, one(0.9, finding.Pass, "")}, finding.Pass, 0.9},
		{"another fails", []fault.Result{above1, one(3, finding.Pass, finding.ItemWeighed)}, finding.Fail, above(1)},
		{"another is unknown", []fault.Result{other, unknown, one(3, finding.OpenItem, finding.ItemWeighed)}, finding.Unknown, 0},
		{"it is unknown itself", []fault.Result{other, one(math.NaN(), finding.Unknown, "")}, finding.Unknown, 0},
	} {
		v := Of(assessed.WithFaults(sample.Plain(), c.faults...), finding.EnergyFault)
		require.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why)
		if c.value > 0 {
			assert.Equal(t, c.value, *v.Value, c.name)
		}
		if c.want != finding.Conditional {
			assert.Empty(t, v.Items, c.name)
			continue
		}
		assert.Equal(t, []string{finding.ItemWeighed}, v.Items, c.name)
		assert.Equal(t, finding.OnProcedure, v.Basis, c.name)
		assert.Contains(t, v.Condition.String(), "none that is heavier than 4 g is fired", c.name)
		assert.Contains(t, v.Advice.String(), "projectile.open_cell = false", c.name)
	}
	heavy := sample.Plain(func(l *launcher.Launcher) { l.Projectile.Mass.High = 4.4469e-3 })
	v := Of(assessed.WithFaults(heavy, one(3, finding.OpenItem, finding.ItemWeighed)), finding.EnergyFault)
	assert.Contains(t, v.Condition.String(), "heavier than 4.44 g", "rounded to the side that is accepted")
}

// One that ice holds is kept by turning each, and a soaked one beside it by weighing: the verdict rests on both, at the harder of the two.
func TestAProjectileThatIsFrozenInIsNeverAPlainPass(t *testing.T) {
	one := func(judged float64, by string) fault.Result {
		return fault.Result{Part: "projectile", Mode: fault.FrozenIn, State: "any", Effect: fault.ChangesShot,
			Energy: judged / worst.ModelFactor, Judged: judged, Status: finding.OpenItem, HeldBy: by}
	}
	other := fault.Result{Part: "fire", Mode: fault.OpensFaster, Effect: fault.ChangesShot, Judged: 0.4, Status: finding.Pass}
	v := Of(assessed.WithFaults(sample.Plain(), other, one(3, finding.ItemNotFrozen)), finding.EnergyFault)
	require.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, 3.0, *v.Value)
	assert.Equal(t, []string{finding.ItemNotFrozen}, v.Items)
	assert.Contains(t, v.Condition.String(), "turned in its seat")
	assert.Contains(t, v.Advice.String(), "ambient.coldest above freezing")
	assert.NotContains(t, v.Condition.String(), "weighed")

	v = Of(assessed.WithFaults(sample.Plain(), other, one(3, finding.ItemNotFrozen), one(5, finding.ItemWeighed)), finding.EnergyFault)
	assert.Equal(t, 5.0, *v.Value)
	assert.ElementsMatch(t, []string{finding.ItemWeighed, finding.ItemNotFrozen}, v.Items)
	assert.Contains(t, v.Condition.String(), "weighed before each use")
	assert.Contains(t, v.Condition.String(), "turned in its seat")
}

// Closed cells that are only declared are no pass.
func TestDeclaredClosedCellsHoldOnlyIfTrue(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Declared = []string{"projectile.open_cell"} })
	v := Of(assessed.WithFaults(l, fault.Result{Effect: fault.ChangesShot, Judged: 0.4, Status: finding.Pass}), finding.EnergyFault)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "the declared projectile.open_cell proves true")
}

// The faults stand worst first in the report; where two are equal the verdicts name
// the first in the order of the parts.
func TestVerdictsReadTheFaultsInTheOrderOfTheParts(t *testing.T) {
	late := fault.Result{Part: "late", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 2,
		Status: finding.Pass, Place: 1}
	early := fault.Result{Part: "early", Mode: fault.StuckOpen, State: "any", Effect: fault.ChangesShot, Judged: 0.5, WorstGauge: 1,
		Status: finding.Pass, Place: 0}
	assert.Contains(t, Of(assessed.WithFaults(sample.Plain(), late, early), finding.EnergyFault).Why.String(), "early")
}
