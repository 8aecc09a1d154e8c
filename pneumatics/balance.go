package pneumatics

import (
	"math"

	"puffproof/pneumatics/graph"
	"puffproof/pneumatics/ode"
)

// Balance is the balance of forces on a diaphragm or shuttle that lifts off a seat. The
// pressure under it acts on its ring outside the seat, the outlet's on the seat, that
// behind it on its whole back, with a spring. Shut, it lifts where
//
//	(1 - s) p_from + s p_to - p_back - p_spring > 0
//
// Once it is off its seat the pressure under it reaches the seat too. It pops open, and
// is up by
//
//	lift = (p_from - p_back - p_spring)/span, within 0 and 1
//
// until nothing is left of that. s is the seat's area over the diaphragm's [-], p_spring
// the spring's force over the diaphragm's area [Pa], span what lifts it all the way [Pa].
// Statics; the mass of the diaphragm and what the flow takes off the pressure under it are
// left out: both would open it later and less.
//
// Of a valve that the states move, the chamber behind the diaphragm is filled from
// From and vented into Pilot by a small pilot valve; the opening of its schedule is the
// part c of the pressure that has gone:
//
//	p_back = p_from - c (p_from - p_pilot)
//
// so that at a low pressure it lifts later, by part, or not at all. Of a QuickExhaust
// the inlet itself is behind it: p_back = p_pilot.
type Balance struct {
	SeatShare float64 // s [-], below 1; 0: no balance, the part opens as its schedule says
	Spring    float64 // p_spring [Pa]
	Span      float64 // [Pa], above zero
	Pilot     Node
}

// balanced tells that a diaphragm decides how far the path is open.
func (p *Path) balanced() bool {
	switch p.Kind {
	case Valve, HandValve, QuickExhaust:
		return p.Balance.SeatShare > 0
	}
	return false
}

// forces are those on the diaphragm of a path over its area [Pa], shut and off its seat,
// with the part c of its chamber's pressure gone, for absolute pressures [Pa].
func (p *Path) forces(c, from, to, pilot float64) (shut, lifted float64) {
	b := &p.Balance
	back := pilot
	if p.Kind != QuickExhaust {
		back = from - c*(from-pilot)
	}
	shut = (1-b.SeatShare)*from + b.SeatShare*to - back - b.Spring
	return shut, max(shut, from-back-b.Spring)
}

// holds is the gauge pressure that a diaphragm may leave for good in what empties through
// it [Pa]: the least at which it still lifts. behind stays where the flow goes, pilot in
// the node that its back sees or is vented into.
func (b *Balance) holds(behind, pilot float64) float64 {
	if math.IsInf(behind, 1) {
		return behind
	}
	return max(behind, (pilot+b.Spring-b.SeatShare*behind)/(1-b.SeatShare))
}

// forcesOn are the forces on the diaphragm of a path as the engine's conditions stand.
func (e *engine) forcesOn(a *activePath, t float64) (shut, lifted float64) {
	return a.src.forces(a.at(t), e.p[a.from], e.p[a.to], e.p[a.pilot])
}

// popped is how far the diaphragm of a path is up [0 … 1].
func (e *engine) popped(a *activePath, t, from, to float64) float64 {
	if !e.lifted[a.index] {
		return 0
	}
	_, force := a.src.forces(a.at(t), from, to, e.p[a.pilot])
	return min(max(force/a.src.Balance.Span, 0), 1)
}

// listBalances finds the paths that a diaphragm decides.
func (e *engine) listBalances() {
	e.balances = e.balances[:0]
	for i := range e.c.Paths {
		if e.c.Paths[i].balanced() && !e.sc.sticks(i) {
			e.balances = append(e.balances, i)
		}
	}
	e.lifted = resize(e.lifted, len(e.c.Paths))
	clear(e.lifted)
}

// active is a path of the present phase by its index in the circuit; nil: it passes
// nothing now.
func (e *engine) active(index int) *activePath {
	for i := range e.paths {
		if e.paths[i].index == index {
			return &e.paths[i]
		}
	}
	return nil
}

// settleBalances lifts and seats the diaphragms as the forces stand, after the paths or
// the mode have changed.
func (e *engine) settleBalances(t float64, y []float64) {
	if len(e.balances) == 0 {
		return
	}
	e.conditions(y)
	for _, i := range e.balances {
		a := e.active(i)
		if a == nil {
			e.lifted[i] = false
			continue
		}
		shut, lifted := e.forcesOn(a, t)
		switch {
		case shut > 0:
			e.lifted[i] = true
		case lifted < 0:
			e.lifted[i] = false
		}
	}
}

