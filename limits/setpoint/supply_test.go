package setpoint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/benchmark"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
	"puffproof/pneumatics/flow"
)

// Published example, API 520 Part I: W 24270 kg/h, T 348 K, Z 0.90, M 51, k 1.11,
// P1 670 kPa, Kd 0.975 give 3699.05 mm2; with a back pressure of 532 kPa, then
// subcritical, 4248.36 mm2 (read in a secondary text, recomputed). The tolerance
// is the last digit printed.
func TestSizingExamples(t *testing.T) {
	g := benchmark.GasSizing{MassFlow: 24270. / 3600, Temperature: 348, Compressibility: 0.90, MolarMass: 51, Gamma: 1.11, Inlet: 670e3,
		Coefficient: 0.975}
	assert.True(t, g.Critical())
	assert.InDelta(t, 3699.05, g.Area()*1e6, 0.01)
	g.Outlet = 532e3
	assert.False(t, g.Critical())
	assert.InDelta(t, 4248.36, g.Area()*1e6, 0.01)
	assert.InDelta(t, 0.8600724, benchmark.SubcriticalCoefficient(1.8, 0.7), 5e-8)
	assert.InDelta(t, 0.0266942, benchmark.CriticalCoefficient(1.35), 5e-8)
	g.Outlet = 700e3
	assert.Panics(t, func() { g.Area() })
}

// The sizing is the ideal nozzle: an orifice of the area asked for passes the flow
// by pneumatics too. 0.1 %: the constants 0.03948 and 17.9 have four and three
// digits.
func TestSizingAgreesWithTheNozzle(t *testing.T) {
	air := flow.Air()
	for _, p1 := range []float64{1.2e5, 1.6e5, 3e5} {
		g := benchmark.GasSizing{MassFlow: 2e-4, Temperature: 293.15, Compressibility: 1, MolarMass: benchmark.GasConstant / air.R,
			Gamma: air.Gamma,
			Inlet: p1, Outlet: 101325, Coefficient: 0.62}
		q := flow.Nozzle(g.Area(), 0.62).MassFlow(air, p1, 293.15, 101325, 293.15)
		assert.InEpsilon(t, 2e-4, q, 1e-3, "%v Pa", p1)
	}
}

// constantSupply delivers the same at every pressure.
func constantSupply(q float64) *pneumatics.Supply {
	return &pneumatics.Supply{Feeds: 0, DeadHead: 100 * sample.Bars, FreeAir: q,
		Curve: []pneumatics.SupplyPoint{{Gauge: 0, FreeAir: q}, {Gauge: 99 * sample.Bars, FreeAir: q}}}
}

func oneTank(volume float64, s *pneumatics.Supply) *pneumatics.Circuit {
	return &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: volume}}, Supply: s}
}

// At constant delivery Q of free air, isothermal, t = V (p2 - p1)/(pa Q): an
// identity of the ideal gas. 1e-4: the time is read off a trace of 400 points.
func TestFillTimeAtConstantDelivery(t *testing.T) {
	const q = 12 * sample.LitreMinute
	for _, row := range []struct{ v, from, to float64 }{{2e-3, 0, 0.45 * sample.Bars}, {2e-3, 0.3 * sample.Bars, 0.45 * sample.Bars},
		{24e-3, 0, 7 * sample.Bars}} {
		got := filling.Time(oneTank(row.v, constantSupply(q)), 0, []float64{row.from}, row.to)
		assert.InEpsilon(t, row.v*(row.to-row.from)/(101325*q), got, 1e-4)
	}
	assert.Zero(t, filling.Time(oneTank(2e-3, constantSupply(q)), 0, []float64{sample.Bars}, 0.5*sample.Bars))
}

// Delivery falling linearly to the dead head pd: V dp/dt = pa Q0 (1 - p/pd), so
// t = V pd/(pa Q0) ln(pd/(pd - p)), the charging of a capacitor. The dead head
// itself is never reached.
func TestFillTimeTowardsTheDeadHead(t *testing.T) {
	const q, pd, p = 12 * sample.LitreMinute, 1.0 * sample.Bars, 0.8 * sample.Bars
	s := &pneumatics.Supply{DeadHead: pd, FreeAir: q}
	got := filling.Time(oneTank(2e-3, s), 0, []float64{0}, p)
	assert.InEpsilon(t, 2e-3*pd/(101325*q)*math.Log(pd/(pd-p)), got, 1e-4) // as above
	assert.True(t, math.IsNaN(filling.Time(oneTank(2e-3, s), 0, []float64{0}, 1.1*sample.Bars)))
}

