package launcher

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Reach tells which parts can bear on a shot: those with a path to the barrel
// that is open while firing, or was open before and takes time to close.
type Reach struct {
	Volumes, Paths []bool // by index
	Opens, Closes  []bool // paths that move on firing
	Supply         bool
}

// ReachUpTo is ReachOf with the relief valves that can open in a shot from up to top
// [Pa gauge] of the sensed volume: what they let out the shot has not.
func (l *Launcher) ReachUpTo(top float64) Reach {
	r := ReachOf(l)
	high := math.NaN()
	for i := range l.Paths {
		p := &l.Paths[i]
		switch {
		case p.Kind != pneumatics.Relief || p.Flow.Form == NoFlow:
		case p.From == "barrel":
			r.Paths[i] = true // air pushed back by the projectile may exceed what it came from
		case r.Volumes[l.Node(p.From)]:
			if math.IsNaN(high) {
				high = l.highest(top)
			}
			r.Paths[i] = p.SetPressure.Low < high
		}
	}
	return r
}

// highest is the highest pressure of any volume at the start of a shot from up to top of
// the sensed one, and of what the supply adds while it runs [Pa gauge].
func (l *Launcher) highest(top float64) float64 {
	high := top
	if l.SupplyFires() {
		high = max(high, l.Supply.DeadHead.High)
	}
	for _, g := range l.HighStart(top) {
		high = max(high, g)
	}
	return high
}

// Feeds tells whether a path lets air through while firing: a valve that current or a hand moves has to be open then.
func (p *PathSpec) Feeds() bool {
	return p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve || p.OpenIn.Has(pneumatics.Firing)
}

// ReachOf walks the paths of a launcher from the barrel.
func ReachOf(l *Launcher) Reach {
	n := len(l.Paths)
	r := Reach{Paths: make([]bool, n), Opens: make([]bool, n), Closes: make([]bool, n)}
	carries := make([]bool, n)
	for i := range l.Paths {
		p := &l.Paths[i]
		before := p.OpenIn.Has(pneumatics.Charging) || p.OpenIn.Has(pneumatics.Armed)
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		firing := p.OpenIn.Has(pneumatics.Firing)
		switch {
		case !valve:
			carries[i] = p.Kind != pneumatics.Relief
		case firing:
			carries[i] = true
			r.Opens[i] = true
		case before:
			carries[i] = p.ClosingTime.High > 0
			r.Closes[i] = true
		}
	}
	links := l.Links()
	reached := graph.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, _ graph.Way) bool { return carries[i] })
	for i, k := range links {
		r.Paths[i] = carries[i] && (reached.At(k.From) || reached.At(k.To))
	}
	r.Volumes = reached.Volumes()
	r.Supply = l.Supply != nil && l.SupplyFires() && r.Volumes[l.Node(l.Supply.Feeds)]
	return r
}

// SupplyFires tells whether the supply may run during a shot: yes, unless the
// design says in which states it runs and firing is not one of them.
func (l *Launcher) SupplyFires() bool {
	return l.Supply != nil && (!l.Supply.RunsInStated || l.Supply.RunsIn.Has(pneumatics.Firing))
}

// SupplyPushes tells whether the expected shot counts what the supply delivers meanwhile: it has an open way into the
// barrel then, and runs because the design says so (runs_in) or because no switch has just stopped it, as an inflator or
// a blower does. A person does not pump and fire at once. Where it may run all the same, the worst case counts it.
func (l *Launcher) SupplyPushes() bool {
	switch s := l.Supply; {
	case !l.SupplyFires() || s.Kind == HandPump || !ReachOf(l).Supply:
		return false
	case s.RunsInStated:
		return true
	}
	by := l.Stops()
	return by == StopDeadHead || by == StopRelief
}

// StatesBefore lists the states a shot may start from as far as they differ:
// armed always; charging where a valve that is shut while armed is still open.
func (l *Launcher) StatesBefore() []pneumatics.State {
	reach := ReachOf(l)
	for i := range l.Paths {
		p := &l.Paths[i]
		if reach.Paths[i] && p.OpenIn.Has(pneumatics.Charging) != p.OpenIn.Has(pneumatics.Armed) {
			return []pneumatics.State{pneumatics.Armed, pneumatics.Charging}
		}
	}
	return []pneumatics.State{pneumatics.Armed}
}

// Rush is how many times the gauge pressure at one end of a line that of the air
// rushing into its closed other end can reach [-]: a wave is thrown back with its own
// height. Source: reflection of sound at a closed end (any text on acoustics); a stronger
// front stays below, since what drives it falls while it runs.
const Rush = 2.0

// Rushes tells whether air reaches the barrel through a hose when it is fired, so that it
// can pass the pressure of what feeds it.
func (l *Launcher) Rushes() bool {
	reach := ReachOf(l)
	for i := range l.Paths {
		if reach.Paths[i] && l.Paths[i].isLine() {
			return true
		}
	}
	return false
}

// BaseWave is the highest that the air of a volume at feeds [Pa gauge] can put on the base of a
// projectile, or on a plug, in a barrel without a hose before it [Pa gauge]. A valve that opens at once
// sends a wave into the barrel, which its far end throws back: over a mean gauge pressure m of the
// air there it stands by
//
//	p = m + 2 a q(m)/A,  at most 2.1 feeds
//
// q what all ways into the barrel pass against m at their widest, a the speed of sound, A the bore's
// section; the worst m counts, and less than a hundredth for nothing. A small valve adds none, one as
// wide as the bore as much again. Source: sound of height a q/A doubles at a closed end (any text on acoustics); against
// one-dimensional gas dynamics the most was 2.02 (testdata/wave/README.md).
func (l *Launcher) BaseWave(feeds float64) float64 {
	const most, least, points = 2.1, 1.01, 200
	reach, c := ReachOf(l), l.wideOpen()
	section := Circle(l.Barrel.Bore.Low)
	if l.Barrel.Fit == pneumatics.OverTube {
		section = Circle(l.Barrel.TubeInnerDiameter.Low)
	}
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	best := feeds
	for k := range points {
		m := feeds * float64(k) / points
		flow := 0.0
		for _, i := range l.IntoBarrel() {
			if reach.Paths[i] {
				flow += c.Paths[i].Flow.MassFlow(c.Gas, pa+feeds, ta, pa+m, ta)
			}
		}
		best = max(best, m+2*c.Gas.SoundSpeed(ta)*flow/section)
	}
	if best < least*feeds {
		return feeds
	}
	return min(best, most*feeds)
}
