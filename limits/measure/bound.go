package measure

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// What measured shots must be to count (own rules of this project).
const (
	LeastShots       = 5
	LeastProjectiles = 2
	CarryUp          = 1.25 // the highest ratio of gauge pressures a bound is carried over [-]
)

// SpeedGroup is the shots at one pressure, within the gauge's resolution, with
// the tolerance bound that follows:
//
//	v_U = mean(v) + k s(v) + u_sys,  E_U = 1/2 m_high v_U^2
//
// The bound is taken in speed, whose scatter is nearer to normal, and then
// squared. u_sys is the sum of the method's systematic errors.
type SpeedGroup struct {
	Gauge       float64 // the lowest pressure of the group [Pa gauge]
	Spread      float64 // highest less lowest [Pa]
	Shots       int     // with a speed
	Misfires    int
	Projectiles int
	Methods     []Method
	Temperature float64 // mean of those stated [K]; 0: none

	Mean, SD, Systematic float64 // [m/s]
	Fastest              float64 // [m/s]
	K                    float64 // tolerance factor [-]; NaN below 2 shots
	UpperSpeed           float64 // [m/s]; NaN below 2 shots
	MassLow, MassHigh    float64 // of the design, and of what was weighed [kg]
	MeanEnergy, SDEnergy float64 // with the nominal mass [J]
	UpperEnergy          float64 // [J]; NaN below 2 shots

	Faults   []finding.Text // why the group does not count; none: it does
	Doubted  bool           // its readings may not be what they say, or are of something else than the design's launcher in use
	Normal   Normality
	Outliers []Outlier
}

// Admissible tells whether an energy verdict may rest on the group.
func (g *SpeedGroup) Admissible() bool { return len(g.Faults) == 0 }

// speedGroups sorts the shots into groups of one pressure and computes their
// bounds. It writes the groups' indices into shots.
func speedGroups(l *launcher.Launcher, shots []ShotSpeed) []SpeedGroup {
	order := make([]int, len(shots))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(shots[a].Shot.Gauge, shots[b].Shot.Gauge) })
	// 1e-9: 0.42 - 0.40 bar must count as 0.02 bar.
	width := l.Resolution() * (1 + 1e-9)
	var groups [][]int
	for _, i := range order {
		n := len(groups)
		if n == 0 || shots[i].Shot.Gauge-shots[groups[n-1][0]].Shot.Gauge > width {
			groups = append(groups, nil)
			n++
		}
		groups[n-1] = append(groups[n-1], i)
		shots[i].Group = n - 1
	}
	out := make([]SpeedGroup, 0, len(groups))
	weighed := weights(shots)
	for _, g := range groups {
		out = append(out, speedGroup(l, shots, g, weighed))
	}
	return out
}

// speedGroup makes one of the shots that are its members; weighed are the masses of the log.
func speedGroup(l *launcher.Launcher, shots []ShotSpeed, members []int, weighed map[string][]float64) SpeedGroup {
	g := SpeedGroup{Gauge: shots[members[0]].Shot.Gauge, MassLow: l.Projectile.Mass.Low, MassHigh: l.Projectile.Mass.High}
	g.Spread = shots[members[len(members)-1]].Shot.Gauge - g.Gauge
	g.K, g.UpperSpeed, g.UpperEnergy = math.NaN(), math.NaN(), math.NaN()
	balls := map[string]bool{}
	unnamed, untempered := 0, 0
	var v, e, warm []float64
	var lines []int
	var flew []*Shot
	for _, i := range members {
		s := &shots[i]
		if math.IsNaN(s.Speed) {
			g.Misfires++
			continue
		}
		flew = append(flew, &s.Shot)
		v = append(v, s.Speed)
		e = append(e, 0.5*l.Projectile.Mass.Nominal*s.Speed*s.Speed)
		lines = append(lines, s.Shot.Line)
		g.Systematic = math.Max(g.Systematic, s.Systematic)
		g.Fastest = math.Max(g.Fastest, s.Speed)
		if !slices.Contains(g.Methods, s.Shot.Method) {
			g.Methods = append(g.Methods, s.Shot.Method)
		}
		if s.Shot.Projectile == "" {
			unnamed++
		} else {
			balls[named(s.Shot.Projectile)] = true
		}
		if s.Shot.Temperature == 0 {
			untempered++
		} else {
			warm = append(warm, s.Shot.Temperature)
		}
	}
	g.Shots, g.Projectiles, g.Temperature = len(v), len(balls), mean(warm)
	if g.Shots > 0 {
		g.Mean, g.MeanEnergy = stat.Mean(v, nil), stat.Mean(e, nil)
	}
	if g.Shots >= 2 {
		g.SD, g.SDEnergy = stat.StdDev(v, nil), stat.StdDev(e, nil)
	}
	g.Normal = normality(v)
	g.Outliers = outliers(v, lines)
	g.judge(unnamed, untempered)
	g.standsFor(l, flew, weighed)
	if g.Shots >= 2 {
		g.bound() // of the heaviest that was weighed
	}
	return g
}

// bound computes the tolerance bound.
func (g *SpeedGroup) bound() {
	g.K = benchmark.BoundFactor(g.Shots)
	g.upper()
}

// upper computes the bound from mean, scatter, factor and systematic error; it
// never lies below the fastest shot, whatever the shape of the scatter.
func (g *SpeedGroup) upper() {
	g.UpperSpeed = math.Max(g.Mean+g.K*g.SD, g.Fastest) + g.Systematic
	g.UpperEnergy = 0.5 * g.MassHigh * g.UpperSpeed * g.UpperSpeed
}

// judge lists why the group does not count.
func (g *SpeedGroup) judge(unnamed, untempered int) {
	fault := func(format string, args ...any) { g.Faults = append(g.Faults, finding.Say(format, args...)) }
	if g.Shots < LeastShots {
		fault("%s with a speed; at least %d are needed", counted(g.Shots, "shot"), LeastShots)
	}
	switch {
	case unnamed > 0:
		fault("which projectile flew is not said of %s; at least %d projectiles are needed", counted(unnamed, "shot"), LeastProjectiles)
	case g.Projectiles < LeastProjectiles:
		fault("one projectile only; balls differ, so at least %d are needed", LeastProjectiles)
	}
	if untempered > 0 {
		fault("the temperature is not stated of %s", counted(untempered, "shot"))
	}
	if g.Shots >= 2 && g.SD == 0 {
		fault("every speed is the same: the readings are too coarse to show the scatter")
	}
}

// counted writes a number with its noun.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// NotNormal tells that the scatter is not normal. The group counts all the same,
// for leaving a fast shot out would improve a verdict; but the model keeps its
// factor beside the bound.
func (g *SpeedGroup) NotNormal() bool { return g.Normal.Tested && g.Normal.P < normalityLevel }

func mean(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}
