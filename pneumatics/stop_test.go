package pneumatics

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A long run ends soon after it is not wanted any more, and is withheld; one that is
// wanted is the same, bit for bit, whether or not it asks.
func TestARunThatIsNotWantedEnds(t *testing.T) {
	c, sc := rocketOnHose(2, true)
	var alone, asked, stopped Sim
	whole := alone.Run(c, sc, Options{})
	questions := 0
	same := asked.Run(c, sc, Options{Stop: func() bool { questions++; return false }})
	assert.Equal(t, fmt.Sprintf("%+v", *whole), fmt.Sprintf("%+v", *same), "as text, for a figure that is not known equals none")
	assert.Greater(t, questions, 0)
	half := 0
	r := stopped.Run(c, sc, Options{Stop: func() bool { half++; return half > questions/2 }})
	assert.Less(t, r.Time, whole.Time)
	assert.Contains(t, r.Withheld(), "stopped")
}
