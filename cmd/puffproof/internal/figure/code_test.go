package figure

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// The figure is a QR code by its outside: three finder patterns of 7 modules, a margin of 4 modules (ISO/IEC 18004:2015, 6.3; from
// memory), read off the picture that a camera sees. What it says was read with zbarimg 0.23.92 off the PDF of a card at 100 dots an
// inch, as the text that went in.
func TestACodeIsAQRCode(t *testing.T) {
	says := "puffproof card 2026-05-31 sha256:" + strings.Repeat("0123456789abcdef", 4)
	d, err := Code(says)
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	wellFormed(t, svg)
	const modules = 41 + 2*quietZone // version 6 of level M holds 106 bytes
	canvas := vgimg.NewWith(vgimg.UseWH(d.Width, d.Height), vgimg.UseDPI(300))
	require.NoError(t, d.Replay(draw.New(canvas).Canvas))
	img := canvas.Image()
	dark := func(x, y int) bool {
		px := float64(img.Bounds().Dx()) / modules
		r, _, _, _ := img.At(int((float64(x)+0.5)*px), int((float64(y)+0.5)*px)).RGBA()
		return r < 0x8000
	}
	for k := range modules {
		for _, edge := range []int{0, 3, modules - 4, modules - 1} {
			assert.False(t, dark(k, edge) || dark(edge, k), "the margin at %d", k)
		}
	}
	for name, corner := range map[string][2]int{"upper left": {4, 4}, "upper right": {modules - 11, 4}, "lower left": {4, modules - 11}} {
		for y := range 7 {
			for x := range 7 {
				ring := x == 0 || y == 0 || x == 6 || y == 6 || x >= 2 && x <= 4 && y >= 2 && y <= 4
				assert.Equal(t, ring, dark(corner[0]+x, corner[1]+y), "%s finder at %d, %d", name, x, y)
			}
		}
	}
	for k := 8; k < 41-8; k++ { // timing patterns
		assert.Equal(t, k%2 == 0, dark(quietZone+k, quietZone+6), "timing at %d", k)
	}
	other, err := Code(says + "x")
	require.NoError(t, err)
	b, err := other.SVG()
	require.NoError(t, err)
	assert.NotEqual(t, string(svg), string(b))
	_, err = Code(strings.Repeat("x", 5000))
	assert.Error(t, err)
}
