package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/pneumatics/flow"
)

// openingAt is the opening of a path in a scenario at a time.
func openingAt(p Path, sc Scenario, t float64) float64 {
	s := p.movement(&sc)
	v, _ := s.At(t)
	return v
}

// TestValveSchedules checks positions over time, point by point, by hand.
func TestValveSchedules(t *testing.T) {
	fire := Path{Kind: Valve, OpenIn: SetOf(Firing), OpeningTime: 0.02, ClosingTime: 0.04}
	pulsed, short, snap := fire, fire, fire
	pulsed.Pulse = 0.1
	short.Pulse = 0.005
	snap.Pulse, snap.OpeningTime, snap.ClosingTime = 0.1, 0, 0
	reopens, early, atOnce := fire, fire, fire
	reopens.Reopens = 0.1
	early.Reopens = 0.02
	atOnce.Reopens, atOnce.OpeningTime, atOnce.ClosingTime = 0.1, 0, 0
	vent := Path{Kind: Valve, OpenIn: SetOf(Off), Unpowered: Open, OpeningTime: 0.02}
	stays := Path{Kind: Valve, OpenIn: SetOf(Firing), Unpowered: Stays}
	hand := Path{Kind: HandValve, OpenIn: SetOf(Armed), Unpowered: Closed}
	shot := Scenario{From: Armed, To: Firing}
	back := Scenario{From: Firing, To: Off}
	lostFiring := Scenario{From: Firing, To: Firing, PowerLost: true}
	lostArmed := Scenario{From: Armed, To: Armed, PowerLost: true}
	for _, k := range []struct {
		name  string
		p     Path
		sc    Scenario
		times map[float64]float64
	}{
		{"opens over its time", fire, shot, map[float64]float64{0: 0, 0.01: 0.5, 0.02: 1, 5: 1}},
		{"closes over its time", fire, back, map[float64]float64{0: 1, 0.01: 0.75, 0.04: 0, 5: 0}},
		{"pulse", pulsed, shot, map[float64]float64{0.01: 0.5, 0.05: 1, 0.1: 1, 0.12: 0.5, 0.14: 0, 1: 0}},
		{"pulse shorter than the opening", short, shot, map[float64]float64{0.0025: 0.125, 0.005: 0.25, 0.010: 0.125, 0.015: 0, 1: 0}},
		{"pulse of a valve without delay", snap, shot, map[float64]float64{0: 1, 0.0999: 1, 0.1001: 0}},
		{"reopens", reopens, back, map[float64]float64{0.02: 0.5, 0.04: 0, 0.1: 0, 0.11: 0.5, 0.12: 1, 5: 1}},
		{"reopens before it was shut", early, back, map[float64]float64{0.01: 0.75, 0.02: 0.5, 0.025: 0.75, 0.03: 1, 5: 1}},
		{"reopens without delay", atOnce, back, map[float64]float64{0: 0, 0.0999: 0, 0.1001: 1}},
		{"power lost while firing", fire, lostFiring, map[float64]float64{0: 1, 0.02: 0.5, 0.04: 0}},
		{"vent opens without power", vent, lostArmed, map[float64]float64{0: 0, 0.01: 0.5, 0.02: 1}},
		{"vent stays shut with power", vent, Scenario{From: Armed, To: Armed}, map[float64]float64{0: 0, 9: 0}},
		{"stays open without power", stays, lostFiring, map[float64]float64{0: 1, 9: 1}},
		{"stays shut without power", stays, lostArmed, map[float64]float64{0: 0, 9: 0}},
		{"hand valve without power", hand, lostArmed, map[float64]float64{0: 1, 9: 1}},
		{"hand valve is turned", hand, Scenario{From: Armed, To: Off}, map[float64]float64{0: 0}},
		{"orifice", Path{Kind: Orifice}, lostArmed, map[float64]float64{0: 1, 9: 1}},
	} {
		t.Run(k.name, func(t *testing.T) {
			for at, want := range k.times {
				assert.InDelta(t, want, openingAt(k.p, k.sc, at), 1e-12, "at %g s", at)
			}
		})
	}
}

