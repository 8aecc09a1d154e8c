package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics/flight"
)

// atEvent gives a launcher a mount and an event.
func atEvent(wind, moving float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Mount = launcher.MountSpec{ElevationMin: launcher.Exact("mount.elevation_min", 70*math.Pi/180),
			ElevationMax: launcher.Exact("mount.elevation_max", 85*math.Pi/180),
			MovingAt:     launcher.Exact("mount.moving_at", moving)}
		l.Event = &launcher.EventSpec{MuzzleHeight: launcher.Exact("event.muzzle_height", 1.5), Wind: launcher.Exact("event.wind", wind),
			NearestPerson: launcher.Exact("event.nearest_person", 0.5), Kerb: launcher.Exact("event.kerb", 500),
			Wheels: launcher.Exact("event.wheels", 1)}
	}
}

func flights(t *testing.T, wind, moving float64) *FlightReport {
	t.Helper()
	r, err := Flights(sample.Weakly(), sample.Plain(sample.Measured, sample.Weak, atEvent(wind, moving)), nil)
	require.NoError(t, err)
	return r
}

// The clear zone holds every landing with its bounce, and says who is inside.
func TestClearZone(t *testing.T) {
	r := flights(t, 5, 0)
	require.Len(t, r.Cases, 4)
	for _, c := range r.Cases {
		assert.LessOrEqual(t, math.Abs(c.Distance)+BounceLeast, r.ClearRadius*(1+1e-12), c.Name)
		assert.LessOrEqual(t, c.Speed, r.Fast*(1+1e-12))
		assert.Len(t, c.Track, trackPoints)
	}
	assert.Positive(t, r.Behind, "the head wind carries a steep shot back")
	inside := map[string]bool{}
	for _, s := range r.Standing {
		inside[s.Name] = s.Inside
	}
	assert.Equal(t, map[string]bool{"nearest person": true, "kerb, where spectators stand": false, "the vehicle's nearest wheel": true},
		inside)
	// At the muzzle the energy is that of the fastest and heaviest, by definition.
	assert.InEpsilon(t, 0.5*4.1e-3*r.Fast*r.Fast, r.Levels[0].Energy, 1e-12)
	for i := 1; i < 5; i++ {
		assert.Less(t, r.Levels[i].Energy, r.Levels[i-1].Energy)
	}
}

// A rider whose ear is near the muzzle is the nearest person, however far away the others stand: check holds people.landing against it.
func TestTheNearestEarIsAPersonInside(t *testing.T) {
	far := func(l *launcher.Launcher) { l.Event.NearestPerson = launcher.Exact("event.nearest_person", 300) }
	near := func(l *launcher.Launcher) { l.Event.EarToMuzzle = launcher.Exact("event.ear_to_muzzle", 0.6) }
	with := func(also ...func(*launcher.Launcher)) *FlightReport {
		also = append([]func(*launcher.Launcher){sample.Measured, sample.Weak, atEvent(5, 0), far}, also...)
		r, err := Flights(sample.Weakly(), sample.Plain(also...), nil)
		require.NoError(t, err)
		return r
	}
	_, inside := with().PersonInside()
	assert.False(t, inside)
	at, inside := with(near).PersonInside()
	assert.True(t, inside)
	assert.Equal(t, 0.6, at)
}

// A muzzle of which no height is stated is as high as one on a float may be (common practice, no source), not as low as a table: who
// states less comes nearer, and the report tells which it is.
func TestAHeightThatNobodyStates(t *testing.T) {
	t.Parallel()
	at := func(height launcher.Band) *FlightReport {
		r, err := Flights(sample.Weakly(), sample.Plain(sample.Measured, sample.Weak, atEvent(5, 0), func(l *launcher.Launcher) {
			l.Event.MuzzleHeight = height
		}), nil)
		require.NoError(t, err)
		return r
	}
	unstated, high := at(launcher.Band{}), at(launcher.Exact("event.muzzle_height", 3))
	assert.Equal(t, high.ClearRadius, unstated.ClearRadius)
	assert.Greater(t, unstated.ClearRadius, at(launcher.Exact("event.muzzle_height", 2)).ClearRadius)
	assert.Empty(t, high.Guess())
	assert.Contains(t, unstated.Guess().String(), "a muzzle up to 3 m high is assumed")
	assert.Contains(t, finding.Join(unstated.Notes, " ").String(), "event.muzzle_height is not stated: a muzzle up to 3 m")
}

