package wave

import (
	"math"

	"puffproof/pneumatics"
)

// BlowDown empties a vessel through a hose that opens at its far end at time 0.
// The hose starts at the vessel's pressure. Adiabatic; the hose's inlet is
// isentropic.
type BlowDown struct {
	Gas     pneumatics.Gas
	Ambient pneumatics.Ambient
	Volume  float64 // of the vessel, without the hose [m3]
	Start   pneumatics.Condition
	Hose    Hose
	Outlet  pneumatics.Restriction // at the hose's far end; the zero value is an open end
	Cells   int                    // of the hose; 0: DefaultCells
	Until   float64                // [s]
	Samples int                    // of the result's rows; 0: 2
}

// BlowDownResult is a blow-down as plain data, in rows at the first step's end
// after equally spaced times; the last row is the end.
type BlowDownResult struct {
	Time     []float64 // [s]
	Pressure []float64 // in the vessel [Pa absolute]
	Outflow  []float64 // at the far end [kg/s]
	Inflow   []float64 // from the vessel into the hose [kg/s]

	Vessel                       pneumatics.Condition // at the end
	InletMach, OutletMach        float64              // in the first and the last cell at the end [-]
	MassResidual, EnergyResidual float64              // imbalances over what was there at the start [-]
	Steps                        int
	Reason                       string
}

// Run computes the blow-down.
func (d BlowDown) Run() BlowDownResult {
	cells, rows := d.Cells, d.Samples
	if cells == 0 {
		cells = DefaultCells
	}
	rows = max(rows, 2)
	s := system{g: newGas(d.Gas), pa: d.Ambient.Pressure, ta: d.Ambient.Temperature, courant: 0.6}
	s.nodes = []node{s.nodeAt(d.Start, d.Volume)}
	t, area := d.Hose.tube(cells), d.Hose.area()
	inside := State{s.g.Density(d.Start.Pressure, d.Start.Temperature), 0, d.Start.Pressure}
	t.fill(&s.g, func(float64) State { return inside })
	s.tubes = []*tube{t}
	s.joints = []joint{
		{tube: t, node: 0, path: -1, port: port{g: &s.g, area: area, open: true, loss: d.Hose.Entry}},
		{tube: t, right: true, node: outside, path: -1, port: port{g: &s.g, area: area, open: d.Outlet.IsZero(), law: d.Outlet}},
	}
	m0, e0 := s.contents()
	var r BlowDownResult
	ok := s.conditions()
	for ok && s.time < d.Until {
		ok = s.step(min(s.limitStep(), d.Until-s.time))
		r.Steps++
		due := d.Until * float64(len(r.Time)+1) / float64(rows)
		if s.time < due && s.time < d.Until {
			continue
		}
		r.Time = append(r.Time, s.time)
		r.Pressure = append(r.Pressure, s.nodes[0].p)
		r.Outflow = append(r.Outflow, t.fm[t.n])
		r.Inflow = append(r.Inflow, t.fm[0])
	}
	if !ok {
		r.Reason = "the wave solution lost its positivity"
	}
	mach := func(i int) float64 { return t.u[i] / math.Sqrt(s.g.g*t.p[i]/t.rho[i]) }
	r.InletMach, r.OutletMach = mach(0), mach(t.n-1)
	r.Vessel = pneumatics.Condition{Pressure: s.nodes[0].p, Temperature: s.nodes[0].t}
	mass, energy := s.contents()
	r.MassResidual = (mass + s.book.mass - m0) / m0
	r.EnergyResidual = (energy + s.book.energy - e0) / e0
	return r
}
