package checklist

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Fail without a control, pass on procedure with one, not applicable behind a
// grid that takes nothing listed (own rule of this project).
func TestMisuseVerdict(t *testing.T) {
	v := verdict.MisuseObjects(objectsOf(t, sample.Plain()))
	assert.Equal(t, finding.Fail, v.Status)
	assert.Equal(t, finding.OnModel, v.Basis)
	assert.Equal(t, 0.08, *v.Limit, "the rigid limit")
	assert.Greater(t, *v.Value, 1.78, "at least the AA cell")
	assert.Negative(t, *v.Margin)
	assert.Contains(t, v.Advice.String(), "object_control")

	adult := "supervised loading by the adult in charge"
	r := objectsOf(t, sample.Plain(func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{adult} }))
	p := verdict.MisuseObjects(r)
	assert.Equal(t, finding.Pass, p.Status)
	assert.Equal(t, finding.OnProcedure, p.Basis)
	assert.InEpsilon(t, *v.Value, *p.Value, sample.Rounding, "the energy is still shown")
	assert.Contains(t, p.Advice.String(), adult)
	assert.Contains(t, itemIDs(controlItems(r.Launcher)), "object-control.1")

	for name, change := range map[string]func(*launcher.Launcher){
		"grid":         func(l *launcher.Launcher) { l.Barrel.ObjectControl = []string{"grid of 5 mm"} },
		"muzzle_admit": func(l *launcher.Launcher) { l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres) },
	} {
		t.Run(name, func(t *testing.T) {
			r := objectsOf(t, sample.Plain(change))
			v := verdict.MisuseObjects(r)
			assert.Equal(t, finding.NotApplicable, v.Status)
			assert.Nil(t, v.Value)
			assert.Nil(t, v.Limit)
			assert.Nil(t, v.Margin)
			assert.Contains(t, v.Why.String(), "5.00 mm")
			assert.Contains(t, itemIDs(controlItems(r.Launcher)), "one-projectile")
		})
	}
	// The builder's own needle still goes through the grid.
	r = objectsOf(t, sample.Plain(func(l *launcher.Launcher) {
		l.Barrel.ObjectControl = nil
		l.Barrel.MuzzleAdmits = launcher.Exact("", 5*sample.Millimetres)
		l.Objects = []launcher.ObjectSpec{{Name: "nail", Diameter: launcher.Exact("", 4*sample.Millimetres), Length: launcher.Exact("", 0.1), Mass: launcher.Exact("", 10*sample.Grams)}}
	}))
	assert.Equal(t, finding.Fail, verdict.MisuseObjects(r).Status)
}
