package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// lagrangeGun is a closed chamber with gas of gm projectile masses and a travel
// in chamber lengths; the speeds over the sound speed depend on nothing else.
func lagrangeGun(gm, travel float64, cells int) Gun {
	g := flow.Air()
	const p, temp, length, area = 401325.0, 293.15, 0.5, 1e-3
	return Gun{Gas: g, Pressure: p, Temperature: temp, ChamberLength: length, Area: area,
		Mass: g.Density(p, temp) * length * area / gm, Travel: travel * length, Cells: cells}
}

func (u Gun) speed(t *testing.T) float64 {
	r := u.Fire()
	// Sums of at most 1e5 roundings of 1e-16.
	assert.InDelta(t, 0, r.MassResidual, 1e-12)
	assert.InDelta(t, 0, r.EnergyResidual, 1e-12)
	return r.Speed / u.Gas.SoundSpeed(u.Temperature)
}

// The Lagrange problem of interior ballistics, vacuum ahead: u/a0 by travel over
// chamber length. Source: testdata/reference/gas_dynamics.csv, a net of characteristics
// in Python, extrapolated to an error below 1e-9; 7 digits are printed here.
func TestLagrangeProblem(t *testing.T) {
	travels := []float64{0.5, 1, 2, 5}
	for gm, row := range map[float64][]float64{
		0.1: {0.2271709, 0.2895966, 0.3504016, 0.4206404},
		1:   {0.6173774, 0.7909697, 0.9874281, 1.1887716},
	} {
		for i, want := range row {
			coarse := lagrangeGun(gm, travels[i], 50).speed(t)
			fine := lagrangeGun(gm, travels[i], 100).speed(t)
			extrapolated := fine + (fine-coarse)/3
			t.Logf("G/m %g travel %g: 50 cells %+.1e, 100 cells %+.1e, extrapolated %+.1e",
				gm, travels[i], coarse/want-1, fine/want-1, extrapolated/want-1)
			assert.InEpsilon(t, want, coarse, 1e-3, "50 cells: what the reference asks for")
			assert.InEpsilon(t, want, fine, 2e-5, "100 cells: second order, found by running")
			// Richardson's extrapolation at second order.
			assert.InEpsilon(t, want, extrapolated, 1e-5)
		}
	}
}

// The error of the Lagrange problem falls with the square of the cell.
func TestLagrangeOrder(t *testing.T) {
	const want = 0.9874281 // G/m 1, travel 2
	e1 := math.Abs(lagrangeGun(1, 2, 50).speed(t) - want)
	e2 := math.Abs(lagrangeGun(1, 2, 200).speed(t) - want)
	order := math.Log2(e1/e2) / 2
	t.Logf("order %.2f", order)
	assert.Greater(t, order, 1.7)
}

// The infinite-chamber gun. Source: Siegel, The Theory of High Speed Guns,
// AGARDograph 91; the figures are its closed form at 30 digits
// (testdata/reference/gas_dynamics.csv). The chamber is so long that the breech's
// reflection comes too late.
func TestInfiniteChamberGun(t *testing.T) {
	for travel, want := range map[float64]float64{0.1: 0.3724576039, 1: 0.8851148795, 10: 1.65505543} {
		// The figures have 9 and 10 digits.
		assert.InEpsilon(t, want, infiniteChamberSpeed(1.4, travel), 1e-9)
		g := flow.Air()
		const p, temp, area, mass = 401325.0, 293.15, 1e-3, 0.05
		a0 := g.SoundSpeed(temp)
		length := travel * mass * a0 * a0 / (p * area)
		u := Gun{Gas: g, Pressure: p, Temperature: temp, ChamberLength: 3 * length / math.Sqrt(travel),
			Area: area, Mass: mass, Travel: length, Cells: 100}
		coarse := u.speed(t)
		u.Cells = 200
		fine := u.speed(t)
		extrapolated := fine + (fine-coarse)/3
		t.Logf("x %g: 100 cells %+.1e, 200 cells %+.1e, extrapolated %+.1e", travel, coarse/want-1, fine/want-1, extrapolated/want-1)
		assert.InEpsilon(t, want, coarse, 1e-4, "100 cells")
		assert.InEpsilon(t, want, extrapolated, 1e-5)
	}
}

