package vent

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// venter computes the cases of emptying; equal positions are computed once.
type venter struct {
	in     Input
	e      Emptier
	within float64
	walls  []Walls // of the waits behind a projectile that never moved
	until  float64
	ends   map[End][]*launcher.Launcher // one for each end of the barometer's band
	cased  map[string][]Case            // by the positions of the valves
	pushed map[string]*BarrelPush       // by the same
}

// newVenter empties from a pressure of the sensed volume to a target [Pa gauge].
func newVenter(in Input, start, target float64) *venter {
	l := in.Launcher
	v := &venter{in: in, e: Emptier{Start: l.HighStart(start), Target: target}, within: TimeAllowed(l), walls: slowWalls(),
		ends: map[End][]*launcher.Launcher{}, cased: map[string][]Case{}, pushed: map[string]*BarrelPush{}}
	for _, end := range []End{SlowEnd, NominalEnd, FastEnd, NarrowStuck} {
		v.ends[end] = AtEndInAnyAir(l, end)
	}
	// Long enough to tell slow from never.
	v.until = 600
	if !math.IsNaN(v.within) {
		v.until = max(v.until, 20*v.within)
	}
	return v
}

// setups makes the scenario at an end of the tolerances, for each end of the
// barometer's band.
func (v *venter) setups(s Scenario, end End) []*Setup {
	var out []*Setup
	for _, w := range v.ends[end] {
		out = append(out, v.e.Setup(w, s, end))
	}
	return out
}

// nominalRun is the expected course: stated values, natural convection at the walls.
func (v *venter) nominalRun(s Scenario) (*pneumatics.Result, error) {
	return v.e.Run(v.setups(s, NominalEnd)[0], v.expectedWalls(), v.until, 0)
}

// expectedWalls are those of the expected course.
func (v *venter) expectedWalls() Walls {
	if v.in.Launcher.Model.Parts.NoWallHeat {
		return ColdAir
	}
	return StillAir
}

// push runs the way of emptying with a projectile loaded, where a path opens into
// the barrel: does venting push it out, and how fast. The harder of the loosest
// and the firmest hold counts.
func (v *venter) push(e *Report, s Scenario) error {
	one := v.pushSetup(v.ends[FastEnd][0], s, 0)
	path := one.intoBarrel()
	if path == "" || s.From == pneumatics.Firing {
		return nil
	}
	key := one.positions()
	p := v.pushed[key]
	if p == nil {
		p = &BarrelPush{Path: path}
		for _, hold := range []float64{0, 1} {
			if err := v.pushes(p, v.pushSetup(v.ends[FastEnd][0], s, hold)); err != nil {
				return err
			}
		}
		v.pushed[key] = p
	}
	named := *p
	named.Scenario, named.Kind, named.From = s.String(), s.Kind, s.From
	e.Pushes = append(e.Pushes, named)
	return nil
}

// leastPush is an energy that is rounding of a computation that has come to rest [J].
const leastPush = 1e-6

// pushes runs one emptying with a projectile loaded and keeps it in p if it is the
// harder one. A projectile that neither leaves nor rests for good counts with the
// bound of what the air could still do.
func (v *venter) pushes(p *BarrelPush, one *Setup) error {
	one.scenario.Heat, one.scenario.Until = pneumatics.Adiabatic, 120
	r := v.e.known.Run(&v.e.Sim, &one.Circuit, &one.scenario, pneumatics.Options{})
	if why := r.Withheld(); why != "" {
		return &worst.WithheldError{What: "the emptying through the barrel", Reason: why}
	}
	if p.Outcome == "" {
		p.Outcome = r.Outcome.String()
	}
	speed, energy := r.FinalSpeed, r.FinalEnergy
	switch r.Outcome {
	case pneumatics.Left:
		if b := &one.Circuit.Barrel; energy < max(0, -b.Weight())*b.Travel+leastPush {
			return nil // it rolls out of a barrel that points down: its weight gives it more than that
		}
	case pneumatics.TimeRanOut:
		if energy = r.Freed; energy < leastPush {
			return nil
		}
		speed = math.Sqrt(2 * energy / one.Circuit.Barrel.Mass)
	default:
		return nil
	}
	if energy > p.Energy {
		p.Judged = energy * worst.ModelFactor
		p.Outcome, p.Speed, p.Energy, p.Bound = r.Outcome.String(), speed, energy, r.Outcome == pneumatics.TimeRanOut
	}
	return nil
}

// pushSetup is the way of emptying of w, a fast end in the thinnest air, with a
// projectile held as loosely (0) or as firmly (1) as its bands say. What has
// emptied while loading is empty.
func (v *venter) pushSetup(fast *launcher.Launcher, s Scenario, hold float64) *Setup {
	w := fast.Clone()
	for _, b := range []*launcher.Band{&w.Projectile.Breakaway, &w.Projectile.Restart} {
		b.Nominal = b.Lerp(hold)
	}
	w.Projectile.Sliding.Nominal = w.Projectile.Sliding.Low
	one := v.e.Setup(w, s, FastEnd)
	w.FillShot(&one.Circuit) // what pushes a projectile out is a shot
	one.scenario.NoProjectile = false
	for i := range one.scenario.Volumes {
		if rest, empty := v.in.Loading.RestIn(s.From, i); empty {
			one.scenario.Volumes[i].Pressure = min(one.scenario.Volumes[i].Pressure, one.Circuit.Ambient.Pressure+rest)
		}
	}
	return one
}
