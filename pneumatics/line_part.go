package pneumatics

import "math"

// lineEnd is what a part sees of the line at one of its sides.
type lineEnd struct {
	node            int // its last cell; -1: no line, the part sees a volume
	f               int // in engine.faces: the gas that ends here
	c               *cell
	p, t, w         float64 // as the part sees it, with the dynamic pressure of gas that comes to it; w is p/sqrt(t)
	atRest, staticT float64 // without [Pa], [K]
	u               float64 // speed in the direction From → To [m/s]
}

// meet takes the state of the gas at a path's part, on its From or To side.
func (e *engine) meet(end *lineEnd, run, node int, after bool) {
	end.atRest, end.staticT = e.p[node], e.temp[node]
	end.p, end.t = end.atRest, end.staticT
	end.u = 0
	if run < 0 {
		end.node, end.w = -1, e.w[node]
		return
	}
	r := &e.runs[run]
	end.node = node
	var towards float64
	if after {
		end.f = r.face + 1
		end.c = &e.cells[r.cell]
		end.u = e.faces[end.f].ua
		towards = -end.u
	} else {
		end.f = r.face + r.n - 1
		end.c = &e.cells[r.cell+r.n-1]
		end.u = e.faces[end.f].ub
		towards = end.u
	}
	if towards > 0 {
		end.p, end.t = e.stagnation(end.p, end.t, end.u)
	}
	end.w = end.p / math.Sqrt(end.t)
}

// passLine adds the flow of a part that has a line on either side.
//
// The part sees the stagnation pressure of gas that comes to it, the static one of
// gas that goes. No line gives more than is sonic in its bore, and none takes more than
// an open end would: a law asks for the pressure behind the part in a pipe of the part's own
// size; in a narrower line the gas is faster, and with more it would arrive with a
// higher stagnation pressure than it came with (second law).
func (e *engine) passLine(a *activePath, t float64, d []float64) {
	from, to := &e.ends[0], &e.ends[1]
	e.meet(from, a.before, a.from, false)
	e.meet(to, a.after, a.to, true)
	up, down, side := from, to, a.from
	if to.p > from.p {
		if a.kind >= Check && a.kind <= Regulator {
			return
		}
		up, down, side = to, from, a.to
	}
	gas := up
	switch a.donor {
	case a.from:
		gas = from
	case a.to:
		gas = to
	}
	q := e.partFlow(a, t, side, gas.w, up, down)
	if up.node >= 0 {
		sonic, limit := e.sonicTemperature(up.staticT, up.u), up.atRest*up.c.choke
		if q*q*sonic > limit*limit {
			q = limit / math.Sqrt(sonic)
		}
	}
	if down.node >= 0 {
		q = min(q, e.openInlet(up, down))
	}
	h := q * e.cp * gas.staticT
	if gas.node >= 0 {
		h += 0.5 * q * gas.u * gas.u
	}
	if up != from {
		q, h = -q, -h
	}
	e.leaves(from, q, h, a.from, d)
	e.arrives(to, q, h, a.to, d)
}

// openInlet is what a line takes through an open, sharp-edged end: from rest at p_up to
// the line's static pressure p, at least the sonic one,
//
//	p_up - p0 = EntryLoss (p0 - p)
//
// and without a loss from p0 to p.
func (e *engine) openInlet(up, down *lineEnd) float64 {
	sonic := e.inlet.B * up.p / (1 + EntryLoss*(1-e.inlet.B))
	p := max(down.atRest, sonic)
	past := (up.p + EntryLoss*p) / (1 + EntryLoss)
	return down.c.choke * e.sonicShare * up.w * past / up.p * e.inlet.Phi(p/past)
}

// flowsBack tells that a path's flow is from its To side.
func (e *engine) flowsBack(a *activePath) bool {
	if !a.lined {
		return e.p[a.to] > e.p[a.from]
	}
	from, to := &e.ends[0], &e.ends[1]
	e.meet(from, a.before, a.from, false)
	e.meet(to, a.after, a.to, true)
	return to.p > from.p
}

// partFlow is what the part passes of gas whose p/sqrt(T) is w, from the node upNode.
// Springs see the pressures at rest.
func (e *engine) partFlow(a *activePath, t float64, upNode int, w float64, up, down *lineEnd) float64 {
	opening := 1.0
	switch {
	case a.kind >= Check:
		opening = e.springOpening(a, up.atRest, down.atRest)
	case a.ramp:
		opening = a.at(t)
	case a.hoseC == 0:
		return a.flow.K * w * a.flow.Phi(down.p/up.p)
	}
	if a.hoseC == 0 || opening <= 0 {
		return opening * a.flow.K * w * a.flow.Phi(down.p/up.p)
	}
	both := &a.forward
	if upNode != a.from {
		both = &a.backward
	}
	if a.kind >= Check || a.ramp {
		fresh := a.pairFrom(upNode, opening)
		both = &fresh
	}
	return both.Conductance(down.p/up.p, e.o.laminar()) * a.flow.K * w
}

// leaves and arrives book a flow q with the energy h, both in the sense From → To,
// on the two sides of a part.
func (e *engine) leaves(end *lineEnd, q, h float64, node int, d []float64) {
	if end.node < 0 {
		e.give(d, node, -q, -h)
		return
	}
	f := &e.faces[end.f]
	u := end.u
	if q < 0 && u > 0 { // gas comes in against the motion: it brings no momentum
		u = 0
	}
	f.pressure -= q * u * end.c.invArea
	// The motion's own energy: what the flow takes out or brings in of it.
	d[2*node] -= q
	d[2*node+1] -= h - q*(u*end.u-0.5*end.u*end.u)
}

func (e *engine) arrives(end *lineEnd, q, h float64, node int, d []float64) {
	if end.node < 0 {
		e.give(d, node, q, h)
		return
	}
	f := &e.faces[end.f]
	u := end.u
	if q > 0 && u < 0 {
		u = 0
	}
	f.pressure += q * u * end.c.invArea
	f.half += q * u * end.c.invArea
	d[2*node] += q
	d[2*node+1] += h - q*(u*end.u-0.5*end.u*end.u)
}
