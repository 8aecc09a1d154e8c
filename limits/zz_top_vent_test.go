package limits

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The slow end is never faster than the expected course, that never faster than
// the fast end, and the band of the readings holds the expected one.
func TestEmptyingIsBracketed(t *testing.T) {
	e := emptied(t, sample.VentedTank())
	for _, c := range e.Cases {
		assert.Equal(t, vent.Vented, c.Status, c.Scenario)
		assert.GreaterOrEqual(t, c.Slowest, c.Isothermal)
		assert.GreaterOrEqual(t, c.Isothermal, c.Expected)
		assert.GreaterOrEqual(t, c.Expected, c.Fastest)
		assert.LessOrEqual(t, c.AfterWithin, e.Target)
		if c.Volume == "barrel" { // held by friction, below the target from the start: no course
			assert.LessOrEqual(t, c.Start, e.Target)
			continue
		}
		require.NotEmpty(t, c.Sheet)
		for _, r := range c.Sheet {
			assert.LessOrEqual(t, r.Low, r.Gauge)
			assert.LessOrEqual(t, r.Gauge, r.High)
		}
	}
	assert.Equal(t, finding.Pass, verdictIn(t, e.Verdicts, "vent.shutdown").Status)
	assert.Equal(t, finding.Pass, verdictIn(t, e.Verdicts, "vent.power-loss").Status)
	assert.Equal(t, finding.Pass, verdictIn(t, e.Verdicts, "vent.trapped").Status)
}

// A firing valve that opens without power vents through the barrel: the
// projectile in it leaves, and without a gap it is what closes the barrel.
func TestVentingThroughTheBarrel(t *testing.T) {
	l := sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths = l.Paths[:1]
	e := emptied(t, l)
	require.NotEmpty(t, e.Pushes)
	for _, p := range e.Pushes {
		assert.Equal(t, "fire", p.Path)
		assert.Equal(t, "left", p.Outcome)
		assert.Greater(t, p.Speed, 1.0)
	}
	assert.Equal(t, finding.Fail, verdictIn(t, e.Verdicts, "vent.power-loss").Status, "a tight projectile closes the only way out")

	// With a vent of its own the tank empties in time, but the projectile still goes.
	l = sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths[0].Flow.Value = launcher.Exact("", 8e-8)
	e = emptied(t, l)
	v := verdictIn(t, e.Verdicts, "vent.power-loss")
	assert.Equal(t, finding.Fail, v.Status, v.Why.String())
	assert.Contains(t, v.Why.String(), "pushes a loaded projectile out")
	assert.Equal(t, finding.Pass, verdictIn(t, e.Verdicts, "vent.shutdown").Status, "switched off the firing valve stays shut")
}

func emptied(t *testing.T, l *launcher.Launcher) *vent.Report {
	t.Helper()
	e, err := Empty(weakly(), l, VentOptions{})
	require.NoError(t, err)
	return e
}

func verdictIn(t *testing.T, all []finding.Verdict, id string) finding.Verdict {
	t.Helper()
	for _, v := range all {
		if v.ID == id {
			return v
		}
	}
	require.Fail(t, "no verdict "+id)
	return finding.Verdict{}
}
