package wave

import "math"

// State is the gas at one place.
type State struct {
	Density  float64 // [kg/m3]
	Velocity float64 // [m/s]
	Pressure float64 // [Pa absolute]
}

// Star is the solution of a Riemann problem between its two outer waves.
type Star struct {
	Pressure     float64 // [Pa]
	Velocity     float64 // [m/s]
	LeftDensity  float64 // left of the contact [kg/m3]
	RightDensity float64 // right of the contact [kg/m3]
}

// Riemann gives the exact star state of the Riemann problem between two states
// of a perfect gas: the root p of
//
//	f(p, left) + f(p, right) + u_right - u_left = 0
//
// by Newton's method, f the velocity change over a shock or a rarefaction. A
// vacuum between the two gives pressure and densities of zero.
// Source: Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics, 3rd
// edition (2009), sections 4.2 and 4.3.
func Riemann(gamma float64, left, right State) Star {
	l, r := sideOf(gamma, left), sideOf(gamma, right)
	du := right.Velocity - left.Velocity
	if 2*(l.sound+r.sound)/(gamma-1) <= du {
		return Star{Velocity: 0.5 * (left.Velocity + right.Velocity)}
	}
	z := (gamma - 1) / (2 * gamma)
	// The two-rarefaction solution is always positive and close.
	p := math.Pow((l.sound+r.sound-0.5*(gamma-1)*du)/
		(l.sound*math.Pow(left.Pressure, -z)+r.sound*math.Pow(right.Pressure, -z)), 1/z)
	for range 60 {
		fl, dl := l.wave(p)
		fr, dr := r.wave(p)
		next := p - (fl+fr+du)/(dl+dr)
		if next <= 0 {
			next = 0.1 * p
		}
		change := math.Abs(next - p)
		p = next
		if change <= 1e-15*p {
			break
		}
	}
	fl, _ := l.wave(p)
	fr, _ := r.wave(p)
	return Star{Pressure: p, Velocity: 0.5*(left.Velocity+right.Velocity) + 0.5*(fr-fl),
		LeftDensity: l.densityAt(p), RightDensity: r.densityAt(p)}
}

// side is one outer state of a Riemann problem made ready.
type side struct {
	gamma, rho, p, sound float64
}

func sideOf(gamma float64, s State) side {
	return side{gamma, s.Density, s.Pressure, math.Sqrt(gamma * s.Pressure / s.Density)}
}

// wave is the velocity change over the outer wave that leaves pressure p behind
// it, and its slope (Toro, equations 4.6, 4.7 and 4.37):
//
//	shock:       (p - p0) sqrt(A/(p + B)),  A = 2/((gamma+1) rho0), B = (gamma-1)/(gamma+1) p0
//	rarefaction: 2 a0/(gamma-1) ((p/p0)^((gamma-1)/(2 gamma)) - 1)
func (s *side) wave(p float64) (f, slope float64) {
	g := s.gamma
	if p > s.p {
		b := p + (g-1)/(g+1)*s.p
		root := math.Sqrt(2 / ((g + 1) * s.rho * b))
		return (p - s.p) * root, root * (1 - 0.5*(p-s.p)/b)
	}
	y := math.Pow(p/s.p, (g-1)/(2*g))
	return 2 * s.sound / (g - 1) * (y - 1), y * s.p / (s.rho * s.sound * p)
}

// densityAt is the density behind the outer wave (Toro, equations 4.50, 4.53).
func (s *side) densityAt(p float64) float64 {
	r := p / s.p
	if r > 1 {
		h := (s.gamma - 1) / (s.gamma + 1)
		return s.rho * (r + h) / (h*r + 1)
	}
	return s.rho * math.Pow(r, 1/s.gamma)
}

// atWall is the pressure on a wall that moves at d relative to the gas, towards
// it for d > 0: the wave relation solved for p. Zero where the wall outruns the
// gas.
func (s *side) atWall(d float64) float64 {
	g := s.gamma
	if d > 0 {
		a := 2 / ((g + 1) * s.rho)
		b := (g - 1) / (g + 1) * s.p
		return s.p + (d*d+d*math.Sqrt(d*d+4*a*(s.p+b)))/(2*a)
	}
	y := 1 + 0.5*(g-1)*d/s.sound
	if y <= 0 {
		return 0
	}
	return s.p * math.Pow(y, 2*g/(g-1))
}
