package pneumatics

import "math"

// Bound is the thermodynamic bound on a shot's energy.
type Bound struct {
	Muzzle float64 // kinetic energy at the muzzle [J]
	Final  float64 // with any push beyond the muzzle [J]
	Mass   float64 // of the air that counts [kg]
}

// Ceiling bounds the energy of every run of a scenario, whatever its valves,
// friction and model: the availability of the air that can reach the barrel.
//
//	E <= max over x of Phi(x)
//	Phi(x) = sum m_i [cv (T_i - Tw - Tw ln(T_i/Tw)) + R Tw ln(p_i Tw/(p_f T_i))] - pa A x
//	p_f = (sum m_i) R Tw/(sum V_i + A x)
//
// Tw is the hottest wall or ambient temperature; the compartments are the
// barrel and every volume with a path to it in the scenario, hoses included.
// Phi is largest where p_f = pa; for the muzzle x stops at the travel. Air that
// a supply adds, supplyMass [kg], counts m R Tw ln(p_dead head/pa); so does the
// fall of a projectile in a barrel that points down.
// Source: the availability of a closed system (for instance Bejan, Advanced
// Engineering Thermodynamics, chapter 3, from memory), applied to compartments;
// for one compartment the isothermal cannon of Rohrbach, Buresh and Madsen, Am.
// J. Phys. 80, 24 (2012).
func (s *Sim) Ceiling(c *Circuit, sc *Scenario, supplyMass float64) Bound {
	s.e.compile(c, sc, Options{})
	if s.e.bar < 0 {
		return Bound{}
	}
	s.e.connect(0)
	return s.e.bound(s.e.state, supplyMass)
}

// bound evaluates the ceiling from a state of the engine.
func (e *engine) bound(y []float64, supplyMass float64) Bound {
	e.conditions(y)
	tw := max(e.tw, e.ta)
	air := e.reaching(y)
	left := max(0, e.b.Travel-y[e.iX])
	grown := air.Grown(tw, e.pa)
	b := Bound{Mass: air.Mass(), Final: air.Available(tw, e.pa, grown), Muzzle: air.Available(tw, e.pa, min(grown, e.b.Area*left))}
	if s := e.c.Supply; s != nil && supplyMass > 0 && s.DeadHead > 0 {
		extra := supplyMass * e.gas.R * tw * math.Log1p(s.DeadHead/e.pa)
		b.Final += extra
		b.Muzzle += extra
		b.Mass += supplyMass
	}
	if w := e.weight(); w < 0 {
		b.Muzzle -= w * left
		b.Final += e.fall(y)
	}
	b.Final, b.Muzzle = max(0, b.Final), max(0, b.Muzzle)
	return b
}

// MostPush bounds the energy of every run of a scenario [J] by the forces on the projectile:
// twice the highest gauge pressure that gets to the barrel, a running supply's dead head
// among them, on the way to the muzzle and as far as a jet pushes. Twice, since a column of
// gas that is thrown back at the projectile's base rises above what feeds it by up to its
// own step (waterhammer; Wylie and Streeter, Fluid Transients, 1978, from memory). It says
// more than Ceiling where a supply goes on feeding.
func (s *Sim) MostPush(c *Circuit, sc *Scenario) float64 {
	e := &s.e
	e.compile(c, sc, Options{})
	if e.bar < 0 {
		return 0
	}
	e.conditions(e.state)
	e.connect(0)
	most := e.still() // twice that has its waves in it
	if e.reach > 0 {
		most = max(most, min(e.pa+c.Supply.DeadHead, e.barriers.Caps[e.node(c.Supply.Feeds)]))
	}
	e.state[e.iX] = 0 // where it may turn round before it leaves
	return e.pushed(e.state, e.pa+2*max(0, most-e.pa))
}

