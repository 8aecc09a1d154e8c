package limits

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A supply that stalls below the limit needs no switch.
func TestSetpointOfALimitedSource(t *testing.T) {
	l := sample.Plain(sample.Weak)
	l.Switch = nil
	l.Paths = l.Paths[:1]
	l.Supply.DeadHead = sample.Between("supply.dead_head", 0.08*sample.Bars, 0.10*sample.Bars)
	s := settingOf(t, l)
	assert.True(t, s.Works)
	assert.True(t, s.Source.Limited)
	assert.Equal(t, "source.limited", s.Binding)
	assert.Nil(t, s.CutOut)
	r := check(t, l)
	v := verdictOf(t, r, "source.limited")
	assert.Equal(t, finding.Pass, v.Status)
	for _, one := range r.Verdicts { // the first of the passes
		if one.Status == finding.Pass {
			assert.Equal(t, "source.limited", one.ID)
			break
		}
	}
}
