package vent

import (
	"slices"
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

// The time allowed is the boundary: what is down just in time is not late, what is just over it is.
func TestLateIsAfterTheTimeAllowed(t *testing.T) {
	l := sample.Dumped()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	v := newVenter(Input{Launcher: l, Limits: limits}, 0.5*sample.Bars, 5000)
	one := v.setups(Scenario{Kind: Shutdown, From: pneumatics.Armed}, SlowEnd)[0]
	times, err := v.e.Slowest(one, v.until)
	require.NoError(t, err)
	for share, want := range map[float64]bool{1.001: false, 0.999: true} {
		v.within = share * slices.Max(times)
		late, err := v.late(one)
		require.NoError(t, err)
		assert.Equal(t, want, late, "%g of the time that it takes", share)
	}
}
