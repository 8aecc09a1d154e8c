package fault

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// The bound is that of all the air behind it in the barrel, at the highest pressure of
// what feeds it: at or below the limit nothing is open.
func TestAJamBelowTheLimitIsNotOpen(t *testing.T) {
	for share, want := range map[float64]finding.Status{1: finding.Pass, 0.999: finding.OpenItem} {
		l := sample.Dumped()
		sample.Bled(l)
		st := stageOf(t, l)
		f := faultOf(t, st, "projectile.jammed")
		st.Limits.Total.Value = share * f.freed
		assert.InEpsilon(t, f.freed, jamEnergy(t, st.Launcher), 1e-9, "the closed form, but for rounding")
		assert.Equal(t, want, runFault(t, st, f.id).Status)
	}
	l := sample.Dumped()
	l.Supply.DeadHead, l.Switch = launcher.Band{}, nil
	jam := runFault(t, stageOf(t, l), "projectile.jammed")
	assert.Equal(t, finding.Unknown, jam.Status)
	assert.True(t, math.IsNaN(jam.Freed))
}

// jamEnergy is the availability of the air in the barrel at ambient temperature [J],
// the most that any course can make of it (closed form of the ideal gas):
//
//	E = V (p ln(p/pa) - (p - pa))
func jamEnergy(t *testing.T, l *launcher.Launcher) float64 {
	t.Helper()
	high, ok := vent.StartPressures(l)
	require.True(t, ok)
	pa, top := l.Ambient.Pressure.Low, slices.Max(high)
	volume := l.Barrel.DeadVolume.High + math.Pi/4*l.Barrel.Bore.High*l.Barrel.Bore.High*l.Barrel.Travel.High
	return volume * ((pa+top)*math.Log((pa+top)/pa) - top)
}

// A hand may free it while the valve is still open: then the tank pushes on. Behind a very
// wide valve a great tank keeps its pressure all the way to the muzzle: p A L, and the push
// beyond it comes on top (first principles; the factor of the model is on it).
func TestAJamFreedWithTheValveOpen(t *testing.T) {
	l := sample.Dumped()
	sample.FireCv(100)(l)
	l.Volumes[0].Volume = launcher.Exact("", 1)
	l.Barrel.DeadVolume = launcher.Exact("", 1e-6)
	high, ok := vent.StartPressures(l)
	require.True(t, ok)
	bore, travel := l.Barrel.Bore.High, l.Barrel.Travel.High
	push := slices.Max(high) * math.Pi / 4 * bore * bore * travel
	st := stageOf(t, l)
	freed := faultOf(t, st, "projectile.jammed").freed
	assert.InEpsilon(t, worst.ModelFactor*st.freedOpen(high, slices.Max(high)), freed, 1e-9)
	assert.Greater(t, freed, jamEnergy(t, l))
	assert.Greater(t, freed, push)
	assert.Less(t, freed, 4*push)
}

// Air that stays behind a jammed projectile and air that bleeds off are told apart.
func TestAJamSaysWhetherTheAirStays(t *testing.T) {
	l := sample.Dumped()
	assert.Contains(t, faultOf(t, stageOf(t, l), "projectile.jammed").consequence.String(), "stays behind it")
	assert.Equal(t, finding.Fail, runFault(t, stageOf(t, l), "projectile.jammed").Status, "no drill holds back what never leaves")
	sample.Bled(l)
	assert.Contains(t, faultOf(t, stageOf(t, l), "projectile.jammed").consequence.String(), "bleeds off")
}

// No gauge shows a bleed of the barrel that is blocked: a drill shank does, and what jams then stays.
func TestABlockedBleedOfTheBarrel(t *testing.T) {
	l := sample.Dumped()
	sample.Bled(l)
	f := faultOf(t, stageOf(t, l), "bleed.blocked")
	assert.Equal(t, finding.ItemBore, f.revealed)
	assert.Contains(t, f.consequence.String(), "a projectile that jams stays")
	sample.Bled(l)
	l.Paths[len(l.Paths)-1].Name = "second"
	assert.Contains(t, faultOf(t, stageOf(t, l), "bleed.blocked").consequence.String(), "goes another way")
}

// What is within the limit only after the wait is held by the jam drill; what is above it even then fails; where no wait is
// stated nobody knows. By hand, against a limit of 1 J.
func TestAJamThatTheWaitDoesNotCure(t *testing.T) {
	for name, c := range map[string]struct {
		freed, after float64
		want         finding.Status
	}{
		"at once within":       {1, 5, ""},
		"just within, later":   {5, 1, finding.OpenItem},
		"just above, later":    {5, 1.001, finding.Fail},
		"no wait":              {5, math.NaN(), finding.Unknown},
		"the energy not known": {math.NaN(), 1, finding.Unknown},
	} {
		st := stageOf(t, sample.Dumped())
		st.Limits.Total.Value = 1
		st.report.Jam = &Jam{Top: 1e5, AtOnce: c.freed, After: vent.Jam{Energy: c.after, Wait: 60}}
		var r Result
		st.jam(&r, &fault{freed: c.freed})
		assert.Equal(t, c.want, r.Status, name)
	}
}

// What a hand frees with the valve open is that of the largest vessel and barrel of the bands, with nothing that holds it: a
// design with just these values is the source.
func TestAFreedJamTakesTheWideEnds(t *testing.T) {
	of := func(wide func(low, high float64) launcher.Band, force float64) float64 {
		l := sample.Dumped()
		l.Volumes[0].Volume, l.Barrel.DeadVolume = wide(1e-3, 2e-3), wide(20e-6, 60e-6)
		l.Barrel.Bore, l.Barrel.Travel = wide(40e-3, 42e-3), wide(0.05, 0.07)
		l.Projectile.Breakaway, l.Projectile.Sliding = wide(0, force), wide(0, force)
		high, ok := vent.StartPressures(l)
		require.True(t, ok)
		return stageOf(t, l).freedOpen(high, slices.Max(high))
	}
	most := of(func(_, high float64) launcher.Band { return launcher.Exact("", high) }, 0)
	assert.InEpsilon(t, most, of(func(low, high float64) launcher.Band { return sample.Between("", low, high) }, 2), 1e-9)
	assert.Less(t, of(func(low, _ float64) launcher.Band { return launcher.Exact("", low) }, 0), 0.9*most)
}
