package pneumatics

// Jacobian fills how the rates f at (t, y) change with the controlled components of the
// state: row by row of len(f), and in ft with time. Every part of the right-hand side depends on few components, so this takes
// the work of two evaluations and not of one per component. It tells whether it can: not
// with the cells of lines, nor where what heats the gas depends on what flows in.
//
// A flow is w(up) G(p_up, p_down): w, p and T of a node depend on its mass and energy, and
// on the projectile's place, by closed forms; G is taken by differences.
func (e *engine) Jacobian(t float64, y, f, jac, ft []float64) bool {
	if len(e.laid) > 0 || e.heat == Isothermal || e.heat == Stirring {
		return false
	}
	e.conditions(y)
	j := &e.slopes
	j.c, j.jac, j.ft = len(e.scales), jac, ft
	clear(jac[:len(f)*j.c])
	clear(ft)
	for i := range e.paths {
		e.passSlopes(&e.paths[i], t, y)
	}
	if e.supplyOn && !e.apart(e.c.Supply.Feeds) {
		e.deliverSlopes(y)
	}
	if e.heat != Adiabatic {
		e.exchangeSlopes(y)
	}
	switch e.mode {
	case moving:
		e.pushSlopes(y, f)
	case afterMuzzle:
		e.pushAfterSlopes(y)
	}
	return true
}

// slopes is a Jacobian in the making.
type slopes struct {
	c       int // columns
	jac, ft []float64
}

func (j *slopes) add(row, column int, v float64) { j.jac[row*j.c+column] += v }

// nudge is by what part of itself a quantity is changed for a difference quotient [-].
const nudge = 1e-7

// slope is how a flow of mass or energy depends on the state, in the components that it
// depends on.
type slope struct {
	n  int
	at [8]int
	by [8]float64
}

func (s *slope) add(at int, by float64) {
	s.at[s.n], s.by[s.n] = at, by
	s.n++
}

// pressure adds a dependence on the pressure of a node, per pascal.
func (e *engine) pressure(s *slope, node int, by float64, y []float64) {
	if node == e.nodes {
		return
	}
	s.add(2*node+1, by*e.p[node]/y[2*node+1])
	if way := e.wayOf(node, y); way != 0 {
		s.add(e.iX, -by*e.p[node]*way)
	}
}

// wayOf is the relative growth of a node's volume with the projectile's travel [1/m].
func (e *engine) wayOf(node int, y []float64) float64 {
	switch x := y[max(e.iX, 0)]; {
	case e.bar >= 0 && node == e.bar:
		return e.b.Area / (e.dead + e.b.Area*x)
	case e.ahead >= 0 && node == e.ahead && x < e.b.Travel:
		return -e.b.Area / e.aheadVolume(x)
	}
	return 0
}

// carry books the slopes of a flow between two nodes: q of mass, h of energy.
func (e *engine) carry(up, down int, q, h *slope) {
	e.carryOne(up, -1, q, h)
	e.carryOne(down, 1, q, h)
}

func (e *engine) carryOne(node int, sign float64, q, h *slope) {
	row := 2 * node
	if node == e.nodes {
		row = e.iAtm
		if row < 0 {
			return
		}
	}
	for k := range q.n {
		e.slopes.add(row, q.at[k], sign*q.by[k])
	}
	for k := range h.n {
		e.slopes.add(row+1, h.at[k], sign*h.by[k])
	}
}

// passSlopes is pass for the Jacobian.
func (e *engine) passSlopes(a *activePath, t float64, y []float64) {
	up, down := a.from, a.to
	if e.p[down] > e.p[up] {
		if a.kind >= Check && a.kind <= Regulator {
			return
		}
		up, down = down, up
	}
	p1, p2, w := e.p[up], e.p[down], e.w[up]
	g := e.flowOf(a, t, up, p1, p2)
	q := g * w
	var dq slope
	if up < e.nodes {
		dq.add(2*up, 0.5*q/y[2*up])
		dq.add(2*up+1, 0.5*q/y[2*up+1])
		if way := e.wayOf(up, y); way != 0 {
			dq.add(e.iX, -q*way)
		}
	}
	e.pressure(&dq, up, w*(e.flowOf(a, t, up, p1*(1+nudge), p2)-g)/(p1*nudge), y)
	e.pressure(&dq, down, w*(e.flowOf(a, t, up, p1, p2*(1-nudge))-g)/(-p2*nudge), y)
	if a.balanced && a.pilot < e.nodes {
		p := e.p[a.pilot]
		e.p[a.pilot] = p * (1 + nudge)
		by := w * (e.flowOf(a, t, up, p1, p2) - g) / (p * nudge)
		e.p[a.pilot] = p
		e.pressure(&dq, a.pilot, by, y)
	}
	heat := e.cp * e.temp[up]
	dh := dq
	for k := range dh.n {
		dh.by[k] *= heat
	}
	if up < e.nodes {
		dh.by[0] -= q * heat / y[2*up]
		dh.by[1] += q * heat / y[2*up+1]
	}
	e.carry(up, down, &dq, &dh)
	if a.ramp {
		dt := nudge / a.rate
		if dt < 0 {
			dt = -dt
		}
		rate := w * (e.flowOf(a, t+dt, up, p1, p2) - g) / dt
		e.give(e.slopes.ft, up, -rate, -rate*heat)
		e.give(e.slopes.ft, down, rate, rate*heat)
	}
}

