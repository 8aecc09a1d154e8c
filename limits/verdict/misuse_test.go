package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// Fail without a control, conditional with one, not applicable behind a grid that takes
// nothing listed (own rule of this project).
func TestMisuseVerdict(t *testing.T) {
	v := Of(assessed.Objects(t, sample.Plain()), finding.MisuseOfObjects)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Equal(t, finding.OnModel, v.Basis)
	assert.Equal(t, 0.08, *v.Limit, "the rigid limit")
	assert.Greater(t, *v.Value, 1.78, "at least the AA cell")
	assert.Negative(t, *v.Margin)
	assert.Contains(t, v.Advice.String(), "object_control")

	adult := "supervised loading by the adult in charge"
	r := assessed.Objects(t, sample.Plain(func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{adult} }))
	p := Of(r, finding.MisuseOfObjects)
	assert.Equal(t, finding.Conditional, p.Status)
	assert.Equal(t, finding.OnProcedure, p.Basis)
	assert.InEpsilon(t, *v.Value, *p.Value, sample.Rounding, "the energy is still shown")
	assert.Equal(t, adult, p.Condition.String())
	assert.Equal(t, []string{"object-control.1"}, p.Items)
	assert.Empty(t, p.Advice, "the condition says it")

	for name, change := range map[string]func(*launcher.Launcher){
		"grid":         func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{"grid of 5 mm"} },
		"muzzle_admit": func(l *launcher.Launcher) { l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres) },
	} {
		t.Run(name, func(t *testing.T) {
			r := assessed.Objects(t, sample.Plain(change))
			v := Of(r, finding.MisuseOfObjects)
			assert.Equal(t, finding.NotApplicable, v.Status)
			assert.Nil(t, v.Value)
			assert.Nil(t, v.Limit)
			assert.Nil(t, v.Margin)
			assert.Contains(t, v.Why.String(), "5.00 mm")
		})
	}
	// The builder's own needle still goes through the grid.
	r = assessed.Objects(t, sample.Plain(func(l *launcher.Launcher) {
		l.Barrel.ObjectControl = nil
		l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres)
		l.Objects = []launcher.ObjectSpec{{Name: "nail", Diameter: launcher.Exact("", 4*sample.Millimetres), Length: launcher.Exact("", 0.1),
			Mass: launcher.Exact("", 10*sample.Grams)}}
	}))
	assert.Equal(t, finding.Fail, Of(r, finding.MisuseOfObjects).Status)
}

func TestMisuseUnknownWithoutAStartPressure(t *testing.T) {
	v := Of(assessed.Objects(t, sample.Plain(func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil })), finding.MisuseOfObjects)
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Nil(t, v.Value)
	assert.Contains(t, v.Why.String(), "dead_head")
}

// misuse.objects: the hardest case times the model factor against the rigid limit of 0.08 J
// (EN 71-1 before 2018, 4.17.3), a row on each side; one that is open hides no failure.
func TestMisuseTakesTheHardest(t *testing.T) {
	const limit = 0.08
	of := func(cases ...worst.MisuseCase) finding.Verdict {
		a := assessed.WithFaults(sample.Plain())
		a.Misuse = cases
		return Of(a, finding.MisuseOfObjects)
	}
	ball := func(name string, judged float64) worst.MisuseCase {
		return worst.MisuseCase{Name: finding.Words(name), Energy: judged / worst.ModelFactor}
	}
	open := ball("cell", 0.01)
	open.Undetermined = true
	v := of(ball("ball", 0.03), ball("plug", limit), ball("pebble", 0.05))
	assert.Equal(t, finding.Pass, v.Status)
	assert.InEpsilon(t, limit, *v.Value, sample.Rounding)
	assert.Equal(t, limit, *v.Limit)
	assert.Contains(t, v.Why.String(), "worst of 3 that were computed: plug (then pebble, 0.050 J)")
	assert.Equal(t, finding.Fail, of(ball("ball", 0.03), ball("plug", 0.081)).Status)
	assert.Equal(t, finding.Unknown, of(ball("plug", 0.03), open).Status)
	assert.Equal(t, finding.Fail, of(ball("plug", 0.081), open).Status)
}

// Over a tube there is no opening that keeps everything out: who states no control fails, who states one has to keep it.
func TestOverATubeOnlyPeopleKeepThingsOff(t *testing.T) {
	barred := func(controls ...string) finding.Verdict {
		return Of(assessed.Objects(t, sample.Plain(sample.OverTube, func(l *launcher.Launcher) {
			l.Barrel.MuzzleAdmits, l.Barrel.ObjectControl = launcher.Exact("", 3*sample.Millimetres), controls
		})), finding.MisuseOfObjects)
	}
	v := barred()
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "cap over the tube")
	assert.NotContains(t, v.Advice.String(), "grid")
	assert.Equal(t, finding.Conditional, barred("supervised loading by the adult in charge").Status)
}
