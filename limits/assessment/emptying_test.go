package assessment_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A vessel that empties through a long, thin hose alone, isothermal and laminar:
//
//	V dp/dt = -K (p^2 - pa^2),  K = pi d^4/(256 mu L)
//	t = V/(2 K pa) ln((p0 - pa)(pt + pa)/((p0 + pa)(pt - pa)))
//
// (Hagen-Poiseuille, separated and integrated by partial fractions; own algebra).
// The slow end must not be quicker; it is a bound, so it may be slower.
func TestALongThinHoseIsNoQuickVent(t *testing.T) {
	const d, length, volume = 1.5e-3, 7.0, 2e-3
	l := sample.VentedTank()
	l.Volumes[0].Volume = launcher.Exact("", volume)
	l.Ambient.Pressure, l.Ambient.Temperature = launcher.Exact("", 101325), launcher.Exact("", 293.15)
	l.Ambient.Coldest, l.Ambient.Hottest = launcher.Exact("", 293.15), launcher.Exact("", 293.15)
	l.Supply.DeadHead = launcher.Exact("", 1e5)
	dump := &l.Paths[1]
	dump.Flow = sample.Orifice(5e-3, 0.75)
	dump.Hose = &launcher.HoseSpec{Bore: launcher.Exact("", d), Length: launcher.Exact("", length), Side: launcher.HoseAfter}
	l.Venting.Within = launcher.Exact("", 600)
	e := assessed.Emptying(t, l, vent.SlowEndOnly).Emptying
	slowest := 0.0
	for _, c := range e.Cases {
		if c.Volume == "tank" {
			slowest = max(slowest, c.Slowest)
		}
	}
	const pa, p0, pt = 101325.0, 101325 + 1e5, 101325 + 5e3
	k := math.Pi * math.Pow(d, 4) / (256 * flow.Air().Viscosity(293.15) * length)
	laminar := volume / (2 * k * pa) * math.Log((p0-pa)*(pt+pa)/((p0+pa)*(pt-pa)))
	assert.Greater(t, slowest, laminar)
	assert.Less(t, slowest, 4*laminar, "a bound that is of use")

	// A hose as most are is left alone.
	assert.InDelta(t, 1, l.LaminarShare(&launcher.PathSpec{Kind: pneumatics.Hose, Hose: &launcher.HoseSpec{Bore: launcher.Exact("", 6e-3),
		Length: launcher.Exact("", 0.5)}}, 5000), 0)
}

// A push so slow that the air has one pressure all along, out of a barrel at whose
// muzzle that has just fallen to the ambient pressure, has the work of the isentropic
// expansion from V0 to V1 = V0 (p0/pa)^(1/gamma), less that against the ambient air:
//
//	E = (p0 V0 - pa V1)/(gamma - 1) - pa (V1 - V0)
//
// (first law; for instance Moran and Shapiro, Fundamentals of Engineering
// Thermodynamics, chapter 3, from memory). The same is left for a shot from the target,
// whose bound is the availability of all the air, V (p ln(p/pa) - (p - pa)) (the same,
// chapter 7). 2 %: what a wide valve, a heavy projectile and the column of air ahead of
// it still take.
func TestAPushIsTheWorkOfTheAir(t *testing.T) {
	const volume, target, pa = 2e-3, 4000.0, 101325.0
	expanded := func(gauge float64) (energy, travel float64) {
		v1 := volume * math.Pow((pa+gauge)/pa, 1/1.4)
		return ((pa+gauge)*volume-pa*v1)/0.4 - pa*(v1-volume), (v1 - volume) / launcher.Circle(41*sample.Millimetres)
	}
	emptied := func(travel float64) *vent.Report {
		return assessed.Emptying(t, sample.Plain(sample.PartsOff, sample.Friction(0, 0), func(l *launcher.Launcher) {
			l.Paths[0].Flow, l.Paths[0].OpeningTime = sample.Orifice(60*sample.Millimetres, 0.9), launcher.Exact("", 1e-4)
			l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Off)
			l.Barrel.Travel, l.Barrel.DeadVolume = launcher.Exact("", travel), launcher.Exact("", 1e-7)
			l.Projectile.Mass = launcher.Exact("", 2)
			l.Supply.DeadHead = launcher.Exact("", 1e5)
			l.Venting = &launcher.VentingSpec{Target: launcher.Exact("", target), Within: launcher.Exact("", 60)}
		}), vent.SlowEndOnly).Emptying
	}
	energy, travel := expanded(1e5)
	e := emptied(travel)
	require.InDelta(t, 1e5, e.Start, 0)
	require.NotEmpty(t, e.Pushes)
	for _, p := range e.Pushes {
		assert.Equal(t, "left", p.Outcome)
		assert.InEpsilon(t, energy, p.Energy, 0.02, p.Scenario)
		assert.InEpsilon(t, math.Sqrt(2*p.Energy/2), p.Speed, 1e-9)
		assert.InEpsilon(t, 1.25*p.Energy, p.Judged, 1e-12, "the model factor")
	}
	energy, travel = expanded(target)
	e = emptied(travel)
	assert.InEpsilon(t, 1.25*energy, e.LeftShot, 0.02)
	const p = pa + target
	assert.InEpsilon(t, (volume+1e-7)*(p*math.Log(p/pa)-target), e.Left, 1e-9)
}
