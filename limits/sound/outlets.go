package sound

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/sound"
)

// How long an outlet takes to open of which it is not stated, and what none is quicker than: a disc has to rise a
// quarter of its bore. Own rule of this project, no source [s].
const (
	expectedOpening = 10e-3
	soonestOpening  = 0.5e-3
)

// outlets are what opens to the atmosphere or, with nothing loaded, through the barrel, each at the highest pressures
// before a shot. An orifice that is always open never changes.
func outlets(l *launcher.Launcher, start float64) (out []Source) {
	nominal, most := l.Clone(), l.Clone()
	for i := range most.Paths {
		f := &most.Paths[i].Flow
		for _, b := range [...]*launcher.Band{&f.Value, &f.DischargeCoefficient} {
			if b.Set {
				b.Nominal = b.High
			}
		}
	}
	gauge := l.HighStart(start)
	var expected, upper pneumatics.Circuit
	nominal.Fill(&expected)
	most.Fill(&upper)
	for i := range l.Paths {
		p := &l.Paths[i]
		from := l.Node(p.From)
		loud := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve || p.Kind == pneumatics.Relief ||
			p.Kind == pneumatics.QuickExhaust
		if !loud || from < 0 || p.To != "atmosphere" && p.To != "barrel" {
			continue
		}
		at := func(c *pneumatics.Circuit, time float64) float64 { return opening(c, i, gauge[from], time) }
		opens, soonest := expectedOpening, 0.0
		if t := p.OpeningTime; t.Set {
			opens, soonest = t.Nominal, t.Low
		}
		opens, soonest = max(opens, soonestOpening), max(soonest, soonestOpening)
		s := Source{ID: "outlet." + p.Name, Name: finding.Say("the outlet %s as it opens", p.Name),
			Levels: Levels{sound.Level(sound.AtOneMetre(at(&expected, opens), sound.FreeSpace)),
				sound.Level(sound.AtOneMetre(at(&upper, soonest), sound.HalfSpace))}}
		if p.To == "barrel" {
			s.ID, s.Name = "empty."+p.Name, finding.Say("%s opens with nothing loaded", p.Name)
		}
		out = append(out, s)
	}
	return out
}

// opening is how fast the mass flow of a path changes that opens at a pressure [Pa gauge] in a time [s] [kg/s2].
func opening(c *pneumatics.Circuit, path int, gauge, time float64) float64 {
	p := &c.Paths[path]
	law := p.SteadyFlow(c.Gas)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	return sound.Opening(airOf(c), math.Abs(law.MassFlow(c.Gas, pa+gauge, ta, pa, ta)), time, 0.5*law.JetDiameter(&c.Gas))
}

// The peak of a pump over its stated A-weighted level, and how near to it an ear is
// taken to be. Own rule of this project, no source: a steady noise peaks at about four times its effective value; the
// upper end has ten times, with the low tones of pistons that A-weighting hides.
const (
	pumpPeak     = 12.0 // [dB]
	pumpMost     = 20.0 // [dB]
	pumpDistance = 0.5  // [m]
)

// Steady is the upper end of the A-weighted level [dB(A)] of a pump that states one, where an ear is taken to be nearest to it; false:
// none is stated.
func Steady(l *launcher.Launcher) (level float64, stated bool) {
	s := l.Supply
	if s == nil || !s.NoiseLevel.Set || s.NoiseLevel.Assumed && s.NoiseLevel.Line == 0 {
		return 0, false
	}
	return s.NoiseLevel.High - 20*math.Log10(pumpDistance), true
}

// DayShare is after how long [s] a steady A-weighted level [dB(A)] has given an ear what a daily level of 8 h gives it, by equal energy:
//
//	T = 8 h 10^((daily - L)/10)
//
// L the level at the ear, daily the 8-hour level [dB(A)]. Source: the daily exposure level of ISO 1999, as Directive 2003/10/EC uses
// it (from memory).
func DayShare(level, daily float64) float64 { return 8 * 3600 * math.Pow(10, (daily-level)/10) }

// pump is what the supply sounds like by its level, stated or assumed; false: there is none.
func pump(l *launcher.Launcher) (Source, bool) {
	if l.Supply == nil || !l.Supply.NoiseLevel.Set {
		return Source{}, false
	}
	n := l.Supply.NoiseLevel
	name := "the pump, by its stated level"
	if n.Assumed && n.Line == 0 {
		name = "the pump, whose supply.noise_level is not stated"
	}
	return Source{ID: "pump", Name: finding.Words(name), Apart: true,
		Levels: Levels{n.Nominal + pumpPeak, n.High + pumpMost}}, true
}
