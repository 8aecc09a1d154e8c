package measure

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flight"
	"puffproof/pneumatics/flow"
)

// The allowance for bouncing and rolling after the first impact, added to every
// distance of the clear zone (own rule of this project, no source): this share
// of the distance, and never less than this length [m].
const (
	BounceShare = 0.3
	BounceLeast = 2.0
)

// FlightCase is one flight of the report.
type FlightCase struct {
	Name      string
	Speed     float64 // of the projectile from the launcher [m/s]
	Elevation float64 // [rad]
	Wind      float64 // along the shot, positive from behind [m/s]
	Moving    float64 // speed of the launcher along the shot [m/s]

	Apex         float64 // above the ground [m]
	Distance     float64 // landing, from where the muzzle was [m]; negative behind it
	FromVehicle  float64 // landing, from where the muzzle is then [m]
	Time         float64 // [s]
	Impact       float64 // speed over the ground [m/s]
	ImpactEnergy float64 // [J]
	Track        []flight.Point
}

// AtDistance is what a level shot still has at a distance, as information: it is
// never a reason to pass.
type AtDistance struct {
	Name       string  // "" or what stands there
	Distance   float64 // [m]
	Speed      float64 // [m/s]
	Energy     float64 // [J]
	AreaEnergy float64 // on the smallest contact print [J/m2]; 0: not stated
}

// Standing is a place of the event against the landing zone.
type Standing struct {
	Name     string
	Distance float64 // from the muzzle [m]
	Inside   bool    // of the landing zone with its bounce
	Person   bool    // somebody whom the zone is held against (people.landing)
}

// FlightReport says where the projectile goes.
type FlightReport struct {
	Cases        []FlightCase
	Fast         float64 // speed that the zones use: worst over the tolerances with the model factor [m/s]
	Height       float64 // of the muzzle at its highest [m]
	HeightGuess  bool    // no height is stated: it is worst.UnstatedHeight
	ElevationLow float64 // [rad]
	ElevationTop float64
	Wind         float64 // strongest [m/s]
	Ahead        float64 // farthest landing ahead [m]
	Behind       float64 // farthest landing behind [m]
	Bounce       float64 // allowance [m]
	ClearRadius  float64 // from the muzzle, all round [m]
	FaultRadius  float64 // the same of the hardest shot at a single fault [m]; 0: not known
	Levels       []AtDistance
	Standing     []Standing
	Notes        []finding.Text
}

// PersonInside gives the distance of the nearest person [m] where that is inside
// of the landing zone.
func (r *FlightReport) PersonInside() (distance float64, inside bool) {
	for _, s := range r.Standing {
		if s.Person && s.Inside && (!inside || s.Distance < distance) {
			distance, inside = s.Distance, true
		}
	}
	return distance, inside
}

// Guess tells of the distances that they rest on a height that nobody stated; nil: they do not.
func (r *FlightReport) Guess() finding.Text {
	if !r.HeightGuess {
		return nil
	}
	return finding.Say("a muzzle up to %s high is assumed", finding.Metres.Of(r.Height, 2))
}

// trackPoints is the number of points of a track.
const trackPoints = 60

// ErrSpeedUnknown is returned for a design whose highest working pressure is not
// known: a clear zone from any lower speed would be too small.
var ErrSpeedUnknown = errors.New("how fast it can shoot is not known: neither a pressure switch's cut_out nor the supply's dead_head " +
	"bounds the pressure")

