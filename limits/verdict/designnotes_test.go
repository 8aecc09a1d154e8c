package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// What a builder may not have meant is told, and only that.
func TestDesignNotes(t *testing.T) {
	of := func(change func(*launcher.Launcher)) []finding.Text {
		return DesignNotes(&assessment.Assessment{Computed: assessed.All, Launcher: sample.Plain(change)})
	}
	assert.Empty(t, of(func(*launcher.Launcher) {}))
	two := of(func(l *launcher.Launcher) {
		second := l.Paths[0]
		second.Name = "fire_left"
		l.Paths = append(l.Paths, second)
	})
	require.Len(t, two, 1)
	assert.Contains(t, two[0].String(), "paths.fire, paths.fire_left all lead into this one barrel")
	assert.Contains(t, two[0].String(), "(item barrel.one)")
	wide := of(func(l *launcher.Launcher) { l.Projectile.Diameter = launcher.Exact("", 50e-3) })
	require.Len(t, wide, 1)
	assert.Contains(t, wide[0].String(), "squeezed in, without a gap")
	slow := of(func(l *launcher.Launcher) {
		l.Paths[0].OpeningTime, l.Paths[0].Usual = launcher.Exact("", 5), 0.04
		doubt.Opening(&l.Paths[0])
	})
	require.Len(t, slow, 1)
	assert.Contains(t, slow[0].String(), "opening_time says 5000 ms or more, and a valve of this drive takes up to 40 ms")
	main := of(func(l *launcher.Launcher) { l.Supply.Kind = launcher.ShopAir })
	require.Len(t, main, 1)
	assert.Contains(t, main[0].String(), "that is its shut-off")
	down := of(func(l *launcher.Launcher) { l.Mount.ElevationMin = launcher.Exact("", -0.1) })
	require.Len(t, down, 1)
	assert.Contains(t, down[0].String(), "rolls out by itself")
}

// A dead volume that no barrel like this one leaves is told with what it leaves, and both as they were before the doubt.
func TestADeadVolumeIsToldWithWhatTheBarrelLeaves(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.DeadVolume = launcher.Exact("", 2e-3) })
	doubt.DeadVolume(l)
	notes := DesignNotes(&assessment.Assessment{Computed: assessed.All, Launcher: l})
	require.Len(t, notes, 1)
	assert.Contains(t, notes[0].String(), "barrel.dead_volume says 2000 to 2000 mL, and this barrel leaves ")
}
