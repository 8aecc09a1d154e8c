// Package graph asks what is joined to what: nodes, links between them, and one walk over them. It knows no gas and no parts; what a
// link lets through, and which way, the caller says. Start reading at Reach.
package graph

// Node names one end of a link: a rigid volume (its index, from 0), the barrel or the atmosphere.
type Node int

// The two nodes that are not rigid volumes.
const (
	Atmosphere Node = -1
	Barrel     Node = -2 // the gas behind the projectile
)

// Way is a direction over a link.
type Way uint8

// The two ways over a link.
const (
	Along   Way = iota // From → To
	Against            // To → From
)

// Link joins two nodes of a graph: what Reach walks over.
type Link struct{ From, To Node }

// BetweenVolumes tells that both ends are rigid volumes.
func (l Link) BetweenVolumes() bool { return l.From >= 0 && l.To >= 0 }

// Start gives the node that a way over the link starts at.
func (l Link) Start(w Way) Node {
	if w == Along {
		return l.From
	}
	return l.To
}

// End gives the node that a way over the link arrives at.
func (l Link) End(w Way) Node {
	if w == Along {
		return l.To
	}
	return l.From
}

// PerNode holds one value for every node of a graph: for the rigid volumes in
// their order, then for the barrel, then for the atmosphere.
type PerNode[T any] []T

// NewPerNode gives all the nodes of a graph with so many rigid volumes the same
// value.
func NewPerNode[T any](volumes int, value T) PerNode[T] {
	out := make(PerNode[T], volumes+2)
	for i := range out {
		out[i] = value
	}
	return out
}

// At gives a node's value.
func (v PerNode[T]) At(n Node) T { return v[v.slot(n)] }

// Set gives a node another value.
func (v PerNode[T]) Set(n Node, value T) { v[v.slot(n)] = value }

// Volumes gives the values of the rigid volumes.
func (v PerNode[T]) Volumes() []T { return v[:len(v)-2] }

func (v PerNode[T]) slot(n Node) int {
	switch n {
	case Barrel:
		return len(v) - 2
	case Atmosphere:
		return len(v) - 1
	}
	return int(n)
}

// Reach carries values from node to node over the links of a graph, until none
// gets better:
//
//	value[end] = the better of value[end] and carry(link, way, value[start])
//
// for every link (its index in links) and both ways over it. better tells whether
// its first argument is strictly better than its second; carry gives what arrives
// at the end of a link, which is no better than what the end has where nothing
// passes that way.
//
// The atmosphere may be a start and is never a way: it keeps its value, so that
// through it nothing is joined.
//
// The result does not depend on the order of the links where a better value at
// the start of a link never arrives as a worse one. A carry that makes a value
// better and better around a loop of links is a caller's bug and panics.
func Reach[T any](links []Link, value PerNode[T], better func(a, b T) bool, carry func(link int, way Way, at T) T) {
	for range len(links)*len(value) + 1 {
		changed := false
		for i, l := range links {
			for _, way := range [...]Way{Along, Against} {
				end := l.End(way)
				if end == Atmosphere {
					continue
				}
				if v := carry(i, way, value.At(l.Start(way))); better(v, value.At(end)) {
					value.Set(end, v)
					changed = true
				}
			}
		}
		if !changed {
			return
		}
	}
	panic("graph: a loop of links makes a value better without end")
}

// Reached tells which nodes are reached from start over the links that pass; passes
// is asked for every link (its index in links) and each way over it.
func Reached(links []Link, volumes int, start Node, passes func(link int, way Way) bool) PerNode[bool] {
	reached := NewPerNode(volumes, false)
	reached.Set(start, true)
	Reach(links, reached, FirstTime, func(link int, way Way, at bool) bool { return at && passes(link, way) })
	return reached
}

// FirstTime is what is better where only reachability is asked: a node that is reached stays so.
func FirstTime(now, before bool) bool { return now && !before }
