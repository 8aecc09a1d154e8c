package app

import (
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Days by the calendar; the day itself still counts.
func TestDueNotes(t *testing.T) {
	l := &launcher.Launcher{Volumes: []launcher.VolumeSpec{{Name: "tank", RetireBy: "2026-05-30"}}, Projectile: launcher.ProjectileSpec{RetireBy: "2026-05-31"},
		Barrel: launcher.BarrelSpec{RetireBy: "2030-01-01"}}
	assert.Equal(t, []string{"EXPIRED on 2026-05-30: volumes.tank: retire by. Not to be used until that is done.", "Next date: 2026-05-31, projectile: retire by."}, dueNotes(l, "2026-05-31"))
	assert.Empty(t, dueNotes(&launcher.Launcher{}, "2026-05-31"), "a design without dates has no note")
}
