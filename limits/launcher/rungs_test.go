package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A supply that ends the filling by itself has the band of its dead head on the ladder, not its top three times over.
func TestTheDeadHeadsRungHasItsBand(t *testing.T) {
	l := sample.Plain()
	l.Switch, l.Supply.RunsIn = nil, pneumatics.SetOf(pneumatics.Charging)
	l.Supply.DeadHead = launcher.Band{Set: true, Low: 0.32e5, Nominal: 0.35e5, High: 0.38e5}
	r := l.Rungs(math.NaN())[0]
	assert.Equal(t, "dead head", r.Name)
	assert.InDeltaSlice(t, []float64{0.32e5, 0.35e5, 0.38e5}, []float64{r.Low, r.Gauge, r.High}, 1)
}

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
