package assessment

import (
	"math"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
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
	vent := &l.Paths[1]
	vent.Flow = sample.Orifice(5e-3, 0.75)
	vent.Hose = &launcher.HoseSpec{Bore: launcher.Exact("", d), Length: launcher.Exact("", length), Side: launcher.HoseAfter}
	l.Venting.Within = launcher.Exact("", 600)
	e := judgedOnly(t, l)
	slowest := 0.0
	for _, c := range e.Cases {
		if c.Volume == "tank" {
			slowest = max(slowest, c.Slowest)
		}
	}
	const pa, p0, pt = 101325.0, 101325 + 1e5, 101325 + 5e3
	k := math.Pi * math.Pow(d, 4) / (256 * pneumatics.Air().Viscosity(293.15) * length)
	laminar := volume / (2 * k * pa) * math.Log((p0-pa)*(pt+pa)/((p0+pa)*(pt-pa)))
	assert.Greater(t, slowest, laminar)
	assert.Less(t, slowest, 4*laminar, "a bound that is of use")

	// A hose as most are is left alone.
	assert.InDelta(t, 1, l.LaminarShare(&launcher.PathSpec{Kind: pneumatics.Hose, Hose: &launcher.HoseSpec{Bore: launcher.Exact("", 6e-3), Length: launcher.Exact("", 0.5)}}, 5000), 0)
}
