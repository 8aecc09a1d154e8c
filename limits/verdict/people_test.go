package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// inZone is an assessment with a clear zone of 5 m, a shot of 0.01 J against 1 J, and an event.
func inZone(e launcher.EventSpec) *assessment.Assessment {
	a := assessed.WithFaults(sample.Plain())
	a.Launcher.Event, a.Launcher.Mount = &e, launcher.MountSpec{}
	a.Flights = &measure.FlightReport{ClearRadius: 5}
	return a
}

// people.landing: outside of the zone, on its edge too, it passes; inside it holds on what is done about it, and only
// where the shot keeps its energy; not stated is unknown.
func TestPeopleWhereItLands(t *testing.T) {
	at := func(d float64) launcher.EventSpec { return launcher.EventSpec{NearestPerson: launcher.Exact("", d)} }
	for d, want := range map[float64]finding.Status{5: finding.Pass, 4.999: finding.Conditional} {
		v := Of(inZone(at(d)), finding.PeopleLanding)
		assert.Equal(t, want, v.Status, d)
		assertFigure(t, d, v.Value, "the nearest person")
		assertFigure(t, 5, v.Limit, "the zone")
		if want == finding.Conditional {
			assert.Equal(t, []string{finding.ItemLandingClear}, v.Items)
			assert.Contains(t, v.Condition.String(), "adults alone")
		}
	}
	v := Of(inZone(launcher.EventSpec{NearestPerson: sample.Between("", 4.9, 6)}), finding.PeopleLanding)
	assert.Equal(t, finding.Conditional, v.Status, "whoever may stand inside stands inside")
	assertFigure(t, 4.9, v.Value, "the near end of the band")
	strong := inZone(at(3))
	strong.Energy.Judged = above(1)
	assert.Equal(t, finding.Fail, Of(strong, finding.PeopleLanding).Status, "nobody stands in the way of that")

	// What a fall adds counts where somebody stands below: m g h, 10 g from 10 m are 0.981 J (free fall, CGPM 1901: 9.80665 m/s2).
	fallen := inZone(at(3))
	fallen.Launcher.Projectile.Mass, fallen.Limits.Tip = launcher.Exact("", 10e-3), launcher.ResilientTip
	fallen.Flights.Height = (1 - fallen.Energy.Judged) / (10e-3 * 9.80665)
	assert.Equal(t, finding.Conditional, Of(fallen, finding.PeopleLanding).Status, "at the limit")
	fallen.Flights.Height *= 1 + 1e-9
	v = Of(fallen, finding.PeopleLanding)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "of a fall from the muzzle at")
	fallen.Flights.HeightGuess = true
	v = Of(fallen, finding.PeopleLanding)
	assert.Equal(t, finding.Unknown, v.Status, "from a height that nobody stated")
	assert.Equal(t, []string{"event.muzzle_height"}, v.Why.Keys())
	fallen.Flights.HeightGuess = false
	fallen.Limits.Tip, fallen.Limits.Total.Value, fallen.Energy.Judged = launcher.RigidTip, 0.08, 0.08
	fallen.Flights.Height = 0.42 / (10e-3 * 9.80665)
	assert.Equal(t, finding.Conditional, Of(fallen, finding.PeopleLanding).Status, "rigid: 0.5 J with its fall, as a soft one")
	fallen.Flights.Height *= 1 + 1e-9
	assert.Equal(t, finding.Fail, Of(fallen, finding.PeopleLanding).Status)
	fallen.Launcher.Event.NearestPerson = launcher.Exact("", 5)
	assert.Equal(t, finding.Pass, Of(fallen, finding.PeopleLanding).Status, "nobody is where it comes down")
	fallen = inZone(at(3))
	fallen.Launcher.Projectile.Mass, fallen.Launcher.Projectile.ContactDiameter = launcher.Exact("", 10e-3), launcher.Exact("", 10e-3)
	fallen.Limits.Area.Value, fallen.Energy.ContactArea = 1600, launcher.Circle(10e-3)
	fallen.Flights.Height = (1600*launcher.Circle(10e-3) - fallen.Energy.Judged) / (10e-3 * 9.80665)
	assert.Equal(t, finding.Conditional, Of(fallen, finding.PeopleLanding).Status, "at the limit per area")
	fallen.Flights.Height *= 1 + 1e-9
	assert.Contains(t, Of(fallen, finding.PeopleLanding).Why.String(), "contact print")

	// A shot has no more than the model's with its factor, whatever its air could do.
	capped := inZone(at(3))
	capped.Launcher.Projectile.Mass, capped.Limits.Tip = launcher.Exact("", 10e-3), launcher.ResilientTip
	capped.Energy.Basis, capped.Energy.Judged, capped.Energy.Ceiling, capped.Energy.Model = finding.OnCeiling, 0.9, 0.9, 0.3
	capped.Flights.Height = 0.7 / (10e-3 * 9.80665)
	assert.Equal(t, finding.Fail, Of(capped, finding.PeopleLanding).Status, "where the model tells nothing")
	capped.Energy.ModelBounds = true
	assert.Equal(t, finding.Conditional, Of(capped, finding.PeopleLanding).Status, "at the limit")
	capped.Flights.Height *= 1 + 1e-9
	v = Of(capped, finding.PeopleLanding)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "0.30 J of the shot and 0.71 J of a fall")

	// A shot at a single fault goes further: who stands between the two zones is safe only while nobody runs after it.
	far := inZone(at(6))
	far.Flights.FaultRadius = 6
	assert.Equal(t, finding.Pass, Of(far, finding.PeopleLanding).Status, "at its edge")
	far.Flights.FaultRadius = above(6)
	v = Of(far, finding.PeopleLanding)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, []string{finding.ItemLandingClear}, v.Items)
	assert.Contains(t, v.Why.String(), "at a single fault it comes down as far as 6 m away")

	rider := inZone(at(9))
	rider.Launcher.Event.EarToMuzzle = launcher.Exact("", 0.6)
	v = Of(rider, finding.PeopleLanding)
	assert.Equal(t, finding.Conditional, v.Status, "a rider is nobody's crew")
	assertFigure(t, 0.6, v.Value, "whose ear it is")
	rider.Launcher.Event.EarToMuzzle = sample.Between("", 0.5, 12)
	assertFigure(t, 0.5, Of(rider, finding.PeopleLanding).Value, "who may come nearer than the nearest is the nearest")
	rider.Launcher.Event.EarToMuzzle, rider.Launcher.Mount.RideOn = launcher.Band{}, true
	assertFigure(t, 0, Of(rider, finding.PeopleLanding).Value, "a rider without a distance")

	assert.Equal(t, finding.Unknown, Of(inZone(launcher.EventSpec{}), finding.PeopleLanding).Status)
	blind := inZone(at(9))
	blind.Flights, blind.NoFlight = nil, finding.Words("no pressure is known")
	assert.Contains(t, Of(blind, finding.PeopleLanding).Why.String(), "no pressure is known")
}

