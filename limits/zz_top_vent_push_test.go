package limits

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The expected time lies in its own bracket, also where volumes empty through one
// another.
func TestTheExpectedTimeLiesInItsBracket(t *testing.T) {
	chained := sample.VentedTank()
	chained.Volumes = append(chained.Volumes, launcher.VolumeSpec{Name: "dose", Volume: sample.Between("", 0.9e-3, 1.1e-3)})
	chained.Paths = append(chained.Paths, launcher.PathSpec{Name: "join", From: "dose", To: "tank", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(1e-3, 0.75)})
	for name, l := range map[string]*launcher.Launcher{"two dumps": sample.Dumped(), "chained": chained} {
		for _, c := range emptied(t, l).Cases {
			assert.LessOrEqual(t, c.Expected, c.Slowest, name+" "+c.Scenario+" "+c.Volume)
			assert.LessOrEqual(t, c.Fastest, c.Expected, name+" "+c.Scenario+" "+c.Volume)
		}
	}
}

// A short that opens the feed while loading: it does not shoot by itself, but it
// says what the dose then holds. A relief valve that is set too high is latent, and
// with a welded switch as bad as one that sticks.
func TestFeedAndReliefFaultsThatNeedASecondOne(t *testing.T) {
	r, err := Faults(weakly(), sample.Dumped(), FaultOptions{Pairs: fault.EveryPair})
	require.NoError(t, err)
	feed := faultNamed(t, r.Faults, "feed.energised-unasked.loading")
	assert.Equal(t, fault.NoEffect, feed.Effect)
	high := faultNamed(t, r.Faults, "relief.set-too-high-or-opens-late")
	assert.True(t, high.Latent)
	assert.Equal(t, finding.ItemReliefTest, high.RevealedBy)
	worst := map[string]float64{}
	for _, p := range r.Pairs {
		if p.ID == "pressure-switch.welded-never-stops-the-supply" {
			worst[p.With] = p.Judged
		}
	}
	assert.Positive(t, worst["relief.stuck-shut"])
	assert.InDelta(t, worst["relief.stuck-shut"], worst["relief.set-too-high-or-opens-late"], 1e-9)
}
