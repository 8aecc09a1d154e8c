// Package drill says what people do with their hands where something holds pressure, and when not to: about a projectile that is stuck, by
// what the air behind it gets out (Jam), and with the switch held closed, so that the supply runs on against the relief valve (NoBridging).
// It decides nothing.
package drill

import (
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Bleeds tells by what the air behind a projectile that does not move gets out in the end: paths from the barrel to
// the atmosphere that are open both in state off and without power, a gap around the tightest projectile, or else
// another volume that empties and is then joined to the barrel. Neither where it stays.
func Bleeds(l *launcher.Launcher) (paths []string, gap, through bool) {
	c := new(pneumatics.Circuit)
	w := l.Clone()
	w.ClosestFit()
	w.Fill(c)
	through = true
	for _, lost := range []bool{false, true} {
		sc := &pneumatics.Scenario{From: pneumatics.Firing, To: pneumatics.Off, PowerLost: lost}
		through = through && pneumatics.Residual(c, sc)[len(c.Volumes)] == 0
		var open []string
		for i := range c.Paths {
			p := &c.Paths[i]
			out := p.From == pneumatics.BarrelNode && p.To == pneumatics.Atmosphere && !p.Flow.IsZero()
			out = out && (!lost || slices.Contains(paths, p.Name))
			if out && p.Kind != pneumatics.Relief && p.CrackingPressure == 0 && p.OpeningAtLast(sc) > 0 {
				open = append(open, p.Name)
			}
		}
		paths = open
	}
	return paths, c.Barrel.LeakArea > 0, through
}

// Jam is what to do about a projectile that is stuck, for this launcher: first the air out, then the projectile,
// each with nobody in line (common practice, no source).
func Jam(l *launcher.Launcher) finding.Text {
	t := finding.Words("Nobody in line with the barrel, before it or behind. " + off(l))
	if hand := HandVents(l); len(hand) > 0 {
		t = t.Say("; from the side, open by hand: %s", finding.Join(finding.AllWords(hand), ", "))
	}
	if v := l.Venting; v != nil && v.Within.Set {
		t = t.Say(". Wait %s", finding.Second(v.Within.Low))
	} else {
		t = t.Say(". Wait")
	}
	if len(l.Gauges) > 0 {
		t = t.Say(" and until every gauge has stood at zero for a minute. ")
	} else {
		t = t.Say(": there is no gauge that shows when it is empty. ")
	}
	paths, gap, through := Bleeds(l)
	switch {
	case len(paths) > 0:
		t = t.Say("No gauge shows the air behind the projectile: it leaves by what is always open, %s",
			finding.Join(finding.AllWords(paths), ", "))
	case gap:
		t = t.Say("No gauge shows the air behind the projectile: it leaves by the gap around it")
	case through:
		t = t.Say("No gauge shows the air behind the projectile: it goes back through the firing valve and out of " +
			"the vents")
	default:
		return t.Say("NOTHING in this design lets out the air behind the projectile: nobody touches the barrel or goes near it; keep " +
			"everybody away, behind a wall, and ask somebody who knows pressure vessels. Never by hand, never with air.")
	}
	if l.Barrel.Fit == pneumatics.OverTube {
		return t.Say(". Then, standing beside it, twist the projectile off sideways, away from everybody. Nothing goes into the tube. " +
			"Never with air.")
	}
	return t.Say(". Then take the barrel off, looking from the side and never into the bore, and push the projectile out with a rod from " +
		"behind, away from everybody. Never by hand, never with air.")
}

// HandVents names the valves to the atmosphere that a hand opens.
func HandVents(l *launcher.Launcher) (names []string) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.HandValve && p.To == "atmosphere" {
			names = append(names, p.Name)
		}
	}
	return names
}
