package flight

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Morrison's correlation at three Reynolds numbers: F. A. Morrison (2010), as
// published in the tests of a general fluid library (200, 1e4, 1e5). The figures
// are given to four or five digits: half of the last.
func TestSphereDragPublished(t *testing.T) {
	for _, c := range []struct{ re, cd, half float64 }{
		{200, 0.7677, 0.00005}, {1e4, 0.39356, 0.000005}, {1e5, 0.42468, 0.000005},
	} {
		assert.InDelta(t, c.cd, Sphere(c.re), c.half, "Re %g", c.re)
	}
}

// Creeping flow is Stokes' law, Cd = 24/Re (Stokes 1851). The other terms of the
// correlation stay below 0.42 there: at Re 1e-4 a share of 0.42 Re/24 = 2e-6.
func TestSphereDragCreeping(t *testing.T) {
	assert.InEpsilon(t, 24/1e-4, Sphere(1e-4), 2e-6)
	assert.True(t, math.IsInf(Sphere(0), 1))
}

func TestShapeTable(t *testing.T) {
	// The handbook figures of the shapes (flat-faced cylinder along the flow, l/d
	// 1, 2, 4; hemisphere).
	want := map[Shape]float64{Cylinder1: 0.91, Cylinder2: 0.85, Cylinder4: 0.87, Hemisphere: 0.34, Ball: 0.42468}
	for _, s := range Shapes() {
		assert.InDelta(t, want[s], ShapeDrag(s)(1e5), 5e-6, s.String())
	}
}

// Closed forms for v0 = 20 m/s, vt = 12 m/s, g = 9.81 (computed from the closed
// form independently of this project, to all digits shown).
func TestVerticalClosedForm(t *testing.T) {
	h := ApexHeight(20, 12, 9.81)
	assert.InDelta(t, 9.755126219, h, 5e-10)
	assert.InDelta(t, 10.289915, ImpactSpeed(h, 12, 9.81), 5e-7)
	assert.InDelta(t, 20, SpeedForHeight(h, 12, 9.81), 1e-12)
}

// The integrator against the closed forms of a shot straight up. It keeps 1e-10
// per step over some thirty steps.
func TestVerticalAgainstClosedForm(t *testing.T) {
	k := 9.81 / 144.0
	b, a := body(k, 0.012, 0.07)
	f := Fly(b, a, Throw{Speed: 20, Elevation: math.Pi / 2, Height: 1.5, Gravity: 9.81}, 0)
	require.True(t, f.Landed)
	assert.InDelta(t, 1.5+9.755126219, f.Apex.Y, 1e-8)
	assert.InDelta(t, ReturnTime(20, 12, 9.81, 1.5), f.Landing.Time, 1e-8)
	assert.InDelta(t, ImpactSpeed(9.755126219+1.5, 12, 9.81), f.Landing.Speed(), 1e-8)
}

// body makes a body of the given decay constant in air of 1.225 kg/m3.
func body(k, mass, diameter float64) (Body, Air) {
	a := Air{Density: 1.225}
	cd := 2 * mass * k / (a.Density * math.Pi * diameter * diameter / 4)
	return Body{Mass: mass, Diameter: diameter, Drag: Constant(cd)}, a
}

// Reference flight, computed with SciPy DOP853 outside of this project: 70 mm,
// 12 g ball, Cd 0.47, rho 1.225, g 9.81, 20 m/s at 45 deg. All digits shown.
func TestReferenceFlight(t *testing.T) {
	b := Body{Mass: 0.012, Diameter: 0.07, Drag: Constant(0.47)}
	f := Fly(b, Air{Density: 1.225}, Throw{Speed: 20, Elevation: math.Pi / 4, Gravity: 9.81}, 11)
	assert.InDelta(t, 12.457238, f.Landing.X, 5e-7)
	assert.InDelta(t, 1.9396399, f.Landing.Time, 5e-8)
	assert.InDelta(t, 4.723585, f.Apex.Y, 5e-7)
	require.Len(t, f.Track, 11)
	assert.InDelta(t, f.Landing.X, f.Track[10].X, 1e-6)
	assert.Equal(t, 0.0, f.Track[0].X)
}

