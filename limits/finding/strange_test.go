package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure of something else answers no item that speaks of figures.
func TestAnswersInAnotherQuantity(t *testing.T) {
	shots := &Item{Expect: Say("about %s; every shot below %s", Speed(5), Joule(0.2))}
	mass, speed, pressure := Figure{0.46, "mass"}, Figure{5, InMetrePerSecond}, Figure{0.46e5, InPascalGauge}
	for _, c := range []struct {
		item    *Item
		figures []Figure
		refused bool
	}{
		{shots, []Figure{mass}, true},
		{shots, []Figure{{3, InSecond}}, true},
		{shots, []Figure{mass, speed}, false},
		{shots, []Figure{pressure}, true},            // it says nothing of how they flew
		{shots, []Figure{{0, InPascalGauge}}, false}, // a gauge at nothing belongs to any test
		{shots, nil, false},
		// of what the title asks for: "clipped each 200 mm, held"
		{&Item{Title: Say("clipped every %s", Millimetre(0.2)), Expect: Say("a loose end pushes with %s", Newton(6))},
			[]Figure{{0.2, InMetre}}, false},
		{&Item{Title: Say("clipped every %s", Millimetre(0.2)), Expect: Say("a loose end pushes with %s", Newton(6))}, []Figure{mass}, true},
		{&Item{Expect: Words("nothing hard is felt")}, []Figure{mass}, false},
	} {
		why := Refuses(c.item, &Confirmation{Who: "A.", Date: "2026-05-01", Value: "text", Figures: c.figures}, "2026-05-02")
		assert.Equal(t, c.refused, len(why) > 0, "%v", c.figures)
	}
}
