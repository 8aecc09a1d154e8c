package vent

import (
	"cmp"
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// LoadingGraph is the circuit in state loading as barriers.
type LoadingGraph struct {
	l     *launcher.Launcher
	c     pneumatics.Circuit
	sc    pneumatics.Scenario
	holds []bool // volumes that may hold air: supplied, or without a way out
	vent  []bool // volumes that empty while loading and stay empty, by a part that is no valve before them
}

// NewLoadingGraph makes the graph of a launcher with what loading leaves in its volumes.
func NewLoadingGraph(l *launcher.Launcher, air *Loading) *LoadingGraph {
	g := &LoadingGraph{l: l, sc: pneumatics.Scenario{From: pneumatics.Loading, To: pneumatics.Loading}, vent: air.Empty}
	if air.Alone != nil {
		g.vent = air.Alone
	}
	l.Fill(&g.c)
	// Ways out that do not lead through the barrel: a tight projectile is in it.
	g.c.Barrel.LeakArea = 0
	fed := pneumatics.Atmosphere // no volume
	if s := l.Supply; s != nil && s.RunsIn.Has(pneumatics.Loading) {
		fed = l.Node(s.Feeds)
	}
	for i, empty := range air.Empty {
		g.holds = append(g.holds, !empty || fed == pneumatics.Node(i))
	}
	return g
}

// barriers counts the shut barriers on the weakest way from a volume to the
// barrel and tells whether that way leads through a vented volume. The way with
// the fewest barriers counts, a vent as one more; of two that count the same the
// one with fewer shut barriers.
func (g *LoadingGraph) barriers(from pneumatics.Node) (shut float64, vented bool) {
	shut = g.fewest(from, make([]bool, len(g.vent)))
	return shut, shut < g.fewest(from, g.vent)
}

// fewest is the least number of shut barriers on any way from a volume to the
// barrel that leads through none of the volumes to avoid; +Inf: there is none.
func (g *LoadingGraph) fewest(from pneumatics.Node, avoid []bool) float64 {
	links := g.c.Links()
	shut := graph.NewPerNode(len(g.c.Volumes), math.Inf(1))
	if !avoid[from] {
		shut.Set(from, 0)
	}
	graph.Reach(links, shut, cmp.Less[float64], func(i int, way graph.Way, before float64) float64 {
		p, end := &g.c.Paths[i], links[i].End(way)
		if p.Flow.IsZero() || end >= 0 && avoid[end] {
			return math.Inf(1)
		}
		forward, back := g.cost(p)
		if way == graph.Along {
			return before + forward
		}
		return before + back
	})
	return shut.At(pneumatics.BarrelNode)
}

// cost is the number of barriers that a path is, each way.
func (g *LoadingGraph) cost(p *pneumatics.Path) (forward, back float64) {
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

// LeastShut is the least number of shut valves between any volume and the barrel.
func (g *LoadingGraph) LeastShut() float64 {
	least := math.Inf(1)
	for i := range g.l.Volumes {
		n, _ := g.barriers(pneumatics.Node(i))
		least = min(least, n)
	}
	return least
}

// Full names the volumes that may hold air while loading.
func (g *LoadingGraph) Full() (names []string) {
	for i, holds := range g.holds {
		if holds {
			names = append(names, g.l.Volumes[i].Name)
		}
	}
	return names
}

// Weakest is the volume that holds air while loading and has the fewest barriers
// before the barrel, a vent as one of them where a valve is shut too; "" none that holds
// any has a way to the barrel.
func (g *LoadingGraph) Weakest() (volume string, barriers, shut float64, vented bool) {
	barriers = math.Inf(1)
	for i := range g.l.Volumes {
		if !g.holds[i] {
			continue
		}
		n, through := g.barriers(pneumatics.Node(i))
		total := n
		if n >= 1 && through {
			total++
		}
		if total < barriers {
			volume, barriers, shut, vented = g.l.Volumes[i].Name, total, n, through
		}
	}
	return volume, barriers, shut, vented
}
