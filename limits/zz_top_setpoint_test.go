package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A supply that stalls below the limit needs no switch.
func TestSetpointOfALimitedSource(t *testing.T) {
	l := plain(weak)
	l.Switch = nil
	l.Paths = l.Paths[:1]
	l.Supply.DeadHead = between("supply.dead_head", 0.08*bars, 0.10*bars)
	s := setpoint(t, l)
	assert.True(t, s.Works)
	assert.True(t, s.Source.Limited)
	assert.Equal(t, "source.limited", s.Binding)
	assert.Nil(t, s.CutOut)
	r := check(t, l)
	v := verdictOf(t, r, "source.limited")
	assert.Equal(t, Pass, v.Status)
	for _, one := range r.Verdicts { // the first of the passes
		if one.Status == Pass {
			assert.Equal(t, "source.limited", one.ID)
			break
		}
	}
}
