package figure

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"pgregory.net/rapid"
)

// crowded is a ladder of an invented launcher with rungs 1 % apart.
func crowded(unit string, factor float64) Ladder {
	names := []string{"cut-in", "cut-out", "highest in normal running", "left in the heat", "relief set", "relief full flow",
		"highest at a fault", "energy limit", "lowest rating"}
	l := Ladder{Title: "Whale float blowhole, revision C (invented figures)", Unit: unit}
	for i, n := range names {
		v := 0.45 * math.Pow(1.01, float64(i)) * factor
		l.Rungs = append(l.Rungs, LadderRung{Name: n, Value: v, Low: 0.997 * v, High: 1.003 * v,
			Label: fmt.Sprintf("%.3f  (%.3f to %.3f)", v, 0.997*v, 1.003*v), Limit: i > 6})
	}
	return l
}

// Labels never touch, in any unit, however close the rungs: their places are at
// least a row apart, in the order of the rungs, and on the page.
func TestLadderLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 14).Draw(t, "rungs")
		top := rapid.Float64Range(0.01, 200).Draw(t, "top")
		var rungs []LadderRung
		for range n {
			v := rapid.OneOf(rapid.Float64Range(0, top), rapid.Just(top), rapid.Just(0.99*top)).Draw(t, "pressure")
			rungs = append(rungs, LadderRung{Name: "rung", Value: v, Low: v, High: v})
		}
		low, high := ladderBottom, ladderHeight(n)-13*vg.Millimeter
		a := ladderScale(rungs, low, high)
		want := a.wanted(rungs)
		got := spread(want, rowHeight, low, high)
		for i := range got {
			if got[i] < low-1e-9 || got[i] > high+1e-9 {
				t.Fatalf("label %d at %v, outside %v to %v", i, got[i], low, high)
			}
			for j := range got {
				// 1e-9 points: rounding of sums.
				if i != j && math.Abs(float64(got[i]-got[j])) < float64(rowHeight)-1e-9 {
					t.Fatalf("labels %d and %d are %v apart, a row is %v", i, j, got[i]-got[j], rowHeight)
				}
				if want[i] < want[j] && got[i] > got[j] {
					t.Fatalf("labels %d and %d have changed places", i, j)
				}
			}
		}
	})
}

// A place that has room stays where it wants to be.
func TestSpreadMovesNothingWithoutNeed(t *testing.T) {
	assert.Equal(t, []vg.Length{20, 60, 100}, spread([]vg.Length{20, 60, 100}, 10, 0, 120))
	// Two that want the same place go half a row each way.
	assert.Equal(t, []vg.Length{45, 55}, spread([]vg.Length{50, 50}, 10, 0, 120))
}

func TestLadderSVGSaysWhatItShows(t *testing.T) {
	for unit, factor := range map[string]float64{"bar gauge": 1, "psi gauge": 14.5038} {
		svg, err := LadderSVG(crowded(unit, factor))
		require.NoError(t, err)
		wellFormed(t, svg)
		for _, r := range crowded(unit, factor).Rungs {
			assert.Contains(t, string(svg), r.Name)
			assert.Contains(t, string(svg), r.Label)
		}
		assert.Contains(t, string(svg), unit)
	}
}

func TestLadderThatCannotBeDrawn(t *testing.T) {
	for name, l := range map[string]Ladder{"empty": {}, "no number": {Rungs: []LadderRung{{Value: math.NaN()}}},
		"infinite": {Rungs: []LadderRung{{High: math.Inf(1)}}}, "negative": {Rungs: []LadderRung{{Low: -1}}}} {
		_, err := LadderSVG(l)
		assert.ErrorIs(t, err, ErrNoCurve, name)
	}
	svg, err := LadderSVG(Ladder{Title: "</text><script>", Rungs: []LadderRung{{Name: "zero"}}})
	require.NoError(t, err)
	assert.NotContains(t, string(svg), "<script")
}

// Nothing touches the edge of the picture, and the widest label fits.
func TestLadderIsNotClipped(t *testing.T) {
	l := crowded("psi gauge", 14.5038*10)
	canvas := vgimg.NewWith(vgimg.UseWH(ladderWidth, ladderHeight(len(l.Rungs))), vgimg.UseDPI(96))
	require.NoError(t, DrawLadder(draw.New(canvas), l))
	noInkAtEdge(t, canvas)
	savePNG(t, "PUFFPROOF_LADDER_PNG", ladderWidth, ladderHeight(len(l.Rungs)), func(dc draw.Canvas) error {
		return DrawLadder(dc,
			crowded("bar gauge", 1))
	})
}

func noInkAtEdge(t *testing.T, canvas *vgimg.Canvas) {
	t.Helper()
	img := canvas.Image()
	b := img.Bounds()
	dark := func(x, y int) bool { r, g, bl, _ := img.At(x, y).RGBA(); return r+g+bl < 3*0xC000 }
	for x := b.Min.X; x < b.Max.X; x++ {
		require.False(t, dark(x, b.Min.Y) || dark(x, b.Max.Y-1), "ink at the edge, column %d", x)
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		require.False(t, dark(b.Min.X, y) || dark(b.Max.X-1, y), "ink at the edge, row %d", y)
	}
}

// savePNG writes a picture to look at where the variable names a file.
func savePNG(t *testing.T, variable string, w, h vg.Length, paint func(draw.Canvas) error) {
	t.Helper()
	path := os.Getenv(variable)
	if path == "" {
		return
	}
	big := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(130))
	require.NoError(t, paint(draw.New(big)))
	f, err := os.Create(path)
	require.NoError(t, err)
	_, err = vgimg.PngCanvas{Canvas: big}.WriteTo(f)
	require.NoError(t, errors.Join(err, f.Close()))
}

// allowed is an invented plan.
func allowed() Allowed {
	a := Allowed{Title: "Air for at most 0.50 J out of a bore of 40 mm", Pressure: "bar gauge", Volume: "mL"}
	for i, name := range []string{"ceiling", "50 mm travel", "100 mm travel", "200 mm travel"} {
		l := Line{Name: name}
		for _, p := range []float64{0.05, 0.1, 0.2, 0.5, 1, 2, 4} {
			l.X = append(l.X, p)
			l.Y = append(l.Y, 40/(p*p)*(1+0.1*float64(i)))
		}
		a.Lines = append(a.Lines, l)
	}
	return a
}

func TestAllowedSVGSaysWhatItShows(t *testing.T) {
	svg, err := AllowedSVG(allowed())
	require.NoError(t, err)
	wellFormed(t, svg)
	for _, want := range []string{"Charge pressure, bar gauge", "Air that may reach the barrel, mL", "ceiling", "200 mm travel"} {
		assert.True(t, strings.Contains(string(svg), want), want)
	}
	canvas := vgimg.NewWith(vgimg.UseWH(shotWidth, shotHeight), vgimg.UseDPI(96))
	require.NoError(t, DrawAllowed(draw.New(canvas), allowed()))
	noInkAtEdge(t, canvas)
	savePNG(t, "PUFFPROOF_ALLOWED_PNG", shotWidth, shotHeight, func(dc draw.Canvas) error { return DrawAllowed(dc, allowed()) })
	_, err = AllowedSVG(Allowed{})
	assert.ErrorIs(t, err, ErrNoCurve)
}
