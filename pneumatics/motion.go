package pneumatics

import (
	"math"
	"slices"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
	"puffproof/pneumatics/internal/cushion"
	"puffproof/pneumatics/internal/row"
	"puffproof/pneumatics/ode"
)

// The events of a run, in the order of the solver's arrays; after them one per
// watched volume, one per diaphragm, one per relief valve.
const (
	evLeaves    = iota // the tail passes the muzzle
	evStops            // the speed passes zero
	evRear             // back at the rearmost seat
	evBreakaway        // at rest, the net force exceeds what holds it
	evStall            // at rest, nothing that can still come will move it
	evPeak             // the barrel's pressure passes a maximum
	evIdle             // what is left cannot give the projectile idleEnergy any more
	evFar              // after the muzzle, the jet's reach is over
	evCutOut           // the switch stops the supply
	evCutIn            // the switch starts the supply
	numEvents
)

// idleEnergy is the energy [J] below which nothing more is worth waiting for: a
// ten-thousandth of the smallest limit there is.
const idleEnergy = 8e-6

// waits tells that the run goes on only for the projectile in an open barrel,
// with no supply that could still move it.
func (e *engine) waits() bool {
	return (e.mode == held || e.mode == moving) && !e.o.Settle && e.ahead < 0 && e.reach == 0
}

// plugged tells that a run goes on only for the pressures on either side of a projectile before a closed muzzle.
func (e *engine) plugged() bool {
	return e.ahead >= 0 && (e.mode == held || e.mode == moving) && e.o.OnlyLeaving
}

// plug is below zero where these will not be higher than they have been; conditions must be those of y.
func (e *engine) plug(y []float64) float64 {
	x, ahead, w := y[e.iX], e.p[e.ahead], e.weight()
	b := cushion.Barrel{Gamma: e.gas.Gamma, Ambient: e.pa, Highest: max(e.highest, e.p[e.bar], ahead), Ahead: ahead,
		Drive: max(e.highestReach(), ahead), Volume: e.aheadVolume(x), Least: e.aheadVolume(e.b.Travel), Dead: e.dead,
		Motion: e.motion(y), Push: max(0, -w) / e.b.Area, Fall: math.Abs(w) * x}
	return b.Rises()
}

// remaining bounds what the air can still give the projectile without heat from the walls, kinetic energy and a fall included [J]:
// expansion or compression to ambient pressure, V d^2/(2 min(p, pa)) with d = p - pa for each volume that reaches the barrel. Where only
// the leaving is asked for, air behind a check valve gives what barrier.Over says.
func (e *engine) remaining(y []float64) float64 {
	sum := e.motion(y) + e.fall(y)
	for i := range e.nodes {
		if !e.connected[i] {
			continue
		}
		volume := e.dead + e.b.Area*y[e.iX]
		if i < len(e.invV) {
			volume = 1 / e.invV[i]
		}
		d := e.p[i] - e.pa
		if e.o.OnlyLeaving {
			d = e.barriers.Over(i, d)
		}
		sum += volume * d * d / (2 * min(e.p[i], e.pa))
	}
	return sum
}

// events is the number of events of this run.
func (e *engine) events() int { return numEvents + len(e.o.Watch) + len(e.balances) + len(e.reliefs) }

// aim switches the events on that belong to the projectile's mode.
func (e *engine) aim(t float64) []ode.Direction {
	e.directions = resize(e.directions, e.events())
	d := e.directions
	e.aimBalances(d[numEvents+len(e.o.Watch):])
	e.aimReliefs(d[len(d)-len(e.reliefs):])
	for i := range numEvents {
		d[i] = ode.Never
	}
	switch e.mode {
	case held:
		d[evBreakaway] = ode.Rising
		if e.mayEnd(t) {
			d[evStall] = ode.Falling
		}
	case moving:
		d[evLeaves] = ode.Rising
		d[evStops] = ode.Falling
		if e.sign < 0 {
			d[evRear] = ode.Falling
		}
	case afterMuzzle:
		d[evFar] = ode.Rising
	}
	if e.waits() || e.plugged() {
		d[evIdle] = ode.Falling
	}
	// At rest the pressure's peak is always wanted: it may pass the breakaway
	// force and fall back within one step.
	if e.mode == held || (e.mode == moving && !e.o.NoPeak) {
		d[evPeak] = ode.Falling
	}
	if sw := e.sc.Switch; sw != nil && e.sc.SupplyRuns && e.c.Supply != nil {
		if e.supplyOn {
			d[evCutOut] = ode.Rising
		} else {
			d[evCutIn] = ode.Falling
		}
	}
	for i := range e.o.Watch {
		d[numEvents+i] = ode.Falling
	}
	return d
}

