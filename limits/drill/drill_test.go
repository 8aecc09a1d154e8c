package drill

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// One drill, right for the kind: the air first, by what this launcher has; in a bore the rod from behind with the barrel
// off, over a tube a twist sideways and no rod; where nothing lets the air out nobody touches it.
func TestTheJamDrillFitsTheLauncher(t *testing.T) {
	tight := sample.Dumped()
	text := Jam(tight).String()
	assert.Contains(t, text, "NOTHING in this design lets out the air")
	assert.NotContains(t, text, "rod")

	sample.Bled(tight)
	text = Jam(tight).String()
	assert.Contains(t, text, "leaves by what is always open, bleed")
	assert.Contains(t, text, "Wait 60 s")
	assert.Contains(t, text, "rod from behind")
	for _, early := range []string{"Nobody in line", "the plug out", "Wait", "leaves by"} {
		assert.Less(t, strings.Index(text, early), strings.Index(text, "take the barrel off"), early)
	}

	tube := sample.Plain(sample.OverTube, func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "drain", From: "tank", To: "atmosphere", Kind: pneumatics.HandValve})
	})
	text = Jam(tube).String()
	assert.Contains(t, text, "by hand: drain")
	assert.Contains(t, text, "twist the projectile off sideways")
	assert.NotContains(t, text, "rod")
	assert.NotContains(t, text, "bore")
}
