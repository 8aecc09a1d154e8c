package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func inventedLines() Lines {
	return Lines{Title: "Invented <b>", X: "Distance, m", Y: "Height, m", Lines: []Line{
		{Name: "shots", X: []float64{0.3, 0.4, 0.4}, Y: []float64{3, 4, 4.1}, Dots: true},
		{Name: "model & more", X: []float64{-1, 0, 1}, Y: []float64{0, 2, 0}}}}
}

func TestLinesSVG(t *testing.T) {
	svg, err := LinesSVG(inventedLines())
	require.NoError(t, err)
	wellFormed(t, svg)
	for _, want := range []string{"Distance, m", "Height, m", "shots", "model &amp; more", "Invented &lt;b&gt;"} {
		assert.Contains(t, string(svg), want)
	}
	again, err := LinesSVG(inventedLines())
	require.NoError(t, err)
	assert.Equal(t, string(svg), string(again))
}

func TestLinesRefuseWhatIsNoCurve(t *testing.T) {
	for name, l := range map[string]Lines{
		"none":       {},
		"no points":  {Lines: []Line{{Name: "a"}}},
		"unequal":    {Lines: []Line{{X: []float64{1}, Y: nil}}},
		"not finite": {Lines: []Line{{X: []float64{1}, Y: []float64{math.NaN()}}}},
	} {
		_, err := LinesSVG(l)
		assert.ErrorIs(t, err, ErrNoCurve, name)
	}
	// One point alone is drawn.
	_, err := LinesSVG(Lines{Lines: []Line{{Name: "a", X: []float64{0}, Y: []float64{0}, Dots: true}}})
	assert.NoError(t, err)
}
