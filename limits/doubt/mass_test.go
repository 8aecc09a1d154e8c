package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A ball of 40 mm is 33.51 mL: 40.2 g of solid rubber, 0.335 g of foam of 10 kg/m3 and 6.70 g of 200 kg/m3 (densities from memory). A
// rocket of 40 mm pushed on by 35 mm, with five diameters before it, is at most 295.3 mL: 118.1 g at 400 kg/m3 and 59.1 g at 200.
func TestAMassThatNoFoamOfItsSizeHas(t *testing.T) {
	for _, c := range []struct {
		name       string
		fit        pneumatics.Fit
		low, high  float64 // stated [g]
		least, top float64 // that counts [g]
	}{
		{"a foam ball", pneumatics.InBore, 4, 6, 4, 6},
		{"a ball of solid rubber", pneumatics.InBore, 40, 42, 40, 42},
		{"heavier than rubber", pneumatics.InBore, 40.5, 42, 0.3351, 42},
		{"milligrams for grams", pneumatics.InBore, 0.1, 0.1, 0.1, 6.702},
		{"half of the lightest foam", pneumatics.InBore, 0.1, 0.17, 0.1, 0.17},
		{"a rocket", pneumatics.OverTube, 8, 9, 8, 9},
		{"a heavy rocket", pneumatics.OverTube, 118, 119, 118, 119},
		{"no rocket of foam", pneumatics.OverTube, 119, 200, 0.3351, 200},
		{"a rocket lighter than any foam", pneumatics.OverTube, 0.1, 0.1, 0.1, 59.06},
	} {
		l := &launcher.Launcher{}
		l.Barrel = launcher.BarrelSpec{Fit: c.fit, Engagement: launcher.Exact("", 0.035)}
		l.Projectile.Diameter = launcher.Exact("", 0.040)
		l.Projectile.Mass = launcher.Band{Set: true, Low: 1e-3 * c.low, Nominal: 1e-3 * c.low, High: 1e-3 * c.high}
		for range 2 {
			Mass(l)
			got := l.Projectile.Mass
			assert.InEpsilonSlice(t, []float64{c.least, c.top}, []float64{1e3 * got.Low, 1e3 * got.High}, 2e-4, "%s: digits printed", c.name)
			_, _, other := OtherMass(l)
			assert.Equal(t, c.least != c.low || c.top != c.high, other, "%s: told", c.name)
		}
	}
}