// mayEnd tells that a run may end with a projectile at rest at time t. What one that stays can gain when a hand frees it, and what
// is left, is told once the paths stand still: a valve that shuts in tenths of a second no longer feeds it then.
func (e *engine) mayEnd(t float64) bool {
	return !e.o.Settle && (e.o.OnlyLeaving || e.sc.Jammed || math.IsInf(e.nextKnot(t), 1) || e.nextKnot(t) >= e.until)
}

// EventValues gives the value of every event that is switched on.
func (e *engine) EventValues(t float64, y, dydt, g []float64) {
	e.conditions(y)
	for i, direction := range e.directions {
		if direction != ode.Never {
			g[i] = e.event(i, t, y, dydt)
		}
	}
}

// EventValue gives the value of one event.
func (e *engine) EventValue(event int, t float64, y []float64) float64 {
	switch {
	case event == evPeak, event >= e.events()-len(e.reliefs): // Derivatives asks for them
	case event == evLeaves, event == evStops, event == evRear, event == evFar: // place and speed are all
	case event == evStall, event == evIdle, event >= numEvents+len(e.o.Watch): // a diaphragm may see a line
		e.conditions(y)
	default: // it does not see the cells of lines
		e.nodeConditions(y)
	}
	return e.event(event, t, y, nil)
}

// Sees tells the components of the state that an event hangs on.
func (e *engine) Sees(event int) (from, to int) {
	if event == evLeaves || event == evStops || event == evRear || event == evFar {
		return e.iX, e.iX + 2
	}
	return 0, len(e.scales)
}

// Matters tells that an event is worth a stop. Where only the leaving is asked for, and no peak, that behind a projectile at rest
// is so if it may break it away: twice as far above the ends of the step as where their tangents would take it.
func (e *engine) Matters(event int, h float64, y0, d0, y1, d1 []float64) bool {
	if event != evPeak || e.mode != held || !e.o.OnlyLeaving || !e.o.NoPeak || e.ahead >= 0 || e.sc.Jammed {
		return true
	}
	u := e.iBar + 1
	most := max(y0[u], y1[u]) + 2*h*max(d0[u], -d1[u], 0)
	volume := e.dead + e.b.Area*y1[e.iX]
	return (e.gm1*most/volume-e.pa)*e.b.Area-e.weight() >= e.threshold
}

// event gives the value of an event at the conditions of y.
func (e *engine) event(event int, t float64, y, dydt []float64) float64 {
	switch event {
	case evBreakaway:
		return e.pull(y) - e.threshold
	case evStall:
		return e.highestReach() - e.holding()
	case evLeaves:
		return y[e.iX] - e.b.Travel
	case evStops:
		return e.sign*y[e.iX+1] + atRest
	case evRear:
		return y[e.iX]
	case evFar:
		return y[e.iX] - e.b.Travel - maxJetTravel*e.jetD
	case evIdle:
		if e.ahead >= 0 {
			return e.plug(y)
		}
		return e.left(y) - idleEnergy
	case evPeak:
		return e.pressureRate(t, y, dydt)
	case evCutOut, evCutIn:
		p := e.p[e.node(e.sc.Switch.Senses)] - e.pa
		if event == evCutOut {
			return p - e.sc.Switch.CutOut
		}
		return p - e.sc.Switch.CutIn
	}
	if k := event - numEvents - len(e.o.Watch); k >= len(e.balances) {
		return e.turnValue(&e.reliefs[k-len(e.balances)], t, y, dydt)
	} else if k >= 0 {
		return e.balanceValue(e.balances[k], t)
	}
	w := e.o.Watch[event-numEvents]
	return e.p[w.Volume] - w.Pressure
}

// rates are the derivatives at (t, y), dydt where they are at hand.
func (e *engine) rates(t float64, y, dydt []float64) []float64 {
	if dydt == nil {
		dydt = e.scratch(len(y))
		e.Derivatives(t, y, dydt)
	}
	return dydt
}

