package doubt

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// OtherDeadVolume gives the dead volume that the design states and what its barrel leaves behind the projectile [m3], and tells
// whether they have no value in common: then one of the figures is a slip. A launch tube holds at least its bore along the engagement,
// and at most that of thirty bores more; a barrel at most a bore of its travel and two bores more, or 100 mm if they are less (both own
// rules of this project), and where a ball fills it and touches the breech pi bore^3/24. What has a flat back may leave less.
func OtherDeadVolume(l *launcher.Launcher) (stated, left launcher.Band, other bool) {
	const tubeBores, boreBores, breech = 30, 2, 0.1
	b := &l.Barrel
	stated = b.DeadVolumeSaid.Of(b.DeadVolume)
	tube := b.Fit == pneumatics.OverTube
	if in, on := b.TubeInnerDiameter, b.Engagement; tube {
		left = launcher.Band{Set: in.Set && on.Set, Low: launcher.Circle(in.Low) * on.Low,
			High: launcher.Circle(in.High) * (on.High + tubeBores*in.High)}
	} else {
		left = launcher.Band{Set: b.Bore.Set && b.Travel.Set, Low: launcher.Circle(b.Bore.Low) * b.Bore.Low / 6,
			High: launcher.Circle(b.Bore.High) * (b.Travel.High + max(boreBores*b.Bore.High, breech))}
	}
	const hair = 1e-12 // [m3], of rounding
	less, more := tube && stated.High < left.Low-hair, stated.Low > left.High+hair
	return stated, left, stated.Set && left.Set && (less || more)
}

// DeadVolume lets a stated dead volume that the barrel contradicts run over what the barrel leaves too: less of it makes a shot
// harder as a rule, more of it where the air in it goes on pushing behind the muzzle.
func DeadVolume(l *launcher.Launcher) {
	if stated, left, other := OtherDeadVolume(l); other {
		b := &l.Barrel
		b.DeadVolumeSaid.Keep(stated)
		b.DeadVolume.Low, b.DeadVolume.High = min(stated.Low, left.Low), max(stated.High, left.High)
	}
}