// More wind and a moving vehicle never draw the zone in.
func TestClearZoneGrows(t *testing.T) {
	t.Parallel()
	still, windy, driving := flights(t, 0, 0), flights(t, 8, 0), flights(t, 0, 2)
	assert.Greater(t, windy.Ahead, still.Ahead)
	assert.Greater(t, windy.Behind, still.Behind)
	assert.Greater(t, driving.Ahead, still.Ahead)
	assert.Greater(t, driving.Levels[0].Energy, still.Levels[0].Energy)
	// In still air nothing that points forward lands behind.
	assert.Zero(t, still.Behind)
}

// With a strong tail wind the light projectile with much drag goes farthest: the
// zone holds every corner, each flown on its own.
func TestFarthestOverAllCorners(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, atEvent(10, 0))
	l.Projectile.Drag = sample.Between("projectile.drag_coefficient", 0.4, 0.6)
	r := &FlightReport{Fast: 9}
	r.conditions(l)
	r.farthest(l, "farthest ahead", flight.Throw{Speed: 9, Height: r.Height}, +1)
	far := r.Cases[0].Distance
	light := 0.0
	for _, mass := range []int{0, 2} {
		for _, drag := range []int{0, 2} {
			x := flight.Farthest(flyingAt(l, mass, 1, drag), air(l, 10), flight.Throw{Speed: 9, Height: r.Height}, r.ElevationLow,
				r.ElevationTop, +1).Flight.Landing.X
			assert.GreaterOrEqual(t, far, x*(1-1e-9))
			if mass == 0 && drag == 2 {
				light = x
			}
		}
	}
	heavy := flight.Farthest(flying(l, 0), air(l, 10), flight.Throw{Speed: 9, Height: r.Height}, r.ElevationLow, r.ElevationTop,
		+1).Flight.Landing.X
	assert.Greater(t, light, heavy, "the wind carries it")
}

// What is missing is said, and the search then covers everything.
func TestFlightsSayWhatIsMissing(t *testing.T) {
	r, err := Flights(sample.Weakly(), sample.Plain(sample.Measured, sample.Weak, func(l *launcher.Launcher) { l.Event = nil }), nil)
	require.NoError(t, err)
	assert.Equal(t, math.Pi/2, r.ElevationTop)
	assert.Contains(t, r.Notes[0].String(), "every one from level to straight up")
	assert.GreaterOrEqual(t, len(r.Notes), 4)
	assert.Empty(t, r.Standing)
}

// What a design does not say of drag and wind is assumed, wide, and said.
func TestDragAndWindAreAssumed(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, func(l *launcher.Launcher) { l.Projectile.Drag, l.Event = launcher.Band{}, nil })
	drag := dragBand(l)
	assert.Equal(t, [2]float64{0, 1.2}, [2]float64{drag.Low, drag.High})
	assert.True(t, drag.Assumed)
	r := &FlightReport{}
	r.conditions(l)
	assert.InDelta(t, 8, r.Wind, 0)
	said := finding.Join(r.Notes, "\n").String()
	assert.Contains(t, said, "drag_coefficient: 0 to 1.2 is assumed")
	assert.Contains(t, said, "wind: up to 8 m/s is assumed")
	d := Decay(l, 0)
	assert.InEpsilon(t, flight.Decay(airDensity(l, 0), launcher.Circle(flyingDiameter(l).Nominal), 0.6, l.Projectile.Mass.Nominal),
		d.Value, 1e-12)
	assert.GreaterOrEqual(t, d.error, d.Value, "both ends are inside the error")
}

