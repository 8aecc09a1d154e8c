package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Fail without a control, pass on procedure with one, not applicable behind a
// grid that takes nothing listed (own rule of this project).
func TestMisuseVerdict(t *testing.T) {
	v := misuseObjects(objectsOf(t, plain()))
	assert.Equal(t, Fail, v.Status)
	assert.Equal(t, OnModel, v.Basis)
	assert.Equal(t, 0.08, *v.Limit, "the rigid limit")
	assert.Greater(t, *v.Value, 1.78, "at least the AA cell")
	assert.Negative(t, *v.Margin)
	assert.Contains(t, v.Advice, "object_control")

	adult := "supervised loading by the adult in charge"
	r := objectsOf(t, plain(func(l *Launcher) { l.Barrel.ObjectControl = []string{adult} }))
	p := misuseObjects(r)
	assert.Equal(t, Pass, p.Status)
	assert.Equal(t, OnProcedure, p.Basis)
	assert.InEpsilon(t, *v.Value, *p.Value, rounding, "the energy is still shown")
	assert.Contains(t, p.Advice, adult)
	assert.Contains(t, itemIDs(controlItems(r.Launcher)), "object-control.1")

	for name, change := range map[string]func(*Launcher){
		"grid":         func(l *Launcher) { l.Barrel.ObjectControl = []string{"grid of 5 mm"} },
		"muzzle_admit": func(l *Launcher) { l.Barrel.MuzzleAdmits = Exact("", 5*millimetres) },
	} {
		t.Run(name, func(t *testing.T) {
			r := objectsOf(t, plain(change))
			v := misuseObjects(r)
			assert.Equal(t, NotApplicable, v.Status)
			assert.Nil(t, v.Value)
			assert.Nil(t, v.Limit)
			assert.Nil(t, v.Margin)
			assert.Contains(t, v.Why, "5.00 mm")
			assert.Contains(t, itemIDs(controlItems(r.Launcher)), "one-projectile")
		})
	}
	// The builder's own needle still goes through the grid.
	r = objectsOf(t, plain(func(l *Launcher) {
		l.Barrel.ObjectControl = nil
		l.Barrel.MuzzleAdmits = Exact("", 5*millimetres)
		l.Objects = []ObjectSpec{{Name: "nail", Diameter: Exact("", 4*millimetres), Length: Exact("", 0.1), Mass: Exact("", 10*grams)}}
	}))
	assert.Equal(t, Fail, misuseObjects(r).Status)
}
