package launcher_test

import (
	"testing"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A hose is held to the higher pressure of its two ends at a fault, twice that where a shot rushes through it; one
// without a rating is named, and its rating is none that the ladder knows.
func TestHosesAreHeldToTheirRating(t *testing.T) {
	hose := func(rated launcher.Band, material string) *launcher.HoseSpec {
		return &launcher.HoseSpec{Bore: launcher.Exact("", 8e-3), Length: launcher.Exact("", 0.4), RatedPressure: rated, Material: material}
	}
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "tank", To: "atmosphere", Kind: l.Paths[0].Kind,
			Flow: sample.Orifice(2e-3, 0.75), Hose: hose(launcher.Exact("", 5*sample.Bars), "rubber")})
		l.Paths[0].Hose = hose(launcher.Band{}, "")
	})
	rated, unrated := l.HoseParts()
	require.Len(t, rated, 1)
	require.Len(t, unrated, 1)
	assert.Equal(t, "paths.fire.hose", unrated[0].Name)
	assert.InEpsilon(t, 2*l.Overcharge().Pressure, unrated[0].Top, sample.Rounding, "what its print has to say")
	assert.Equal(t, 4*sample.Bars, rated[0].Top, "the dead head of the supply")
	assert.Equal(t, 5*sample.Bars, l.LowestRating())
	l.Paths[0].Hose = hose(launcher.Exact("", 8*sample.Bars), "polyurethane")
	l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+60)
	rated, unrated = l.HoseParts()
	assert.Empty(t, unrated)
	assert.InEpsilon(t, 2*l.Overcharge().Pressure, rated[0].Top, sample.Rounding)
	silent := *l.Paths[0].Hose
	silent.Material = ""
	l.Paths[0].Hose = &silent
	other, _ := l.HoseParts()
	unsaid, why := l.Rating(other[0])
	limit, note := l.Rating(rated[0])
	assert.InEpsilon(t, limit, unsaid, sample.Rounding, "what is not said is no better than a plastic")
	assert.Contains(t, why, "not stated")
	assert.Less(t, limit, 4*sample.Bars)
	assert.Contains(t, note, "derated")
}