// A projectile that no shot can move is judged as one that a hand frees: the
// clear zone never shrinks because it sticks.
func TestStuckProjectileKeepsItsZone(t *testing.T) {
	stuck := sample.Plain(sample.Measured, sample.Weak, atEvent(0, 0), sample.Friction(90, 90))
	r, err := Flights(sample.Weakly(), stuck, nil)
	require.NoError(t, err)
	assert.Greater(t, r.Fast, flights(t, 0, 0).Fast)
	assert.Contains(t, r.Notes[0].String()+r.Notes[len(r.Notes)-2].String(), "freed by hand")
	p, err := Plan(sample.Weakly(), stuck, "")
	require.NoError(t, err)
	assert.Contains(t, p.Refused.String(), "does not leave the barrel")
}

// Without a switch and a dead head nothing bounds the pressure: no clear zone is
// drawn from the nominal shot, which would be too small a one.
func TestFlightsOfUnknownPressureAreNotDrawn(t *testing.T) {
	_, err := Flights(sample.Weakly(), sample.Plain(sample.Measured, sample.Weak,
		func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil }), nil)
	assert.ErrorIs(t, err, ErrSpeedUnknown)
}

// The speed of the zones is that of the model's worst energy times its factor, so its
// root. The launcher has no tolerance and the highest start throws hardest; 1 %: the
// search is weak.
func TestFastestHasTheModelFactor(t *testing.T) {
	l := tight(func(l *launcher.Launcher) { l.Event = &launcher.EventSpec{Wind: launcher.Exact("event.wind", 0)} })
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	r, err := Flights(sample.Weakly(), l, nil)
	require.NoError(t, err)
	v, _ := NewShotModel(l.Clone()).Shot(high, 0)
	assert.InEpsilon(t, v*math.Sqrt(worst.ModelFactor), r.Fast, 0.01)
}

// The clear zone by hand: the farthest landing on either side, seen from where the muzzle
// was or from where it is then, and 30 % of it, at least 2 m (own rules of this project).
func TestBounceOfTheClearZone(t *testing.T) {
	for _, c := range []struct {
		flight       FlightCase
		ahead, clear float64
	}{
		{FlightCase{Distance: 20, FromVehicle: 12}, 20, 26},
		{FlightCase{Distance: 5, FromVehicle: -10}, 5, 13},
		{FlightCase{Distance: 4, FromVehicle: 4}, 4, 6},
	} {
		r := &FlightReport{Cases: []FlightCase{c.flight}}
		r.zones(sample.Plain())
		assert.InDelta(t, c.ahead, r.Ahead, sample.Rounding)
		assert.InDelta(t, c.clear, r.ClearRadius, sample.Rounding)
	}
}

// Where nothing flies there is no Reynolds number at which a ball has a drag.
func TestShapesOfWhatDoesNotFly(t *testing.T) {
	l := sample.Plain(sample.Measured, atEvent(0, 0))
	var none, flies FlightReport
	none.shapes(l)
	assert.Empty(t, none.Notes)
	flies.Fast = 6
	flies.shapes(l)
	require.Len(t, flies.Notes, 1)
	assert.Contains(t, flies.Notes[0].String(), "ball 0.39, ")
}

