package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func whole() Circuit {
	c := Circuit{Nodes: []CircuitNode{
		{Name: "tank", Note: "2 L", Instruments: []Instrument{{Kind: CompressorSymbol, Name: "compressor"}, {Kind: SwitchSymbol,
			Name: "switch"}, {Kind: GaugeSymbol, Name: "gauge"},
			{Kind: HandPumpSymbol, Name: "pump"}, {Kind: CylinderSymbol, Name: "cylinder"}}},
		{Name: "dose & <b>", Note: "1 L"}, {Name: "barrel", Barrel: true}}}
	for k := OrificeSymbol; k <= RegulatorSymbol; k++ {
		c.Parts = append(c.Parts, CircuitPart{Number: int(k) + 1, Name: "part", Kind: k, From: int(k) % 2, To: []int{Outside, 1, 2}[int(k)%3],
			Hose: k%2 == 1})
	}
	return c
}

// Every symbol is drawn, the text stays text, and the same circuit makes the
// same drawing.
func TestCircuitIsDrawn(t *testing.T) {
	var first []byte
	for range 2 {
		d, err := whole().Draw()
		require.NoError(t, err)
		svg, err := d.SVG()
		require.NoError(t, err)
		wellFormed(t, svg)
		assert.Contains(t, string(svg), "compressor")
		assert.NotContains(t, string(svg), "<b>")
		assert.NotContains(t, string(svg), "NaN")
		assert.NotRegexp(t, `^<svg [^>]*width=`, string(svg), "it takes the width of its page")
		if first == nil {
			first = svg
		}
		assert.Equal(t, string(first), string(svg))
	}
	_, err := Circuit{}.Draw()
	assert.ErrorIs(t, err, ErrNoCurve)
}

// No two parts share a lane on one level, no line comes down through an
// instrument, for circuits of any shape.
func TestLanesNeverCollide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "volumes")
		c := Circuit{}
		for range n {
			c.Nodes = append(c.Nodes, CircuitNode{Instruments: make([]Instrument, rapid.IntRange(0, 3).Draw(t, "instruments"))})
		}
		c.Nodes = append(c.Nodes, CircuitNode{Barrel: true})
		for range rapid.IntRange(0, 10).Draw(t, "parts") {
			p := CircuitPart{From: rapid.IntRange(-1, n).Draw(t, "from"), To: rapid.IntRange(-1, n).Draw(t, "to")}
			if p.From != p.To {
				c.Parts = append(c.Parts, p)
			}
		}
		l := c.lay()
		on := map[[2]int]int{}
		for i, p := range c.Parts {
			from, to := span(p)
			for level := from; level < to; level++ {
				key := [2]int{l.part[i], level}
				if was, taken := on[key]; taken {
					t.Fatalf("parts %d and %d share lane %d below level %d", was, i, key[0], level)
				}
				on[key] = i
				if p.From == Outside || p.To == Outside {
					continue
				}
				for _, lane := range l.instruments[level+1] {
					if lane == l.part[i] && !c.Nodes[level+1].Barrel {
						t.Fatalf("part %d comes down through an instrument of level %d", i, level+1)
					}
				}
			}
		}
		if _, err := c.Draw(); err != nil {
			t.Fatal(err)
		}
	})
}

// span is the levels that a part takes: from its upper end to its lower one.
func span(p CircuitPart) (from, to int) {
	switch {
	case p.From == Outside:
		return p.To, p.To + 1
	case p.To == Outside:
		return p.From, p.From + 1
	}
	return min(p.From, p.To), max(p.From, p.To)
}

func TestChartAndRowsRefuseWhatIsNoFigure(t *testing.T) {
	good := Chart{X: "Time, s", Y: "Gauge, bar", Lines: []ChartLine{{Name: "expected", X: []float64{0, 1, 2}, Y: []float64{1, 0.3, 0},
		Low: []float64{1, 0.2, 0}, High: []float64{1, 0.5, 0.1}}},
		Limits: []ChartLimit{{Name: "empty", At: 0.05}, {Name: "time allowed", At: 2, Vertical: true}}}
	d, err := good.Draw()
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	for _, w := range []string{"expected", "empty", "time allowed", "Time, s", "Gauge, bar"} {
		assert.Contains(t, string(svg), w)
	}
	for name, c := range map[string]Chart{
		"none": {}, "ragged": {Lines: []ChartLine{{X: []float64{0, 1}, Y: []float64{0}}}}, "NaN": {Lines: []ChartLine{{X: []float64{0, 1},
			Y: []float64{0, math.NaN()}}}},
		"limit": {Lines: good.Lines, Limits: []ChartLimit{{At: math.Inf(1)}}}, "half a band": {Lines: []ChartLine{{X: []float64{0, 1},
			Y: []float64{0, 1}, Low: []float64{0}, High: []float64{0, 1}}}},
	} {
		_, err := c.Draw()
		assert.ErrorIs(t, err, ErrNoCurve, name)
	}
	rows := Rows{Axis: "Energy, J", Scale: Decades, Limit: &RowLimit{Name: "limit 0.50 J", At: 0.5}, Rows: []Row{{Name: "model", Low: 0.2,
		Mark: 0.2, Top: 0.2, Value: "0.20 J"}, {Name: "bound", Low: 101, Mark: 101, Top: 101, Value: "101 J"}}}
	d, err = rows.Draw()
	require.NoError(t, err)
	svg, err = d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	assert.NotContains(t, string(svg), "e+03", "no exponent on an axis")
	for _, bad := range []Rows{{}, {Rows: []Row{{Mark: math.NaN()}}}, {Rows: []Row{{}}}} {
		_, err := bad.Draw()
		assert.ErrorIs(t, err, ErrNoCurve)
	}
}
