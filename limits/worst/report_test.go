package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// What a shot can have at most is the smaller of two bounds that both hold, and what is judged where one of them tells nothing.
func TestMostIsTheSmallerOfBothBounds(t *testing.T) {
	entered := func(judged float64) []Entered {
		return []Entered{{State: pneumatics.Off, Energy: judged / ModelFactor, Judged: judged}}
	}
	for name, c := range map[string]struct {
		e    EnergyReport
		want float64
	}{
		"the ceiling is judged, the model gives less": {EnergyReport{Basis: finding.OnCeiling, Judged: 0.4, Ceiling: 0.4, Model: 0.2}, 0.2},
		"the ceiling is the smaller":                  {EnergyReport{Basis: finding.OnCeiling, Judged: 0.4, Ceiling: 0.4, Model: 0.5}, 0.4},
		"the model is judged, the ceiling is smaller": {EnergyReport{Basis: finding.OnModel, Judged: 0.5, Ceiling: 0.4, Model: 0.5}, 0.4},
		"a change of state shoots harder": {EnergyReport{Basis: finding.OnCeiling, Judged: 0.4, Ceiling: 0.4, Model: 0.2,
			Entered: entered(0.3)}, 0.3},
		"and counts above the ceiling of firing": {EnergyReport{Basis: finding.OnModel, Judged: 0.45, Ceiling: 0.4, Model: 0.2,
			Entered: entered(0.45)}, 0.45},
		"measured": {EnergyReport{Basis: finding.OnMeasured, Judged: 0.3, Ceiling: 0.4, Model: 0.2}, 0.3},
	} {
		c.e.ModelBounds = true
		assert.Equal(t, c.want, c.e.Most(), name)
		c.e.ModelBounds = false
		assert.Equal(t, c.e.Judged, c.e.Most(), "%s, but the model tells nothing", name)
	}
}

// The model is no bound where it does not shoot, or where its hose was never compared with gas dynamics.
func TestWhereTheModelIsABound(t *testing.T) {
	limits := limitsOf(100, 100) // the ceiling decides
	e := stageOf(t, sample.Plain(sample.Weak), limits).Report
	require.Equal(t, finding.OnCeiling, e.Basis)
	assert.True(t, e.ModelBounds)
	assert.Equal(t, min(e.Ceiling, e.Model), e.Most())
	assert.Less(t, e.Most(), e.Judged, "else it shows nothing")

	held := stageOf(t, sample.Plain(sample.Weak, sample.Friction(500, 500)), limits).Report
	require.True(t, held.Slow())
	assert.False(t, held.ModelBounds)
	assert.Equal(t, held.Ceiling, held.Most())

	long := sample.Plain(sample.Weak, func(l *launcher.Launcher) {
		l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 10e-3), Length: launcher.Exact("", 1.2*studiedHoseLength)}
	})
	require.NotEmpty(t, BeyondStudy(long))
	assert.False(t, stageOf(t, long, limits).Report.ModelBounds)
}

// What comes down on somebody has its fall as well: the model is searched in full unless the ceiling leaves room for that too. By hand,
// 4 g from 10 m are 0.39 J.
func TestTheModelIsSearchedInFullWhereAFallTakesTheRoom(t *testing.T) {
	runs := func(height, room float64) int {
		l := sample.Plain(sample.Weak, func(l *launcher.Launcher) {
			l.Event = &launcher.EventSpec{MuzzleHeight: launcher.Exact("", height)}
		})
		high, _ := l.SoakedHigh()
		ceiling, err := Ceiling(weakly(), l, high)
		require.NoError(t, err)
		e := stageOf(t, l, limitsOf(ceiling+room, ceiling+room)).Report
		require.Equal(t, finding.OnCeiling, e.Basis)
		return e.Runs
	}
	assert.Greater(t, runs(10, 0.38), 2*runs(10, 0.40))
	assert.Equal(t, runs(10, 0.40), runs(1, 0.05))
}