// pressureRate is dp/dt over p of the barrel: the sign matters, the scale makes it a
// number near 1.
func (e *engine) pressureRate(t float64, y, dydt []float64) float64 {
	dydt = e.rates(t, y, dydt)
	volume := e.dead + e.b.Area*y[e.iX]
	return dydt[e.iBar+1]/y[e.iBar+1] - e.b.Area*dydt[e.iX]/volume
}

// Doubtful tells that the speed may have passed zero and come back inside a step.
func (e *engine) Doubtful(h float64, y0, d0, y1, d1 []float64) bool {
	v := e.iX + 1
	return e.mode == moving && ode.Dips(e.sign*y0[v], e.sign*y1[v], e.sign*d0[v]*h, e.sign*d1[v]*h)
}

// Accepted lets the relief valves follow their lines at the end of a step.
func (e *engine) Accepted(_ float64, y []float64) {
	if e.sc.Jammed && e.bar >= 0 {
		e.highest = max(e.highest, e.p[e.bar])
	}
	e.follow(y)
}

// atRest is the speed at which a projectile counts as turned back [m/s]. Below
// zero by a hair, so that a start from exactly zero arms the event.
const atRest = 1e-12

// pull is what tries to move a projectile at rest [N]: the net force either
// way, forward only at the rear stop.
func (e *engine) pull(y []float64) float64 {
	net := e.netForce()
	if y[e.iX] <= 0 {
		return net
	}
	return math.Abs(net)
}

// netForce is the force on a projectile at rest, friction apart [N].
func (e *engine) netForce() float64 {
	back := e.pa
	if e.ahead >= 0 {
		back = e.p[e.ahead]
	}
	return (e.p[e.bar]-back)*e.b.Area - e.weight()
}

// forGood is a force that no pressure of this project's range has [N].
const forGood = 1e12

// hold sets what a rest needs to be broken: the breakaway force, the restart
// force after the first move, never less than the sliding friction.
func (e *engine) hold(first bool) {
	if e.sc.Jammed {
		e.threshold = forGood
		return
	}
	e.threshold = e.b.Breakaway
	if !first && e.b.Restart > 0 {
		e.threshold = e.b.Restart
	}
	e.threshold = max(e.threshold, e.b.Sliding)
	if len(e.laid) > 0 || len(e.balances) > 0 || !first && e.threshold == 0 {
		// Until the wave of a line arrives or a diaphragm lifts, and where it floats on its air, the barrel's
		// pressure stands still but for the integration's error: without this a projectile
		// that nothing holds would start and stop for ever.
		e.threshold = max(e.threshold, e.o.Tolerance*e.pa*e.b.Area)
	}
}

// settled is how near to its highest the pressure behind a jammed projectile is followed, in parts of what it has risen by [-].
const settled = 1e-3

// holding is the barrel pressure that would just break the rest, or would be news of a
// jammed projectile [Pa].
func (e *engine) holding() float64 {
	if e.sc.Jammed {
		return e.highest + settled*max(e.highest-e.pa, 1)
	}
	back := e.pa
	if e.ahead >= 0 {
		back = e.p[e.ahead]
	}
	return back + (e.threshold+e.weight())/e.b.Area
}

// highestReach is the highest pressure among the nodes that have, or will have in this scenario, a path to the barrel; gas colder than the
// walls counts as warmed by them, a running supply at its dead head; behind a regulator no more than it is set to. No mixing exceeds it.
func (e *engine) highestReach() float64 {
	best := e.p[e.bar]
	for i, ok := range e.connected {
		if !ok || i >= e.nodes {
			continue
		}
		p := e.p[i]
		if e.heat != Adiabatic && i < len(e.invV) {
			p *= max(1, e.tw/e.temp[i])
		}
		best = max(best, e.barriers.Through(i, p))
	}
	return max(best+e.surge(best), e.reach)
}

