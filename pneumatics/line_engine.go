package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
)

// placeLines gives cells their nodes and flows their place in the state.
func (e *engine) placeLines() {
	node := len(e.c.Volumes)
	for i := range e.runs {
		r := &e.runs[i]
		r.first = node
		node += r.n
	}
}

// placeFlows gives the mass flows their places in the state from index on.
func (e *engine) placeFlows() {
	for k := range e.faces {
		f := &e.faces[k]
		f.iq = -1
		if f.kind != atPart {
			f.iq = e.n
			e.n++
		}
	}
}

// beginLines fills the state of the lines at time 0: the pieces before a part at
// the condition of From, those after it at that of To, at rest.
func (e *engine) beginLines(put func(i int, cond Condition, volume float64)) {
	for i := range e.runs {
		r := &e.runs[i]
		p := &e.c.Paths[r.path]
		behind := r.n // from this cell on the air is that of To
		if r.after {
			behind = 0
		} else if p.Kind == Hose {
			behind = r.split
		}
		from, to := e.startOf(p.From), e.startOf(p.To)
		for k := range r.n {
			cond := from
			if k >= behind {
				cond = to
			}
			put(2*(r.first+k), cond, e.cells[r.cell+k].volume)
		}
	}
	// A flow's natural size is the sonic one. A finer one costs steps and gives nothing:
	// what a flow does to the cells is held by their own masses and energies.
	rest := 1.5 * e.gas.Density(e.pa, e.ta) * e.gas.SoundSpeed(e.ta)
	for i := range e.runs {
		r := &e.runs[i]
		for k := range r.n + 1 {
			if f := &e.faces[r.face+k]; f.iq >= 0 {
				e.scales[f.iq] = rest * e.cells[r.cell+min(k, r.n-1)].area
			}
		}
	}
}

// startOf is the gas in a node at time 0.
func (e *engine) startOf(n Node) Condition {
	cond := Condition{e.pa, e.ta}
	switch {
	case n >= 0:
		cond = e.sc.Volumes[n]
	case n == BarrelNode && e.bar >= 0 && e.sc.Barrel.Pressure > 0:
		cond = e.sc.Barrel
	}
	if e.heat == Isothermal {
		cond.Temperature = e.tw
	}
	return cond
}

// endNodes finds the nodes that the runs' ends open into in the present phase.
func (e *engine) endNodes() {
	for i := range e.runs {
		r := &e.runs[i]
		r.nodeL, r.nodeR = e.node(r.left), e.node(r.right)
	}
}

// lineConstants computes what the lines need of gas and surroundings.
func (e *engine) lineConstants() {
	if !e.c.hasLines() {
		return
	}
	g := &e.gas
	e.viscosity = g.Viscosity(e.ta)
	e.viscosityRise = g.ViscosityRise(e.ta)
	k := g.Gamma
	// No flow in a line of one bore passes the speed of sound steadily; where a strong front would
	// be faster for a moment, a drag that grows from M^2 0.95 to all of the pressure at 1
	// takes the place of the shock.
	e.sonicOnset, e.sonicSpan = 0.95*k*g.R, 0.05*k*g.R
	e.inlet = flow.NewLaw(flow.Nozzle(1, 1), g, e.o.laminar())
	e.sonicShare = math.Pow(2/(k+1), (k+1)/(2*(k-1)))
}

func (c *Circuit) hasLines() bool {
	for i := range c.Paths {
		if len(c.Paths[i].Before)+len(c.Paths[i].After) > 0 {
			return true
		}
	}
	return false
}

// wall is a cell's share of its line's wall.
func (c *cell) wall(g *flow.Gas) wall {
	d := 2 * math.Sqrt(c.area/math.Pi)
	w := wallOf(Volume{Volume: c.volume, InnerDiameter: d}, g)
	w.area -= 2 * c.area // no end faces
	return w
}

// attach puts the ends of a path's lines in the place of its nodes; false for a path
// that is a line and has no part.
func (e *engine) attach(a *activePath) bool {
	a.before, a.after = -1, -1
	for i := range e.runs {
		r := &e.runs[i]
		if r.path != a.index {
			continue
		}
		switch {
		case a.src.Kind == Hose:
			return false
		case r.after:
			a.after, a.to = i, r.first
		default:
			a.before, a.from = i, r.first+r.n-1
		}
		a.lined = true
	}
	return true
}

// resistances are a path's part and what lies in series with it: its hose, and lines
// that are too short to be more. A short line alone is the part.
func (e *engine) resistances(a *activePath) (part, hose flow.Restriction, first bool) {
	part, hose, first = a.src.Flow, a.src.Hose, a.src.HoseFirst
	short := &e.shorts[a.index]
	if a.src.Kind == Hose && len(a.src.Before)+len(a.src.After) > 0 {
		return short.before, hose, first
	}
	if !short.before.IsZero() {
		hose, first = inSeries(short.before, hose, e.gas), true
	}
	if !short.after.IsZero() {
		hose = inSeries(hose, short.after, e.gas)
		first = first && !short.before.IsZero()
	}
	return part, hose, first
}

// inSeries is Series where either may be nothing at all.
func inSeries(a, b flow.Restriction, g flow.Gas) flow.Restriction {
	switch {
	case a.IsZero():
		return b
	case b.IsZero():
		return a
	}
	return flow.Series(a, b, g)
}

// cellConditions computes pressure and temperature of the lines' cells.
func (e *engine) cellConditions(y []float64) {
	at := 2 * e.volumes
	p, temp := e.p[e.volumes:], e.temp[e.volumes:]
	for i := range e.cells {
		m, u := y[at], y[at+1]
		at += 2
		p[i] = e.cells[i].invGM1 * u
		temp[i] = u / (m * e.cv)
	}
}

// surge bounds how far the pressure at the end of a line can pass the highest there
// is [Pa]: by the step it may be thrown back with at a closed end, the range of
// the pressures joined, and by the gas's motion brought to rest there by a pressure
// wave, rho c u, and thrown back as well.
func (e *engine) surge(y []float64, highest float64) float64 {
	if len(e.runs) == 0 {
		return 0
	}
	e.lineSpeeds(y)
	lowest, wave := e.p[e.bar], 0.0
	for i := range e.runs {
		r := &e.runs[i]
		if !e.connected[r.first] {
			continue
		}
		for k := range r.n {
			n, c := r.first+k, &e.cells[r.cell+k]
			lowest = min(lowest, e.p[n])
			q := max(math.Abs(e.faces[r.face+k].q), math.Abs(e.faces[r.face+k+1].q))
			wave = max(wave, q*math.Sqrt(e.gas.Gamma*e.gas.R*e.temp[n])/c.area)
		}
	}
	if lowest == highest && wave == 0 {
		return 0
	}
	return highest - lowest + 2*wave
}

// linesSteady tells that no flow in the lines changes, in a second, by more than a
// share of its natural size [1/s].
func (e *engine) linesSteady(d []float64, slow float64) bool {
	for i := range e.faces {
		if f := &e.faces[i]; f.iq >= 0 && math.Abs(d[f.iq]) > slow*e.scales[f.iq] {
			return false
		}
	}
	return true
}

// patience is how many steps at the limit of stability count as a stiff stretch: the
// waves in a line are undamped, and the implicit method is none for waves.
func (e *engine) patience() int {
	if len(e.runs) > 0 {
		return 12
	}
	return 0
}