// deliverSlopes is deliver for the Jacobian.
func (e *engine) deliverSlopes(y []float64) {
	s := e.c.Supply
	i := e.node(s.Feeds)
	if i == e.nodes {
		return
	}
	gauge, step := e.p[i]-e.pa, e.p[i]*nudge
	by := (s.Delivery(gauge+step) - s.Delivery(gauge)) / step * e.pa / (e.gas.R * e.ta)
	var dq slope
	e.pressure(&dq, i, by, y)
	dh := dq
	for k := range dh.n {
		dh.by[k] *= e.cp * e.ta
		e.slopes.add(e.iSupply, dq.at[k], dq.by[k])
	}
	e.carry(e.nodes, i, &dq, &dh)
}

// exchangeSlopes is exchange for the Jacobian.
func (e *engine) exchangeSlopes(y []float64) {
	for i := range e.invV {
		p, t := e.p[i], e.temp[i]
		var byT, byP float64
		if e.heat == Transfer {
			byT = -e.sc.Coefficient * e.walls[i].Area
		} else {
			w, q := &e.walls[i], e.walls[i].HeatFlow(&e.gas, p, t, e.tw)
			byT = (w.HeatFlow(&e.gas, p, t*(1+nudge), e.tw) - q) / (t * nudge)
			byP = (w.HeatFlow(&e.gas, p*(1+nudge), t, e.tw) - q) / (p * nudge)
		}
		m, u := -byT*t/y[2*i], (byT*t+byP*p)/y[2*i+1]
		for _, row := range [...]int{2*i + 1, e.iHeat} {
			e.slopes.add(row, 2*i, m)
			e.slopes.add(row, 2*i+1, u)
		}
	}
}

// pushSlopes is push for the Jacobian; the rows of the barrel's flows are complete. f are
// the rates.
func (e *engine) pushSlopes(y, f []float64) {
	b, j := e.b, &e.slopes
	v, mass, acceleration := y[e.iX+1], e.movingMass(y), f[e.iX+1]
	if e.inertia {
		j.add(e.iX+1, e.iBar, -acceleration/(3*mass))
		for k := range j.c {
			j.add(e.iBar+1, k, -v*v/6*j.jac[e.iBar*j.c+k])
		}
		j.add(e.iBar+1, e.iX+1, -v/3*f[e.iBar])
	}
	if e.column {
		j.add(e.iX+1, e.iX, acceleration*e.columnRho/mass)
		j.add(e.iColumn, e.iX+1, 1.5*e.columnRho*v*v)
	}
	var behind, ahead slope
	e.pressure(&behind, e.bar, b.Area, y)
	for k := range behind.n {
		j.add(e.iX+1, behind.at[k], behind.by[k]/mass)
		j.add(e.iBar+1, behind.at[k], -behind.by[k]*v)
	}
	j.add(e.iBar+1, e.iX+1, -e.p[e.bar]*b.Area)
	if e.ahead >= 0 {
		e.pressure(&ahead, e.ahead, b.Area, y)
		for k := range ahead.n {
			j.add(e.iX+1, ahead.at[k], -ahead.by[k]/mass)
			j.add(e.iAhead+1, ahead.at[k], ahead.by[k]*v)
		}
		j.add(e.iAhead+1, e.iX+1, e.p[e.ahead]*b.Area)
	}
	j.add(e.iX, e.iX+1, 1)
}

// pushAfterSlopes is pushAfter for the Jacobian, by differences in the four components
// that it depends on.
func (e *engine) pushAfterSlopes(y []float64) {
	rows := [...]int{e.iBar, e.iBar + 1, e.iX, e.iX + 1, e.iAtm, e.iAtm + 1, e.iJet}
	d := e.scratch(len(y))
	at := func() (out [len(rows)]float64) {
		e.condition(e.bar, y[e.iBar], y[e.iBar+1], 1/(e.dead+e.b.Area*y[e.iX]))
		for _, r := range rows {
			d[r] = 0
		}
		e.pushAfter(y, d)
		for k, r := range rows {
			out[k] = d[r]
		}
		return out
	}
	base := at()
	for _, column := range [...]int{e.iBar, e.iBar + 1, e.iX, e.iX + 1} {
		was := y[column]
		y[column] = was + nudge*(e.scales[column]+was)
		step := y[column] - was
		changed := at()
		y[column] = was
		for k, r := range rows {
			e.slopes.add(r, column, (changed[k]-base[k])/step)
		}
	}
	e.condition(e.bar, y[e.iBar], y[e.iBar+1], 1/(e.dead+e.b.Area*y[e.iX]))
}