// block finds what stands in the way of each node's air to the barrel from time t on: a regulator lets no more through than it is set to,
// where there is no way without; a check valve holds its cracking pressure back, where no wave of a line throws it open.
func (e *engine) block(t float64) {
	blocks := func(p Path) bool { return p.Kind == Regulator || p.Kind == Check && p.CrackingPressure > 0 }
	if !slices.ContainsFunc(e.c.Paths, blocks) {
		e.barriers.Clear(len(e.connected))
		return
	}
	e.barriers.Find(e.links, len(e.connected), func(link int, way graph.Way) (limit, drop float64) {
		i := e.linkPath[link]
		switch {
		case !e.passes(link, way, t):
			return 0, 0
		case i >= 0 && !e.sc.sticks(i) && e.c.Paths[i].Kind == Regulator:
			return e.pa + e.c.Paths[i].SetPressure, 0
		case i >= 0 && !e.sc.sticks(i) && e.c.Paths[i].Kind == Check && len(e.laid) == 0:
			return math.Inf(1), e.c.Paths[i].CrackingPressure
		}
		return math.Inf(1), 0
	})
}

// connect finds the nodes that can reach the barrel from time t on.
func (e *engine) connect(t float64) {
	e.connected = resize(e.connected, len(e.c.Volumes)+len(e.rows.Cells)+2)
	if e.bar < 0 {
		return
	}
	clear(e.connected)
	e.connected.Set(BarrelNode, true)
	e.graph()
	// Against the way that the air takes.
	graph.Reach(e.links, e.connected, graph.FirstTime, func(link int, way graph.Way, at bool) bool { return at && e.passes(link, 1-way, t) })
	e.block(t)
	e.sealed = e.b.LeakArea <= 0 && !e.takesIn(t)
	e.reach = 0
	if e.sc.SupplyRuns && e.c.Supply != nil {
		if n := e.node(e.c.Supply.Feeds); n < e.nodes && e.connected[n] {
			e.reach = min(e.pa+e.supplyReach(), e.barriers.Caps[n])
		}
	}
}

// passes tells whether air can take a way over a link of the graph at t or later.
func (e *engine) passes(link int, way graph.Way, t float64) bool {
	i := e.linkPath[link]
	if i < 0 {
		return true
	}
	p := &e.c.Paths[i]
	return !p.Flow.IsZero() && e.moves[i].Peak(t) > 0 && (way == graph.Along || !p.Kind.OneWay() || e.sc.sticks(i))
}

// takesIn tells whether air of the atmosphere can get to where the barrel's comes from.
func (e *engine) takesIn(t float64) bool {
	for i, l := range e.links {
		switch {
		case l.From == Atmosphere && l.To != Atmosphere && e.connected.At(l.To) && e.passes(i, graph.Along, t),
			l.To == Atmosphere && l.From != Atmosphere && e.connected.At(l.From) && e.passes(i, graph.Against, t):
			return true
		}
	}
	return false
}

// graph lists what joins the nodes, the cells of lines among them: each path's part,
// and the open ways into a line and along it, which belong to no path.
func (e *engine) graph() {
	e.links, e.linkPath = e.links[:0], e.linkPath[:0]
	add := func(path int, from, to Node) {
		e.links, e.linkPath = append(e.links, graph.Link{From: from, To: to}), append(e.linkPath, path)
	}
	for i := range e.c.Paths {
		from, to := e.c.Paths[i].From, e.c.Paths[i].To
		for k := range e.laid {
			if e.laid[k].path != i {
				continue
			}
			first, last := Node(e.rows.First(k)), Node(e.rows.Last(k))
			for n := first; n < last; n++ {
				add(-1, n, n+1)
			}
			if e.laid[k].side == row.After {
				add(-1, last, to)
				to = first
			} else {
				add(-1, from, first)
				from = last
			}
		}
		add(i, from, to)
	}
}

// supplyReach is the highest gauge pressure to which a running supply can bring the barrel behind a projectile at rest: its dead head,
// or less where the gap around the projectile passes all it delivers. Upstream of the barrel the pressure is higher and the delivery
// smaller, so the balance at the barrel's pressure bounds it; what the volumes hold already counts separately.
func (e *engine) supplyReach() float64 {
	s := e.c.Supply
	if e.b.LeakArea <= 0 || e.ahead >= 0 {
		return s.DeadHead
	}
	gap := flow.NewLaw(flow.Nozzle(e.b.LeakArea, e.b.LeakCd), &e.gas, e.o.laminar())
	rho := e.pa / (e.gas.R * e.ta)
	low, high := 0.0, s.DeadHead
	for range 50 {
		mid := 0.5 * (low + high)
		p := e.pa + mid
		if s.Delivery(mid)*rho > gap.K*p/math.Sqrt(e.ta)*gap.Phi(e.pa/p) {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
