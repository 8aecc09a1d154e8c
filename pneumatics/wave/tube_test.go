package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// closedTube is a tube of unit section between walls, from -1 to 2.
func closedTube(cells int, at func(x float64) State) *system {
	g := flow.Air()
	s := &system{g: newGas(g), courant: 0.6}
	t := newTube(cells)
	t.lay(0, cells, -1, 2, 0, 0, func(float64) float64 { return 1 }, 0)
	t.place(0)
	t.fill(&s.g, at)
	s.tubes = []*tube{t}
	return s
}

func (s *system) runTo(t *testing.T, end float64) {
	require.True(t, s.conditions())
	for s.time < end {
		require.True(t, s.step(min(s.limitStep(), end-s.time)))
	}
}

// shockTube runs a Riemann problem on cells over a unit length (with as much
// room at both ends, so that the walls stay unseen) and gives the mean error of
// the density over [0, 1] and the state at the middle of the star region.
func shockTube(t *testing.T, i, cells int) (l1 float64, left State) {
	c := riemannProblems[i]
	s := closedTube(3*cells, func(x float64) State {
		if x < 0.5 {
			return c.left
		}
		return c.right
	})
	s.runTo(t, c.time)
	star := Riemann(1.4, c.left, c.right)
	tb := s.tubes[0]
	for k := cells; k < 2*cells; k++ {
		x := 0.5 * (tb.x[k] + tb.x[k+1])
		exact := sampleRiemann(1.4, c.left, c.right, star, (x-0.5)/c.time)
		l1 += math.Abs(tb.rho[k]-exact.Density) / float64(cells)
	}
	// Left of the contact, right of the rarefaction's tail.
	tail := star.Velocity - math.Sqrt(1.4*star.Pressure/star.LeftDensity)
	x := 0.5 + c.time*(0.5*(tail+star.Velocity))
	k := int((x + 1) * float64(cells))
	return l1, State{tb.rho[k], tb.u[k], tb.p[k]}
}

// The solver converges to the exact solutions. A second-order scheme shows an
// order near 1 at shocks and 2/3 at contacts (Toro 2009, chapter 13: any
// shock-capturing scheme); at least 0.6 is asked for from 100 to 400 cells.
func TestRiemannProblemsConverge(t *testing.T) {
	for i, c := range riemannProblems {
		t.Run(c.name, func(t *testing.T) {
			coarse, _ := shockTube(t, i, 100)
			fine, plateau := shockTube(t, i, 400)
			order := math.Log2(coarse/fine) / 2
			t.Logf("mean density error: 100 cells %.2e, 400 cells %.2e, order %.2f", coarse, fine, order)
			assert.Greater(t, order, 0.6)
			// In the star region the captured state is far from every wave. In Toro 2
			// that region is a near vacuum of 0.5 % of the outer pressure, where the
			// scheme's starting error at the diaphragm (Toro 2009, section 6.4) dies
			// slowly: there the pressure is held to 0.5 % of the outer one and must
			// come nearer. The tolerances were found by running.
			if c.star.Velocity == 0 {
				_, before := shockTube(t, i, 100)
				assert.InDelta(t, c.star.Pressure, plateau.Pressure, 0.005*c.left.Pressure)
				assert.Less(t, plateau.Pressure-c.star.Pressure, 0.5*(before.Pressure-c.star.Pressure))
				return
			}
			assert.InEpsilon(t, c.star.Pressure, plateau.Pressure, 2e-3)
			assert.InEpsilon(t, c.star.Velocity, plateau.Velocity, 2e-3)
		})
	}
}

// A simple wave into gas at rest is smooth until it breaks, and exact by
// characteristics: u = u0(xi) at x = xi + (u0 + a) t, a = a0 + (gamma-1)/2 u0.
// Source: Liepmann and Roshko (1957), section 3.9 (from memory). It shows the
// scheme's order: 2 less the limiter's clipping at the crest.
func TestSmoothWaveIsSecondOrder(t *testing.T) {
	const end = 0.3
	speed := func(xi float64) float64 { return 0.2 * math.Exp(-100*(xi-0.3)*(xi-0.3)) }
	state := func(u float64) State {
		w := 1 + 0.2*u // a/a0 with a0 = 1, rho0 = 1, p0 = 1/1.4
		return State{math.Pow(w, 5), u, math.Pow(w, 7) / 1.4}
	}
	exact := func(x float64) State {
		low, high := x-2, x+2
		for range 100 {
			mid := 0.5 * (low + high)
			if u := speed(mid); mid+(u+1+0.2*u)*end < x {
				low = mid
			} else {
				high = mid
			}
		}
		return state(speed(low))
	}
	run := func(cells int) (sum float64) {
		s := closedTube(cells, func(x float64) State { return state(speed(x)) })
		s.runTo(t, end)
		tb := s.tubes[0]
		for k := range tb.n {
			sum += math.Abs(tb.rho[k]-exact(0.5*(tb.x[k]+tb.x[k+1])).Density) * 3 / float64(cells)
		}
		return sum
	}
	e1, e2, e3 := run(300), run(600), run(1200)
	t.Logf("errors %.2e %.2e %.2e, orders %.2f %.2f", e1, e2, e3, math.Log2(e1/e2), math.Log2(e2/e3))
	assert.Greater(t, math.Log2(e2/e3), 1.8)
}

