package doubt

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// A ball of 40 mm that is pressed flat by 8 mm, a fifth, leaves a print of 2 sqrt(8 x 32) = 32 mm (geometry of a sphere): what is stated
// wider than that counts from 13.3 mm, a third, on, until its print was taken.
func TestAPrintAsWideAsTheBall(t *testing.T) {
	assert.InDelta(t, mostPrint*40, 2*math.Sqrt(8*(40-8)), 1e-12, "rounding")
	of := func(low, high float64) *launcher.Launcher {
		l := &launcher.Launcher{}
		l.Projectile.Diameter = launcher.Exact("projectile.diameter", 40e-3)
		l.Projectile.ContactDiameter = launcher.Band{Set: true, Low: low, Nominal: (low + high) / 2, High: high}
		Print(l)
		return l
	}
	for _, c := range []struct{ low, high, counts float64 }{{20e-3, 24e-3, 20e-3}, {32e-3, 40e-3, 32e-3},
		{32.1e-3, 36e-3, 40e-3 / 3}, {40e-3, 40e-3, 40e-3 / 3}} {
		l := of(c.low, c.high)
		assert.InDelta(t, c.counts, l.Projectile.ContactDiameter.Low, 1e-12, "rounding")
		assert.Equal(t, c.high, l.Projectile.ContactDiameter.High)
		Print(l)
		assert.InDelta(t, c.counts, l.Projectile.ContactDiameter.Low, 1e-12, "doubted once")
	}
	assert.Empty(t, Items(of(20e-3, 24e-3)))

	wide := of(36e-3, 40e-3)
	assert.Len(t, Items(wide), 1)
	assert.Same(t, wide, Settled(wide, "2026-06-01"))
	for mm, counts := range map[float64]float64{38: 36e-3, 30: 40e-3 / 3} {
		wide.Checklist = []finding.Confirmation{{Item: finding.ItemPrint, Who: "A. B.", Date: "2026-05-30", Value: fmt.Sprintf("%g mm", mm),
			Figures: []finding.Figure{{Unit: finding.InMetre, Value: mm * 1e-3}}}}
		assert.InDelta(t, counts, Settled(wide, "2026-06-01").Projectile.ContactDiameter.Low, 1e-12, "a print of %g mm", mm)
	}
}

// A print between the stated ends closes the item, one outside does not. One that is stated without a width is met only by its own figure
// written once more: no answer closes that, in the expectation as in the refusal. At the narrowest that five prints can be one does.
func TestAPrintIsMeasured(t *testing.T) {
	item := func(low, high float64) finding.Item {
		l := &launcher.Launcher{}
		l.Projectile.ContactDiameter = launcher.Band{Set: true, Low: low, Nominal: (low + high) / 2, High: high}
		return PrintItem(l)
	}
	refused := func(it finding.Item, size float64) string {
		return finding.Refuses(&it, &finding.Confirmation{Item: it.ID, Who: "A. N.", Date: "2026-05-01", Value: "across",
			Figures: []finding.Figure{{Value: size, Unit: finding.InMetre}}}, "2026-06-01").String()
	}
	print := item(28e-3, 32e-3)
	assert.Equal(t, finding.FigureBetween(finding.InMetre, 28e-3, 32e-3), print.Figure)
	for size, closes := range map[float64]bool{27e-3: false, 30e-3: true, 33e-3: false} {
		assert.Equal(t, closes, refused(print, size) == "", size)
	}
	for width, closes := range map[float64]bool{0: false, 0.19e-3: false, 0.21e-3: true, 4e-3: true} {
		print := item(22e-3-width/2, 22e-3+width/2)
		why := refused(print, 22e-3)
		assert.Equal(t, closes, why == "", width)
		assert.Equal(t, !closes, strings.Contains(why, "stated without a width"), width)
		assert.Equal(t, !closes, strings.Contains(print.Expect.String(), "stated without a width"), width)
	}
}