// Flights computes the flights of a launcher: nominal and fastest, over every
// elevation the mount allows, with tail and head wind, from a moving vehicle.
//
// Where normal is the worst case of normal operation, its hardest shots are where the search for the fastest begins, and
// it is a light one; nil: it looks everywhere. entered are shots that a change of state lets off: they are normal operation too.
func Flights(ctx context.Context, l *launcher.Launcher, normal *worst.Case, entered ...*worst.Entered) (*FlightReport, error) {
	r := &FlightReport{}
	r.conditions(l)
	nominal, err := worst.NominalWorstSeat(ctx, l, worst.NominalStart(l))
	if err != nil {
		return nil, err
	}
	energy := worst.FinalEnergy(0)
	if r.Fast, err = fastest(ctx, l, normal, energy); err != nil {
		return nil, err
	}
	if err := r.fasterEntered(ctx, entered, energy); err != nil {
		return nil, err
	}
	if r.Fast == 0 {
		r.Notes = append(r.Notes, finding.Words("No shot leaves the barrel: the speeds are those of a stuck projectile that is freed by hand."))
		if r.Fast, err = fastest(ctx, l, nil, whenFreed); err != nil {
			return nil, err
		}
	}
	if math.IsNaN(r.Fast) {
		return nil, ErrSpeedUnknown
	}
	mid := (r.ElevationLow + r.ElevationTop) / 2
	if l.Event != nil && l.Event.Elevation.Set {
		mid = l.Event.Elevation.Nominal
	}
	moving := worst.MovingAt(l)
	if nominal.FinalSpeed > 0 {
		r.add(l, "nominal, still air", flying(l, 1), flight.Throw{Speed: nominal.FinalSpeed, Elevation: mid}, 0)
	} else {
		r.Notes = append(r.Notes, finding.Words("The nominal shot does not leave the barrel."))
	}
	r.add(l, "fastest, still air", flying(l, 0), flight.Throw{Speed: r.Fast, Elevation: mid}, 0)
	r.farthest(l, "farthest ahead", flight.Throw{Speed: r.Fast, Height: r.Height, Moving: moving}, +1)
	r.farthest(l, "farthest behind", flight.Throw{Speed: r.Fast, Height: r.Height}, -1)
	r.zones(l)
	r.levels(l)
	r.shapes(l)
	return r, nil
}

// conditions takes elevation, height and wind from the design and says what was
// not stated.
func (r *FlightReport) conditions(l *launcher.Launcher) {
	note := func(format string, args ...any) { r.Notes = append(r.Notes, finding.Say(format, args...)) }
	r.ElevationLow, r.ElevationTop = 0, math.Pi/2
	switch {
	case l.Mount.ElevationMin.Set && l.Mount.ElevationMax.Set:
		r.ElevationLow, r.ElevationTop = l.Mount.ElevationMin.Low, l.Mount.ElevationMax.High
	case l.Event != nil && l.Event.Elevation.Set:
		r.ElevationLow, r.ElevationTop = l.Event.Elevation.Low, l.Event.Elevation.High
		note("The mount's stops are not stated: only the event's elevation is looked at. [mount] elevation_min and elevation_max would say " +
			"what is possible.")
	default:
		note("No elevation is stated: every one from level to straight up is looked at.")
	}
	if r.ElevationTop < r.ElevationLow {
		r.ElevationLow, r.ElevationTop = r.ElevationTop, r.ElevationLow
	}
	height, stated := worst.MuzzleHeight(l)
	if r.Height, r.HeightGuess = height, !stated; !stated {
		note("event.muzzle_height is not stated: a muzzle up to %s above the ground is assumed (common practice, no source), and so are the "+
			"distances. Measure how high it is at the most.", finding.Metres.Of(height, 3))
	}
	wind := windBand(l)
	r.Wind = wind.High
	if wind.Assumed {
		note("event.wind: up to %s is assumed (%s). A measured or forecast gust with its tolerance would say what it is.",
			finding.MetresPerSecond.Of(wind.High, 3), wind.Reason)
	}
	if drag := dragBand(l); !l.Projectile.Drag.Set {
		note("projectile.drag_coefficient: %.3g to %.3g is assumed (%s); both ends are flown.", drag.Low, drag.High, drag.Reason)
	}
}

// What is assumed of the air where a design is silent (own rules of this
// project): the drag of anything from a dart to a flat disc, and a fresh breeze.
const (
	dragUnstatedHigh = 1.2 // a flat disc has 1.1 to 1.2 (Hoerner, Fluid-Dynamic Drag, 3-15, from memory) [-]
	windUnstatedHigh = 8.0 // Beaufort 4, up to 7.9 m/s; nobody shoots foam in more [m/s]
)

// UnstatedDrag is what is assumed of the drag [-] where a design is silent, in words.
func UnstatedDrag() string { return fmt.Sprintf("0 to %.2g", dragUnstatedHigh) }

// windBand is the strongest wind, an assumed one where none is stated.
func windBand(l *launcher.Launcher) launcher.Band {
	if l.Event != nil && l.Event.Wind.Set {
		return l.Event.Wind
	}
	return launcher.Band{Set: true, Key: "event.wind", Low: 0, Nominal: windUnstatedHigh / 2, High: windUnstatedHigh,
		Assumed: true, Reason: finding.Words("not stated: from still air to a fresh breeze")}
}