// SupplyMass is the most air [kg] that a scenario's supply delivers within so many
// seconds, as long as it can still reach the barrel: at zero gauge all the time.
func (s *Sim) SupplyMass(c *Circuit, sc *Scenario, within float64) float64 {
	e := &s.e
	e.compile(c, sc, Options{})
	if e.bar < 0 || c.Supply == nil {
		return 0
	}
	t := 0.0
	for e.connect(t); e.reach > 0 && t < within; e.connect(t) {
		t = min(e.nextKnot(t), within)
	}
	most := c.Supply.Delivery(0)
	for _, pt := range c.Supply.Curve {
		most = max(most, c.Supply.Delivery(pt.Gauge))
	}
	return most * e.pa / (e.gas.R * e.ta) * t
}

// freed is the bound on what a projectile still in the barrel can gain. For one that is
// stuck it is the ceiling of the air that is there, since the walls may warm the gas while
// it waits, or what the highest pressure that can get to it does, whichever is less; where
// a supply still raises that pressure, the latter. Where one that moves is cut off the
// run's own physics counts, without heat, and one second of a supply's free air if one
// reaches the barrel. What a diaphragm holds for good is not behind the projectile.
func (s *Sim) freed() float64 {
	e := &s.e
	y := s.solver.State()
	e.connect(s.solver.Time())
	e.dropSeated(s.solver.Time(), y)
	s.r.Fed = e.reach > 0
	var supply float64
	if e.reach > 0 && e.mode != held && s.r.Outcome == TimeRanOut {
		supply = e.c.Supply.Delivery(0) * e.pa / (e.gas.R * e.ta)
	}
	ceiling := e.bound(y, supply).Final + e.motion(y)
	switch {
	case s.r.Idle || s.r.Outcome == TimeRanOut && e.reach == 0:
		return min(max(0, e.left(y)), ceiling)
	case e.mode != held && s.r.Outcome != Stalled:
		return ceiling
	case e.reach > e.standing():
		return e.pushed(y, e.reach)
	}
	return min(ceiling, e.pushed(y, e.standing()))
}

// standing is the highest pressure that the air at hand can come to behind the projectile,
// warmed by the walls, with what the waves of its lines add [Pa].
func (e *engine) standing() float64 {
	best := e.still()
	return best + e.surge(best)
}

// still is standing without any wave [Pa].
func (e *engine) still() float64 {
	best := 0.0
	for i := range e.nodes {
		if e.connected[i] {
			best = max(best, min(e.p[i]*max(1, e.tw/e.temp[i]), e.barriers.Caps[i]))
		}
	}
	return best
}

// pushed bounds the work [J] on a projectile that starts from rest where no pressure above
// most [Pa] gets to it: (p - pa) A on the way to the muzzle, and beyond it as far as a jet
// pushes the same, or the jet's thrust (pushAfter)
//
//	k rho A_e u^2,  u = Cd A_m u_s/A_e,  rho u_s^2 <= 2 (p - pa)
//
// u_s the speed of isentropic expansion; rho u_s^2 is 2 (p - pa) for small differences and
// 1.6 (p - pa) where the flow chokes (isentropic nozzle flow, from memory).
func (e *engine) pushed(y []float64, most float64) float64 {
	over := max(0, most-e.pa)
	after := e.b.Area
	if e.b.ExitArea > 0 {
		mouth := escapeCd * max(e.b.Area, e.b.ExitArea)
		after = max(after, 2*e.b.JetFactor*mouth*mouth/e.b.ExitArea)
	}
	return over*(e.b.Area*max(0, e.b.Travel-y[e.iX])+after*maxJetTravel*e.jetD) + e.fall(y)
}

// CeilingDose is the volume of air [m3] at a gauge pressure [Pa] whose
// availability equals an energy [J]: V = E/(p ln(p/pa) - (p - pa)).
// Infinite at or below ambient pressure.
func CeilingDose(energy, gauge, ambient float64) float64 {
	if gauge <= 0 {
		return math.Inf(1)
	}
	p := ambient + gauge
	return energy / (p*math.Log(p/ambient) - gauge)
}
