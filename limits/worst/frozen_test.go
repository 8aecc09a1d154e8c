package worst

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A closed cylinder: air at p1 in V1 behind a piston that is let go expands to V2 without heat. Its work less that against the air outside,
//
//	E = p1 V1/(k-1) (1 - (V1/V2)^(k-1)) - pa (V2-V1)   [J], p absolute
//
// is what the piston has there (any textbook of thermodynamics). With a valve that passes nothing, the air behind a projectile that lets go
// is all there is: it is as if it had been held until the barrel had the pressure of what feeds it, or the share u of that.
func TestWhatIsLetGoHasTheWorkOfTheAirBehindIt(t *testing.T) {
	l := sample.Plain()
	for u, p := range map[float64]float64{1: 0.5e5, 0.5: 0.25e5} {
		c := new(pneumatics.Circuit)
		l.FillShot(c)
		for i := range c.Paths {
			c.Paths[i].Flow = flow.Restriction{}
		}
		b := &c.Barrel
		b.LeakArea, b.Sliding, b.Restart, b.Breakaway, b.SinPitch = 0, 0, 0, 30, 0
		b.Travel = 0.15 * b.DeadVolume / b.Area // so that the air behind it pushes to the end
		sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing,
			Parts: pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true}}
		for range c.Volumes {
			sc.Volumes = append(sc.Volumes, pneumatics.Condition{Pressure: c.Ambient.Pressure + 0.5e5, Temperature: c.Ambient.Temperature})
		}
		LettingGo(l, nil)(c, &sc, u)
		var sim pneumatics.Sim
		r := sim.Run(c, &sc, pneumatics.Options{})
		require.Equal(t, pneumatics.Left, r.Outcome)
		const k = 1.4
		v1, v2, air := b.DeadVolume, b.DeadVolume+b.Area*b.Travel, c.Ambient.Pressure
		want := (air+p)*v1/(k-1)*(1-math.Pow(v1/v2, k-1)) - air*(v2-v1)
		assert.InEpsilon(t, want, r.MuzzleEnergy, 1e-3, "u %g", u) // the gas's ratio of heats is 1.4 to that
	}
}

// Behind a hose the barrel comes to more than what feeds it, to twice at most; what was computed of it counts where it is known.
func TestWhatIsLetGoBehindAHose(t *testing.T) {
	at := func(l *launcher.Launcher, plugged *Plugged) float64 {
		c := new(pneumatics.Circuit)
		l.FillShot(c)
		sc := pneumatics.Scenario{}
		for range c.Volumes {
			sc.Volumes = append(sc.Volumes, pneumatics.Condition{Pressure: c.Ambient.Pressure + 1e5})
		}
		LettingGo(l, plugged)(c, &sc, 1)
		return sc.Barrel.Pressure - c.Ambient.Pressure
	}
	plain := sample.Plain()
	assert.InEpsilon(t, 1e5, at(plain, nil), 1e-12)
	hosed := sample.Plain(func(l *launcher.Launcher) {
		sample.PathNamed(l, "fire").Hose = &launcher.HoseSpec{Bore: launcher.Exact("bore", 8*sample.Millimetres),
			Length: launcher.Exact("length", 1)}
	})
	require.True(t, hosed.Rushes())
	feeds := hosed.BarrelFault().Fault
	assert.InEpsilon(t, launcher.Rush*1e5, at(hosed, nil), 1e-12)
	assert.InEpsilon(t, 1.2e5, at(hosed, &Plugged{Behind: 1.2 * feeds}), 1e-12)
	assert.InEpsilon(t, 1e5, at(hosed, &Plugged{Behind: 0.9 * feeds}), 1e-12)
}
