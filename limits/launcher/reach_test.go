package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A relief valve bears on a shot that can lift it, and on no other.
func TestAReliefValveBearsWhereItCanLift(t *testing.T) {
	l := sample.Plain(sample.WithRelief(sample.Between("set", 0.5e5, 0.7e5), launcher.Exact("full", 0.8e5), 5e-3, 0.6))
	bears := func(top float64) bool { return l.ReachUpTo(top).Paths[1] }
	assert.False(t, bears(0.5e5))
	assert.True(t, bears(0.51e5))
	l.Supply.RunsInStated = false
	assert.True(t, bears(0.1e5), "what the supply adds during the shot lifts it too")
	l.Supply = nil
	assert.False(t, bears(0.1e5))
	l.Paths[1].From = "barrel"
	assert.True(t, bears(0.1e5), "the projectile may push air back")
	l.Paths[1].Flow = launcher.FlowSpec{}
	assert.False(t, bears(9e5), "it passes nothing")
}