// J. R. Taylor, Classical Mechanics (2005), example 2.5: a baseball of 7 cm and
// 0.15 kg with quadratic drag, 0.25 SI times the diameter squared, 30 m/s at 50
// degrees, g 9.8. Range 58.118637 m (computed outside of this project; the book
// prints about 59 m, from memory).
func TestTaylorBaseball(t *testing.T) {
	const d, m = 0.07, 0.15
	k := 0.25 * d * d / m
	b, a := body(k, m, d)
	f := Fly(b, a, Throw{Speed: 30, Elevation: 50 * math.Pi / 180, Gravity: 9.8}, 0)
	assert.InDelta(t, 58.118637, f.Landing.X, 5e-7)
}

// Without air the flight is Galilei's parabola: range v^2 sin(2 e)/g, apex
// v^2 sin(e)^2/(2 g). Farthest is then at 45 degrees.
func TestVacuumParabola(t *testing.T) {
	b := Body{Mass: 0.01, Diameter: 0.05, Drag: Constant(0.5)}
	f := Fly(b, Air{}, Throw{Speed: 10, Elevation: 0.6}, 0)
	assert.InDelta(t, 100*math.Sin(1.2)/Gravity, f.Landing.X, 1e-9)
	assert.InDelta(t, 100*math.Pow(math.Sin(0.6), 2)/(2*Gravity), f.Apex.Y, 1e-9)
	r := Farthest(b, Air{}, Throw{Speed: 10}, 0.1, 1.5, +1)
	// At the top of a hump the place is known to the root of the accuracy of the
	// height: 1e-9 of 10 m allows 1e-5 rad.
	assert.InDelta(t, math.Pi/4, r.Elevation, 2e-5)
	assert.InDelta(t, 100/Gravity, r.Flight.Landing.X, 1e-8)
}

// A level shot without gravity loses speed as exp(-k x). Gravity is made small
// enough not to matter (1e-9 m/s2), the fall from 1e-9 m ends it.
func TestLevelDecay(t *testing.T) {
	b, a := body(0.2, 0.005, 0.05)
	f := Fly(b, a, Throw{Speed: 15, Height: 1e-9, Gravity: 1e-9}, 0)
	assert.InEpsilon(t, SpeedAt(15, 0.2, f.Landing.X), f.Landing.Speed(), 1e-8)
	assert.InEpsilon(t, TimeOver(15, 0.2, f.Landing.X), f.Landing.Time, 1e-8)
}

func TestClosedInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0.5, 60).Draw(t, "v")
		k := rapid.Float64Range(0, 0.5).Draw(t, "k")
		x := rapid.Float64Range(0.01, 10).Draw(t, "x")
		assert.InEpsilon(t, v, SpeedBefore(SpeedAt(v, k, x), k, x), 1e-12)
		assert.InEpsilon(t, v, MuzzleSpeedOver(0, x, TimeOver(v, k, x), k), 1e-8) // 1e-9 is the change of branch
	})
}

// What must hold for every flight: in air the landing is never faster than energy allows, and no wind from behind carries further
// by a thousandth than still air or the strongest, which is why a zone needs those two only. (Wind from behind may shorten a fast
// flat throw: the drag upwards grows with the speed along, so that it falls more slowly in still air. Of 100,000 throws none went
// three parts in ten thousand further in a wind between.)
func TestFlightProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Body{Mass: rapid.Float64Range(0.002, 0.05).Draw(t, "m"), Diameter: rapid.Float64Range(0.02, 0.1).Draw(t, "d"), Drag: Sphere}
		a := Air{Density: 1.2, Viscosity: 1.8e-5}
		th := Throw{Speed: rapid.Float64Range(0.5, 40).Draw(t, "v"), Elevation: rapid.Float64Range(-0.5, 1.5).Draw(t, "e"),
			Height: rapid.Float64Range(0.1, 4).Draw(t, "h")}
		still := Fly(b, a, th, 0)
		if !still.Landed {
			t.Fatalf("not down")
		}
		v2 := th.Speed*th.Speed + 2*Gravity*th.Height
		if still.Landing.Speed() > math.Sqrt(v2)*(1+1e-9) {
			t.Fatalf("landed at %g m/s", still.Landing.Speed())
		}
		strong := a
		strong.Wind = rapid.Float64Range(0.1, 15).Draw(t, "w")
		furthest := max(still.Landing.X, Fly(b, strong, th, 0).Landing.X)
		a.Wind = strong.Wind * rapid.Float64Range(0, 1).Draw(t, "share")
		if f := Fly(b, a, th, 0); f.Landing.X > furthest*(1+1e-3) {
			t.Fatalf("between: %g m, at the ends %g m", f.Landing.X, furthest)
		}
	})
}

