package pneumatics

import "math"

// book is the content of the circuit at the start of a run.
type book struct {
	mass, energy float64 // [kg], [J]
	x            float64 // the projectile's start [m]
}

func (e *engine) opening() book {
	var b book
	for i := range e.nodes {
		b.mass += e.state[2*i]
		b.energy += e.state[2*i+1]
	}
	if e.bar >= 0 {
		b.x = e.state[e.iX]
	}
	return b
}

// finish closes the books and fills the result from the end state.
func (s *Sim) finish(b book) {
	e, r := &s.e, &s.r
	y := s.solver.State()
	e.conditions(y)
	r.Time = s.solver.Time()
	r.Steps, r.Rejected, r.Evaluations = s.solver.Steps(), s.solver.Rejected(), s.solver.Evaluations()
	for i := range r.Volumes {
		r.Volumes[i] = Condition{e.p[i], e.temp[i]}
	}
	if e.bar >= 0 {
		r.Position, r.Speed = y[e.iX], y[e.iX+1]
		r.Barrel = Condition{e.p[e.bar], e.temp[e.bar]}
		if e.mode == afterMuzzle && !(0.5*e.b.Mass*r.Speed*r.Speed < r.MuzzleEnergy) { // cut short by the time
			r.FinalSpeed, r.FinalEnergy = r.Speed, 0.5*e.b.Mass*r.Speed*r.Speed
		}
		if e.mode == held || e.mode == moving {
			s.notePeak()
		}
	}
	if e.iSupply >= 0 {
		r.SupplyMass = y[e.iSupply]
	}
	if e.bar >= 0 && r.Outcome != Left {
		r.Freed = s.freed()
	}
	s.balance(b)
}

// balance computes the residuals:
//
//	mass:   (sum m + given away - start) / (mass that changed place + a thousandth of the start)
//	energy: (sum U + given away + projectile + sinks - start) / max(final energy, or where its way is not over what may still come, 1 mJ)
func (s *Sim) balance(b book) {
	e, r := &s.e, &s.r
	y := s.solver.State()
	a := &r.Account
	// What a circuit at rest holds sets the floor: there rounding is all that moves.
	moved := 1e-3 * b.mass
	var mass, energy float64
	for i := range e.nodes {
		mass += y[2*i]
		energy += y[2*i+1]
		moved += math.Abs(y[2*i] - e.state[2*i])
	}
	if e.iAtm >= 0 {
		mass += y[e.iAtm]
		energy += y[e.iAtm+1]
		moved += math.Abs(y[e.iAtm])
	}
	if e.iHeat >= 0 {
		a.WallHeat = y[e.iHeat]
		energy -= a.WallHeat
	}
	if e.iSupply >= 0 {
		a.SupplyEnthalpy = y[e.iSupply] * e.cp * e.ta
	}
	kinetic := 0.0
	a.LineMotion = e.lineMotion()
	energy += a.LineMotion
	if e.bar >= 0 {
		kinetic = s.motionBook(b)
		energy += kinetic + a.Friction + a.Atmosphere + a.Gravity + a.GasMotion + a.ColumnMotion + a.Impact
	}
	r.MassResidual, r.EnergyResidual = 0, 0
	if moved > 0 {
		r.MassResidual = (mass - b.mass) / moved
	}
	r.EnergyImbalance = energy - b.energy
	scale := 1e-3
	if r.FinalEnergy > scale {
		scale = r.FinalEnergy
	}
	if r.Outcome == TimeRanOut {
		scale = max(scale, r.Freed)
	}
	r.EnergyResidual = r.EnergyImbalance / scale
}

// motionBook fills the account of the projectile and returns its kinetic energy.
func (s *Sim) motionBook(b book) float64 {
	e, r := &s.e, &s.r
	y := s.solver.State()
	a := &r.Account
	x, v := y[e.iX], y[e.iX+1]
	s.endRub()
	a.Friction = e.b.Sliding * s.rubbed
	if e.ahead < 0 {
		a.Atmosphere = e.pa * e.b.Area * (x - b.x)
	}
	a.Gravity = e.weight() * (min(x, e.b.Travel) - b.x)
	if e.inertia {
		a.GasMotion += y[e.iBar] * v * v / 6
	}
	if e.iColumn >= 0 {
		a.ColumnMotion = y[e.iColumn]
		if e.column {
			a.ColumnMotion += 0.5 * e.columnRho * (e.b.Travel - x) * v * v
		}
	}
	if e.iJet >= 0 {
		a.JetWork = y[e.iJet]
	}
	kinetic := 0.5 * e.b.Mass * v * v
	a.GasWork = kinetic + a.Friction + a.Atmosphere + a.Gravity + a.GasMotion + a.ColumnMotion + a.Impact - a.JetWork
	return kinetic
}

// startRub and endRub measure the length of sliding under friction: between two
// reversals it is the distance covered.
func (s *Sim) startRub() { s.rubFrom, s.rubbing = s.solver.State()[s.e.iX], true }

func (s *Sim) endRub() {
	if s.rubbing {
		s.rubbed += math.Abs(s.solver.State()[s.e.iX] - s.rubFrom)
		s.rubbing = false
	}
}
