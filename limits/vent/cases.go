package vent

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// cases computes one way of emptying, volume by volume, and the barrel behind a
// loaded projectile where it can hold air.
func (v *venter) cases(s Scenario, detail SheetDetail) ([]Case, error) {
	slow := v.setups(s, SlowEnd)
	key := slow[0].positions()
	out, ok := v.cased[key]
	if !ok {
		var err error
		if out, err = v.compute(slow, s, detail); err != nil {
			return nil, err
		}
		v.cased[key] = out
	}
	named := append([]Case(nil), out...)
	for i := range named {
		named[i].Scenario, named[i].Kind, named[i].From = s.String(), s.Kind, s.From
		if named[i].Trapped {
			named[i].Missing = v.missing(named[i].Volume, s.Kind)
		}
	}
	b, there, err := v.behindProjectile(s)
	if err == nil && there {
		named = append(named, b)
	}
	return named, err
}

// compute runs the ends of the tolerances and reads the cases off them.
func (v *venter) compute(setups []*Setup, s Scenario, detail SheetDetail) ([]Case, error) {
	slow := setups[0]
	if slow.intoBarrel() != "" { // a loaded projectile is in the way
		setups = append(setups, v.setups(s, NarrowStuck)...)
	}
	nominal, err := v.nominalRun(s)
	if err != nil {
		return nil, err
	}
	keeps := make([]float64, len(slow.Circuit.Volumes))
	slowest := make([]float64, len(keeps))
	for _, one := range setups {
		for i, p := range one.Residual()[:len(keeps)] {
			keeps[i] = max(keeps[i], p)
		}
		times, err := v.e.Slowest(one, v.until)
		if err != nil {
			return nil, err
		}
		for i, t := range times {
			slowest[i] = max(slowest[i], t)
		}
	}
	cases := make([]Case, len(keeps))
	for i := range cases {
		c := &cases[i]
		*c = Case{Volume: slow.Circuit.Volumes[i].Name, Start: slow.scenario.Volumes[i].Pressure - slow.Circuit.Ambient.Pressure, Keeps: keeps[i],
			AfterWithin: math.NaN(),
			// Where one volume waits for another, each slow alone may help the other.
			Slowest: max(slowest[i], OrInf(nominal.WatchTimes[i]))}
		v.judgeCase(c)
	}
	if detail.Brief() {
		return cases, nil
	}
	fast := v.setups(s, FastEnd)
	if err := v.rebounds(cases, fast); err != nil || detail == ForItems {
		return cases, err
	}
	return cases, v.fill(cases, setups, fast, s)
}

// judgeCase draws the status of a case from the graph and the slow end. A
// volume without a way out is trapped whatever it holds today.
func (v *venter) judgeCase(c *Case) {
	c.Trapped = !(c.Keeps < v.e.Target)
	switch {
	case c.Trapped:
		c.Status = Trapped
		c.Slowest = math.Inf(1)
	case math.IsInf(c.Slowest, 1):
		c.Status = TimeRanOut
	case c.Slowest > v.within: // never where no time is asked
		c.Status = Slow
	default:
		c.Status = Vented
	}
}

// missing says which path would empty a volume.
func (v *venter) missing(volume string, kind Kind) finding.Text {
	want := "open in state off"
	if kind == PowerLost {
		want = `unpowered = "open"`
	}
	for i := range v.in.Launcher.Paths {
		p := &v.in.Launcher.Paths[i]
		if p.From == volume && p.To == "atmosphere" && p.Kind != pneumatics.Relief {
			switch {
			case p.Kind == pneumatics.QuickExhaust:
				return finding.Say("a vent of %s, or of the inlet of paths.%s by a way of its own: its exhaust opens only once that has emptied, "+
					"and lets go down to %s", volume, p.Other, finding.Bar(p.OpensAt.High))
			case p.MinDifferential.Set && p.MinDifferential.High > v.e.Target:
				return finding.Say("a vent of %s that needs no pressure to open: paths.%s may stay shut below %s",
					volume, p.Name, finding.Bar(p.MinDifferential.High))
			case p.Kind == pneumatics.Check && p.CrackingPressure.High > v.e.Target:
				return finding.Say("a vent of %s that opens below the target: paths.%s keeps up to %s",
					volume, p.Name, finding.Bar(p.CrackingPressure.High))
			}
			if p.Kind == pneumatics.HandValve && kind == PowerLost {
				return finding.Say("a vent of %s that nobody has to open: paths.%s stays where a hand left it", volume, p.Name)
			}
			return finding.Say("paths.%s as the way out of %s: it does not open and should be %s", p.Name, volume, want)
		}
	}
	return finding.Say("a path from %s to the atmosphere that is %s", volume, want)
}