// A piston at constant Mach number into still air: the pressure between piston
// and shock, as computed by the tube, against the Rankine-Hugoniot relations.
// The figures are these at 30 digits (testdata/reference/gas_dynamics.csv).
func TestShockAhead(t *testing.T) {
	for mach, want := range map[float64]float64{0.05: 1.07213149, 0.1: 1.14865177} {
		assert.InEpsilon(t, want, ShockAhead(1.4, mach), 1e-8, "9 digits are given")
		g := newGas(flow.Air())
		const p, temp = 101325.0, 293.15
		a := g.SoundSpeed(temp)
		still := State{g.Density(p, temp), 0, p}
		ahead, behind := newTube(200), newTube(200)
		one := func(float64) float64 { return 1 }
		ahead.lay(0, 200, 0, 1, 1, 0, one, 0)
		behind.lay(0, 200, -1, 0, 0, 1, one, 0)
		s := &system{g: g, courant: 0.6, tubes: []*tube{behind, ahead}}
		for _, tb := range s.tubes {
			tb.place(0)
			tb.fill(&g, func(float64) State { return still })
		}
		// A piston too heavy to be slowed: 1e12 kg.
		s.shot = projectile{present: true, area: 1, mass: 1e12, v: mach * a, sign: 1, behind: behind, ahead: ahead, front: AheadTube}
		s.runTo(t, 0.5/a) // the shock is at about 0.53
		middle := ahead.p[60]
		assert.Greater(t, ahead.x[60], s.shot.x+0.05, "well ahead of the piston")
		// Between the captured shock and the starting error at the piston the state
		// is constant; 1e-5 found by running.
		assert.InEpsilon(t, want*p, middle, 1e-5)
		assert.InEpsilon(t, want*p, s.flow.front, 1e-3, "at the piston, whose first cells carry the start-up error")
		endless := g.pistonPressure(still, mach*a)
		assert.InEpsilon(t, want*p, endless, 1e-8, "the relation that AheadEndless uses")
	}
}

// infiniteChamberSpeed gives the speed of a projectile over the sound speed of
// the gas at rest [-], driven from rest by an endless column of gas in a
// constant bore, nothing ahead. travel is x p0 A/(m a0^2) [-].
//
//	w = 1 - (gamma-1) u/(2 a0),  p/p0 = w^(2 gamma/(gamma-1))
//	x p0 A/(m a0^2) = integral of (u/a0)/(p/p0) d(u/a0)
//
// with the simple wave's invariant u + 2 a/(gamma-1) constant. Exact for a
// closed chamber too until the reflection from its breech arrives.
// Source: Siegel, The Theory of High Speed Guns, AGARDograph 91 (1965); the
// integral re-derived.
func infiniteChamberSpeed(gamma, travel float64) float64 {
	low, high := 0.0, 2/(gamma-1)
	for range 200 {
		mid := 0.5 * (low + high)
		if mid <= low || mid >= high {
			break
		}
		if infiniteChamberTravel(gamma, mid) < travel {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// infiniteChamberTravel is the travel at a speed u/a0. With k = 2/(gamma-1),
// u/a0 = k (1 - w) and du/a0 = -k dw:
//
//	x = k^2 integral from w to 1 of (1 - w) w^(-n) dw,  n = 2 gamma/(gamma-1)
func infiniteChamberTravel(gamma, speed float64) float64 {
	k := 2 / (gamma - 1)
	n := 2 * gamma / (gamma - 1)
	w := 1 - speed/k
	if w <= 0 {
		return math.Inf(1)
	}
	return k * k * ((math.Pow(w, 1-n)-1)/(n-1) - (math.Pow(w, 2-n)-1)/(n-2))
}
