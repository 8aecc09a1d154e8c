package wave

import (
	"math"

	"puffproof/pneumatics/flow"
)

// Gun is the plain gun of interior ballistics: gas at rest in a chamber of the
// bore's section, a projectile without friction, a constant pressure ahead. Its
// closed forms are what the solver is held to.
type Gun struct {
	Gas           flow.Gas
	Pressure      float64 // of the chamber at the start [Pa absolute]
	Temperature   float64 // [K]
	ChamberLength float64 // [m]
	Area          float64 // [m2]
	Mass          float64 // [kg]
	Travel        float64 // [m]
	BackPressure  float64 // ahead [Pa absolute]; 0: vacuum
	Breech        Breech
	Cells         int     // behind the projectile; their number stays
	Courant       float64 // 0: 0.6
}

// Breech is how the chamber ends.
type Breech uint8

// The two breeches.
const (
	ClosedBreech Breech = iota
	// OpenBreech is an isentropic inlet from still gas at the gun's pressure and
	// temperature.
	OpenBreech
)

// GunResult is the end of a gun's shot.
type GunResult struct {
	Speed float64 // [m/s]
	Time  float64 // [s]
	Base  float64 // pressure on the base [Pa]
	// MassResidual and EnergyResidual are the imbalances over what the chamber held [-].
	MassResidual, EnergyResidual float64
	Steps                        int
}

// Fire runs the gun until the projectile has covered its travel.
func (u Gun) Fire() GunResult {
	cells := u.Cells
	if cells == 0 {
		cells = DefaultCells
	}
	r := runner{travel: u.Travel, until: math.Inf(1)}
	r.g = newGas(u.Gas)
	r.pa, r.ta = u.Pressure, u.Temperature
	r.courant = u.Courant
	if r.courant == 0 {
		r.courant = 0.6
	}
	t := newTube(cells)
	section := func(float64) float64 { return u.Area }
	t.lay(0, cells, -u.ChamberLength, 0, 0, 1, section, 0)
	t.place(0)
	t.fill(&r.g, func(float64) State { return State{r.g.Density(u.Pressure, u.Temperature), 0, u.Pressure} })
	r.tubes = []*tube{t}
	if u.Breech == OpenBreech {
		r.joints = []joint{{tube: t, node: outside, path: -1, port: port{g: &r.g, area: u.Area, open: true}}}
	}
	r.shot = projectile{present: true, mass: u.Mass, area: u.Area, behind: t, front: AheadPressure, back: u.BackPressure, held: true}
	r.m0, r.e0 = r.contents()
	r.conditions()
	steps := 0
	for ; r.travel-r.shot.x > 1e-12*r.travel; steps++ {
		if !r.step(r.nextStep()) {
			break
		}
	}
	mass, energy := r.contents()
	return GunResult{Speed: r.shot.v, Time: r.time, Base: r.flow.base, Steps: steps,
		MassResidual: (mass + r.book.mass - r.m0) / r.m0, EnergyResidual: r.imbalance(energy) / r.e0}
}
