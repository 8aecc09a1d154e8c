package figure

import (
	"image/color"

	"github.com/boombuler/barcode/qr"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// quietZone is the white margin of a QR code on each side, in modules (ISO/IEC 18004:2015, 6.3.8; from memory).
const quietZone = 4

// codeSize is the side of a code with its margin: its modules stay above half a millimetre up to version 9.
const codeSize = 30 * vg.Millimeter

// Code draws a text as a QR code with its margin, of error correction level M: some 15 % of it may be soiled. The error is that of a text
// that is too long for one.
func Code(says string) (*Drawing, error) {
	code, err := qr.Encode(says, qr.M, qr.Unicode)
	if err != nil {
		return nil, err
	}
	n := code.Bounds().Dx()
	dark := func(x, y int) bool { return x < n && code.At(x, y) == code.ColorModel().Convert(color.Black) }
	return newDrawing(codeSize, codeSize, func(dc draw.Canvas) error {
		module := codeSize / vg.Length(n+2*quietZone)
		at := func(x, y int) vg.Point { // the upper left corner of a module
			return vg.Point{X: module * vg.Length(x+quietZone), Y: codeSize - module*vg.Length(y+quietZone)}
		}
		for y := range n {
			for x := 0; x < n; x++ { // the dark modules that touch in a row are one stroke: no hairline between
				end := x
				for dark(end, y) {
					end++
				}
				if end > x {
					a, b := at(x, y), at(end, y+1)
					dc.FillPolygon(color.Black, []vg.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}})
					x = end
				}
			}
		}
		return nil
	})
}
