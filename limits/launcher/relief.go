package launcher

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// WithoutReliefs is a copy whose relief valves never open; its paths keep their order.
func (l *Launcher) WithoutReliefs() *Launcher {
	const never = 1e9 // [Pa]
	w := l.Clone()
	for i := range w.Paths {
		p := &w.Paths[i]
		if p.Kind != pneumatics.Relief {
			continue
		}
		for _, b := range []*Band{&p.SetPressure, &p.FullFlowPressure, &p.ReseatPressure} {
			b.Low, b.Nominal, b.High = b.Low+never, b.Nominal+never, b.High+never
		}
	}
	return w
}

// WithoutExhausts is a copy in which no exhaust of a part with two ways lets air into
// the atmosphere; nil where there is none. Its paths keep their order.
func (l *Launcher) WithoutExhausts() *Launcher {
	var w *Launcher
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Way.Exhausts() && p.To == "atmosphere" {
			if w == nil {
				w = l.Clone()
			}
			w.Paths[i].Flow = FlowSpec{}
		}
	}
	return w
}

// ReliefOnSupply is the index of the relief valve on the supplied volume that
// opens first; -1: none.
func (l *Launcher) ReliefOnSupply() int {
	best := -1
	if l.Supply == nil {
		return best
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind == pneumatics.Relief && p.From == l.Supply.Feeds && p.SetPressure.Set &&
			(best < 0 || p.SetPressure.Nominal < l.Paths[best].SetPressure.Nominal) {
			best = i
		}
	}
	return best
}

// JoinedTo tells which volumes share a volume's pressure while charging.
func (l *Launcher) JoinedTo(n pneumatics.Node) []bool {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	links := c.Links()
	return graph.Reached(links, len(c.Volumes), n, func(i int, _ graph.Way) bool {
		p := &c.Paths[i]
		return links[i].BetweenVolumes() && opensForCharge(p) && p.Kind != pneumatics.Regulator
	}).Volumes()
}
