package figure

import (
	"encoding/xml"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// Every line fits, and the lines put behind one another are the text: nothing is cut off a name.
func TestNamesAreBrokenNotCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-z_]{1,30}([ .-][a-zé_0-9]{1,30}){0,3}`).Draw(t, "name")
		room := vg.Length(rapid.Float64Range(15, 60).Draw(t, "room")) * vg.Millimeter
		lines := wrap(s, room, 8)
		for _, l := range lines {
			if widthOf(l, 8) > room {
				t.Fatalf("%q is wider than its room", l)
			}
		}
		if strings.ReplaceAll(strings.Join(lines, ""), " ", "") != strings.ReplaceAll(s, " ", "") {
			t.Fatalf("%q became %q", s, lines)
		}
	})
	assert.Len(t, wrapName(strings.Repeat("x", 10000), vg.Centimeter, 8), mostLines, "an endless name does not push a drawing off its page")
	assert.Empty(t, wrap("", vg.Millimeter, 8))
	assert.Equal(t, []string{"\xff", "\xff"}, wrap("\xff\xff", vg.Points(1), 8), "what is no text at all")
}

// textsOf are the texts of a drawing in its order.
func textsOf(t *testing.T, svg []byte) string {
	t.Helper()
	var out strings.Builder
	d := xml.NewDecoder(strings.NewReader(string(svg)))
	for {
		token, err := d.Token()
		if err != nil {
			return out.String()
		}
		if c, ok := token.(xml.CharData); ok {
			out.WriteString(strings.TrimSpace(string(c)))
		}
	}
}

// A name longer than its lane stands in the drawing whole, in the head of a vessel, beside a part, and in a row of figures.
func TestLongNamesStandInTheDrawingWhole(t *testing.T) {
	const name = "the-dose-volume-behind-the-whale's-second-blowhole"
	c := Circuit{Nodes: []CircuitNode{{Name: name, Note: "1 L", Instruments: []Instrument{{Name: name + "2"}}}, {Name: "barrel",
		Barrel: true}},
		Parts: []CircuitPart{{Number: 1, Name: name + "3", From: 0, To: 1, Exhaust: name + "4", Kind: ThreeWayClosedSymbol}}}
	d, err := c.Draw()
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	for _, want := range []string{name, name + "2", "1 " + name + "3", "exhaust to " + name + "4"} {
		assert.Contains(t, strings.ReplaceAll(textsOf(t, svg), " ", ""), strings.ReplaceAll(want, " ", ""))
	}
	d, err = Rows{Axis: "Energy, J", Rows: []Row{{Name: name, Mark: 1, Top: 1}}}.Draw()
	require.NoError(t, err)
	svg, err = d.SVG()
	require.NoError(t, err)
	assert.Contains(t, textsOf(t, svg), name)
}

// A rocket over its tube has the curved nose of a rocket; a ball in a bore is a circle. Nothing joined to the tube runs through the rocket.
func TestALauncherIsDrawnAsItsKind(t *testing.T) {
	ball := Circuit{Nodes: []CircuitNode{{Name: "dose"}, {Name: "barrel", Barrel: true}},
		Parts: []CircuitPart{{Number: 1, Name: "fire", Kind: ValveClosedSymbol, From: 0, To: 1}, {Number: 2, Name: "bleed", From: 1,
			To: Outside}}}
	tube := Circuit{Nodes: []CircuitNode{ball.Nodes[0], {Name: "barrel", Barrel: true, OverTube: true}}, Parts: ball.Parts}
	draw := func(c Circuit) string {
		d, err := c.Draw()
		require.NoError(t, err)
		svg, err := d.SVG()
		require.NoError(t, err)
		wellFormed(t, svg)
		return string(svg)
	}
	assert.Regexp(t, `[0-9]C[0-9.]+,`, draw(tube), "the nose")
	assert.NotRegexp(t, `[0-9]C[0-9.]+,`, draw(ball))
	l := tube.lay()
	for i := range tube.Parts {
		assert.Less(t, laneAt(l.part[i]), tube.tail(l, 1))
	}
}
