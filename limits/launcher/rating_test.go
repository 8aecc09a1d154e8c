package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// The barrel sees the highest pressure of what feeds it; where that of one is not known,
// nor is the barrel's, and what cannot reach it does not count.
func TestTheBarrelSeesWhatFeedsIt(t *testing.T) {
	barrel := func(l *launcher.Launcher) launcher.Part {
		parts := l.Parts()
		require.Equal(t, "barrel", parts[len(parts)-1].Name)
		return parts[len(parts)-1]
	}
	assert.Equal(t, 4*sample.Bars, barrel(sample.Plain()).Top, "the supply's dead head")
	assert.True(t, math.IsNaN(barrel(sample.Plain(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} })).Top))
	assert.Equal(t, 0.95*sample.Bars, barrel(sample.TwoTanks()).Top, "the tank at 4 bar has no way into the dose that fires")
}

// A rating counts at the low end of its band. PVC at 45 degC = 113 degF keeps 40 % of its
// water rating (the row of 120 degF in the makers' tables, PVCDerating).
func TestRatingsCountAtTheirLowEnd(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45) })
	p := launcher.Part{Rated: sample.Between("", 3*sample.Bars, 5*sample.Bars), Material: "steel"}
	limit, note := l.Rating(p)
	assert.Equal(t, 3*sample.Bars, limit)
	assert.Empty(t, note)
	p.Material = "PVC pipe"
	limit, _ = l.Rating(p)
	assert.InEpsilon(t, 1.2*sample.Bars, limit, sample.Rounding)
	// Plexiglass and perspex are acrylic by other names (general knowledge).
	for _, m := range []string{"ABS tube", "clear acrylic", "3D printed PLA", "plexiglass", "Perspex", "vinyl", "silicone",
		"acetal", "nylon"} {
		p.Material = m
		limit, note = l.Rating(p)
		assert.InEpsilon(t, 1.2*sample.Bars, limit, sample.Rounding, "%s has no table of its own", m)
		assert.NotEmpty(t, note)
	}
	for _, m := range []string{"PETG", "Kanalgrundrohr", "steel-look resin", "carbon fibre", "no steel"} {
		p.Material = m
		limit, note = l.Rating(p)
		assert.InEpsilon(t, 1.2*sample.Bars, limit, sample.Rounding, "%s is not known to stay strong", m)
		assert.Contains(t, note, "not known here")
	}
	p.Material = "polycarbonate" // 22 K above 23 degC, of the 47 K in which it loses three tenths
	limit, note = l.Rating(p)
	assert.InEpsilon(t, 3*sample.Bars*(1-0.3*22/47), limit, sample.Rounding)
	assert.Contains(t, note, "derated to 86 % for polycarbonate")
	for _, m := range []string{"aluminium", "titanium", "stainless steel"} {
		p.Material = m
		limit, _ = l.Rating(p)
		assert.Equal(t, 3*sample.Bars, limit, m)
	}
}

// The lowest rating is that of what is filled, and of the barrel; of what is not joined to
// the sensed volume it is not.
func TestLowestRating(t *testing.T) {
	l := sample.TwoTanks()
	l.Volumes[1].RatedPressure = launcher.Exact("", 2*sample.Bars)
	assert.Equal(t, 6*sample.Bars, l.LowestRating(), "the barrel's")
	l.Barrel.RatedPressure = launcher.Band{}
	assert.Equal(t, 10*sample.Bars, l.LowestRating(), "the tank's")
	l.Volumes[0].RatedPressure = launcher.Band{}
	assert.True(t, math.IsInf(l.LowestRating(), 1))
}
