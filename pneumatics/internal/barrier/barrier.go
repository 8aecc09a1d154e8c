// Package barrier finds what stands between the air of each node and the barrel: regulators, which let no more through than they are set
// to, and check valves, which hold their cracking pressure back.
package barrier

import (
	"math"

	"puffproof/pneumatics/graph"
)

// Barriers is what stands in the way of each node's air. A node that no way leads from has a cap of 0 and holds back without end.
type Barriers struct {
	Caps  graph.PerNode[float64] // the highest pressure that gets through [Pa]; +Inf: all of it
	Drops graph.PerNode[float64] // the least that is held back of it [Pa]
}

// Find asks of every link and each way over it for the highest pressure that it lets through and what it holds back [Pa]; cap 0: nothing
// passes. Each of the two is that of its own easiest way, so together they bound what any way lets through. The values of before
// are used again.
func (b *Barriers) Find(links []graph.Link, nodes int, lets func(link int, way graph.Way) (limit, drop float64)) {
	inf := math.Inf(1)
	b.Caps, b.Drops = b.Caps[:0], b.Drops[:0]
	for range nodes {
		b.Caps, b.Drops = append(b.Caps, 0), append(b.Drops, inf)
	}
	b.Caps.Set(graph.Barrel, inf)
	b.Drops.Set(graph.Barrel, 0)
	// The walk goes against the way that the air takes.
	graph.Reach(links, b.Caps, func(a, b float64) bool { return a > b }, func(link int, way graph.Way, at float64) float64 {
		limit, _ := lets(link, 1-way)
		return min(at, limit)
	})
	graph.Reach(links, b.Drops, func(a, b float64) bool { return a < b }, func(link int, way graph.Way, at float64) float64 {
		limit, drop := lets(link, 1-way)
		if limit == 0 {
			return inf
		}
		return at + drop
	})
}

// Clear says that nothing stands in the way of any of so many nodes.
func (b *Barriers) Clear(nodes int) {
	b.Caps, b.Drops = b.Caps[:0], b.Drops[:0]
	for range nodes {
		b.Caps, b.Drops = append(b.Caps, math.Inf(1)), append(b.Drops, 0)
	}
}

// Through is the highest pressure with which the air of a node at p gets to the barrel, and whether anything stands in its way.
func (b *Barriers) Through(node int, p float64) float64 { return min(p-b.Drops[node], b.Caps[node]) }

// Over is by how much the pressure of a node's air, gauge [Pa] above ambient pressure pa, can exceed pa where it gets to: nothing, if it is
// held back. What a volume V gives beyond a check valve is less than V d^2/(2 pa), d that pressure: each part of its enthalpy dH can do
// dH (1 - (pa/p)^k) at the pressure p that it has there, k = (gamma-1)/gamma, so in all
//
//	V/(gamma-1) integral of 1 - (pa/p)^k over p from pa to pa + d <= V d^2/(2 gamma pa)
//
// and no flow from node to node, each to a lower pressure, makes the sum of these larger. Air below ambient pressure that is drawn into the
// barrel takes from what the barrel's air can still do. Source: the availability of a flow without heat (for instance Bejan,
// Advanced Engineering Thermodynamics, chapter 3, from memory).
func (b *Barriers) Over(node int, gauge float64) float64 {
	if drop := b.Drops[node]; drop > 0 {
		return max(0, gauge-drop)
	}
	return gauge
}
