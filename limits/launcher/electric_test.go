package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/control"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A launcher whose valves hands turn, filled by a hand pump or from a main, has no current in it; each of what needs some gives it back.
func TestWhatHasCurrent(t *testing.T) {
	byHand := func(change func(*launcher.Launcher)) bool {
		return sample.Plain(func(l *launcher.Launcher) {
			l.Control, l.Switch, l.Supply.Kind = nil, nil, launcher.ShopAir
			for i := range l.Paths {
				if l.Paths[i].Kind == pneumatics.Valve {
					l.Paths[i].Kind = pneumatics.HandValve
				}
			}
		}, change).Electric()
	}
	assert.False(t, byHand(func(*launcher.Launcher) {}))
	assert.False(t, byHand(func(l *launcher.Launcher) { l.Supply = nil }), "it comes filled")
	assert.True(t, byHand(func(l *launcher.Launcher) { l.Supply.Kind = launcher.Compressor }))
	assert.True(t, byHand(func(l *launcher.Launcher) { l.Switch = &launcher.SwitchSpec{} }))
	assert.True(t, byHand(func(l *launcher.Launcher) { l.Paths[0].Kind = pneumatics.Valve }))
	assert.True(t, byHand(func(l *launcher.Launcher) { l.Control = &control.Wiring{} }))
}
