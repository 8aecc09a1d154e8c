package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
)

// 41.0 ± 0.2 mm less 40.0 ± 0.5 mm leave 0.3 to 1.7 mm.
func TestAClearanceThatTheDiametersDoNotLeave(t *testing.T) {
	band := func(low, high float64) launcher.Band {
		return launcher.Band{Set: true, Nominal: (low + high) / 2, Low: low, High: high}
	}
	for _, c := range []struct {
		low, high float64
		other     bool
	}{{0, 0.0002, true}, {0, 0.0003, false}, {0.0005, 0.0006, false}, {0.0017, 0.003, false}, {0.0018, 0.003, true}} {
		l := &launcher.Launcher{}
		l.Barrel.Bore, l.Projectile.Diameter, l.Projectile.Clearance = band(0.0408, 0.0412), band(0.0395, 0.0405), band(c.low, c.high)
		_, left, other := OtherClearance(l)
		assert.Equal(t, c.other, other, "%g to %g", c.low, c.high)
		assert.InDeltaSlice(t, []float64{0.0003, 0.0017}, []float64{left.Low, left.High}, 1e-12, "rounding")
	}
}