// dropSeated takes away from what is connected what is behind diaphragms that are seated
// and stay so, whatever the walls, a leak or a hand that frees the projectile do.
func (e *engine) dropSeated(t float64, y []float64) {
	if len(e.balances) == 0 || e.mode != held && e.mode != moving || e.nextKnot(t) < math.Inf(1) {
		return
	}
	if !e.staysSeated(t, y, e.rates(t, y, nil)) || e.mayLift(t) {
		return
	}
	copy(e.connected, e.joinedNow(t))
	if s := e.c.Supply; s != nil && e.reach > 0 && !e.connected[e.node(s.Feeds)] {
		e.reach = 0
	}
}

// joinedNow are the nodes that reach the barrel with the diaphragms as they stand.
func (e *engine) joinedNow(t float64) graph.PerNode[bool] {
	if len(e.balances) == 0 {
		return e.connected
	}
	now := graph.NewPerNode(len(e.connected)-2, false)
	now.Set(BarrelNode, true)
	seated := func(path int) bool {
		return path >= 0 && e.c.Paths[path].balanced() && !e.lifted[path] && !e.sc.sticks(path)
	}
	graph.Reach(e.links, now, graph.FirstTime, func(link int, way graph.Way, at bool) bool {
		return at && !seated(e.linkPath[link]) && e.passes(link, 1-way, t)
	})
	return now
}

// staysSeated tells that no seated diaphragm will lift: the force on it would take longer
// than 1/slow [s] to rise by its own size. A projectile that comes to rest again and
// again changes the barrel's pressure to and fro, and has not lifted it. d are the
// derivatives of the state y.
func (e *engine) staysSeated(t float64, y, d []float64) bool {
	rate := func(node int) float64 { // of the pressure [Pa/s]
		if node == e.nodes || node == e.bar {
			return 0
		}
		return e.gm1 * e.invV[node] * d[2*node+1]
	}
	for _, i := range e.balances {
		a := e.active(i)
		if a == nil || e.lifted[i] {
			continue
		}
		shut, _ := e.forcesOn(a, t)
		back := rate(a.pilot)
		if a.kind != QuickExhaust {
			back = rate(a.from) - a.at(t)*(rate(a.from)-rate(a.pilot))
		}
		b := &a.src.Balance
		if rises := (1-b.SeatShare)*rate(a.from) + b.SeatShare*rate(a.to) - back; rises > slow*math.Abs(shut) {
			return false
		}
	}
	return true
}

// mayLift tells that a seated diaphragm may still lift while its projectile is stuck, or as a hand frees it:
// the walls warm the gas before it, a leak over the seat brings the outlet up to what the
// projectile holds, and the freed projectile lets the outlet down to the ambient pressure, with the back of a
// diaphragm that vents there. The force is linear in the outlet's pressure: its ends decide.
func (e *engine) mayLift(t float64) bool {
	for _, i := range e.balances {
		a := e.active(i)
		if a == nil || e.lifted[i] {
			continue
		}
		from := e.p[a.from]
		if a.from < len(e.temp) {
			from *= max(1, e.tw/e.temp[a.from])
		}
		for _, to := range [...]float64{e.pa, max(e.p[a.to], min(from, e.holding()))} {
			pilot := e.p[a.pilot]
			if a.pilot == a.to {
				pilot = to
			}
			if shut, _ := a.src.forces(a.at(t), from, to, pilot); shut > 0 {
				return true
			}
		}
	}
	return false
}

// aimBalances asks for the moments at which a shut diaphragm lifts and a lifted one comes
// down; d are their events.
func (e *engine) aimBalances(d []ode.Direction) {
	for k, i := range e.balances {
		switch {
		case e.active(i) == nil:
			d[k] = ode.Never
		case e.lifted[i]:
			d[k] = ode.Falling
		default:
			d[k] = ode.Rising
		}
	}
}

// balanceValue is the value of the event of path i: the force that lifts its diaphragm, or
// that holds it up.
func (e *engine) balanceValue(i int, t float64) float64 {
	a := e.active(i)
	if a == nil {
		return -1
	}
	shut, lifted := e.forcesOn(a, t)
	if e.lifted[i] {
		return lifted / e.pa
	}
	return shut / e.pa
}
