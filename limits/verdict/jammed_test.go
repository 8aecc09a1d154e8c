package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
)

// barrel.jammed: within the limit at once it passes, only after the wait it holds on the wait, above it even then it
// fails, whatever drill was confirmed; a row on each side of both edges. The limit is 1 J.
func TestJammedProjectile(t *testing.T) {
	for name, c := range map[string]struct {
		atOnce, after float64
		want          finding.Status
		value         float64
	}{
		"within at once":        {1, 0.5, finding.Pass, 1},
		"within after the wait": {above(1), 1, finding.Conditional, above(1)},
		"above after the wait":  {5, above(1), finding.Fail, above(1)},
	} {
		a := assessed.WithFaults(sample.Plain())
		a.Faults.Jam = &fault.Jam{Top: 1e5, AtOnce: c.atOnce, Drill: 1.2e-3, After: vent.Jam{Wait: 60, Stays: 0, Behind: 2000, Energy: c.after}}
		a.Launcher.Checklist = []finding.Confirmation{{Item: finding.ItemJamDrill, Who: "A. N.", Date: "2026-05-01"}}
		a.Day = "2026-05-02"
		v := Of(a, finding.BarrelJammed)
		assert.Equal(t, c.want, v.Status, name)
		assertFigure(t, c.value, v.Value, name)
		if c.want == finding.Conditional {
			assert.Contains(t, v.Condition.String(), "60 s")
			assert.Equal(t, []string{finding.ItemJamDrill}, v.Items)
		}
		if c.want == finding.Fail {
			assert.Contains(t, v.Advice.String(), "a hole of 1.20 mm or more")
		}
	}
	a := assessed.WithFaults(sample.Plain())
	assert.Equal(t, finding.Unknown, Of(a, finding.BarrelJammed).Status, "not computed")
	a.Faults.Jam = &fault.Jam{AtOnce: 5, After: vent.Jam{Wait: math.NaN(), Energy: math.NaN()}}
	assert.Contains(t, Of(a, finding.BarrelJammed).Why.String(), "venting.within", "nobody knows how long to wait")
	a.Faults.Jam = &fault.Jam{Unknown: finding.Words("no pressure known"), AtOnce: math.NaN()}
	assert.Equal(t, finding.Unknown, Of(a, finding.BarrelJammed).Status)
}
