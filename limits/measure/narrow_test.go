package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A stated band and a reading: inside it narrows, around it tells nothing, partly
// or wholly outside the union is used. A band nobody stated is replaced.
func TestReadingMeetsBand(t *testing.T) {
	stated := sample.Between("k", 2, 4)
	for _, c := range []struct {
		name              string
		low, high         float64
		wantLow, wantHigh float64
		want              launcher.Meeting
	}{
		{"inside", 2.5, 3.5, 2.5, 3.5, launcher.Narrows},
		{"around", 1, 5, 2, 4, launcher.TellsNothing},
		{"same", 2, 4, 2, 4, launcher.TellsNothing},
		{"partly above", 3, 5, 2, 5, launcher.Clashes},
		{"partly below", 1, 3, 1, 4, launcher.Clashes},
		{"above", 6, 7, 2, 7, launcher.Clashes},
		{"below", 0, 1, 0, 4, launcher.Clashes},
	} {
		out, m := launcher.Meet(stated, sample.Between("k", c.low, c.high))
		assert.Equal(t, c.want, m, c.name)
		assert.Equal(t, [2]float64{c.wantLow, c.wantHigh}, [2]float64{out.Low, out.High}, c.name)
	}
	assumed := stated
	assumed.Assumed = true
	out, m := launcher.Meet(assumed, sample.Between("k", 6, 7))
	assert.Equal(t, launcher.Narrows, m)
	assert.InDelta(t, 6, out.Low, 0)
}

// A click holds dead time: it lowers the slow end and never lifts the fast one,
// unless that was measured.
func TestClickNeverLiftsTheFastEnd(t *testing.T) {
	stated := sample.Between("paths.fire.opening_time", 0, 40e-3)
	read := MeasuredBand("paths.fire.opening_time", 20e-3, 25e-3, 30e-3, finding.Words("click"))
	out := popEnd(stated, read)
	assert.InDelta(t, 0, out.Low, 0)
	assert.InDelta(t, 30e-3, out.High, 0)
	stated.Origin = launcher.Measured
	assert.InDelta(t, 20e-3, popEnd(stated, read).Low, 0)

	// Wholly slower than stated: both count, nothing passes.
	l := sample.Gentle()
	l.Paths[0].OpeningTime = sample.Between("paths.fire.opening_time", 0, 10e-3)
	e := &Findings{}
	e.UseBench(l, &BenchValue{Kind: ClickToPop, Lines: []int{2}, Band: MeasuredBand("paths.fire.opening_time", 60e-3, 80e-3, 99e-3,
		finding.Words("click"))})
	require.Len(t, e.Clashes, 1)
	narrowed := e.Narrow(l).Paths[0].OpeningTime
	assert.Equal(t, [2]float64{0, 99e-3}, [2]float64{narrowed.Low, narrowed.High})
}
