package worst

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// LettingGo makes a shot one of a projectile that something held until the air behind it broke it loose. A hold of u times the force
//
//	p A    p highest pressure that the barrel reaches while the projectile is at rest [Pa gauge], A area that it acts on [m2]
//
// gives way at u p behind it, at the latest with the valve open and all that feeds it full: it is fired again, and filled again, while it
// sits there. u runs from nothing to 1: the air breaks no firmer hold. What is slow about the valve, or lost while it fills, softens
// nothing then. Once it is loose it slides as it always does. plugged is what a hose's air comes to behind it; nil: not known, and twice
// counts.
func LettingGo(l *launcher.Launcher, plugged *Plugged) func(*pneumatics.Circuit, *pneumatics.Scenario, float64) {
	reach, rush := launcher.ReachOf(l).Volumes, 1.0
	if l.Rushes() {
		rush = launcher.Rush
		if feeds := l.BarrelFault().Fault; plugged != nil && plugged.Behind > 0 && feeds > 0 {
			rush = min(max(1, plugged.Behind/feeds), launcher.Rush)
		}
	}
	return func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u float64) {
		air := c.Ambient.Pressure
		full := air
		for i := range sc.Volumes {
			if reach[i] {
				full = max(full, sc.Volumes[i].Pressure)
			}
		}
		sc.From, sc.To = pneumatics.Firing, pneumatics.Firing
		sc.Barrel = pneumatics.Condition{Pressure: air + u*rush*(full-air), Temperature: c.Ambient.Temperature}
		c.Barrel.Breakaway = 0
	}
}
