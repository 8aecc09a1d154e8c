package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A hose with a choked valve at its end settles at the flow that Fanno's
// relation and the valve's law ask for together: with M2 at the hose's end the
// choked valve is K = A M2 sqrt(gamma/R) (1 + (gamma-1)/2 M2^2)^-3, and M1 at its
// inlet follows from f L/D. Closed form of both; sources at FannoLength and
// flow.Restriction.
func TestHoseAndValveSteady(t *testing.T) {
	const m2, p0, t0, bore, length, darcy = 0.5, 5e5, 293.15, 0.01, 1.0, 0.02
	g := flow.Air()
	area := math.Pi / 4 * bore * bore
	flux := func(m float64) float64 { // q sqrt(R T0)/(A p0)
		return m * math.Sqrt(g.Gamma) * math.Pow(1+0.2*m*m, -3)
	}
	m1 := fannoMach(g.Gamma, FannoLength(g.Gamma, m2)+darcy*length/bore)
	want := flux(m1) * area * p0 / math.Sqrt(g.R*t0)

	s := whale
	s.dead, s.opened, s.clearance, s.breakaway = 1, 0, 0, 1e6 // a barrel that does not fill and does not move
	c, sc := launcher(s)
	c.Volumes[0].Volume = 1e4
	sc.Volumes[0] = pneumatics.Condition{Pressure: p0, Temperature: t0}
	c.Paths[0].Flow = flow.Nozzle(area*flux(m2)/g.NozzleConstant(), 1)
	c.Paths[0].Hose = flow.HoseFlow(bore, length)
	var r runner
	require.NoError(t, r.build(c, sc, Options{Cells: 16, Hose: Hose{Bore: bore, Length: length, Darcy: darcy}}))
	require.True(t, r.conditions())
	for r.time < 0.2 { // twenty journeys of sound, damped by friction
		require.True(t, r.step(r.nextStep()))
	}
	hose := r.bridges[0].from
	// 12 cells, second order but for the profile that steepens towards the end.
	assert.InEpsilon(t, want, hose.fm[hose.n], 2e-3)
	assert.InEpsilon(t, want, hose.fm[0], 2e-3)
	assert.InEpsilon(t, want, r.shot.behind.fm[0], 2e-3)
}

// Through a valve much wider than the hose the hose's end chokes, and the
// barrel takes what comes.
func TestHoseChokesBeforeValve(t *testing.T) {
	const p0, t0, bore, length, darcy = 5e5, 293.15, 0.01, 1.0, 0.02
	g := flow.Air()
	area := math.Pi / 4 * bore * bore
	flux, _, outlet := fannoFlux(g.Gamma, g.R, p0, t0, 101325, darcy*length/bore)
	assert.InDelta(t, 1, outlet, 1e-6)
	s := whale
	s.dead, s.opened, s.clearance, s.breakaway = 1, 0, 0, 1e6
	c, sc := launcher(s)
	c.Volumes[0].Volume = 1e4
	sc.Volumes[0] = pneumatics.Condition{Pressure: p0, Temperature: t0}
	c.Paths[0].Flow = flow.Nozzle(10*area, 1)
	c.Paths[0].Hose = flow.HoseFlow(bore, length)
	var r runner
	require.NoError(t, r.build(c, sc, Options{Cells: 16, Hose: Hose{Bore: bore, Length: length, Darcy: darcy}}))
	require.True(t, r.conditions())
	for r.time < 0.2 {
		require.True(t, r.step(r.nextStep()))
	}
	hose := r.bridges[0].from
	// The profile is infinitely steep at a choked end: 12 cells give 2e-3.
	assert.InEpsilon(t, flux*area, hose.fm[hose.n], 4e-3)
	assert.Equal(t, hose.fm[hose.n], r.shot.behind.fm[0], "one flow on both sides")
}
