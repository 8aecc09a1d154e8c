package vent

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A hand valve that state off has open is opened by a hand: what it alone empties is not empty by itself. Beside a vent
// that opens without power it is not needed.
func TestWhatAHandHasToOpen(t *testing.T) {
	byHand := func(change func(*launcher.Launcher)) []string {
		l := sample.Dumped()
		change(l)
		limits, err := l.EnergyLimits("")
		require.NoError(t, err)
		v := newVenter(Input{Launcher: l, Limits: limits}, 0.5*sample.Bars, 5000)
		names, err := v.byHand()
		require.NoError(t, err)
		return names
	}
	assert.Empty(t, byHand(func(*launcher.Launcher) {}), "valves that power moves")
	tap := func(l *launcher.Launcher) {
		p := sample.PathNamed(l, "dump_tank")
		p.Kind, p.Unpowered = pneumatics.HandValve, pneumatics.Stays
	}
	assert.Equal(t, []string{"dump_tank"}, byHand(tap))
	assert.Empty(t, byHand(func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, *sample.PathNamed(l, "dump_tank"))
		l.Paths[len(l.Paths)-1].Name = "beside"
		tap(l)
	}), "another vent empties it in time")
	assert.Equal(t, []string{"dump_tank"}, byHand(func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, *sample.PathNamed(l, "dump_tank"))
		l.Paths[len(l.Paths)-1].Name, l.Paths[len(l.Paths)-1].Flow = "narrow", sample.Orifice(0.2e-3, 0.6)
		tap(l)
	}), "another vent, too narrow for the time")
}
