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

// Places never touch, however close they want to be: they are at least a row apart, in their order, and on the page.
func TestPlacesNeverOverlap(t *testing.T) {
	const row = 7 * vg.Millimeter
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 14).Draw(t, "labels")
		low, high := vg.Length(17), 17+vg.Length(n+1)*row
		var want []vg.Length
		for range n {
			v := rapid.OneOf(rapid.Float64Range(0, 1), rapid.Just(1.0), rapid.Just(0.99)).Draw(t, "place")
			want = append(want, low+vg.Length(v)*(high-low))
		}
		got := spread(want, row, low, high)
		for i := range got {
			if got[i] < low-1e-9 || got[i] > high+1e-9 {
				t.Fatalf("label %d at %v, outside %v to %v", i, got[i], low, high)
			}
			for j := range got {
				// 1e-9 points: rounding of sums.
				if i != j && math.Abs(float64(got[i]-got[j])) < float64(row)-1e-9 {
					t.Fatalf("labels %d and %d are %v apart, a row is %v", i, j, got[i]-got[j], row)
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

// The ladder of a launcher whose rungs are 1 % apart: every name and figure stands in the drawing whole, nothing touches an edge.
func TestACrowdedLadderIsDrawn(t *testing.T) {
	l := Rows{Axis: "Pressure, psi gauge", Title: strings.Repeat("Whale float blowhole, revision C ", 3), Wide: true,
		Note: "Beyond the right edge: " + strings.Repeat("energy limit 34.7 psi, ", 8)}
	for i, n := range []string{"cut-in", "cut-out", "highest in normal running", "left in the heat", "relief full flow", "energy limit"} {
		v := 6.5 * math.Pow(1.01, float64(i))
		l.Rows = append(l.Rows, Row{Name: n, Low: 0.997 * v, Mark: v, Top: 1.003 * v, Value: fmt.Sprintf("%.2f psi;", v), Kind: RowKind(i % 3)})
	}
	d, err := l.Draw()
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	texts := strings.ReplaceAll(textsOf(t, svg), " ", "")
	for _, r := range l.Rows {
		assert.Contains(t, texts, strings.ReplaceAll(r.Name, " ", ""))
		assert.Contains(t, texts, strings.ReplaceAll(r.Value, " ", ""))
	}
	assert.Equal(t, 3, strings.Count(texts, "Whalefloatblowhole"))
	assert.Equal(t, 8, strings.Count(texts, "energylimit34.7psi"))
	unclipped(t, d)
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
