package doubt

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Densities [kg/m3] that tell a slip in a mass (all from memory, common practice, no source): foam that flies from toys has 10 to 200;
// solid rubber about 1,200; with its glue and a skin a foam rocket has at most twice what the densest foam has, and a
// projectile half of what the lightest has.
const (
	lightFoam, denseFoam = 10.0, 200.0
	rubber               = 1200.0
	denseRocket          = 2 * denseFoam
	lightest             = lightFoam / 2
)

// OtherMass gives the mass that the design states and what foam of its size may have [kg], and tells whether the stated one is beyond
// anything like it: a projectile in the bore heavier than a ball of solid rubber as wide as it is, a rocket heavier than dense foam from
// its tail to five diameters before its tube, and either lighter than half of what a ball of the lightest foam has (own rule of this
// project). A projectile without a diameter has none.
func OtherMass(l *launcher.Launcher) (stated, foam launcher.Band, other bool) {
	const nose = 5
	p := &l.Projectile
	stated = p.MassSaid.Of(p.Mass)
	if !stated.Set || !p.Diameter.Set {
		return stated, foam, false
	}
	ball := func(d float64) float64 { return math.Pi / 6 * d * d * d }
	most := rubber * ball(p.Diameter.High)
	foam = launcher.Band{Set: true, Low: lightFoam * ball(p.Diameter.Low), High: denseFoam * ball(p.Diameter.High)}
	if l.Barrel.Fit == pneumatics.OverTube {
		long := launcher.Circle(p.Diameter.High) * (l.Barrel.Engagement.High + nose*p.Diameter.High)
		most, foam.High = denseRocket*long, denseFoam*long
	}
	return stated, foam, stated.Low > most || stated.High < lightest*ball(p.Diameter.Low)
}

// Mass lets a stated mass that no foam of its size has run over what foam has too: which mass takes up the most energy depends on the
// rest of the launcher.
func Mass(l *launcher.Launcher) {
	if stated, foam, other := OtherMass(l); other {
		p := &l.Projectile
		p.MassSaid.Keep(stated)
		p.Mass.Low, p.Mass.High = min(stated.Low, foam.Low), max(stated.High, foam.High)
	}
}
