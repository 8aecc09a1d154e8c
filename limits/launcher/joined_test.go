package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// What bears on a shot and what shares a pressure while charging, read off the drawing.
func TestWhatIsJoinedInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	r := launcher.ReachOf(l)
	assert.Equal(t, []string{"tank", "dose", "side", "buffer"}, sample.VolumesOf(l, r.Volumes))
	var paths []string
	for i, yes := range r.Paths {
		if yes {
			paths = append(paths, l.Paths[i].Name)
		}
	}
	assert.Equal(t, []string{"fire", "feed", "regulator", "buffer valve"}, paths)
	assert.Equal(t, []string{"tank", "dose"}, sample.VolumesOf(l, l.JoinedTo(l.Node("dose"))))
	assert.Equal(t, []string{"store"}, sample.VolumesOf(l, l.JoinedTo(l.Node("store"))))
}
