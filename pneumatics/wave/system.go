package wave

import (
	"math"

	"puffproof/pneumatics"
)

// The spaces among the nodes that are none: around the launcher, and the gas at
// the barrel's breech, where vents and bleed holes are.
const (
	outside = int(pneumatics.Atmosphere)
	breech  = int(pneumatics.BarrelNode)
)

// node is a lumped space: a vessel.
type node struct {
	mass, energy   float64 // [kg], [J]
	mass0, energy0 float64 // at the start of the step
	volume         float64 // [m3]
	p, t           float64 // [Pa], [K]
	dm, de         float64 // sum of flows [kg/s], [W]
}

// joint is a port between one end of a tube and a node.
type joint struct {
	port
	tube  *tube
	right bool // the tube's right end
	node  int
	path  int // index of the circuit's path whose opening rules it; -1: fixed
}

// link is a path between two nodes, or one of them and the outside or the breech.
type link struct {
	from, to int
	path     int
}

// system is everything that moves: tubes, nodes, joints, links and the
// projectile, with the book of what left it.
type system struct {
	g       gas
	pa, ta  float64
	nodes   []node
	tubes   []*tube
	joints  []joint
	bridges []bridge
	steps   []step
	links   []link
	valves  []valve // one per path of the circuit
	supply  *pneumatics.Supply
	feeds   int // node that the supply feeds

	shot    projectile
	breech  *tube // where the barrel begins
	time    float64
	courant float64

	flow flows // of the present stage
	book account
}

// account is what left the system, and where the energy of the projectile went.
type account struct {
	mass, energy float64 // to the outside through joints, links and the gap
	supplyMass   float64
	friction     float64
	back         float64 // work against a pressure that is no tube's
	gravity      float64
	impact       float64 // lost at the rear stop and when the motion reverses
}

// flows are the rates of one stage that go outside or to the projectile.
type flows struct {
	mass, energy float64 // [kg/s], [W]
	supply       float64 // [kg/s]
	base, front  float64 // pressures on the projectile [Pa]
	leak         float64 // past the projectile [kg/s]
}

// nodeAt makes a node of a volume [m3] in a condition.
func (s *system) nodeAt(c pneumatics.Condition, volume float64) node {
	return node{mass: c.Pressure * volume / (s.g.R * c.Temperature), energy: c.Pressure * volume / s.g.gm1, volume: volume}
}

// conditions computes pressures and temperatures of nodes and cells.
func (s *system) conditions() bool {
	ok := true
	for i := range s.nodes {
		n := &s.nodes[i]
		n.p = s.g.gm1 * n.energy / n.volume
		n.t = n.energy / (n.mass * s.g.cv)
		n.dm, n.de = 0, 0
		ok = ok && n.mass > 0 && n.energy > 0
	}
	for _, t := range s.tubes {
		ok = t.primitives(&s.g) && ok
	}
	return ok
}

// space gives pressure and temperature of a node, of the outside or of the first
// cell at the breech.
func (s *system) space(i int) (p, t float64) {
	switch i {
	case outside:
		return s.pa, s.ta
	case breech:
		return s.breech.p[0], s.breech.p[0] / (s.g.R * s.breech.rho[0])
	}
	return s.nodes[i].p, s.nodes[i].t
}

// give books a flow into a node, or to the outside.
func (s *system) give(i int, m, e float64) {
	if i == outside {
		s.flow.mass += m
		s.flow.energy += e
		return
	}
	s.nodes[i].dm += m
	s.nodes[i].de += e
}

// rates computes all fluxes at time t with the projectile at speed v.
func (s *system) rates(t, v float64) {
	s.flow = flows{}
	for _, tb := range s.tubes {
		tb.left, tb.right = tb.sweep(&s.g, v)
		tb.wallEnd(&s.g, tb.left, false)
		tb.wallEnd(&s.g, tb.right, true)
	}
	for i := range s.joints {
		s.join(&s.joints[i], t)
	}
	for i := range s.bridges {
		s.connectEnds(&s.bridges[i], t)
	}
	for i := range s.steps {
		s.connectStep(&s.steps[i])
	}
	if s.shot.present {
		s.pushes(v)
	}
	for i := range s.links {
		s.pass(&s.links[i], t)
	}
	if s.supply != nil {
		n := &s.nodes[s.feeds]
		q := s.supply.Delivery(n.p-s.pa) * s.pa / (s.g.R * s.ta)
		s.give(s.feeds, q, q*s.g.cp*s.ta)
		s.give(outside, -q, -q*s.g.cp*s.ta)
		s.flow.supply = q
	}
}

