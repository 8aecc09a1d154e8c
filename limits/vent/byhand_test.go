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

// Of several ends of the tolerances the one that keeps most counts, whichever was run last: here a vent that shuts at its
// cracking pressure, at the high end of the band and then at the low one.
func TestTheEndThatKeepsMostCounts(t *testing.T) {
	l := sample.VentedTank()
	vent := slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return p.To == "atmosphere" })
	l.Paths[vent].Kind, l.Paths[vent].CrackingPressure = pneumatics.Check, sample.Between("", 2e3, 8e3)
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	v := newVenter(Input{Launcher: l, Limits: limits}, 0.5*sample.Bars, 5000)
	s := Scenario{Kind: Shutdown, From: pneumatics.Armed}
	cases, err := v.compute(slices.Concat(v.setups(s, SlowEnd), v.setups(s, FastEnd)), s, SlowEndOnly)
	require.NoError(t, err)
	assert.InDelta(t, 8e3, cases[0].Keeps, 1)
	assert.Equal(t, Trapped, cases[0].Status)
}