// farthest looks for the farthest landing ahead (sign +1) or behind (-1) over all
// corners of mass, diameter and drag, in still air and in the strongest wind, and
// over every elevation, and adds that flight. A light projectile with much drag
// goes farthest where the wind carries it, a heavy one with little where it does
// not: only trying all of them tells.
func (r *FlightReport) farthest(l *launcher.Launcher, name string, t flight.Throw, sign float64) {
	best, at := flight.Body{}, flight.Reach{}
	far, blowing := math.Inf(-1), 0.0
	for corner := range 8 {
		b := flyingAt(l, corner&1*2, corner>>1&1*2, corner>>2&1*2)
		for _, wind := range []float64{0, sign * r.Wind} {
			reach := flight.Farthest(b, air(l, wind), t, r.ElevationLow, r.ElevationTop, sign)
			if d := sign * reach.Flight.Landing.X; d > far {
				far, best, at, blowing = d, b, reach, wind
			}
		}
	}
	t.Elevation = at.Elevation
	r.add(l, name, best, t, blowing)
}

// flying is the projectile in the air: side 0 keeps its speed longest, 1 is
// nominal, 2 loses it soonest.
func flying(l *launcher.Launcher, side int) flight.Body { return flyingAt(l, 2-side, side, side) }

// flyingAt is the projectile at the low (0), nominal (1) or high (2) end of its
// mass, diameter and drag.
func flyingAt(l *launcher.Launcher, mass, diameter, drag int) flight.Body {
	pick := func(b launcher.Band, side int) float64 { return [3]float64{b.Low, b.Nominal, b.High}[side] }
	return flight.Body{Mass: pick(l.Projectile.Mass, mass), Diameter: pick(flyingDiameter(l), diameter),
		Drag: flight.Constant(pick(dragBand(l), drag))}
}

func air(l *launcher.Launcher, wind float64) flight.Air {
	return flight.Air{Density: airDensity(l, 0), Wind: wind}
}

// fastest is the speed of the worst energy over the tolerances, with the model
// factor on energy [m/s]; NaN: not known.
func fastest(ctx context.Context, l *launcher.Launcher, normal *worst.Case,
	energy func(*pneumatics.Circuit, *pneumatics.Result) float64) (float64, error) {
	high, ok := l.SoakedHigh()
	if !ok {
		return math.NaN(), nil
	}
	return fastestOf(ctx, l, normal, worst.EnergyQuestion(l, high), energy, nil)
}

// fasterEntered takes the speed of a shot that a change of state lets off where that is the fastest.
func (r *FlightReport) fasterEntered(ctx context.Context, entered []*worst.Entered,
	energy func(*pneumatics.Circuit, *pneumatics.Result) float64) error {
	for _, e := range entered {
		box := e.Found().Box
		speed, err := fastestOf(ctx, box.Launcher, e.Found(), box.Question, energy, nil)
		if err != nil {
			return err
		}
		if speed > r.Fast {
			r.Fast = speed
			r.Notes = append(r.Notes, finding.Say("The fastest shot is that of %s: %s.", e.Does(), e.Opens()))
		}
	}
	return nil
}

// fastestOf is fastest of a question. Where enough is given and tells that even a speed [m/s] makes no difference, a sketch that a longer
// search would find no faster does.
func fastestOf(ctx context.Context, l *launcher.Launcher, normal *worst.Case, q worst.Question,
	energy func(*pneumatics.Circuit, *pneumatics.Result) float64, enough func(speed float64) bool) (float64, error) {
	q.Measure = func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		return math.Sqrt(2 * energy(c, r) / c.Barrel.Mass)
	}
	q.Name = "the fastest shot"
	q.Say = func(v float64) finding.Text { return finding.Say("up to %s", finding.Speed(v)) }
	judged := func(v float64) float64 { return v * math.Sqrt(worst.ModelFactor) }
	o := search.Options{}
	if normal != nil {
		o = search.Quick(worst.SeedsFor(l, normal, q)...)
		if enough != nil && normal.Tame() {
			w, err := worst.SketchFirst(ctx, l, q, search.Light(o.Seeds...), true, func(found float64) bool {
				return enough(judged(math.Sqrt(worst.WithRoom(found * found))))
			})
			if err != nil {
				return 0, err
			}
			return judged(w.Value), nil
		}
	}
	w, err := worst.Maximise(ctx, l, q, o)
	if err != nil {
		return 0, err
	}
	return judged(w.Value), nil
}

