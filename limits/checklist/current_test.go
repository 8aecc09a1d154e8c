package checklist

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Nobody is asked for the fuses of a launcher that has no current in it.
func TestWithoutCurrentThereAreNoFuses(t *testing.T) {
	asks := func(changes ...func(*launcher.Launcher)) bool {
		a := assessed.WithFaults(sample.Plain(changes...))
		return finding.IndexOfItem(practiceItems(a), finding.ItemFuses) >= 0
	}
	assert.True(t, asks())
	assert.False(t, asks(func(l *launcher.Launcher) {
		l.Control, l.Switch, l.Supply.Kind = nil, nil, launcher.HandPump
		for i := range l.Paths {
			if l.Paths[i].Kind == pneumatics.Valve {
				l.Paths[i].Kind = pneumatics.HandValve
			}
		}
	}))
}
