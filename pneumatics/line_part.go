package pneumatics

import "puffproof/pneumatics/internal/row"

// passLine adds the flow of a part that has a line on either side.
//
// The part sees the stagnation pressure of gas that comes to it, the static one of
// gas that goes.
func (e *engine) passLine(a *activePath, t float64, d []float64) {
	from, to := e.meet(a)
	up, down, side := from, to, a.from
	if to.P > from.P {
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
	q := e.rows.Limit(e.partFlow(a, t, side, gas.W, up, down), up, down)
	h := e.rows.Enthalpy(q, gas)
	if up != from {
		q, h = -q, -h
	}
	e.rows.Leave(from, q, h, d)
	e.rows.Arrive(to, q, h, d)
}

// meet takes the state of the gas on both sides of a path's part.
func (e *engine) meet(a *activePath) (from, to *row.End) {
	from, to = &e.ends[0], &e.ends[1]
	e.rows.Meet(from, a.before, a.from, row.Before)
	e.rows.Meet(to, a.after, a.to, row.After)
	return from, to
}

// flowsBack tells that a path's flow is from its To side.
func (e *engine) flowsBack(a *activePath) bool {
	if !a.lined {
		return e.p[a.to] > e.p[a.from]
	}
	from, to := e.meet(a)
	return to.P > from.P
}

// partFlow is what the part passes of gas whose p/sqrt(T) is w, from the node upNode.
// Springs see the pressures at rest.
func (e *engine) partFlow(a *activePath, t float64, upNode int, w float64, up, down *row.End) float64 {
	opening := 1.0
	switch {
	case a.balanced || a.kind >= Check || a.ramp:
		opening = e.openingOf(a, t, upNode, up.AtRest, down.AtRest)
	case a.hoseC == 0:
		return a.flow.K * w * a.flow.Phi(down.P/up.P)
	}
	if a.hoseC == 0 || opening <= 0 {
		return opening * a.flow.K * w * a.flow.Phi(down.P/up.P)
	}
	both := &a.forward
	if upNode != a.from {
		both = &a.backward
	}
	if a.balanced || a.kind >= Check || a.ramp {
		fresh := a.pairFrom(upNode, opening)
		both = &fresh
	}
	return both.Conductance(down.P/up.P, e.o.laminar()) * a.flow.K * w
}
