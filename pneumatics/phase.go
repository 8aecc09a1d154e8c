package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
)

// node turns a circuit's node into an index.
func (e *engine) node(n Node) int {
	switch {
	case n == Atmosphere, n == BarrelNode && (e.bar < 0 || e.mode == gone):
		return e.nodes
	case n == BarrelNode:
		return e.bar
	}
	return int(n)
}

// phase readies the paths for the time from t to the next knot of any schedule.
func (e *engine) phase(t float64) {
	e.paths = e.paths[:0]
	e.openLines()
	e.findApart(t)
	for i := range e.c.Paths {
		src := &e.c.Paths[i]
		opening, rate := e.moves[i].At(t)
		if src.Flow.IsZero() || (opening == 0 && rate <= 0) || e.apart(src.From) && e.apart(src.To) {
			continue
		}
		a := activePath{from: e.node(src.From), to: e.node(src.To), index: i, kind: src.Kind, src: src,
			opening: opening, rate: rate, t0: t, ramp: rate != 0, donor: -1}
		if !e.attach(&a) {
			continue // a line without a part
		}
		if e.sc.sticks(i) {
			a.kind = Orifice // no spring moves it
		} else if a.balanced = src.balanced(); a.balanced {
			a.pilot = e.node(src.Balance.Pilot)
		}
		if a.from == a.to {
			continue
		}
		if a.kind == Relief {
			a.relief = e.reliefOf(i)
		}
		e.shape(&a)
		if len(e.stirred) > 0 {
			a.jet = src.Flow.JetDiameter(&e.gas)
		}
		e.paths = append(e.paths, a)
	}
	e.leak = -1
	if e.bar >= 0 && e.b.LeakArea > 0 && (e.mode == held || e.mode == moving) {
		to := e.nodes
		if e.ahead >= 0 {
			to = e.ahead
		}
		e.leak = len(e.paths)
		e.paths = append(e.paths, activePath{from: e.bar, to: to, index: -1, kind: Orifice, opening: 1, donor: -1,
			flow: flow.NewLaw(flow.Nozzle(e.b.LeakArea, e.b.LeakCd), &e.gas, e.o.laminar())})
	}
}

// pairFrom gives a part at a fraction of its opening with its hose, for flow that
// comes from the node up.
func (a *activePath) pairFrom(up int, opening float64) flow.Pair {
	if (up == a.from) == a.hoseFirst {
		return flow.NewPair(a.hoseC, a.hoseB, a.c*opening, a.b)
	}
	return flow.NewPair(a.c*opening, a.b, a.hoseC, a.hoseB)
}

// shape sets the flow law of an active path: the part alone, or in series with
// its hose; while the part moves, the pair is formed anew at every evaluation.
func (e *engine) shape(a *activePath) {
	part, hose, first := e.resistances(a)
	if hose.IsZero() {
		a.flow = flow.NewLaw(part, &e.gas, e.o.laminar())
		if !a.ramp && !a.balanced {
			a.flow.K *= a.opening
		}
		return
	}
	a.hoseFirst = first
	a.hoseC, a.hoseB = hose.Conductance(e.gas)
	a.c, a.b = part.Conductance(e.gas)
	a.flow = flow.NewLaw(flow.SonicConductance(1, a.b), &e.gas, e.o.laminar())
	if !a.ramp {
		a.forward, a.backward = a.pairFrom(a.from, a.opening), a.pairFrom(a.to, a.opening)
	}
}

// findApart looks for the volumes that from time t on nothing joins to the barrel. Where
// only the leaving is asked for they stay as they are: a tank that is shut off, with its
// supply and its relief valve, has no part in the shot.
func (e *engine) findApart(t float64) {
	e.joined = e.joined[:0]
	if !e.o.OnlyLeaving || e.bar < 0 || e.o.Settle || len(e.o.Watch) > 0 {
		return
	}
	e.joined = resize(e.joined, len(e.c.Volumes)+2)
	clear(e.joined)
	e.joined.Set(BarrelNode, true)
	e.ties = e.ties[:0]
	for i := range e.c.Paths {
		p := &e.c.Paths[i]
		if p.Flow.IsZero() || e.moves[i].Peak(t) <= 0 {
			continue
		}
		e.ties = append(e.ties, graph.Link{From: p.From, To: p.To})
		if p.balanced() {
			e.ties = append(e.ties, graph.Link{From: p.From, To: p.Balance.Pilot}, graph.Link{From: p.To, To: p.Balance.Pilot})
		}
	}
	flows := len(e.ties)
	if e.sc.Switch != nil && e.c.Supply != nil { // what it senses bears on what the supply feeds, and not the other way
		e.ties = append(e.ties, graph.Link{From: e.c.Supply.Feeds, To: e.sc.Switch.Senses})
	}
	graph.Reach(e.ties, e.joined, graph.FirstTime, func(link int, way graph.Way, at bool) bool {
		return at && (link < flows || way == graph.Along)
	})
}

// apart tells that nothing joins a node to the barrel, or that it is the atmosphere; never
// where more than the leaving is asked for.
func (e *engine) apart(n Node) bool {
	return len(e.joined) > 0 && (n == Atmosphere || !e.joined.At(n))
}

// nextKnot is the next time at which a schedule bends.
func (e *engine) nextKnot(t float64) float64 {
	next := math.Inf(1)
	for i := range e.moves {
		next = min(next, e.moves[i].Next(t))
	}
	return next
}