// TestSchedulesAreContinuous: whatever the times, the opening stays within 0 and
// 1, moves no faster than its stated times allow.
func TestSchedulesAreContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-4, 0.1))
		p := Path{Kind: Valve, OpenIn: SetOf(Firing), OpeningTime: span.Draw(t, "opening"),
			ClosingTime: span.Draw(t, "closing"), Pulse: span.Draw(t, "pulse"), Reopens: span.Draw(t, "reopens"),
			Unpowered: rapid.SampledFrom([]Position{Closed, Open, Stays}).Draw(t, "unpowered")}
		states := rapid.SampledFrom(States())
		sc := Scenario{From: states.Draw(t, "from"), To: states.Draw(t, "to"), PowerLost: rapid.Bool().Draw(t, "power lost")}
		s := p.movement(&sc)
		last, _ := s.At(0)
		for i := 1; i <= 400; i++ {
			v, _ := s.At(float64(i) * 1e-3)
			if !(v >= 0 && v <= 1) {
				t.Fatalf("opening %g", v)
			}
			if p.OpeningTime > 0 && v > last+1e-3/p.OpeningTime+1e-9 || p.ClosingTime > 0 && v < last-1e-3/p.ClosingTime-1e-9 {
				t.Fatalf("jumped from %g to %g", last, v)
			}
			last = v
		}
	})
}

// TestStuckValves: stuck shut nothing passes, stuck half open passes half the
// choked flow whatever the state commands.
func TestStuckValves(t *testing.T) {
	c := vessel(1e-3, flow.Nozzle(1e-6, 1))
	c.Paths[0].Kind, c.Paths[0].OpenIn = Valve, SetOf(Off)
	lost := func(opening float64) float64 {
		sc := &Scenario{From: Armed, To: Off, Until: 1e-3, Stuck: []Stuck{{0, opening}},
			Volumes: []Condition{{5e5, roomTemperature}}}
		return 5e5 - new(Sim).Run(c, sc, Options{Tolerance: 1e-10}).Volumes[0].Pressure
	}
	assert.InDelta(t, 0, lost(0), 1e-6)
	// 1e-3: the pressure falls by so much less behind half the opening.
	assert.InEpsilon(t, lost(1)/2, lost(0.5), 1e-3)
}

// TestPulseEndsTheFlow: a pulse without delay passes choked mass for its length
// and no more (1e-3: the pressure upstream falls a little meanwhile).
func TestPulseEndsTheFlow(t *testing.T) {
	c := vessel(1, flow.Nozzle(1e-5, 1))
	c.Paths[0].Kind, c.Paths[0].OpenIn, c.Paths[0].Pulse = Valve, SetOf(Firing), 0.05
	sc := &Scenario{From: Armed, To: Firing, Until: 1, Volumes: []Condition{{5e5, roomTemperature}}}
	r := new(Sim).Run(c, sc, Options{})
	q := c.Paths[0].Flow.MassFlow(c.Gas, 5e5, roomTemperature, standardAtmosphere, roomTemperature)
	mass := func(v Condition) float64 { return v.Pressure / (c.Gas.R * v.Temperature) }
	assert.InEpsilon(t, 0.05*q, mass(sc.Volumes[0])-mass(r.Volumes[0]), 1e-3)
}

// TestSeriesWhileOpening: a valve on its way with a hose behind it passes what
// the exact pair of the moment passes, by bisection on the
// pressure between them, to rounding: 1e-9.
func TestSeriesWhileOpening(t *testing.T) {
	c, sc := whale()
	e := &engine{}
	e.compile(c, sc, Options{})
	at := -1
	for i := range e.paths {
		if e.paths[i].index == 1 {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0)
	e.conditions(e.state)
	a := &e.paths[at]
	for _, f := range []float64{0.1, 0.5, 1} {
		p1, p2 := e.p[a.from], e.p[a.to]
		valve, hose := flow.NewLaw(c.Paths[1].Flow.Scaled(f), &c.Gas, 1), flow.NewLaw(c.Paths[1].Hose, &c.Gas, 1)
		want, low, high := 0.0, p2, p1
		for range 100 {
			mid := 0.5 * (low + high)
			want = valve.K * p1 * valve.Phi(mid/p1) / math.Sqrt(e.temp[a.from])
			if want > hose.K*mid*hose.Phi(p2/mid)/math.Sqrt(e.temp[a.from]) {
				low = mid
			} else {
				high = mid
			}
		}
		assert.InEpsilon(t, want, e.flowOf(a, f*0.03, a.from, p1, p2)*e.w[a.from], 1e-9)
	}
	assert.Zero(t, e.flowOf(a, 0, a.from, 2e5, 1e5))
	assert.False(t, math.IsNaN(e.flowOf(a, 1e-300, a.from, 1e5, 0.9999e5)))
}