// whenFreed is what a projectile that came to rest for good can gain when a hand
// frees it [J].
func whenFreed(_ *pneumatics.Circuit, r *pneumatics.Result) float64 {
	if r.Outcome != pneumatics.Stalled {
		return 0
	}
	return r.Freed
}

// add computes one flight.
func (r *FlightReport) add(l *launcher.Launcher, name string, b flight.Body, t flight.Throw, wind float64) {
	t.Height = r.Height
	f := flight.Fly(b, air(l, wind), t, trackPoints)
	v := f.Landing.Speed()
	r.Cases = append(r.Cases, FlightCase{Name: name, Speed: t.Speed, Elevation: t.Elevation, Wind: wind, Moving: t.Moving,
		Apex: f.Apex.Y, Distance: f.Landing.X, FromVehicle: f.Landing.X - t.Moving*f.Landing.Time, Time: f.Landing.Time,
		Impact: v, ImpactEnergy: 0.5 * b.Mass * v * v, Track: f.Track})
}

// zones draws the clear zone and holds the event's places against it.
func (r *FlightReport) zones(l *launcher.Launcher) {
	for _, c := range r.Cases {
		for _, x := range []float64{c.Distance, c.FromVehicle} {
			r.Ahead = math.Max(r.Ahead, x)
			r.Behind = math.Max(r.Behind, -x)
		}
	}
	far := math.Max(r.Ahead, r.Behind)
	r.Bounce = math.Max(BounceLeast, BounceShare*far)
	r.ClearRadius = far + r.Bounce
	if l.Event == nil {
		return
	}
	for _, s := range []struct {
		name   string
		at     launcher.Band
		person bool
	}{{"nearest person", l.Event.NearestPerson, true}, {"person whose ear is nearest, a rider too", l.Event.EarToMuzzle, true},
		{"person whose eye is nearest, a rider too", l.Event.EyeToMuzzle, true}, {"kerb, where spectators stand", l.Event.Kerb, false},
		{"the vehicle's nearest wheel", l.Event.Wheels, false}} {
		if s.at.Set {
			r.Standing = append(r.Standing, Standing{s.name, s.at.Low, s.at.Low < r.ClearRadius, s.person})
		}
	}
	if !l.Event.Wheels.Set {
		r.Notes = append(r.Notes, finding.Words("event.wheels is not stated: whether children who run after it come near the vehicle's own "+
			"wheels cannot be said."))
	}
	if worst.MovingAt(l) > 0 {
		r.Notes = append(r.Notes, finding.Say("The vehicle drives at up to %s: what lands ahead of it lies in its way.",
			finding.MetresPerSecond.Of(worst.MovingAt(l), 2)))
	}
}

// AtFault adds how far a shot of an energy [J], relative to somebody who stands still, goes at a single fault: that of the lightest
// projectile, over the same elevations and winds.
func (r *FlightReport) AtFault(l *launcher.Launcher, energy float64) {
	speed := math.Sqrt(2*energy/l.Projectile.Mass.Low) - worst.MovingAt(l)
	if r.FaultRadius = r.ClearRadius; !(speed > r.Fast) {
		return
	}
	if far := r.reach(l, speed); far > r.ClearRadius {
		r.FaultRadius = far
		r.Notes = append(r.Notes, finding.Say("At a single fault it may come down as far as %s from the muzzle.",
			finding.Metres.Of(r.FaultRadius, 2)))
	}
}

// reach is how far from the muzzle a projectile of a speed [m/s] may come down, over the same elevations and winds, with its bounce [m].
func (r *FlightReport) reach(l *launcher.Launcher, speed float64) float64 {
	at := FlightReport{Fast: speed, Height: r.Height, ElevationLow: r.ElevationLow, ElevationTop: r.ElevationTop, Wind: r.Wind}
	at.farthest(l, "", flight.Throw{Speed: speed, Height: r.Height, Moving: worst.MovingAt(l)}, +1)
	at.farthest(l, "", flight.Throw{Speed: speed, Height: r.Height}, -1)
	at.zones(l)
	return at.ClearRadius
}