// A soaked projectile of up to eleven times the mass goes as fast as the fastest of any load of water does, and is held back less: in a
// drag that counts it comes down further off than a dry one of the same speed, and never less far.
func TestClearZoneOfASoakedProjectile(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, atEvent(0, 0), func(l *launcher.Launcher) {
		l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0.5)
	})
	r, err := Flights(sample.Weakly(), l, nil)
	require.NoError(t, err)
	dry, fast := r.ClearRadius, r.Fast
	heavier := l.Clone()
	heavier.Projectile.Mass.High *= 11
	least := r.reach(heavier, fast)
	require.Greater(t, least, dry, "held back less")
	require.NoError(t, r.Soaked(sample.Weakly(), l, nil))
	assert.GreaterOrEqual(t, r.FaultRadius, least)
	assert.Equal(t, dry, r.ClearRadius, "of dry ones")
	assert.Contains(t, finding.Notes(r.Notes...).String(), "Soaked with water it may come down as far as")

	// Behind a wide valve that opens at once a dry one is the fastest, and flown with all of the water.
	atOnce := l.Clone()
	sample.FireCv(100)(atOnce)
	atOnce.Paths[0].OpeningTime = launcher.Exact("paths.fire.opening_time", 0)
	r, err = Flights(sample.Weakly(), atOnce, nil)
	require.NoError(t, err)
	require.NoError(t, r.Soaked(sample.Weakly(), atOnce, nil))
	assert.InEpsilon(t, r.reach(heavier, r.Fast), r.FaultRadius, 1e-3, "searches of one shot")

	// Where another fault goes further still, that counts.
	r.FaultRadius = 1000
	notes := len(r.Notes)
	require.NoError(t, r.Soaked(sample.Weakly(), l, nil))
	assert.Equal(t, 1000.0, r.FaultRadius)
	assert.Len(t, r.Notes, notes)
}

// A wrong projectile of twice the mass, or two at once: however fast it is, it is held back less, so that it comes down further off than a
// light one of the same speed.
func TestClearZoneOfAHeavierProjectile(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, atEvent(0, 0), func(l *launcher.Launcher) {
		l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0.5)
	})
	r, err := Flights(sample.Weakly(), l, nil)
	require.NoError(t, err)
	light := r.ClearRadius
	heavy := l.Clone()
	heavy.Projectile.Mass.High *= 2
	least := r.reach(heavy, r.Fast)
	require.Greater(t, least, light, "held back less")
	require.NoError(t, r.Heavier(sample.Weakly(), l, nil, 2))
	assert.GreaterOrEqual(t, r.FaultRadius, least)
	assert.Equal(t, light, r.ClearRadius, "of the right ones")
	assert.Contains(t, finding.Notes(r.Notes...).String(),
		"A wrong projectile of up to 2 times the mass, or two at once, may come down as far as")
}

// A shot at a single fault is thrown as the others are: one no faster moves nothing; one twice as fast goes further, in thin drag as far as
// in a vacuum, where from a height h at an elevation a it is v cos(a)/g (v sin(a) + sqrt(v^2 sin(a)^2 + 2 g h)) (any textbook of
// mechanics), and relative to the ground a moving vehicle's own speed is in its energy already.
func TestClearZoneAtAFault(t *testing.T) {
	l := sample.Plain(sample.Measured, sample.Weak, atEvent(0, 0), func(l *launcher.Launcher) {
		l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 1e-6)
	})
	r, err := Flights(sample.Weakly(), l, nil)
	require.NoError(t, err)
	energy := func(speed float64) float64 { return 0.5 * l.Projectile.Mass.Low * speed * speed }
	r.AtFault(l, energy(r.Fast))
	assert.Equal(t, r.ClearRadius, r.FaultRadius)
	notes := len(r.Notes)
	v := 2 * r.Fast
	r.AtFault(l, energy(v))
	const g, h, a = 9.80665, 1.5, 70 * math.Pi / 180
	along := v * math.Cos(a) / g * (v*math.Sin(a) + math.Sqrt(math.Pow(v*math.Sin(a), 2)+2*g*h))
	// 1e-4: the drag that is left, a millionth, over some metres.
	assert.InEpsilon(t, along+math.Max(BounceLeast, BounceShare*along), r.FaultRadius, 1e-4)
	assert.Greater(t, r.FaultRadius, r.ClearRadius)
	assert.Len(t, r.Notes, notes+1)

	l.Mount.MovingAt = launcher.Exact("mount.moving_at", v-r.Fast)
	r.AtFault(l, energy(v))
	assert.Equal(t, r.ClearRadius, r.FaultRadius)
}
