package doubt

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// OtherClearance gives the clearance that the design states and the one that its two
// diameters leave [m], and tells whether they have no value in common: then one of the
// three figures contradicts the other two. A projectile that is squeezed has none.
func OtherClearance(l *launcher.Launcher) (stated, left launcher.Band, other bool) {
	stated = l.Projectile.ClearanceSaid.Of(l.Projectile.Clearance)
	outer, inner := l.Barrel.Bore, l.Projectile.Diameter
	if l.Barrel.Fit == pneumatics.OverTube {
		outer, inner = l.Projectile.InsideDiameter, l.Barrel.TubeOuterDiameter
	}
	if !stated.Set || !outer.Set || !inner.Set || l.Squeezed() {
		return stated, left, false
	}
	left = launcher.Band{Set: true, Low: max(outer.Low-inner.High, 0), High: max(outer.High-inner.Low, 0)}
	const hair = 1e-9 // [m], of rounding
	return stated, left, stated.Low > left.High+hair || stated.High < left.Low-hair
}

// Clearance lets a stated clearance that the two diameters contradict begin where they do, if that is less: the less air gets past
// a projectile, the harder it is shot.
func Clearance(l *launcher.Launcher) {
	if stated, left, other := OtherClearance(l); other && left.Low < stated.Low {
		l.Projectile.ClearanceSaid.Keep(stated)
		l.Projectile.Clearance.Low = left.Low
	}
}
