package assessment

import (
	"math"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
		return judgedOnly(t, sample.Plain(sample.PartsOff, sample.Friction(0, 0), func(l *launcher.Launcher) {
			l.Paths[0].Flow, l.Paths[0].OpeningTime = sample.Orifice(60*sample.Millimetres, 0.9), launcher.Exact("", 1e-4)
			l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Off)
			l.Barrel.Travel, l.Barrel.DeadVolume = launcher.Exact("", travel), launcher.Exact("", 1e-7)
			l.Projectile.Mass = launcher.Exact("", 2)
			l.Supply.DeadHead = launcher.Exact("", 1e5)
			l.Venting = &launcher.VentingSpec{Target: launcher.Exact("", target), Within: launcher.Exact("", 60)}
		}))
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

// assessedVent has the emptying of a launcher and nothing else.
func assessedVent(t *testing.T, l *launcher.Launcher) *Assessment {
	t.Helper()
	in := ventInputOf(t, l)
	e, err := vent.Compute(weakly(), in, vent.SlowEndOnly)
	require.NoError(t, err)
	return &Assessment{Launcher: l, Stated: l, Limits: in.Limits, Loading: in.Loading, Emptying: e}
}

// judgedOnly computes the emptying without the energies of the shots before.
func judgedOnly(t *testing.T, l *launcher.Launcher) *vent.Report { return assessedVent(t, l).Emptying }
