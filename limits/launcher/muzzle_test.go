package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

func TestGridMesh(t *testing.T) {
	for text, want := range map[string]float64{"grid of 5 mm": 5e-3, "grid of 2.5 mm": 2.5e-3} {
		got, ok := launcher.GridMesh(text)
		assert.True(t, ok)
		assert.InEpsilon(t, want, got, sample.Rounding)
	}
	for _, text := range []string{"", "grid of mm", "grid of 5 in", "supervised loading by the adult in charge"} {
		_, ok := launcher.GridMesh(text)
		assert.False(t, ok, text)
	}
}

// What gets in is the widest that bore, declared muzzle and grid all let in, at the upper
// end of its band; the builder's own objects are as thin and as heavy as their bands allow.
func TestAdmitsTakesTheWideEnd(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.Bore = sample.Between("", 40e-3, 42e-3) })
	assert.Equal(t, 42e-3, l.Admits())
	l.Barrel.MuzzleAdmits = sample.Between("", 5e-3, 12e-3)
	assert.Equal(t, 12e-3, l.Admits())
	l.Barrel.ObjectControl = []string{"supervised loading", "grid of 8 mm"}
	assert.InEpsilon(t, 8e-3, l.Admits(), sample.Rounding)

	l.Objects = []launcher.ObjectSpec{{Name: "whistle", Diameter: sample.Between("", 19e-3, 21e-3), Length: launcher.Exact("", 50e-3),
		Mass: sample.Between("", 25e-3, 35e-3)}}
	own := l.AllObjects()[len(l.AllObjects())-1]
	assert.Equal(t, 19e-3, own.Diameter)
	assert.Equal(t, 35e-3, own.Mass)
}

// Into a bore that takes no listed object a plug that fits still goes; a guard keeps it out.
func TestAPlugEntersAnyOpenBore(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.Bore = launcher.Exact("", 2e-3) })
	assert.True(t, l.AnythingEnters())
	l.Barrel.MuzzleAdmits = launcher.Exact("", 1e-3)
	assert.False(t, l.AnythingEnters())
}
