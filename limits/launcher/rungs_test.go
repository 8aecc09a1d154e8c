package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
)

// The order in which verdicts and rungs come is that of the ladder.
func TestRungsAreInOrder(t *testing.T) {
	rungs := sample.Plain(sample.Orderly).Rungs(0.9 * sample.Bars)
	var names []string
	for i, r := range rungs {
		names = append(names, r.Name)
		assert.LessOrEqual(t, r.Low, r.Gauge, r.Name)
		assert.GreaterOrEqual(t, r.High, r.Gauge, r.Name)
		if i > 0 {
			assert.GreaterOrEqual(t, r.Gauge, rungs[i-1].Gauge, r.Name)
		}
	}
	assert.Equal(t, []string{"cut-in", "cut-out", "highest in normal running", "relief set", "relief full flow", "highest at a fault",
		"energy limit", "lowest rating"}, names)
}
