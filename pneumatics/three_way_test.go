package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// A three-way valve is two paths of one body: inlet to outlet, and outlet to exhaust,
// the one open where the other is shut.

// threeWay is a tank of great size, the valve, and the vessel at its outlet.
func threeWay(outlet float64, c, exhaust, b float64) *Circuit {
	return &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "tank", Volume: 1e6}, {Name: "outlet", Volume: outlet}},
		Paths: []Path{
			{Name: "fill", From: 0, To: 1, Kind: Valve, Flow: flow.SonicConductance(c, b), OpenIn: SetOf(Charging)},
			{Name: "fill.exhaust", From: 1, To: Atmosphere, Kind: Valve, Flow: flow.SonicConductance(exhaust, b),
				OpenIn: SetOf(Off, Armed, Loading, Firing), Unpowered: Open}}}
}

// TestThreeWayValveEmptiesItsOutlet: at rest, and without power, the outlet blows down
// through the exhaust alone, isothermal and choked p = p0 exp(-t/tau), tau = V/(C rho0
// R sqrt(T0 T)) (ISO 6358-1:2013, definition of C); the tank keeps its air. 1e-9: the
// integrator at 1e-10.
func TestThreeWayValveEmptiesItsOutlet(t *testing.T) {
	const volume, exhaust, p0 = 1e-3, 1e-8, 7e5
	c := threeWay(volume, 5e-8, exhaust, 0.3)
	mass := c.Paths[1].Flow.MassFlow(c.Gas, p0, roomTemperature, 0, roomTemperature)
	tau := p0 * volume / (c.Gas.R * roomTemperature) / mass
	for _, lost := range []bool{false, true} {
		sc := &Scenario{From: Charging, To: Off, PowerLost: lost, Heat: Isothermal, Until: 0.7 * tau,
			Volumes: []Condition{{p0, roomTemperature}, {p0, roomTemperature}}}
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-10})
		assert.InEpsilon(t, p0*math.Exp(-0.7), r.Volumes[1].Pressure, 1e-9, "power lost: %v", lost)
		assert.Equal(t, p0, r.Volumes[0].Pressure)
		left := Residual(c, sc)
		assert.True(t, math.IsInf(left[0], 1))
		assert.Zero(t, left[1])
	}
}

// TestThreeWayValveStuckBetween: both ways open, the tank blows through the body into
// the open, by the closed form of two ellipses in series (ISO 6358-3:2014, table in
// series_test.go: C12 0.757216 for two of C 1 and b 0.3, which choke below 0.2272).
// 1e-6: the digits of the table.
func TestThreeWayValveStuckBetween(t *testing.T) {
	const p1, each, c12 = 6e5, 1e-7, 0.757216
	c := threeWay(1e-4, each, each, 0.3)
	sc := &Scenario{From: Off, To: Off, Stuck: []Stuck{{0, 1}, {1, 1}}, Until: 2,
		Volumes: []Condition{{p1, roomTemperature}, {standardAtmosphere, roomTemperature}}}
	s := new(Sim)
	s.Run(c, sc, Options{Tolerance: 1e-9})
	y := s.solver.State()
	d := make([]float64, len(y))
	s.e.Derivatives(s.solver.Time(), y, d)
	want := flow.SonicConductance(c12*each, 0.2272).MassFlow(c.Gas, p1, roomTemperature, standardAtmosphere, roomTemperature)
	assert.InEpsilon(t, want, -d[0], 1e-6)
	assert.InDelta(t, 0, d[2]/want, 1e-6, "what comes into the body leaves it")
}
