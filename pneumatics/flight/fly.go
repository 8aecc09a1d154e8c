package flight

import (
	"math"

	"puffproof/pneumatics/ode"
)

// Gravity is the standard acceleration of free fall [m/s2] (CGPM 1901).
const Gravity = 9.80665

// Body is what flies.
type Body struct {
	Mass     float64 // [kg]
	Diameter float64 // of the frontal area [m]
	Drag     Drag
}

// Air is what it flies in.
type Air struct {
	Density   float64 // [kg/m3]
	Viscosity float64 // dynamic [Pa s]; 0: the drag sees a Reynolds number of 1e5
	// Wind along the shot [m/s]; positive from behind.
	Wind float64
}

// Throw is how the flight begins. The muzzle is at distance 0.
type Throw struct {
	Speed     float64 // relative to the launcher [m/s]
	Elevation float64 // above the horizon [rad]
	Height    float64 // of the muzzle above the ground [m]; at least 0
	Moving    float64 // speed of the launcher along the shot [m/s]; positive forward
	Gravity   float64 // [m/s2]; 0: Gravity
}

// Point is one moment of a flight.
type Point struct {
	Time, X, Y float64 // [s], from the muzzle along the ground [m], above the ground [m]
	VX, VY     float64 // over the ground [m/s]
}

// Speed is the speed over the ground [m/s].
func (p Point) Speed() float64 { return math.Hypot(p.VX, p.VY) }

// Flight is one flight as plain data.
type Flight struct {
	Start, Apex, Landing Point
	Landed               bool // false: not down after MaxTime
	Track                []Point
}

// MaxTime ends a flight that does not come down [s].
const MaxTime = 120

// Fly computes a flight down to the ground, with a track of samples equally
// spaced moments (fewer than two: none).
func Fly(b Body, a Air, t Throw, samples int) Flight {
	fly := newFlier(b, a, tolerance)
	f := fly.fall(t, math.Inf(1), nil)
	if samples >= 2 {
		times := make([]float64, samples)
		for i := range times {
			times[i] = f.Landing.Time * float64(i) / float64(samples-1)
		}
		f.Track = make([]Point, 0, samples)
		fly.fall(t, f.Landing.Time, func(p Point) { f.Track = append(f.Track, p) }, times...)
	}
	return f
}

const (
	tolerance  = 1e-10 // relative error per step: flights are cheap
	shortest   = 1e-6  // [s]; what would be in free fall for less has landed where it was: its steps would not see the ground between
	eventApex  = 0
	eventFloor = 1
)

// flier computes the flights of one body in one air, one after another.
type flier struct {
	system
	solver    *ode.Solver
	tolerance float64
}

func newFlier(b Body, a Air, tolerance float64) *flier {
	return &flier{system: system{area: math.Pi * b.Diameter * b.Diameter / 4, b: b, a: a}, solver: ode.New(4, 2), tolerance: tolerance}
}

// fall integrates to the ground or to the time until; see is told the points at
// the given times.
func (s *flier) fall(t Throw, until float64, see func(Point), times ...float64) Flight {
	if s.g = t.Gravity; s.g == 0 {
		s.g = Gravity
	}
	sin, cos := math.Sincos(t.Elevation)
	y := []float64{0, t.Height, t.Speed*cos + t.Moving, t.Speed * sin}
	solver := s.solver
	solver.Start(&s.system, 0, y, []ode.Direction{ode.Falling, ode.Falling}, ode.Settings{Tolerance: s.tolerance,
		Scale: []float64{1e-3, 1e-3, 1e-3, 1e-3}})
	at := func() Point {
		y := solver.State()
		return Point{Time: solver.Time(), X: y[0], Y: y[1], VX: y[2], VY: y[3]}
	}
	f := Flight{Start: at()}
	f.Apex = f.Start
	if up := (y[3] + math.Sqrt(y[3]*y[3]+2*s.g*math.Max(0, t.Height))) / s.g; up < shortest {
		f.Landing, f.Landed = f.Start, true
		return f
	}
	for _, limit := range append(times, math.Min(until, MaxTime)) {
		for solver.Time() < limit {
			o := solver.Advance(limit)
			switch {
			case o == ode.Happened && solver.Event == eventApex:
				f.Apex = at()
				continue
			case o == ode.Happened:
				f.Landing, f.Landed = at(), true
				if see == nil {
					return f
				}
				continue
			case o != ode.Reached:
				panic("flight: " + o.String())
			}
		}
		if see != nil && len(times) > 0 {
			see(at())
			times = times[1:]
		}
	}
	if !f.Landed {
		f.Landing = at()
	}
	return f
}

// system is the right-hand side of the flight: x, y, vx, vy.
type system struct {
	b    Body
	a    Air
	area float64
	g    float64
}

// Derivatives gives the motion of a point mass:
//
//	dv/dt = -(rho A Cd/(2 m)) |v - w| (v - w) + g
func (s *system) Derivatives(_ float64, y, d []float64) {
	ux, uy := y[2]-s.a.Wind, y[3]
	speed := math.Sqrt(ux*ux + uy*uy)
	re := 1e5
	if s.a.Viscosity > 0 {
		re = s.a.Density * speed * s.b.Diameter / s.a.Viscosity
	}
	pull := 0.0 // drag over speed and mass [1/s]
	if speed > 0 && re > 0 {
		pull = s.a.Density * s.area * s.b.Drag(re) * speed / (2 * s.b.Mass)
	}
	d[0], d[1], d[2], d[3] = y[2], y[3], -pull*ux, -pull*uy-s.g
}

// EventValues has the apex and the ground.
func (s *system) EventValues(_ float64, y, _, g []float64) {
	g[eventApex] = y[3]
	g[eventFloor] = y[1]
}

// Accepted needs nothing.
func (s *system) Accepted(float64, []float64) {}
