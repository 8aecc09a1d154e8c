package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

const frozenID = "projectile.frozen-in-its-seat-then-let-go"

func coldest(kelvin float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) { l.Ambient.Coldest = launcher.Exact("ambient.coldest", kelvin) }
}

// Ice holds a projectile wherever the design does not state that there is no frost.
func TestWhereThereMayBeFrostAProjectileFreezesIn(t *testing.T) {
	for name, c := range map[string]struct {
		with   func(*launcher.Launcher)
		frozen int
	}{
		"not stated": {func(l *launcher.Launcher) { l.Ambient.Coldest = launcher.Band{} }, 1},
		"assumed":    {func(l *launcher.Launcher) { coldest(290)(l); l.Ambient.Coldest.Assumed = true }, 1},
		"frost":      {coldest(268.15), 1}, "at freezing": {coldest(273.15), 1}, "above": {coldest(274.15), 0},
	} {
		assert.Len(t, stageOf(t, sample.Plain(c.with)).frozen(), c.frozen, name)
	}
}

// One that lets go with the whole charge behind it is driven harder than one that is sticky, above all behind a valve that opens slowly;
// and an item of its own holds it.
func TestAFrozenProjectileLetsGoOfTheWholeCharge(t *testing.T) {
	slow := func(l *launcher.Launcher) {
		coldest(268.15)(l)
		for i := range l.Paths {
			if l.Paths[i].Name == "fire" {
				l.Paths[i].OpeningTime = sample.Between("opening_time", 0.15, 0.2)
			}
		}
	}
	l := sample.Whale()
	slow(l)
	st := stageOf(t, l)
	frozen, sticky := runFault(t, st, frozenID), runFault(t, st, "projectile.sticky")
	require.Equal(t, ChangesShot, frozen.Effect)
	assert.Greater(t, frozen.Judged, 3*sticky.Judged)
	assert.Equal(t, finding.OpenItem, frozen.Status)
	assert.Equal(t, finding.ItemNotFrozen, frozen.HeldBy)
	assert.True(t, frozen.Kept())
	assert.Contains(t, frozen.Consequence.String(), "no factor")
}
