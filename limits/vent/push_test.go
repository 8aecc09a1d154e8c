package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/pneumatics"
)

// The harder of the loosest and the firmest hold counts: held firmly the projectile of
// a slow valve goes from more pressure.
func TestTheFirmestHoldIsPushedToo(t *testing.T) {
	energy := func(low, high float64) float64 {
		l := sample.VentedTank()
		l.Paths[0].Unpowered = pneumatics.Open
		l.Projectile.Breakaway, l.Projectile.Restart = sample.Between("", low, high), sample.Between("", low, high)
		v := newVenter(Input{Launcher: l}, 1e5, 5000)
		e := &Report{}
		require.NoError(t, v.push(e, Scenario{PowerLost, pneumatics.Armed}))
		require.Len(t, e.Pushes, 1)
		return e.Pushes[0].Energy
	}
	loose, firm := energy(0, 0), energy(20, 20)
	assert.Greater(t, math.Abs(firm-loose), 0.1*min(loose, firm))
	assert.InEpsilon(t, max(loose, firm), energy(0, 20), 1e-9, "the same run")
}

// A push begins with what the volumes hold: all of it, or while loading what the vents
// of that state have left.
func TestAPushBeginsWithWhatLoadingLeft(t *testing.T) {
	l := sample.VentedTank()
	start := func(from pneumatics.State, air *Loading) float64 {
		v := newVenter(Input{Launcher: l, Loading: air}, 1e5, 5000)
		one := v.pushSetup(v.ends[FastEnd][0], Scenario{Shutdown, from}, 0)
		return one.scenario.Volumes[0].Pressure - one.circuit.Ambient.Pressure
	}
	vented := &Loading{Rest: []float64{3000}, Empty: []bool{true}}
	for _, c := range []struct {
		from pneumatics.State
		air  *Loading
		want float64
	}{
		{pneumatics.Armed, vented, 1e5},
		{pneumatics.Loading, vented, 3000},
		{pneumatics.Loading, &Loading{Rest: []float64{3000}, Empty: []bool{false}}, 1e5},
		{pneumatics.Loading, &Loading{Rest: []float64{2e5}, Empty: []bool{true}}, 1e5},
		{pneumatics.Loading, nil, 1e5},
	} {
		assert.InDelta(t, c.want, start(c.from, c.air), 1e-6, "%s %+v", c.from, c.air)
	}
}