// Soaked adds how far a projectile goes that has taken up water; normal is as of Flights. The error is the context's.
func (r *FlightReport) Soaked(ctx context.Context, l *launcher.Launcher, normal *worst.Case) error {
	return r.heavier(ctx, l, normal, 1+benchmark.SoakedMass, finding.Words("Soaked with water it"))
}

// Heavier adds how far a wrong projectile goes that has up to so many times the mass, and one of two that are shot at once; normal is as of
// Flights. The error is the context's.
func (r *FlightReport) Heavier(ctx context.Context, l *launcher.Launcher, normal *worst.Case, times float64) error {
	return r.heavier(ctx, l, normal, times, finding.Say("A wrong projectile of up to %.2g times the mass, or two at once,", times))
}

// heavier adds how far a projectile goes that has up to so many times the mass. A valve that opens slowly, or passes little, gives it the
// speed of a light one, and the pressure that gathers while it waits may give it more; and the air holds it back less, also where it is
// slower. So the fastest of any such mass is searched, and flown with any such mass at no less than the light one's speed: no mass has to
// be shown to be the worst.
func (r *FlightReport) heavier(ctx context.Context, l *launcher.Launcher, normal *worst.Case, times float64, who finding.Text) error {
	high, ok := l.SoakedHigh()
	if !ok {
		return nil
	}
	q := worst.EnergyQuestion(l, high)
	q.Extra = []string{"heaviness"}
	q.Adjust = func(c *pneumatics.Circuit, _ *pneumatics.Scenario, u []float64) { c.Barrel.Mass *= 1 + u[0]*(times-1) }
	w := l.Clone()
	w.Projectile.Mass.High *= times
	zone := max(r.ClearRadius, r.FaultRadius)
	nearer := func(speed float64) bool { return r.reach(w, max(speed, r.Fast)) <= zone }
	speed, err := fastestOf(ctx, l, normal, q, worst.FinalEnergy(0), nearer)
	if err != nil {
		return err
	}
	if far := r.reach(w, max(speed, r.Fast)); far > zone {
		r.FaultRadius = far
		r.Notes = append(r.Notes, who.Say(" may come down as far as %s from the muzzle.", finding.Metres.Of(far, 2)))
	}
	return nil
}

// shapes holds the stated drag against those of plain shapes at the fastest
// speed, as a note; nothing where nothing flies.
func (r *FlightReport) shapes(l *launcher.Launcher) {
	air := flow.Air()
	d := flyingDiameter(l).Nominal
	re := r.Fast * d * airDensity(l, 0) / air.Viscosity(l.Ambient.Temperature.Nominal)
	if !(re > 1) {
		return
	}
	var parts []string
	for _, s := range flight.Shapes() {
		parts = append(parts, fmt.Sprintf("%s %.2f", s, flight.ShapeDrag(s)(re)))
	}
	drag := dragBand(l)
	r.Notes = append(r.Notes, finding.Say("Everything here is computed with the design's drag coefficient, %.2g to %.2g. For comparison "+
		"only, plain shapes at this speed (ball: Morrison's correlation; others: Hoerner 1965, chapter 3, from memory): %s.", drag.Low, drag.High,
		strings.Join(parts, ", ")))
}

// levels lists what a level shot still has at distances.
func (r *FlightReport) levels(l *launcher.Launcher) {
	b := flying(l, 0)
	k := flight.Decay(airDensity(l, 0), launcher.Circle(b.Diameter), b.Drag(1e5), b.Mass)
	at := func(name string, x float64) {
		v := flight.SpeedAt(r.Fast+worst.MovingAt(l), k, x)
		a := AtDistance{Name: name, Distance: x, Speed: v, Energy: 0.5 * b.Mass * v * v}
		if c := l.Projectile.ContactDiameter; c.Set && c.Low > 0 {
			a.AreaEnergy = a.Energy / launcher.Circle(c.Low)
		}
		r.Levels = append(r.Levels, a)
	}
	for _, x := range []float64{0, 1, 2, 5, 10} {
		at("", x)
	}
	for _, s := range r.Standing {
		at(s.Name, s.Distance)
	}
}