// people.wheels: outside of the zone it passes; inside it fails where it may fire while moving, and at a stand holds on
// the stand; not stated is unknown on a vehicle, and no question without one.
func TestWheelsWhereItLands(t *testing.T) {
	for name, c := range map[string]struct {
		event launcher.EventSpec
		mount launcher.MountSpec
		want  finding.Status
	}{
		"no vehicle":       {launcher.EventSpec{}, launcher.MountSpec{}, finding.NotApplicable},
		"assumed to stand": {launcher.EventSpec{}, launcher.MountSpec{MovingAt: launcher.Band{Set: true, Assumed: true}}, finding.NotApplicable},
		"ride-on":          {launcher.EventSpec{}, launcher.MountSpec{RideOn: true}, finding.Unknown},
		"it has a speed":   {launcher.EventSpec{VehicleSpeed: launcher.Exact("", 0)}, launcher.MountSpec{}, finding.Unknown},
		"far " +
			"wheels": {launcher.EventSpec{Wheels: launcher.Exact("", 5)}, launcher.MountSpec{MovingAt: launcher.Exact("", 1)}, finding.Pass},
		"perhaps near":     {launcher.EventSpec{Wheels: sample.Between("", 4.9, 6)}, launcher.MountSpec{}, finding.Conditional},
		"near, at a stand": {launcher.EventSpec{Wheels: launcher.Exact("", 4.9)}, launcher.MountSpec{}, finding.Conditional},
		"near, on the move": {launcher.EventSpec{Wheels: launcher.Exact("", 4.9)}, launcher.MountSpec{MovingAt: launcher.Exact("", 0.1)},
			finding.Fail},
	} {
		a := inZone(c.event)
		a.Launcher.Mount = c.mount
		assert.Equal(t, c.want, Of(a, finding.PeopleWheels).Status, name)
	}
}
