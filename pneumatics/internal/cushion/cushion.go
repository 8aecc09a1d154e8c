// Package cushion bounds the pressures in a barrel with a closed muzzle, from a moment on: how far the projectile compresses the gas
// before it, and how far that gas throws it back. Gas is compressed without heat and reversibly, the most that motion and a constant
// pressure behind can do:
//
//	K + p_d (V - V') = (p' V' - p V)/(gamma - 1),  p' V'^gamma = p V^gamma
//
// with K [J] the kinetic energy, p_d [Pa] the pressure that drives, p and V [m3] of the gas. Source: the first law for a closed
// system without heat (for instance Moran and Shapiro, Fundamentals of Engineering Thermodynamics, chapters 2 and 6, from memory).
package cushion

import "math"

// Barrel is the barrel at that moment. Pressures are absolute [Pa].
type Barrel struct {
	Gamma   float64 // [-]
	Ambient float64 // pressure below which nothing falls
	Highest float64 // pressure on either side so far
	Drive   float64 // the highest that can still come, behind the projectile or by a leak past it, without its motion
	Ahead   float64 // pressure of the gas before it
	Volume  float64 // of that gas [m3]
	Least   float64 // of it, when the projectile touches the plug; more than none [m3]
	Dead    float64 // volume behind the projectile at its rear stop [m3]
	Motion  float64 // kinetic energy [J]
	Push    float64 // what its weight adds to the pressure behind it
	Fall    float64 // what its weight adds on its way back [J]
}

// level is by how much the pressures may still rise, in parts of what they have risen by [-].
const level = 2e-4

// Rises is below zero where neither pressure will be higher than it has been, but for a level of 2e-4, before the projectile has come to
// rest [-]: neither ahead of it, nor behind it where the gas ahead throws it back while what is behind it has emptied.
func (b *Barrel) Rises() float64 {
	top := b.Ambient + (1+level)*(b.Highest-b.Ambient)
	return max(-b.lacks(top)/(top*b.Volume), b.thrown()/top-1)
}

// compressed is the work to compress gas at p in a volume v to the pressure to, where drive pushes [J].
func (b *Barrel) compressed(p, v, to, drive float64) float64 {
	then := v * math.Pow(p/to, 1/b.Gamma)
	return (to*then-p*v)/(b.Gamma-1) - drive*(v-then)
}

// lacks is what the projectile lacks to compress the gas ahead to top [J]; 0 or less: it may. What leaks past it before both pressures
// are the same takes from what it may gain, for a denser cushion takes more; what leaks back later leaves a thinner one, which takes
// less. So the gas counts whole on the way to the pressure that drives, and from there the least that comes to top at the end.
func (b *Barrel) lacks(top float64) float64 {
	drive, energy := b.Drive+b.Push, b.Motion
	base := max(b.Ahead, drive)
	if top <= base {
		return top - base - energy
	}
	if b.Ahead < drive {
		energy -= b.compressed(b.Ahead, b.Volume, drive, drive)
	}
	thin := b.Least * math.Pow(top/base, 1/b.Gamma)
	if needs := b.compressed(base, thin, top, drive); thin < b.Volume {
		return needs - energy
	} else { // there is not so much room before the plug
		return needs
	}
}

// thrown bounds the pressure behind a projectile that is thrown back [Pa]: the gas there, of any pressure from the ambient to the
// highest that comes, takes up all that the gas ahead does by expanding to the ambient pressure, in the dead volume or more.
func (b *Barrel) thrown() float64 {
	energy := b.Motion + b.Fall - b.compressed(b.Drive, b.Volume, b.Ambient, b.Ambient)
	most := 0.0
	for _, p := range [...]float64{b.Ambient, b.Drive} { // convex between
		most = max(most, p*math.Pow(1+(b.Gamma-1)*energy/(p*b.Dead), b.Gamma/(b.Gamma-1)))
	}
	return most
}