// Filled fast, without heat to the walls, a rigid tank obeys
// dU = cp Ta dm: m2 - m1 = V (p2 - p1)/(gamma R Ta), T2 = p2 V/(m2 R) (charging of
// a rigid tank; any textbook of thermodynamics, from memory).
func TestTankFillTemperature(t *testing.T) {
	c := oneTank(2e-3, constantSupply(60*sample.LitreMinute))
	const end = 3.0
	sc := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging, NoProjectile: true, SupplyRuns: true,
		Heat:    pneumatics.Adiabatic,
		Volumes: []pneumatics.Condition{{Pressure: 101325, Temperature: 293.15}}, Until: end}
	var sim pneumatics.Sim
	r := sim.Run(c, &sc, pneumatics.Options{Settle: true})
	p2 := r.Volumes[0].Pressure
	m1 := 101325 * 2e-3 / (c.Gas.R * 293.15)
	m2 := m1 + 2e-3*(p2-101325)/(c.Gas.Gamma*c.Gas.R*293.15)
	require.Greater(t, p2, 2*sample.Bars)
	assert.InDelta(t, p2*2e-3/(m2*c.Gas.R), r.Volumes[0].Temperature, 1e-3) // accuracy of the integrator
}

// Root and simulation of the same circuit give the same balance; both are checked
// against published flow in overcharge_test.go. 20 Pa: what an hour leaves.
func TestBalanceByRootAndBySimulation(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	a := answerRelief(l)
	require.NotNil(t, a)
	assert.InDelta(t, a.Balance, a.Simulated, 20)
	assert.Greater(t, a.Area, a.Needed, "an 8 mm valve is far more than 12 L/min need")
}

// Air used by a shot that empties a dose: the air left behind has cooled by
// isentropic expansion, T2 = Ta (pa/p)^((gamma-1)/gamma), and fills the dose at
// ambient pressure (blow-down of an insulated tank, any textbook of
// thermodynamics, from memory). 2 %: the projectile's shot is over before the last
// of the air has gone.
func TestAirPerShot(t *testing.T) {
	l := sample.Plain(sample.Orderly, sample.FireCv(1))
	l.Volumes[0].Volume = launcher.Exact("v", 0.3e-3)
	a, err := answerSupply(l)
	require.NoError(t, err)
	require.NotNil(t, a)
	ratio := (0.4*sample.Bars + 101325) / 101325
	want := 0.3e-3 * (ratio - math.Pow(ratio, 0.4/1.4))
	assert.InEpsilon(t, want, a.AirPerShot, 0.02)
	assert.Equal(t, 1, a.ShotsPerFill)
	assert.Greater(t, a.FillFromZero.Nominal, a.FillFromCutIn.Nominal)
	assert.GreaterOrEqual(t, a.FillFromZero.Slow, a.FillFromZero.Nominal)
	assert.LessOrEqual(t, a.FillFromZero.Fast, a.FillFromZero.Nominal)
}

// One tank: what a shot takes of its pressure is the air that it used, at ambient
// pressure (isothermal; an identity of the ideal gas). 1e-6: the integrator.
func TestPressureDropIsTheAirUsed(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	a, err := answerSupply(l)
	require.NoError(t, err)
	require.NotNil(t, a)
	assert.InEpsilon(t, a.PressureDrop*l.Volumes[0].Volume.Nominal/101325, a.AirPerShot, 1e-6)
}

// The slow end of a delivery is the low end of its band; where only a curve is stated,
// what a curve may be off. The relief valve counts with the low end of its bore.
func TestWeakEndsOfSupplyAndRelief(t *testing.T) {
	assert.InEpsilon(t, 10./12, (&launcher.SupplySpec{FreeAir: sample.Between("", 10, 14)}).LeastShare(), sample.Rounding)
	assert.InEpsilon(t, 1/launcher.UnstatedCurve, new(launcher.SupplySpec).LeastShare(), sample.Rounding)
	l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
		l.Paths[1].Flow.Value = sample.Between("paths.relief.orifice", 7*sample.Millimetres, 9*sample.Millimetres)
	})
	a := answerRelief(l)
	require.NotNil(t, a)
	assert.InEpsilon(t, math.Pi/4*49e-6, a.Area, sample.Rounding)
}
