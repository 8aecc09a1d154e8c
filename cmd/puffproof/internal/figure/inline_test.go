package figure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A page that forbids styles in its text shows a drawing whose inks are attributes (CSP Level 3, 6.1.13 style-src: the style
// attribute counts as a style within the text, presentation attributes do not).
func TestInlineDrawingsHaveNoStyles(t *testing.T) {
	chart := Chart{X: "x", Y: "y", Lines: []ChartLine{{Name: "a", X: []float64{0, 1}, Y: []float64{1, 2}}, {X: []float64{0, 1}, Y: []float64{2, 1},
		Before: true}}, Limits: []ChartLimit{{Name: "limit", At: 1.5}}}
	circuit := Circuit{Nodes: []CircuitNode{{Name: "tank", Instruments: []Instrument{{Kind: GaugeSymbol, Name: "gauge"}}}, {Name: "barrel", Barrel: true}},
		Parts: []CircuitPart{{Number: 1, Name: "fire", To: 1}, {Number: 2, Name: "relief", Kind: ReliefSymbol, To: Outside}}}
	for name, draw := range map[string]func() (*Drawing, error){"chart": chart.Draw, "circuit": circuit.Draw} {
		d, err := draw()
		require.NoError(t, err)
		svg, err := d.Inline()
		require.NoError(t, err)
		assert.NotRegexp(t, `\sstyle=`, string(svg), name)
		assert.Contains(t, string(svg), `font-size="`, name)
	}
}

// Every volume, instrument and part has room of its own within the drawing.
func TestPlacesOfACircuitDoNotMeet(t *testing.T) {
	c := Circuit{Nodes: []CircuitNode{{Name: "tank", Instruments: []Instrument{{Kind: CompressorSymbol, Name: "c"}, {Kind: GaugeSymbol, Name: "g"}}},
		{Name: "dose"}, {Name: "barrel", Barrel: true}},
		Parts: []CircuitPart{{Number: 1, Name: "feed", To: 1}, {Number: 2, Name: "fire", From: 1, To: 2}, {Number: 3, Name: "relief", To: Outside},
			{Number: 4, Name: "dump", From: 1, To: Outside}, {Number: 5, Name: "bleed", From: 2, To: Outside}}}
	d, err := c.Draw()
	require.NoError(t, err)
	width, height := d.Size()
	nodes, parts, instruments := c.Places()
	require.Len(t, nodes, 3)
	require.Len(t, parts, 5)
	require.Len(t, instruments[0], 2)
	all := append(append(append([]Place{}, nodes[:2]...), parts...), instruments[0]...)
	for i, a := range all {
		assert.True(t, a.Left >= 0 && a.Top >= 0 && a.Left+a.Width <= width && a.Top+a.Height <= height, "%d: %+v in %v x %v", i, a, width, height)
		for j, b := range all[:i] {
			meet := a.Left < b.Left+b.Width && b.Left < a.Left+a.Width && a.Top < b.Top+b.Height && b.Top < a.Top+a.Height
			assert.False(t, meet, "%d %+v and %d %+v", i, a, j, b)
		}
	}
}
