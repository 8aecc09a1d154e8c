package assessment_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// Where the foam may soak, the zone at a single fault is that of a soaked projectile: heavier than the lightest, it has not that one's
// speed at its own energy. Who stands outside of where a dry one comes down and inside of that is no pass.
func TestASoakedProjectileComesDownFurtherOff(t *testing.T) {
	made := func(cells launcher.Answer, nearest float64) *assessment.Assessment {
		l := sample.Plain(sample.Measured, sample.Weak, func(l *launcher.Launcher) {
			l.Projectile.OpenCell, l.Projectile.Drag = cells, launcher.Exact("projectile.drag_coefficient", 0.5)
			l.Event = &launcher.EventSpec{NearestPerson: launcher.Exact("event.nearest_person", nearest),
				MuzzleHeight: launcher.Exact("event.muzzle_height", 1.5), Elevation: launcher.Exact("event.elevation", 0.8),
				EarToMuzzle: launcher.Exact("event.ear_to_muzzle", nearest), Wind: launcher.Exact("event.wind", 0)}
		})
		a, err := assessment.Make(t.Context(), l, assessment.Options{Strength: 0.02, Want: assessment.FlightStage | assessment.FaultStage |
			assessment.EnergyStage | assessment.EmptyingStage, OnlyFaults: func(id string) bool { return id == "projectile.soaked-with-water" }})
		require.NoError(t, err)
		require.NotNil(t, a.Flights)
		return a
	}
	dry, wet := made(launcher.No, 100), made(launcher.Yes, 100)
	require.Greater(t, dry.Flights.FaultRadius, dry.Flights.ClearRadius, "of a wrong one, twice as heavy")
	require.Equal(t, dry.Flights.ClearRadius, wet.Flights.ClearRadius)
	assert.Greater(t, wet.Flights.FaultRadius, 1.005*dry.Flights.FaultRadius)
	between := (wet.Flights.FaultRadius + dry.Flights.FaultRadius) / 2
	assert.Equal(t, finding.Pass, verdict.Of(made(launcher.No, between), finding.PeopleLanding).Status)
	assert.Equal(t, finding.Conditional, verdict.Of(made(launcher.Yes, between), finding.PeopleLanding).Status)
}
