package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/launcher"
)

// The straight line from 12 L/min to nothing at 4 bar has 11.1 L/min at 0.3 bar, 6 at 2 bar and 1.5 at 3.5 bar, by hand; a third of them
// is 3.7, 2 and 0.5. Above 3.2 bar nothing is doubted.
func TestACurveFarBelowTheStraightLine(t *testing.T) {
	type points = [][2]float64 // bar, L/min
	for _, c := range []struct {
		name          string
		free          float64 // [L/min]; 0: not stated
		curve, counts points
	}{
		{"nearly nothing at once", 12, points{{0, 12}, {0.3, 0.01}}, points{{0, 12}, {0.3, 11.1}, {4, 0}}},
		{"nearly nothing at once, from its own beginning", 0, points{{0, 12}, {0.3, 0.01}}, points{{0, 12}, {0.3, 11.1}, {4, 0}}},
		{"as a diaphragm pump", 12, points{{0, 12}, {2, 3}, {4, 0}}, nil},
		{"just above a third", 12, points{{0, 12}, {2, 2.01}}, nil},
		{"just below a third", 12, points{{0, 12}, {2, 1.99}, {4, 0}}, points{{0, 12}, {2, 6}, {4, 0}}},
		{"only near its end", 12, points{{0, 12}, {3, 3}, {3.5, 0.1}}, nil},
		{"more than the line elsewhere", 12, points{{0, 12}, {0.2, 12}, {0.6, 1}}, points{{0, 12}, {0.2, 12}, {0.6, 10.2}, {4, 0}}},
		{"it begins with a fraction of its free air", 12, points{{0, 1}, {1, 1}, {3, 1}}, points{{0, 12}, {1, 9}, {3, 3}, {4, 0}}},
		{"it begins late", 12, points{{1, 1}, {3, 1}}, points{{0, 12}, {1, 9}, {3, 3}, {4, 0}}},
	} {
		of := func(p points) (out []launcher.CurvePoint) {
			for _, one := range p {
				out = append(out, launcher.CurvePoint{Gauge: 1e5 * one[0], FreeAir: one[1] / 60000})
			}
			return out
		}
		l := &launcher.Launcher{Supply: &launcher.SupplySpec{DeadHead: launcher.Exact("", 4e5), Curve: of(c.curve)}}
		if c.free > 0 {
			l.Supply.FreeAir = launcher.Exact("", c.free/60000)
		}
		want := of(c.counts)
		if c.counts == nil {
			want = of(c.curve)
		}
		for range 2 {
			_, _, other := OtherCurve(l)
			assert.Equal(t, c.counts != nil, other, c.name)
			Curve(l)
			if assert.Len(t, l.Supply.Curve, len(want), c.name) {
				for i, p := range l.Supply.Curve {
					assert.InDelta(t, want[i].Gauge, p.Gauge, 1e-6, c.name)
					assert.InDelta(t, want[i].FreeAir, p.FreeAir, 1e-12, "%s: rounding", c.name)
				}
			}
			if other {
				assert.Equal(t, of(c.curve), l.Supply.CurveSaid, c.name)
			}
		}
	}
	for name, l := range map[string]*launcher.Launcher{"no supply": {}, "no dead head": {Supply: &launcher.SupplySpec{
		Curve: []launcher.CurvePoint{{FreeAir: 1}, {Gauge: 1e5}}}}, "no curve": {Supply: &launcher.SupplySpec{DeadHead: launcher.Exact("", 1)}}} {
		_, _, other := OtherCurve(l)
		assert.False(t, other, name)
	}
}
