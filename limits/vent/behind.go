package vent

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// behindProjectile is the air behind a loaded projectile: closed in where
// nothing opens and its closest fit leaves no gap. It can hold pressure where a
// path into the barrel is open before or after, or, from firing, where the
// search found that the projectile can stick.
func (v *venter) behindProjectile(s Scenario) (c Case, there bool, err error) {
	all := v.setups(s, NarrowStuck)
	tight := all[0]
	fed := tight.intoBarrel() != ""
	for i := range tight.Circuit.Paths {
		p := &tight.Circuit.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		if p.To == pneumatics.BarrelNode && (!valve || (p.OpenIn.Has(s.From) && s.From != pneumatics.Firing)) {
			fed = true
		}
	}
	sticks := s.From == pneumatics.Firing && v.in.Stuck.Freed > 0
	if !fed && !sticks {
		return c, false, nil
	}
	barrel := len(tight.Circuit.Volumes)
	c = Case{Scenario: s.String(), Kind: s.Kind, From: s.From, Volume: "barrel", Start: slices.Max(v.e.Start),
		Keeps: tight.Residual()[barrel], AfterWithin: math.NaN()}
	if !fed { // at rest it holds no more than its friction does
		c.Start = min(v.in.Stuck.Start, heldPressure(v.in.Launcher))
	}
	if c.Start <= v.e.Target {
		c.Keeps, c.AfterWithin = min(c.Keeps, c.Start), c.Start
		v.judgeCase(&c)
		return c, true, nil
	}
	if c.Keeps > v.e.Target {
		c.Slowest, c.Expected, c.Fastest, c.Rebound = math.Inf(1), math.Inf(1), math.Inf(1), c.Start
		c.Isothermal, c.Adiabatic, c.AfterWithin = c.Slowest, c.Slowest, c.Start
		v.judgeCase(&c)
		c.Missing = finding.Words("a bleed from the barrel to the atmosphere, or a projectile that always leaves a gap")
		return c, true, nil
	}
	if err := v.bleedTimes(&c, all); err != nil {
		return c, true, err
	}
	v.judgeCase(&c)
	c.AfterWithin = c.Start // bounds, no course
	if c.Slowest <= v.within {
		c.AfterWithin = v.e.Target
	}
	return c, true, nil
}

// heldPressure is the most that a projectile at rest can have behind it [Pa
// gauge]: its firmest hold over the smallest section.
func heldPressure(l *launcher.Launcher) float64 {
	section := launcher.Circle(l.Barrel.Bore.Low)
	if l.Barrel.Fit == pneumatics.OverTube {
		section = launcher.Circle(l.Projectile.InsideDiameter.Low)
	}
	return max(l.Projectile.Breakaway.High, l.Projectile.Restart.High) / section
}

// bleedTimes times the air behind a projectile that does not move: a rigid vessel with the
// gap around it as one way out.
func (v *venter) bleedTimes(c *Case, all []*Setup) error {
	c.Slowest = 0
	for _, tight := range all {
		behind := tight.withRigidBarrel(v.in.Launcher.SpaceBehindProjectile(), c.Start)
		times, err := v.e.Slowest(behind, v.until)
		if err != nil {
			return err
		}
		c.Slowest = max(c.Slowest, times[len(times)-1])
	}
	c.Expected, c.Fastest, c.Isothermal, c.Adiabatic = c.Slowest, 0, c.Slowest, c.Slowest
	return nil
}

// withRigidBarrel is the setup with the air behind its projectile as one volume more, of
// so much space [m3] at a gauge pressure [Pa]: the barrel proper takes no heat from its
// walls, since a shot leaves no time for any.
func (s *Setup) withRigidBarrel(space, gauge float64) *Setup {
	out := &Setup{Circuit: s.Circuit, scenario: s.scenario}
	c, b := &out.Circuit, &s.Circuit.Barrel
	rigid := pneumatics.Node(len(c.Volumes))
	c.Volumes = append(slices.Clone(c.Volumes), pneumatics.Volume{Name: "barrel", Volume: space, InnerDiameter: 2 * math.Sqrt(b.Area/math.Pi)})
	c.Paths = slices.Clone(c.Paths)
	for i := range c.Paths {
		for _, end := range []*pneumatics.Node{&c.Paths[i].From, &c.Paths[i].To, &c.Paths[i].Balance.Pilot} {
			if *end == pneumatics.BarrelNode {
				*end = rigid
			}
		}
	}
	c.Paths = append(c.Paths, pneumatics.Path{Name: "gap", From: rigid, To: pneumatics.Atmosphere, Kind: pneumatics.Orifice,
		Flow: flow.Nozzle(b.LeakArea, b.LeakCd)})
	around := c.Ambient
	out.scenario.Volumes = append(slices.Clone(out.scenario.Volumes),
		pneumatics.Condition{Pressure: around.Pressure + gauge, Temperature: around.Temperature})
	out.scenario.NoProjectile = true
	return out
}
