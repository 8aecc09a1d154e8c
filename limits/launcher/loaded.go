package launcher

import (
	"math"

	"puffproof/pneumatics"
)

// IntoBarrel are the paths that lead air from a volume into the barrel.
func (l *Launcher) IntoBarrel() (out []int) {
	for i := range l.Paths {
		p := &l.Paths[i]
		into := p.To == "barrel" && p.From != "atmosphere" || p.From == "barrel" && p.To != "atmosphere" && !p.Kind.OneWay()
		if into && p.Kind != pneumatics.Relief {
			out = append(out, i)
		}
	}
	return out
}

// Squeezed tells that the projectile is wider than its bore at every tolerance: soft
// foam that is pressed in and leaves no gap.
func (l *Launcher) Squeezed() bool {
	d, b := l.Projectile.Diameter, l.Barrel.Bore
	return l.Barrel.Fit == pneumatics.InBore && d.Set && b.Set && d.Low > b.High
}

// RollsOut tells whether a loaded projectile's weight alone moves it out of a barrel
// that points down: pull is the most of its weight along the barrel [N], hold the
// least force that starts it [N]. A tilt of zero or more lets none out. One with a gap all round
// (Loose) rolls whatever force is stated: nothing is there that could hold it.
func (l *Launcher) RollsOut() (pull, hold float64, rolls bool) {
	pull = -l.Projectile.Mass.High * gravity * math.Sin(l.LowestElevation())
	hold = l.Projectile.Breakaway.Low
	return pull, hold, pull > 0 && (pull > hold || l.Loose())
}

// Loose tells that a projectile in a bore has a gap around it at every tolerance: a ball then rolls. A
// rocket over a tube slides, held by its friction.
func (l *Launcher) Loose() bool {
	b, p := &l.Barrel, &l.Projectile
	switch {
	case b.Fit == pneumatics.OverTube:
		return false
	case p.Clearance.Set:
		return p.Clearance.Low > 0
	}
	return p.Diameter.Set && b.Bore.Set && p.Diameter.High < b.Bore.Low
}

// gravity is the standard acceleration of free fall [m/s2] (ISO 80000-3).
const gravity = 9.80665
