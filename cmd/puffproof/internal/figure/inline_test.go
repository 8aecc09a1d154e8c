package figure

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// A page that forbids styles in its text shows a drawing whose inks are attributes (CSP Level 3, 6.1.13 style-src: the style
// attribute counts as a style within the text, presentation attributes do not).
func TestInlineDrawingsHaveNoStyles(t *testing.T) {
	chart := Chart{X: "x", Y: "y", Lines: []ChartLine{{Name: "a", X: []float64{0, 1}, Y: []float64{1, 2}}, {X: []float64{0, 1},
		Y:      []float64{2, 1},
		Before: true}}, Limits: []ChartLimit{{Name: "limit", At: 1.5}}}
	circuit := Circuit{Nodes: []CircuitNode{{Name: "tank", Instruments: []Instrument{{Kind: GaugeSymbol, Name: "gauge"}}}, {Name: "barrel",
		Barrel: true}},
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

// A value of x is told where the chart draws it: at the upright line of a limit there, as the SVG has it.
func TestAChartTellsWhereAValueLies(t *testing.T) {
	for _, at := range []float64{0.25, 1} {
		d, err := Chart{X: "x", Y: "y", Lines: []ChartLine{{X: []float64{0, 2}, Y: []float64{0, 1}}},
			Limits: []ChartLimit{{Name: "limit", At: at, Vertical: true}}}.Draw()
		require.NoError(t, err)
		svg, err := d.Inline()
		require.NoError(t, err)
		box := regexp.MustCompile(`viewBox="0 0 ([0-9.]+) `).FindSubmatch(svg)
		line := regexp.MustCompile(`<path d="M([0-9.]+),[0-9.]+L([0-9.]+),[0-9.]+" [^>]*stroke="#A00020"`).FindSubmatch(svg)
		require.NotNil(t, box, "%s", svg)
		require.NotNil(t, line, "%s", svg)
		width, err := strconv.ParseFloat(string(box[1]), 64)
		require.NoError(t, err)
		x, err := strconv.ParseFloat(string(line[1]), 64)
		require.NoError(t, err)
		assert.InDelta(t, x/width, d.Across(at), 1e-4, "the SVG's figures have five digits")
	}
}

// What is put in place of a style attribute says the same, and text that looks like one stays text.
func TestStylesBecomeAttributes(t *testing.T) {
	assert.Equal(t, `<path d="M0,0" fill="none" stroke="#A00020"/><text>style=&#34;a:b&#34; x</text><g/>`,
		string(unstyled([]byte(`<path d="M0,0"`+"\n\t"+`style="fill:none; stroke:#A00020"/><text>style=&#34;a:b&#34; x</text><g style=""/>`))))
}

// Every volume, instrument and part has room of its own within the drawing.
func TestPlacesOfACircuitDoNotMeet(t *testing.T) {
	c := Circuit{Nodes: []CircuitNode{{Name: "tank", Instruments: []Instrument{{Kind: CompressorSymbol, Name: "c"}, {Kind: GaugeSymbol,
		Name: "g"}}},
		{Name: "dose"}, {Name: "barrel", Barrel: true}},
		Parts: []CircuitPart{{Number: 1, Name: "feed", To: 1}, {Number: 2, Name: "fire", From: 1, To: 2}, {Number: 3, Name: "relief",
			To: Outside},
			{Number: 4, Name: "dump", From: 1, To: Outside}, {Number: 5, Name: "bleed", From: 2, To: Outside}}}
	d, err := c.Draw()
	require.NoError(t, err)
	width, height := d.Size()
	nodes, parts, instruments := c.Places()
	require.Len(t, nodes, 3)
	require.Len(t, parts, 5)
	require.Len(t, instruments[0], 2)
	all := append(append([]Place{}, nodes...), instruments[0]...)
	for _, p := range parts {
		all = append(all, p.Symbol, p.Label)
	}
	for i, a := range all {
		assert.True(t, a.Left >= 0 && a.Top >= 0 && a.Left+a.Width <= width && a.Top+a.Height <= height, "%d: %+v in %v x %v", i, a, width,
			height)
		for j, b := range all[:i] {
			const touch = 1e-9 // rounding
			meet := a.Left+touch < b.Left+b.Width && b.Left+touch < a.Left+a.Width && a.Top+touch < b.Top+b.Height && b.Top+touch < a.Top+a.Height
			assert.False(t, meet, "%d %+v and %d %+v", i, a, j, b)
		}
	}
}

// A part's symbol, moved by whatever, and its name and note are within its place: what marks the place marks all of it.
func TestAPartIsWithinItsPlace(t *testing.T) {
	for kind := OrificeSymbol; kind <= RegulatorSymbol; kind++ {
		for _, part := range []CircuitPart{{Kind: kind}, {Kind: kind, Piloted: true}} {
			for _, reversed := range []bool{false, true} {
				var strokes recorder.Canvas
				pen{draw.NewCanvas(&strokes, 0, 0)}.symbol(part, 0, 0, reversed)
				left, right := extent(strokes.Actions)
				assert.GreaterOrEqual(t, left, -float64(symbolLeft), "%+v", part)
				assert.LessOrEqual(t, right, float64(symbolRight), "%+v", part)
			}
		}
	}
	c := Circuit{Nodes: []CircuitNode{{Name: "tank"}, {Name: "barrel", Barrel: true}}}
	for i := range 6 {
		c.Parts = append(c.Parts, CircuitPart{Number: i + 1, Name: "a valve of a very long name", Note: "12.34 mm bore and more", To: Outside})
	}
	d, err := c.Draw()
	require.NoError(t, err)
	width, _ := d.Size()
	_, parts, _ := c.Places()
	names := 0
	for _, a := range d.strokes.Actions {
		text, is := a.(*recorder.FillString)
		if !is || !strings.Contains(text.String, "a valve") && !strings.Contains(text.String, "12.34") {
			continue
		}
		names++
		from, to := float64(text.Point.X/mm), float64((text.Point.X+widthOf(text.String, float64(text.Size)))/mm)
		assert.True(t, slices.ContainsFunc(parts, func(p PartPlace) bool {
			return p.Label.Left <= from && to <= p.Label.Left+p.Label.Width
		}), "%q from %g to %g mm of %g", text.String, from, to, width)
	}
	assert.Equal(t, 12, names)
}

// extent is how far strokes and fills go left and right, in points.
func extent(actions []recorder.Action) (left, right float64) {
	on := func(p vg.Path) {
		for _, c := range p {
			x, r := float64(c.Pos.X), 0.0
			if c.Type == vg.ArcComp {
				r = float64(c.Radius)
			}
			left, right = min(left, x-r), max(right, x+r)
		}
	}
	for _, a := range actions {
		switch a := a.(type) {
		case *recorder.Stroke:
			on(a.Path)
		case *recorder.Fill:
			on(a.Path)
		}
	}
	return left, right
}
