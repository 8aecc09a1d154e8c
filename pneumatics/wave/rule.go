package wave

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/line"
)

// Range of the lumped model: outside it the wave model decides. The figures come from
// the comparison over random launchers of every layout (TestRandomDesigns), hoses as
// lines in both models: see testdata/wave/README.md.
const (
	// MaxGasRatio is the largest mass of gas behind the projectile, with that of the lines
	// that lead to it, over the projectile's mass [-].
	MaxGasRatio = 0.2
	// MinSoundTimes is the least number of times that sound could cover the way
	// from breech to muzzle while the projectile travels [-].
	MinSoundTimes = 10.0

	// InsideExcess, OutsideExcess and HoseExcess are the most energy that the wave model
	// gave above the lumped one, over the lumped one's, rounded up [-]: inside the range, with
	// hoses or without; outside it without a hose; outside it with one.
	InsideExcess  = 0.10
	OutsideExcess = 0.20
	HoseExcess    = 0.70
)

// Rule is how far a lumped shot is from the range of the lumped model.
type Rule struct {
	GasRatio   float64 // gas behind the projectile at the muzzle, with that of the lines, over its mass [-]
	HoseRatio  float64 // the lines' part of it [-]
	SoundTimes float64 // time of travel over the time of sound from breech to muzzle [-]
}

// Inside tells whether the lumped model can be trusted.
func (r Rule) Inside() bool { return r.Nearness() <= 1 }

// Nearness is how near a shot is to the end of the range [-]: 1 at it, more outside.
func (r Rule) Nearness() float64 {
	return max(r.GasRatio/MaxGasRatio, MinSoundTimes/r.SoundTimes)
}

// RuleOf measures a lumped shot that left: gas at ambient temperature and at the
// barrel's pressure when it left, that of the lines at ambient pressure. NaN in both
// figures, so outside, where it did not leave.
//
//	G/m = [p_exit (V_dead + A L) + pa V_lines]/(R T m),  n = (t_exit - t_move) a/(V_dead/A + L)
func RuleOf(c *pneumatics.Circuit, r *pneumatics.Result) Rule {
	b := &c.Barrel
	volume := b.DeadVolume + b.Area*b.Travel
	hoses := c.Gas.Density(c.Ambient.Pressure, c.Ambient.Temperature) * FiringLines(c) / b.Mass
	return Rule{
		GasRatio:   c.Gas.Density(r.BarrelExit, c.Ambient.Temperature)*volume/b.Mass + hoses,
		HoseRatio:  hoses,
		SoundTimes: (r.ExitTime - r.MoveTime) * c.Gas.SoundSpeed(c.Ambient.Temperature) * b.Area / volume,
	}
}

// FiringLines is what the lines hold that air may pass when a circuit is fired [m3]: those
// of every path between volumes and barrel but for a relief valve and a valve that is shut then.
func FiringLines(c *pneumatics.Circuit) float64 {
	sum := 0.0
	for i := range c.Paths {
		if p := &c.Paths[i]; Carries(p) {
			sum += line.Volume(p.Before) + line.Volume(p.After)
		}
	}
	return sum
}

// Carries tells that a path may let air through towards the barrel in a shot.
func Carries(p *pneumatics.Path) bool {
	switch {
	case p.From == pneumatics.Atmosphere || p.To == pneumatics.Atmosphere || p.Kind == pneumatics.Relief || p.Flow.IsZero():
		return false
	case p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve:
		return p.OpenIn.Has(pneumatics.Firing)
	}
	return true
}
