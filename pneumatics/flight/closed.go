package flight

import "math"

// Decay is the constant of the decay of the speed with the distance [1/m]:
//
//	k = rho A Cd/(2 m)
//
// density of the air [kg/m3], area the frontal one [m2], cd [-], mass [kg].
// Source: integral of m v dv/dx = -rho A Cd v^2/2.
func Decay(density, area, cd, mass float64) float64 { return density * area * cd / (2 * mass) }

// SpeedAt is the speed after distance x [m] of level flight without gravity:
//
//	v = v0 exp(-k x)
func SpeedAt(v0, k, x float64) float64 { return v0 * math.Exp(-k*x) }

// SpeedBefore is the inverse of SpeedAt: the speed x [m] earlier.
func SpeedBefore(v, k, x float64) float64 { return v * math.Exp(k*x) }

// MuzzleSpeedOver is the speed at the muzzle of a body that takes time t [s] from
// the distance a to the distance b [m] from the muzzle, gravity left out:
//
//	v0 = (exp(k b) - exp(k a))/(k t)
func MuzzleSpeedOver(a, b, t, k float64) float64 {
	if k*(b-a) < 1e-9 {
		return (b - a) / t
	}
	return math.Exp(k*a) * math.Expm1(k*(b-a)) / (k * t)
}

// TimeOver is the time from the muzzle to distance x [m], the inverse of
// MuzzleSpeedOver with a = 0.
func TimeOver(v0, k, x float64) float64 {
	if k*x < 1e-9 {
		return x / v0
	}
	return math.Expm1(k*x) / (k * v0)
}

// Terminal is the terminal speed of a fall [m/s]:
//
//	vt = sqrt(g/k)
func Terminal(k, g float64) float64 { return math.Sqrt(g / k) }

// ApexHeight is the height that a body thrown straight up reaches [m]:
//
//	h = vt^2/(2 g) ln(1 + v0^2/vt^2)
func ApexHeight(v0, vt, g float64) float64 { return vt * vt / (2 * g) * math.Log1p(v0*v0/(vt*vt)) }

// SpeedForHeight is the inverse of ApexHeight.
func SpeedForHeight(h, vt, g float64) float64 { return vt * math.Sqrt(math.Expm1(2*g*h/(vt*vt))) }

// ImpactSpeed is the speed after a fall from rest through h [m]:
//
//	v = vt sqrt(1 - exp(-2 g h/vt^2))
func ImpactSpeed(h, vt, g float64) float64 { return vt * math.Sqrt(-math.Expm1(-2*g*h/(vt*vt))) }

// ReturnTime is the time from a shot straight up until the fall has reached
// drop [m] below the muzzle:
//
//	t = (vt/g) [atan(v0/vt) + arcosh(exp(g (h + drop)/vt^2))]
func ReturnTime(v0, vt, g, drop float64) float64 {
	h := ApexHeight(v0, vt, g)
	return vt / g * (math.Atan(v0/vt) + math.Acosh(math.Exp(g*(h+drop)/(vt*vt))))
}
