package figure

import (
	"bytes"
	"errors"
	"image/color"
	"regexp"
	"sync"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Drawing is a finished figure as a list of strokes, fills and texts. The same
// list makes the SVG, the PDF and whatever else can be drawn on.
type Drawing struct {
	Width, Height vg.Length
	strokes       recorder.Canvas
	from, to      float64 // where the axis of a chart begins and ends, as shares of the width
	top           float64 // the value at its end
}

// Across is where a value of x lies on a chart, which begins at x = 0, as a share of the drawing's width from the left.
func (d *Drawing) Across(x float64) float64 { return d.from + (d.to-d.from)*x/d.top }

// Size is the drawing's size in millimetres.
func (d *Drawing) Size() (width, height float64) {
	return float64(d.Width / vg.Millimeter), float64(d.Height / vg.Millimeter)
}

// newDrawing records what paint draws. The recorder knows the fonts of a canvas
// of its own, so every drawing stands alone.
func newDrawing(width, height vg.Length, paint func(dc draw.Canvas) error) (*Drawing, error) {
	d := &Drawing{Width: width, Height: height}
	if err := paint(draw.NewCanvas(&d.strokes, width, height)); err != nil {
		return nil, err
	}
	return d, nil
}

// Replay draws the drawing on any canvas.
func (d *Drawing) Replay(c vg.Canvas) error { return d.strokes.ReplayOn(c) }

// sizeInPoints is the size that the SVG library writes into the root element.
var sizeInPoints = regexp.MustCompile(`<svg width="[^"]*" height="[^"]*"`)

// SVG gives the drawing as an <svg> element without a fixed size: it fills the
// width that the page gives it. The XML prologue is left out.
func (d *Drawing) SVG() ([]byte, error) {
	out, err := svg(d.Width, d.Height, func(dc draw.Canvas) error { return d.Replay(dc.Canvas) })
	if err != nil {
		return nil, err
	}
	start := bytes.Index(out, []byte("<svg "))
	if start < 0 {
		return nil, errors.New("the drawing has no root element")
	}
	return sizeInPoints.ReplaceAll(out[start:], []byte("<svg")), nil
}

// svg is what paint draws as an SVG document. A viewer without the figures' font
// takes one of the same widths, and failing that any.
func svg(width, height vg.Length, paint func(dc draw.Canvas) error) ([]byte, error) {
	canvas := vgsvg.New(width, height)
	if err := paint(draw.New(canvas)); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if _, err := canvas.WriteTo(&b); err != nil {
		return nil, err
	}
	return bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")), nil
}

// sans is the one typeface of all figures.
func sans(points float64) font.Font {
	return font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Points(points)}
}

// words is a style of text: its size [pt] and colour, and where in it the point lies
// that it is written at.
func words(points float64, ink color.Color, x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{Font: sans(points), Color: ink, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// widthOf is how wide a text is in the figures' typeface. A paper writes the same words many times over.
func widthOf(s string, points float64) vg.Length {
	return known.width(written{s, points}, func() vg.Length {
		face := faces().Lookup(sans(points), vg.Points(points))
		return face.Width(s)
	})
}

// written is a text in a size [pt].
type written struct {
	text   string
	points float64
}

// widths are those of texts that were measured, the latest few thousand.
type widths struct {
	sync.Mutex
	of map[written]vg.Length
}

var known widths

// width is that of a text, as measure gives it.
func (k *widths) width(w written, measure func() vg.Length) vg.Length {
	const most = 4096
	k.Lock()
	defer k.Unlock()
	wide, ok := k.of[w]
	if !ok {
		if len(k.of) >= most || k.of == nil {
			k.of = map[written]vg.Length{}
		}
		wide = measure()
		k.of[w] = wide
	}
	return wide
}

// faces are the fonts to measure with, read once.
var faces = sync.OnceValue(func() *font.Cache { return font.NewCache(liberation.Collection()) })
