package measure

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// What a group of shots stands for: the launcher that the design states, as it is used. Shots of another projectile, of another part or
// at a temperature that it is never used at say nothing of it, however well the model happens to meet them.

// weights are the masses of projectiles as they were weighed [kg], by the name of the projectile, of a whole log: it is weighed once.
func weights(shots []ShotSpeed) map[string][]float64 {
	of := map[string][]float64{}
	for i := range shots {
		if s := &shots[i].Shot; s.Mass > 0 {
			of[named(s.Projectile)] = append(of[named(s.Projectile)], s.Mass)
		}
	}
	return of
}

// named is the name of a projectile, without what people write it with in different ways.
func named(projectile string) string {
	return strings.ToLower(strings.Join(strings.Fields(projectile), " "))
}

// standsFor lists why the shots of a group, those with a speed, do not stand for the launcher; weighed are the masses of the log.
func (g *SpeedGroup) standsFor(l *launcher.Launcher, shots []*Shot, weighed map[string][]float64) {
	known := g.weigh(l, shots, weighed)
	g.atItsTemperature(l, shots)
	g.newerThanItsParts(l, shots)
	if !known && len(shots) > 0 {
		g.Faults = append(g.Faults, finding.Words("none of the projectiles was weighed: write projectile_mass on one line of each"))
	}
}

// doubt adds a reason for which the group does not count and no band is narrowed with it.
func (g *SpeedGroup) doubt(format string, args ...any) {
	g.Doubted = true
	g.Faults = append(g.Faults, finding.Say(format, args...))
}

// weigh holds the projectiles that flew to the mass of the design. Of those that do not have it the lightest and the heaviest count
// beside the design's own wherever the group is held against the model. known: one of them was weighed.
func (g *SpeedGroup) weigh(l *launcher.Launcher, shots []*Shot, weighed map[string][]float64) (known bool) {
	flew := map[string]string{} // the name as it was written
	for _, s := range shots {
		flew[named(s.Projectile)] = s.Projectile
	}
	stated := l.Projectile.MassSaid.Of(l.Projectile.Mass)
	const hair = 1e-9
	for _, name := range slices.Sorted(maps.Keys(flew)) {
		for _, m := range weighed[name] {
			known = true
			g.MassLow, g.MassHigh = math.Min(g.MassLow, m), math.Max(g.MassHigh, m)
			if m < stated.Low*(1-hair) || m > stated.High*(1+hair) {
				g.doubt("projectile %s weighs %s, and the design has %s: shoot with what it states, or correct projectile.mass", called(flew[name]),
					finding.Grams.Of(m, 3), ends(finding.Grams, stated.Low, stated.High))
			}
		}
	}
	return known
}

// called names a projectile in a sentence.
func called(projectile string) string {
	if projectile == "" {
		return "without a name"
	}
	return fmt.Sprintf("%q", projectile)
}

// ends writes the two ends of a band.
func ends(u finding.Unit, low, high float64) finding.Text {
	if low == high {
		return finding.Say("%s", u.Of(low, 3))
	}
	return u.Of(low, 3).To(u.Of(high, 3))
}

// atItsTemperature asks for shots within the temperatures at which the launcher is used: friction, foam, valve and springs are not the
// same beyond them, and the model knows only the air's.
func (g *SpeedGroup) atItsTemperature(l *launcher.Launcher, shots []*Shot) {
	low, high := usedAt(l)
	n, far := 0, 0.0
	for _, s := range shots {
		if t := s.Temperature; t > 0 && (t < low-thermometer || t > high+thermometer) {
			n++
			if far == 0 || math.Max(low-t, t-high) > math.Max(low-far, far-high) {
				far = t
			}
		}
	}
	if n > 0 {
		g.doubt("%s made at up to %s, and the design is used at %s: shoot within that, or state ambient.coldest and hottest as it is used",
			counted(n, "shot"), finding.Celsius.Of(far, 3), ends(finding.Celsius, low, high))
	}
}

// thermometer is what the reading of a temperature may be off [K] (common practice, no source).
const thermometer = 1.0

// usedAt is between which temperatures the launcher is used, as the design states it [K]: ambient.temperature, and as far as coldest and
// hottest where they are stated.
func usedAt(l *launcher.Launcher) (low, high float64) {
	a := &l.Ambient
	low, high = a.Temperature.Low, a.Temperature.High
	if c := a.Coldest; c.Set && !c.Assumed {
		low = math.Min(low, c.Low)
	}
	if h := a.Hottest; h.Set && !h.Assumed {
		high = math.Max(high, h.High)
	}
	return low, high
}

// newerThanItsParts asks for shots that are no older than what they were shot with.
func (g *SpeedGroup) newerThanItsParts(l *launcher.Launcher, shots []*Shot) {
	for _, s := range shots {
		if part := newerPart(l, s.Date, anyPart); part.Key != "" {
			g.doubt("line %d is of %s, and %s is %s: it was shot with another part", s.Line, s.Date, part.Key, part.Made)
			return // one is enough to go by
		}
	}
}

// anyPart takes every part of a launcher, as a shot does.
func anyPart(string) bool { return true }

// restsOn tells of a part whether a bench test of a kind was made with it.
func (k BenchKind) restsOn(table string) bool {
	vessel := strings.HasPrefix(table, "volumes.")
	return k == ClickToPop || vessel == (k == Emptying)
}

// newerPart is the newest part, of those that a reading rests on, that was made after the day of the reading, as of finding.NewestAfter.
func newerPart(l *launcher.Launcher, date string, rests func(table string) bool) finding.NewerPart {
	var parts []finding.NewerPart
	for _, p := range l.DatedParts() {
		if rests(p.Table) {
			parts = append(parts, finding.NewerPart{Key: p.Table + ".made_on", Made: p.Made})
		}
	}
	return finding.NewestAfter(date, parts)
}
