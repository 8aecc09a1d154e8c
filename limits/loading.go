package limits

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// loadingVerdict judges loading.empty: while hands are at the muzzle the barrel
// is vented, and two shut barriers, or one and a vent, stand between them and
// every volume that holds air.
func (j *judge) loadingVerdict() {
	v := j.newVerdict("loading.empty", "Barriers while loading", InCount)
	v.Source = "own rule of this project"
	v.Caveat = "a barrier is a shut valve, or a check valve against its direction; a vent counts as one where at least one valve is shut"
	defer func() { j.add(v) }()
	const wanted = 2.0
	g := j.loadingGraph()
	least, from, via := math.Inf(1), "", ""
	for i := range j.Launcher.Volumes {
		if !g.holds[i] {
			continue
		}
		n, vented := g.barriers(pneumatics.Node(i))
		total := n
		if n >= 1 && vented {
			total++
		}
		if total < least {
			least, from, via = total, j.Launcher.Volumes[i].Name, barrierWords(n, vented)
		}
	}
	if math.IsInf(least, 1) {
		v.judgeLower(wanted, wanted)
		v.Why = "no volume holds air while loading: each has an open way out"
		if j.freshBarrier() < 1 {
			v.judgeLower(1, wanted)
			v.Why = "every volume has an open way out, but no shut valve stands between them and the barrel"
			v.Advice = "A firing valve that is shut while loading."
		}
	} else {
		v.judgeLower(min(least, 9), wanted)
		v.Why = fmt.Sprintf("from %s to the barrel: %s", from, via)
		if v.Status == Fail {
			v.Why += j.restWords(from)
			v.Advice = "A vent that is open in state loading on the volume before the firing valve (open_in with \"loading\"), and a shut valve before it."
		}
	}
	j.waitWords(v)
}

// restWords says what a volume holds while loading.
func (j *judge) restWords(volume string) string {
	i := int(j.Launcher.Node(volume))
	a := j.loadingAir()
	if a.empty[i] || !a.known {
		return ""
	}
	return fmt.Sprintf("; it holds up to %s while loading", worstBar(a.rest[i]))
}

func barrierWords(n float64, vented bool) string {
	s := fmt.Sprintf("%.0f shut", n)
	if vented {
		s += " and a vent between"
	}
	return s
}

// waitWords adds how long the vents of state loading take.
func (j *judge) waitWords(v *Verdict) {
	air := j.loadingAir()
	names := strings.Join(air.names, ", ")
	switch {
	case names == "":
	case math.IsInf(air.wait, 1):
		v.Why += "; " + names + " does not get to the target"
	default:
		v.Why += fmt.Sprintf("; wait %s s after the last charge: %s empties that long", significant(math.Ceil(air.wait), 3), names)
	}
}

// loadingGraph is the circuit in state loading as barriers.
type loadingGraph struct {
	l     *Launcher
	c     pneumatics.Circuit
	sc    pneumatics.Scenario
	holds []bool // volumes that may hold air: supplied, or without a way out
	vent  []bool // volumes that empty while loading and stay empty
}

func (j *judge) loadingGraph() *loadingGraph {
	l, air := j.Launcher, j.loadingAir()
	g := &loadingGraph{l: l, sc: pneumatics.Scenario{From: pneumatics.Loading, To: pneumatics.Loading}, vent: air.empty}
	l.Fill(&g.c)
	// Ways out that do not lead through the barrel: a tight projectile is in it.
	g.c.Barrel.LeakArea = 0
	for i, empty := range air.empty {
		g.holds = append(g.holds, !empty || l.Supply != nil && l.Supply.RunsIn.Has(pneumatics.Loading) && l.Node(l.Supply.Feeds) == pneumatics.Node(i))
	}
	return g
}

// barriers counts the shut barriers on the weakest way from a volume to the
// barrel and tells whether that way leads through a vented volume. The way with
// the fewest barriers counts, a vent as one more; of two that count the same the
// one with fewer shut barriers.
func (g *loadingGraph) barriers(from pneumatics.Node) (shut float64, vented bool) {
	shut = g.fewest(from, make([]bool, len(g.vent)))
	return shut, shut < g.fewest(from, g.vent)
}

// fewest is the least number of shut barriers on any way from a volume to the
// barrel that leads through none of the volumes to avoid; +Inf: there is none.
func (g *loadingGraph) fewest(from pneumatics.Node, avoid []bool) float64 {
	links := g.c.Links()
	shut := pneumatics.NewPerNode(len(g.c.Volumes), math.Inf(1))
	if !avoid[from] {
		shut.Set(from, 0)
	}
	pneumatics.Reach(links, shut, cmp.Less[float64], func(i int, way pneumatics.Way, before float64) float64 {
		p, end := &g.c.Paths[i], links[i].End(way)
		if p.Flow.IsZero() || end >= 0 && avoid[end] {
			return math.Inf(1)
		}
		forward, back := g.cost(p)
		if way == pneumatics.Along {
			return before + forward
		}
		return before + back
	})
	return shut.At(pneumatics.BarrelNode)
}

// cost is the number of barriers that a path is, each way.
func (g *loadingGraph) cost(p *pneumatics.Path) (forward, back float64) {
	switch p.Kind {
	case pneumatics.Check, pneumatics.Regulator:
		return 0, 1
	case pneumatics.Relief:
		return 1, 1
	}
	if p.OpeningAtLast(&g.sc) > 0 {
		return 0, 0
	}
	return 1, 1
}

// freshBarrier is the least number of shut valves between any volume and the
// barrel.
func (j *judge) freshBarrier() float64 {
	g := j.loadingGraph()
	least := math.Inf(1)
	for i := range j.Launcher.Volumes {
		n, _ := g.barriers(pneumatics.Node(i))
		least = min(least, n)
	}
	return least
}
