package figure

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func bowtie(threats int) Bowtie {
	b := Bowtie{Event: "air stays in it", Before: []BowtieBox{{"Design: a vent", BarrierStands}, {"Guard: a gauge. OPEN: gauge.compare",
		BarrierOpen}},
		Behind: []BowtieBox{{"Information: a tag. FAILS: open.tag", BarrierFails}}, Harms: []string{"hit unawares", "a lost eye"}}
	for i := range threats {
		b.Threats = append(b.Threats, BowtieThreat{Text: fmt.Sprintf("fault-%d;", i), Own: BowtieBox{"clean, drained air; seen by the vent " +
			"test", BarrierOpen}})
	}
	return b
}

// Everything of a bow-tie is in its drawing, whole; nothing touches an edge.
func TestABowtieIsDrawn(t *testing.T) {
	for _, n := range []int{1, 2, 9} {
		b := bowtie(n)
		b.Threats[0].Own = BowtieBox{}
		d, err := b.Draw()
		require.NoError(t, err)
		svg, err := d.SVG()
		require.NoError(t, err)
		wellFormed(t, svg)
		texts := textsOf(t, svg)
		for _, want := range []string{"fault-0;", fmt.Sprintf("fault-%d;", n-1), "air stays in it", "Design: a vent", "FAILS:",
			"hit unawares", "a lost eye"} {
			assert.Contains(t, texts, want)
		}
		unclipped(t, d)
	}
	_, err := Bowtie{Event: "x"}.Draw()
	assert.ErrorIs(t, err, ErrNoCurve)
}

// What has no room on a page is counted, never left out in silence.
func TestABowtieFitsItsPage(t *testing.T) {
	more := func(n int) string { return fmt.Sprintf("and %d more", n) }
	b := bowtie(60).Fit(200, more)
	assert.LessOrEqual(t, float64(b.height()/mm), 200.0)
	assert.Equal(t, fmt.Sprintf("and %d more", 60-len(b.Threats)), b.More)
	d, err := b.Draw()
	require.NoError(t, err)
	svg, err := d.SVG()
	require.NoError(t, err)
	assert.Contains(t, textsOf(t, svg), b.More)
	assert.Empty(t, bowtie(3).Fit(200, more).More)
}