// wallEnd closes an end of the tube.
func (t *tube) wallEnd(g *gas, end State, right bool) {
	i := 0
	if right {
		i = t.n
	}
	p := g.pistonPressure(inward(end, right), 0)
	t.fm[i], t.fq[i], t.fe[i] = 0, p*t.area[i], 0
}

// join sets the flux of a tube's end from its joint.
func (s *system) join(j *joint, t float64) {
	end := j.tube.left
	if j.right {
		end = j.tube.right
	}
	if j.path >= 0 {
		j.law = s.valves[j.path].law(&s.g, t)
	}
	j.p, j.t = s.space(j.node)
	f := j.solve(inward(end, j.right))
	tb := j.tube
	if j.right {
		tb.fm[tb.n], tb.fq[tb.n], tb.fe[tb.n] = -f.mass, f.momentum, -f.energy
	} else {
		tb.fm[0], tb.fq[0], tb.fe[0] = f.mass, f.momentum, f.energy
	}
	s.give(j.node, -f.mass, -f.energy)
}

// pass books the flow of a path between nodes, or between one and the breech.
func (s *system) pass(l *link, t float64) {
	p1, t1 := s.space(l.from)
	p2, t2 := s.space(l.to)
	law := s.valves[l.path].between(&s.g, t, p1, p2, s.pa)
	if law.IsZero() {
		return
	}
	switch breech {
	case l.from:
		q, h := s.sideHole(s.breech, law, p2, t2)
		s.give(l.to, q, h)
		return
	case l.to:
		q, h := s.sideHole(s.breech, law, p1, t1)
		s.give(l.from, q, h)
		return
	}
	q := law.MassFlow(s.g.Gas, p1, t1, p2, t2)
	h := q * s.g.cp * t1
	if q < 0 {
		h = q * s.g.cp * t2
	}
	s.give(l.from, -q, -h)
	s.give(l.to, q, h)
}

// step advances by dt: Heun's method on totals, nodes and projectile.
//
// The projectile's momentum gains the impulse J of the two stages. The gas gives
// it the work J (v0 + v1)/2, which is exactly its gain of energy; the difference
// to the sum of the two stages' p A v is of fourth order in dt and goes to the
// cell at the projectile. So the energy balance closes to rounding.
func (s *system) step(dt float64) bool {
	b := &s.shot
	x0, v0 := b.x, b.v
	for _, t := range s.tubes {
		t.save()
	}
	for i := range s.nodes {
		n := &s.nodes[i]
		n.mass0, n.energy0 = n.mass, n.energy
	}
	// First stage. The primitives are those of the last step's end.
	s.rates(s.time, v0)
	first := s.flow
	b.release(first.base, first.front)
	a0 := b.acceleration(first.base, first.front)
	for _, t := range s.tubes {
		t.advance(&s.g, dt, false)
		t.place(x0 + dt*v0)
	}
	s.settleNodes(dt, false)
	if !s.conditions() {
		return false
	}
	// Second stage.
	v1 := v0 + dt*a0
	s.rates(s.time+dt, v1)
	second := s.flow
	a1 := b.acceleration(second.base, second.front)
	for _, t := range s.tubes {
		t.advance(&s.g, dt, true)
	}
	s.settleNodes(dt, true)
	s.bookStep(dt, &first, &second)
	b.x = x0 + 0.5*dt*(v0+v1)
	b.v = v0 + 0.5*dt*(a0+a1)
	for _, t := range s.tubes {
		t.place(b.x)
	}
	s.bookWork(dt, v0, v1, &first, &second)
	b.last = a1
	b.settle(&s.book)
	s.time += dt
	return s.conditions()
}

func (s *system) settleNodes(dt float64, half bool) {
	for i := range s.nodes {
		n := &s.nodes[i]
		n.mass += dt * n.dm
		n.energy += dt * n.de
		if half {
			n.mass = 0.5 * (n.mass0 + n.mass)
			n.energy = 0.5 * (n.energy0 + n.energy)
		}
	}
}

// bookStep books what left the system.
func (s *system) bookStep(dt float64, first, second *flows) {
	h := 0.5 * dt
	s.book.mass += h * (first.mass + second.mass)
	s.book.energy += h * (first.energy + second.energy)
	s.book.supplyMass += h * (first.supply + second.supply)
}

// contents gives mass and energy of all gas in the system.
func (s *system) contents() (mass, energy float64) {
	for i := range s.nodes {
		mass += s.nodes[i].mass
		energy += s.nodes[i].energy
	}
	for _, t := range s.tubes {
		m, e := t.totals()
		mass += m
		energy += e
	}
	return mass, energy
}

// limitStep is the largest stable step [s].
func (s *system) limitStep() float64 {
	dt := math.Inf(1)
	for _, t := range s.tubes {
		dt = min(dt, t.quickest(s.shot.v))
	}
	return s.courant * dt
}
