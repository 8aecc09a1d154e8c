package assessment_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// By construction: a launcher that fires a small pot of air, and lets the tank's into the barrel as it is switched off, throws as far and
// bangs as loud as the one that fires the tank.
func TestAShotByAChangeOfStateIsSeenAndHeard(t *testing.T) {
	standing := func(l *launcher.Launcher) { l.Supply.RunsIn = pneumatics.SetOf(pneumatics.Charging) }
	pot := func(l *launcher.Launcher) {
		v, fill := l.Volumes[0], l.Paths[0]
		v.Name, v.Volume = "pot", launcher.Exact("volumes.pot.volume", 20e-6)
		fill.Name, fill.To, fill.OpenIn = "fill", "pot", pneumatics.SetOf(pneumatics.Charging)
		fill.ClosingTime = launcher.Exact("", 0)
		l.Volumes = append(l.Volumes, v)
		l.Paths = append(l.Paths, fill)
		l.Paths[0].From = "pot"
	}
	second := func(l *launcher.Launcher) {
		p := l.Paths[0]
		p.Name, p.From, p.OpenIn = "second", "tank", pneumatics.SetOf(pneumatics.Off)
		l.Paths = append(l.Paths, p)
	}
	of := func(change ...func(*launcher.Launcher)) *assessment.Assessment {
		l := sample.Plain(append([]func(*launcher.Launcher){sample.Weak, standing}, change...)...)
		l.Event = &launcher.EventSpec{EarToMuzzle: launcher.Exact("event.ear_to_muzzle", 0.5)}
		a, err := assessment.Make(t.Context(), l, assessment.Options{Want: assessment.FlightStage | assessment.SoundStage, Strength: 0.05})
		require.NoError(t, err)
		return a
	}
	tank, small, both := of(), of(pot), of(pot, second)
	burst := func(a *assessment.Assessment) float64 { return a.Sound.Sources[0].Upper }
	require.Less(t, small.Flights.Fast, 0.8*tank.Flights.Fast)
	require.Less(t, burst(small), burst(tank)-1)
	assert.InEpsilon(t, tank.Flights.Fast, both.Flights.Fast, 1e-2, "searches of one shot")
	assert.GreaterOrEqual(t, burst(both), burst(tank)-0.1, "searches of one shot [dB]")
	assert.Contains(t, finding.Notes(both.Flights.Notes...).String(),
		"The fastest shot is that of switching it off: paths.second is open on the way into the barrel then.")
}
