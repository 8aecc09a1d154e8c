package figure

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// tree is a claim with two measures: one shown, one undeveloped, one refuted.
func tree(id string) Claim {
	return Claim{ID: id, Text: "every measure is in force against a hazard with a long name of its own", Below: []Claim{
		{ID: id + "a", Text: "design: little energy", Below: []Claim{
			{ID: "Sn1", Text: "verdict energy.total: 0.26 J of 0.50 J", Shape: SolutionShape},
			{ID: "Sn2", Text: "FAILS: verdict energy.fault", Shape: SolutionShape, Against: true}}},
		{ID: id + "b", Text: "guard: stops", Below: []Claim{{ID: id + "c", Text: "test: push the stops", Undeveloped: true}}},
		{ID: id + "d", Text: "nothing shows it", Undeveloped: true}}}
}

// GSN Community Standard, version 3 (2021; from memory): solutions are circles, a diamond marks what is undeveloped, and only that.
func TestTheNotationOfClaims(t *testing.T) {
	drawings, err := ClaimTrees([]Claim{tree("G1")}, 200)
	require.NoError(t, err)
	require.Len(t, drawings, 1)
	svg, err := drawings[0].SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	texts := textsOf(t, svg)
	for _, want := range []string{"G1: every measure", "Sn1", "FAILS", "G1c: test"} {
		assert.Contains(t, texts, want)
	}
	assert.Equal(t, 2, diamonds(t, drawings[0]), "the two that are undeveloped")
	assert.Equal(t, 2*2, strings.Count(string(svg), "A10.77"), "two half circles for each solution, of 3.8 mm")
	_, err = ClaimTrees(nil, 200)
	assert.ErrorIs(t, err, ErrNoCurve)
}

// diamonds counts the closed outlines of four equal sides that stand on a corner.
func diamonds(t *testing.T, d *Drawing) int {
	t.Helper()
	svg, err := d.SVG()
	require.NoError(t, err)
	n := 0
	for _, path := range strings.Split(string(svg), "<path d=\"M")[1:] {
		points := strings.Split(strings.TrimSpace(path[:strings.Index(path, "\"")]), "L")
		if len(points) != 5 || points[0] != points[4] {
			continue
		}
		x := func(k int) string { return strings.Split(points[k], ",")[0] }
		if x(0) == x(2) && x(1) != x(3) {
			n++
		}
	}
	return n
}

// Trees are shared out over drawings of the height of a page, each whole on one of them, and nothing touches an edge.
func TestTreesAreSharedOut(t *testing.T) {
	var all []Claim
	for range 9 {
		all = append(all, tree("G7"))
	}
	drawings, err := ClaimTrees(all, 100)
	require.NoError(t, err)
	assert.Greater(t, len(drawings), 2)
	found := 0
	for _, d := range drawings {
		_, height := d.Size()
		assert.LessOrEqual(t, height, 100.0)
		svg, err := d.SVG()
		require.NoError(t, err)
		found += strings.Count(textsOf(t, svg), "G7: every")
		unclipped(t, d)
	}
	assert.Equal(t, 9, found)
	tall, err := ClaimTrees(all[:2], 1)
	require.NoError(t, err)
	assert.Len(t, tall, 2, "one that is higher than the page is drawn all the same")
}

// unclipped holds a drawing to its edges.
func unclipped(t *testing.T, d *Drawing) {
	t.Helper()
	canvas := vgimg.NewWith(vgimg.UseWH(d.Width, d.Height), vgimg.UseDPI(72))
	require.NoError(t, d.Replay(draw.New(canvas).Canvas))
	img := canvas.Image()
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for _, x := range []int{b.Min.X, b.Max.X - 1} {
			r, g, bl, _ := img.At(x, y).RGBA()
			require.GreaterOrEqual(t, r+g+bl, uint32(3*0x4000), "ink at the edge, row %d", y)
		}
	}
}

func TestTheOverviewOfAnArgument(t *testing.T) {
	columns := []ClaimColumn{{"Of what flies", []Claim{tree("G2"), {ID: "G3", Text: "open", Undeveloped: true}}}, {"Of who is near", nil}}
	further := Claim{ID: "S2", Text: strings.Repeat("over all else ", 12), Shape: StrategyShape}
	d, err := ClaimOverview(Claim{ID: "G1", Text: strings.Repeat("what was shown ", 30)}, Claim{ID: "S1", Text: "over each",
		Shape: StrategyShape},
		further, []string{"C1: the design file", "C2: benchmarks"}, columns)
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	texts := textsOf(t, svg)
	assert.Equal(t, 30, strings.Count(strings.ReplaceAll(texts, " ", ""), "whatwasshown"), "nothing is cut")
	assert.Equal(t, 12, strings.Count(strings.ReplaceAll(texts, " ", ""), "overallelse"))
	for _, want := range []string{"C1: the design file", "Of who is near", "G3: open"} {
		assert.Contains(t, texts, want)
	}
	assert.Equal(t, 1, diamonds(t, d))
	unclipped(t, d)
	_, err = ClaimOverview(Claim{}, Claim{}, Claim{}, nil, nil)
	assert.ErrorIs(t, err, ErrNoCurve)
}
