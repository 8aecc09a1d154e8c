package cushion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

const pa = 101325.0 // [Pa], ISO 2533

// TestAirThatIsCompressedByAConstantPressure: a volume that stays at 0.95, 1.4 or 1.5 bar gauge drives a projectile against a plug until
// the air ahead has 3.06, 5.5 or 6.1 bar gauge, by p (1 - 1/r) = pa (r^(gamma-1) - 1)/(gamma - 1) (TestPluggedBoundFigures of package
// pneumatics). There the work that has been done is none; what is left of the volume decides whether it gets so far.
func TestAirThatIsCompressedByAConstantPressure(t *testing.T) {
	for _, k := range []struct{ tank, ahead, digit float64 }{{0.95, 3.06, 0.005}, {1.4, 5.5, 0.05}, {1.5, 6.1, 0.05}} {
		b := Barrel{Gamma: 1.4, Ambient: pa}
		drive := pa + k.tank*1e5
		assert.Negative(t, b.compressed(pa, 1e-4, pa+(k.ahead-k.digit)*1e5, drive))
		assert.Positive(t, b.compressed(pa, 1e-4, pa+(k.ahead+k.digit)*1e5, drive))
	}
}

// TestWhatAProjectileLacks: one at rest between equal pressures lacks all the work to the pressure that was there before; one whose motion
// has that, or that a pressure as high still drives, lacks nothing.
func TestWhatAProjectileLacks(t *testing.T) {
	rest := Barrel{Gamma: 1.4, Ambient: pa, Highest: 4 * pa, Drive: 3 * pa, Ahead: 3 * pa, Volume: 1e-5, Least: 1e-7, Dead: 1e-3}
	assert.Negative(t, rest.Rises())
	// Work to compress the gas that is left at the end, of which the driving pressure does its share.
	thin := 1e-7 * math.Pow(4.0/3, 1/1.4)
	work := (4*pa*1e-7-3*pa*thin)/0.4 - 3*pa*(thin-1e-7)
	top := 4 * pa
	assert.InEpsilon(t, work, rest.lacks(top), 1e-9) // roundings of a difference
	for _, change := range []struct {
		name string
		do   func(*Barrel)
	}{
		{"it moves", func(b *Barrel) { b.Motion = 1.01 * work }},
		{"as much drives it", func(b *Barrel) { b.Drive = 4 * pa }},
		{"its weight drives it", func(b *Barrel) { b.Push = pa }},
		{"the air ahead is thinner", func(b *Barrel) { b.Ahead = 2 * pa }},
		{"hardly any room behind", func(b *Barrel) { b.Dead = 1e-7 }},
		{"it falls back", func(b *Barrel) { b.Fall = 1e3 }},
	} {
		b := rest
		change.do(&b)
		assert.Positive(t, b.Rises(), change.name)
	}
	slow := rest
	slow.Motion = 0.98 * work
	assert.Negative(t, slow.Rises())
	near := rest // nothing compresses it to the pressure before: it is at the plug first
	near.Volume, near.Motion = 1.1e-7, 1.01*work
	assert.Negative(t, near.Rises())
}

// TestThrownBack: the gas ahead does pV/(gamma-1) (1 - (pa/p)^((gamma-1)/gamma)) - pa dV by expanding; gas behind that takes it up in the
// volume v rises by (gamma-1) E/v where it takes up heat, and by more where it is compressed.
func TestThrownBack(t *testing.T) {
	b := Barrel{Gamma: 1.4, Ambient: pa, Highest: 4 * pa, Drive: 3 * pa, Ahead: 3 * pa, Volume: 1e-6, Least: 1e-7, Dead: 1e-3}
	full := 1e-6 * math.Pow(3, 1/1.4)
	energy := 3*pa*1e-6/0.4*(1-math.Pow(1.0/3, 0.4/1.4)) - pa*(full-1e-6)
	// Little energy in a large volume: compression from p is gamma/(gamma-1) times (gamma-1) E/v, to the square of a thousandth.
	assert.InEpsilon(t, 3*pa+1.4*energy/1e-3, b.thrown(), 1e-6)
	b.Dead = 1e-8
	assert.Greater(t, b.thrown(), 4*pa)
}