// Uniform gas stays uniform to rounding while the mesh under it is stretched and
// squeezed: geometric conservation. The ends move with the gas's wall: none, so
// the inner faces alone move.
func TestMovingMeshKeepsUniformGas(t *testing.T) {
	s := closedTube(60, func(float64) State { return State{1.2, 0, 1e5} })
	tb := s.tubes[0]
	for i := range tb.share[:61] {
		tb.share[i] = math.Sin(math.Pi * float64(i) / 60) // inner faces move, ends stay
	}
	require.True(t, s.conditions())
	s.shot.v = 50
	x := 0.0
	for range 40 {
		dt := s.limitStep()
		// The projectile is absent: drive the faces by hand.
		tb.save()
		s.rates(s.time, 50)
		tb.advance(&s.g, dt, false)
		tb.place(x + 50*dt)
		require.True(t, s.conditions())
		s.rates(s.time+dt, 50)
		tb.advance(&s.g, dt, true)
		x += 50 * dt
		require.True(t, s.conditions())
	}
	assert.Greater(t, x, 0.05, "the mesh has moved")
	for i := range tb.n {
		assert.InEpsilon(t, 1.2, tb.rho[i], 1e-12, "rounding of 80 stages")
		assert.InEpsilon(t, 1e5, tb.p[i], 1e-12)
		assert.InDelta(t, 0, tb.u[i], 1e-9)
	}
}

// Splitting and merging cells neither makes nor loses mass or energy.
func TestRemeshConserves(t *testing.T) {
	s := closedTube(40, func(x float64) State { return State{1 + 0.5*math.Sin(3*x), x, 2 + x} })
	tb := newTube(200)
	tb.lay(0, 40, -1, 2, 0, 0, func(float64) float64 { return 1 }, 0)
	tb.place(0)
	tb.fill(&s.g, func(x float64) State { return State{1 + 0.5*math.Sin(3*x), x, 2 + x} })
	m, e := tb.totals()
	third := tb.mass[3]
	tb.split(0)
	require.Equal(t, 80, tb.n)
	m2, e2 := tb.totals()
	assert.InEpsilon(t, m, m2, 1e-14, "rounding")
	assert.InEpsilon(t, e, e2, 1e-14, "rounding")
	assert.InEpsilon(t, third, tb.mass[6]+tb.mass[7], 1e-14)
	tb.merge()
	require.Equal(t, 40, tb.n)
	m2, e2 = tb.totals()
	assert.InEpsilon(t, m, m2, 1e-14, "rounding")
	assert.InEpsilon(t, e, e2, 1e-14, "rounding")
	require.True(t, tb.primitives(&s.g))
}

// Still gas in a tube of changing section stays still: the wall's force
// balances the pressures to rounding.
func TestStillGasInTaper(t *testing.T) {
	g := newGas(flow.Air())
	s := &system{g: g, courant: 0.6}
	tb := newTube(50)
	tb.lay(0, 50, 0, 1, 0, 0, func(x float64) float64 { return (1 + x) * (1 + x) }, 0.02)
	tb.place(0)
	tb.fill(&g, func(float64) State { return State{1.2, 0, 1e5} })
	s.tubes = []*tube{tb}
	s.runTo(t, 0.01)
	for i := range tb.n {
		assert.InDelta(t, 0, tb.u[i], 1e-10, "rounding of 1e5 Pa over 1.2 kg/m3")
	}
}

// Steady isentropic flow through a converging and diverging tube from a vessel:
// the flow is that of the area ratio at the exit's pressure. Source: NACA Report
// 1135, M = 0.3: p/p0 0.93946970, A/A* 2.0350653; M = 0.5: A/A* 1.3398438.
func TestSubsonicNozzleFlow(t *testing.T) {
	g := newGas(flow.Air())
	const p0, t0 = 2e5, 293.15
	s := &system{g: g, pa: 0.93946970 * p0, ta: t0, courant: 0.6}
	s.nodes = []node{s.nodeAt(pneumatics.Condition{Pressure: p0, Temperature: t0}, 1e6)}
	exit := 1e-3
	throat := exit * 1.3398438 / 2.0350653 // where M = 0.5
	diameter := func(x float64) float64 {
		return math.Sqrt(exit) + (math.Sqrt(throat)-math.Sqrt(exit))*(1-math.Abs(2*x-1))
	}
	n := 80
	tb := newTube(n)
	tb.lay(0, n, 0, 1, 0, 0, func(x float64) float64 { return diameter(x) * diameter(x) }, 0)
	tb.place(0)
	tb.fill(&g, func(float64) State { return State{g.Density(p0, t0), 0, p0} })
	s.tubes = []*tube{tb}
	s.joints = []joint{{tube: tb, node: 0, path: -1, port: port{g: &s.g, area: exit, open: true}},
		{tube: tb, right: true, node: outside, path: -1, port: port{g: &s.g, area: exit, open: true}}}
	s.runTo(t, 0.4) // the starting waves have left: found by running longer
	want := g.NozzleConstant() * p0 / math.Sqrt(g.R*t0) * exit / 2.0350653
	// Second order over a wall with a kink at the throat: 1e-3 at 80 cells.
	assert.InEpsilon(t, want, tb.fm[n], 1e-3)
	mach := tb.u[n/2] / math.Sqrt(1.4*tb.p[n/2]/tb.rho[n/2])
	assert.InDelta(t, 0.5, mach, 0.01, "half a cell from the throat")
}
