package figure

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// invented is a shot of an invented launcher: a smooth rise and fall of
// pressure, the speed that a mass gains from it. Only its shape matters here.
func invented() Curves {
	const n = 240
	var t, x, v, p []float64
	speed, at := 0.0, 0.0
	for i := range n {
		ms := 60 * float64(i) / (n - 1)
		bar := 0.42 * math.Pow(ms/12, 2) * math.Exp(2-ms/6)
		bar = math.Min(bar, 0.42)
		speed += 9.5 * bar * 60 / (n - 1) * 0.06
		at += speed * 60 / (n - 1)
		t, x, v, p = append(t, ms), append(x, at), append(v, speed), append(p, bar)
	}
	return Curves{
		Title:    "Whale float blowhole, revision C (invented figures)",
		Time:     Axis{t, "ms"},
		Travel:   Axis{x, "mm"},
		Speed:    Axis{v, "m/s"},
		Pressure: Axis{p, "bar gauge"},
		Exit:     &Exit{Time: t[n-40], Travel: x[n-40], Label: "leaves the muzzle at 4.1 m/s"},
	}
}

func TestShotSVGIsWellFormedAndSaysWhatItShows(t *testing.T) {
	svg, err := ShotSVG(invented())
	require.NoError(t, err)
	wellFormed(t, svg)
	for _, want := range []string{"Barrel pressure, bar gauge", "Speed, m/s", "Time after the command to fire, ms",
		"Travel from the seat, mm", "leaves the muzzle at 4.1 m/s", "Whale float blowhole"} {
		assert.Contains(t, string(svg), want)
	}
}

// wellFormed reads the whole document with the standard library's XML reader.
func wellFormed(t *testing.T, svg []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func TestHostileTitleStaysText(t *testing.T) {
	c := invented()
	c.Title = `</text><script>alert(1)</script> "&' ` + strings.Repeat("very long ", 100)
	svg, err := ShotSVG(c)
	require.NoError(t, err)
	wellFormed(t, svg)
	assert.NotContains(t, string(svg), "<script")
}

func TestSameShotSameBytes(t *testing.T) {
	a, err := ShotSVG(invented())
	require.NoError(t, err)
	b, err := ShotSVG(invented())
	require.NoError(t, err)
	assert.Equal(t, a, b)
}

func TestNoCurveIsAnError(t *testing.T) {
	for name, spoil := range map[string]func(*Curves){
		"empty":    func(c *Curves) { *c = Curves{} },
		"ragged":   func(c *Curves) { c.Speed.Values = c.Speed.Values[1:] },
		"NaN":      func(c *Curves) { c.Pressure.Values[3] = math.NaN() },
		"infinite": func(c *Curves) { c.Travel.Values[0] = math.Inf(1) },
	} {
		c := invented()
		spoil(&c)
		_, err := ShotSVG(c)
		assert.ErrorIs(t, err, ErrNoCurve, name)
	}
}

// A launcher that stalls, with every value 0, still makes a figure.
func TestFlatShotIsDrawn(t *testing.T) {
	zero := make([]float64, 5)
	c := Curves{Time: Axis{[]float64{0, 1, 2, 3, 4}, "ms"}, Travel: Axis{zero, "mm"}, Speed: Axis{zero, "m/s"}, Pressure: Axis{zero,
		"bar gauge"}}
	svg, err := ShotSVG(c)
	require.NoError(t, err)
	wellFormed(t, svg)
	assert.NotContains(t, string(svg), "NaN")
}

func TestCheckName(t *testing.T) {
	assert.NoError(t, CheckName("a/b.SVG"))
	assert.Error(t, CheckName("b.png"))
	assert.Error(t, CheckName(""))
}

// Every axis of every size has four to ten ticks with different labels.
func TestTicksAreFewAndDistinct(t *testing.T) {
	for e := -4; e <= 5; e++ {
		for _, m := range []float64{1, 1.3, 2, 2.7, 4.2, 5, 7.7, 9.99} {
			high := m * math.Pow(10, float64(e))
			ticks := evenTicks(0, high)
			assert.GreaterOrEqual(t, len(ticks), 4, "%g", high)
			assert.LessOrEqual(t, len(ticks), 11, "%g", high)
			seen := map[string]bool{}
			for _, k := range ticks {
				assert.False(t, seen[k.Label], "%g: label %s twice", high, k.Label)
				seen[k.Label] = true
				read, err := strconv.ParseFloat(k.Label, 64)
				require.NoError(t, err)
				// The label must be the place it stands at, to rounding.
				assert.InEpsilon(t, k.Value+1, read+1, 1e-9)
			}
		}
	}
	assert.Empty(t, evenTicks(1, 1))
	var _ plot.TickerFunc = evenTicks
}

// Nothing may touch the edge of the picture: a clipped label would.
func TestNothingIsClipped(t *testing.T) {
	canvas := vgimg.NewWith(vgimg.UseWH(shotWidth, shotHeight), vgimg.UseDPI(96))
	c := invented()
	last := c.Travel.Values[len(c.Travel.Values)-1]
	for i := range c.Travel.Values {
		c.Travel.Values[i] *= 20000 / last // the widest label stands at the very end
	}
	require.NoError(t, DrawShot(draw.New(canvas), c))
	img := canvas.Image()
	b := img.Bounds()
	dark := func(x, y int) bool { r, g, bl, _ := img.At(x, y).RGBA(); return r+g+bl < 3*0xC000 }
	for x := b.Min.X; x < b.Max.X; x++ {
		require.False(t, dark(x, b.Min.Y) || dark(x, b.Max.Y-1), "ink at the edge, column %d", x)
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		require.False(t, dark(b.Min.X, y) || dark(b.Max.X-1, y), "ink at the edge, row %d", y)
	}
	if path := os.Getenv("PUFFPROOF_FIGURE_PNG"); path != "" {
		big := vgimg.NewWith(vgimg.UseWH(shotWidth, shotHeight), vgimg.UseDPI(150))
		require.NoError(t, DrawShot(draw.New(big), invented()))
		f, err := os.Create(path)
		require.NoError(t, err)
		_, err = vgimg.PngCanvas{Canvas: big}.WriteTo(f)
		require.NoError(t, errors.Join(err, f.Close()))
	}
}