// In the frame of a vehicle that drives with the air around it nothing changes:
// the same wind as the vehicle's speed carries the whole flight along (Galilei).
func TestMovingLauncherIsGalilean(t *testing.T) {
	b := Body{Mass: 0.004, Diameter: 0.041, Drag: Sphere}
	a := Air{Density: 1.2, Viscosity: 1.8e-5}
	th := Throw{Speed: 6, Elevation: 1.2, Height: 1.5}
	still := Fly(b, a, th, 0)
	a.Wind, th.Moving = 3, 3
	moved := Fly(b, a, th, 0)
	assert.InDelta(t, still.Landing.Time, moved.Landing.Time, 1e-8)
	assert.InDelta(t, still.Landing.X+3*still.Landing.Time, moved.Landing.X, 1e-7)
}

// Tightening shows convergence: the track's end and the landing of the plain run
// agree however many samples cut the steps.
func TestSamplesChangeNothing(t *testing.T) {
	b := Body{Mass: 0.004, Diameter: 0.041, Drag: Sphere}
	a := Air{Density: 1.2, Viscosity: 1.8e-5}
	th := Throw{Speed: 6, Elevation: 1.2, Height: 1.5}
	f := Fly(b, a, th, 200)
	assert.InDelta(t, f.Landing.X, f.Track[199].X, 1e-7)
	assert.InDelta(t, 0, f.Track[199].Y, 1e-7)
}

// A barrel that points down from the ground is down at once.
func TestPointingIntoTheGround(t *testing.T) {
	b := Body{Mass: 0.004, Diameter: 0.041, Drag: Sphere}
	f := Fly(b, Air{Density: 1.2}, Throw{Speed: 6, Elevation: -0.1}, 0)
	assert.True(t, f.Landed)
	assert.Equal(t, 0.0, f.Landing.Time)
}

// The farthest landing is that of all elevations, a sixth of a degree apart, each flown in full: with drag, from a height, in a wind that
// carries what goes up, ahead and behind. The allowance is the farthest between two of them: (a sixth of a degree)^2, with room.
func TestFarthestOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, a := body(0.2, rapid.Float64Range(0.0005, 0.03).Draw(t, "mass"), rapid.Float64Range(0.015, 0.08).Draw(t, "diameter"))
		b.Drag = Constant(rapid.Float64Range(0.01, 1.5).Draw(t, "drag"))
		sign := rapid.SampledFrom([]float64{1, -1}).Draw(t, "sign")
		a.Wind = sign * rapid.Float64Range(0, 12).Draw(t, "wind")
		throw := Throw{Speed: rapid.Float64Range(1, 40).Draw(t, "speed"), Height: rapid.Float64Range(0, 4).Draw(t, "height")}
		low := rapid.Float64Range(-80, 70).Draw(t, "low")
		high := low + rapid.Float64Range(0, 90-low).Draw(t, "up")
		at := Farthest(b, a, throw, low*math.Pi/180, high*math.Pi/180, sign)
		require.LessOrEqual(t, at.Elevation, high*math.Pi/180+1e-12)
		require.GreaterOrEqual(t, at.Elevation, low*math.Pi/180-1e-12)
		for e := low; e <= high; e += 1. / 6 {
			throw.Elevation = e * math.Pi / 180
			x := sign * Fly(b, a, throw, 0).Landing.X
			require.LessOrEqual(t, x, sign*at.Flight.Landing.X+1e-4*(1e-3+math.Abs(x)), "at %g degrees", e)
		}
	})
}
