package doubt_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/doubt"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A pulse that may end before its valve is open counts as long enough to open it too, and one that is longer counts as stated. Own rule of
// this project.
func TestAPulseShorterThanTheOpening(t *testing.T) {
	for _, c := range []struct {
		low, high float64 // of the pulse, against an opening of 20 to 40 ms [s]
		counts    float64
		doubted   bool
	}{{3e-3, 3e-3, 40e-3, true}, {39e-3, 50e-3, 50e-3, true}, {40e-3, 41e-3, 41e-3, false}} {
		p := launcher.PathSpec{OpeningTime: sample.Between("", 20e-3, 40e-3), Pulse: sample.Between("", c.low, c.high)}
		doubt.Pulse(&p)
		assert.Equal(t, c.counts, p.Pulse.High, "%g s", c.low)
		assert.Equal(t, c.low, p.Pulse.Low)
		assert.Equal(t, c.doubted, p.PulseSaid.Doubted(), "%g s", c.low)
	}
	p := launcher.PathSpec{OpeningTime: sample.Between("", 20e-3, 40e-3)}
	doubt.Pulse(&p)
	assert.False(t, p.Pulse.Set, "no pulse")
}
