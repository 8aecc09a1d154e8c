package setpoint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A slow valve only fills a plugged barrel, to no more than the start: far from a rating of twice that. A ball that a fast one drives
// against the plug without friction is not (testdata/reference/plugged.csv: 0.95 bar can make 3.06 bar); nor is anything whose supply
// drives it.
func TestFarFromThePluggedRating(t *testing.T) {
	far := func(rating float64, changes ...func(*launcher.Launcher)) bool {
		s := solverFor(sample.Plain(changes...))
		s.ctx = sample.Weakly()
		is, err := s.farFromRating(rating, 0.95*sample.Bars)
		require.NoError(t, err)
		return is
	}
	slow := sample.FireCv(0.01)
	assert.True(t, far(2*sample.Bars, slow))
	assert.False(t, far(0.94*sample.Bars, slow), "what fills it is above its rating")
	assert.False(t, far(2*sample.Bars, sample.FireCv(60), sample.Friction(0, 0), func(l *launcher.Launcher) {
		l.Volumes[0].Volume = launcher.Exact("", 0.2)
	}))
	assert.False(t, far(math.Inf(1), slow, func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Exact("", 1) }), "a blower")
}
