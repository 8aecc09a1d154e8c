package wave

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// blowDown empties a vessel through a hose that opens at its far end at time 0.
// The hose starts at the vessel's pressure. Adiabatic; the hose's inlet is
// isentropic.
type blowDown struct {
	Gas     flow.Gas
	Ambient pneumatics.Ambient
	Volume  float64 // of the vessel, without the hose [m3]
	Start   pneumatics.Condition
	Hose    Hose
	Outlet  flow.Restriction // at the hose's far end; the zero value is an open end
	Cells   int              // of the hose; 0: DefaultCells
	Until   float64          // [s]
	Samples int              // of the result's rows; 0: 2
}

// blowDownResult is a blow-down as plain data, in rows at the first step's end
// after equally spaced times; the last row is the end.
type blowDownResult struct {
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

// run computes the blow-down.
func (d blowDown) run() blowDownResult {
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
	var r blowDownResult
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

// Fanno's relation. Source: Shapiro (1953), table B.4; the digits are those of the same
// closed form at 30 digits (testdata/reference/gas_dynamics.csv).
func TestFannoLength(t *testing.T) {
	for mach, want := range map[float64]float64{0.2: 14.533266, 0.3: 5.2992531, 0.5: 1.0690603} {
		assert.InEpsilon(t, want, FannoLength(1.4, mach), 5e-8, "8 digits are given")
		assert.InEpsilon(t, mach, fannoMach(1.4, FannoLength(1.4, mach)), 1e-12)
	}
	assert.Zero(t, FannoLength(1.4, 1))
}

// fannoDuct is the worked duct of Çengel and Boles, Thermodynamics: air enters a
// 27 m duct of 50 mm with 85 m/s, 220 kPa and 450 K, friction factor 0.023. The
// book prints 0.42 for the outlet's Mach number and 0.284 kg/s; the exact
// figures follow from the closed form.
func fannoDuct() (g flow.Gas, hose Hose, p0, t0, p2 float64) {
	g = flow.Air()
	g.R = 287 // the book's
	hose = Hose{Bore: 0.05, Length: 27, Darcy: 0.023}
	m1 := 85 / g.SoundSpeed(450)
	m2 := fannoMach(1.4, FannoLength(1.4, m1)-0.023*27/0.05)
	s1, s2 := 1+0.2*m1*m1, 1+0.2*m2*m2
	return g, hose, 220e3 * math.Pow(s1, 3.5), 450 * s1, 220e3 * m1 / m2 * math.Sqrt(s1/s2)
}

func TestFannoDuct(t *testing.T) {
	g, hose, p0, t0, p2 := fannoDuct()
	area := math.Pi / 4 * hose.Bore * hose.Bore
	flux, m1, m2 := fannoFlux(1.4, g.R, p0, t0, p2, hose.Darcy*hose.Length/hose.Bore)
	assert.InDelta(t, 0.1998977, m1, 5e-8, "digits given")
	assert.InDelta(t, 0.4102207, m2, 5e-8, "digits given")
	assert.InDelta(t, 0.28430, flux*area, 5e-6, "digits given")
	assert.InDelta(t, 0.284, flux*area, 5e-4, "the book")
	assert.InDelta(t, 0.42, m2, 0.011, "the book, which reads a chart")

	// A vessel so large that it does not notice, and the steady state.
	run := func(cells int) blowDownResult {
		r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: p2, Temperature: 300}, Volume: 1e6,
			Start: pneumatics.Condition{Pressure: p0, Temperature: t0}, Hose: hose, Cells: cells, Until: 1.5}.run()
		require.Empty(t, r.Reason)
		return r
	}
	for cells, tolerance := range map[int]float64{20: 2e-4, 40: 1e-4} { // second order, found by running
		r := run(cells)
		last := len(r.Outflow) - 1
		assert.InEpsilon(t, flux*area, r.Outflow[last], tolerance)
		assert.InEpsilon(t, r.Inflow[last], r.Outflow[last], 1e-6, "steady")
		// The last cell's centre lies half a cell before the outlet.
		fl := FannoLength(1.4, m2) + 0.5*0.023*27/0.05/float64(cells)
		assert.InDelta(t, fannoMach(1.4, fl), r.OutletMach, 2e-3)
	}
}

// A duct that chokes at its outlet: fL/D = 5.2992531 from M = 0.3.
func TestFannoChokedDuct(t *testing.T) {
	g := flow.Air()
	fl := FannoLength(1.4, 0.3)
	const p0, t0 = 5e5, 293.15
	flux, m1, m2 := fannoFlux(1.4, g.R, p0, t0, 1e5, fl)
	assert.InDelta(t, 0.3, m1, 1e-12)
	assert.InDelta(t, 1, m2, 1e-6, "the length's slope is zero at M = 1, so its root is half the digits")
	r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: 1e5, Temperature: t0}, Volume: 1e6,
		Start: pneumatics.Condition{Pressure: p0, Temperature: t0},
		Hose:  Hose{Bore: 0.01, Length: fl * 0.01 / 0.02, Darcy: 0.02}, Cells: 40, Until: 0.3}.run()
	require.Empty(t, r.Reason)
	// The profile is infinitely steep at the outlet; 40 cells give 1.4e-4.
	assert.InEpsilon(t, flux*math.Pi/4*1e-4, r.Outflow[len(r.Outflow)-1], 3e-4)
}

// A small vessel through a short hose without friction: the choked part follows
// the closed form of adiabatic blow-down through an ideal nozzle,
//
//	p/p0 = (1 + (gamma-1) t/(2 tau))^(-2 gamma/(gamma-1)),  tau = V/(A psi sqrt(R T0))
//
// Source: any thermodynamics text; physics of vessels as in package pneumatics.
// The hose's own air and its waves are what differs: 0.2 % of the vessel's.
func TestBlowDownOfVessel(t *testing.T) {
	g := flow.Air()
	const volume, p0, t0, bore = 2e-3, 8e5, 293.15, 4e-3
	area := math.Pi / 4 * bore * bore
	tau := volume / (area * g.NozzleConstant() * math.Sqrt(g.R*t0))
	r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: 1e5, Temperature: t0}, Volume: volume,
		Start: pneumatics.Condition{Pressure: p0, Temperature: t0},
		Hose:  Hose{Bore: bore, Length: 0.1}, Cells: 16, Until: tau, Samples: 20}.run()
	require.Empty(t, r.Reason)
	assert.InDelta(t, 0, r.MassResidual, 1e-12, "rounding")
	assert.InDelta(t, 0, r.EnergyResidual, 1e-12, "rounding")
	for i, at := range r.Time {
		want := p0 * math.Pow(1+0.2*at/tau, -7)
		// The hose holds 0.06 % of the air and delays by its sound time, 0.3 ms of
		// tau's 60: 0.4 % of the pressure's fall.
		assert.InEpsilon(t, want, r.Pressure[i], 5e-3, "at %.3g s", at)
	}
}

// The outlet's restriction rules where it is much narrower than the hose: the
// flow is that of the restriction alone. Opening it sets the hose's air ringing
// by gamma M = 0.8 % of the pressure, which dies slowly, so the mean is taken.
func TestBlowDownThroughOrifice(t *testing.T) {
	g := flow.Air()
	law := flow.Nozzle(1e-6, 0.8)
	const p0, t0 = 5e5, 293.15
	r := blowDown{Gas: g, Ambient: pneumatics.Ambient{Pressure: 1e5, Temperature: t0}, Volume: 1,
		Start: pneumatics.Condition{Pressure: p0, Temperature: t0},
		Hose:  Hose{Bore: 0.01, Length: 0.5, Darcy: 0.02}, Outlet: law, Cells: 20, Until: 0.4, Samples: 500}.run()
	require.Empty(t, r.Reason)
	sum := 0.0
	for _, q := range r.Outflow {
		sum += q
	}
	// What is left of the ringing in the mean of 70 periods: 0.8 %/70 = 1e-4; the
	// vessel's fall: 3e-5.
	assert.InEpsilon(t, law.MassFlow(g, p0, t0, 1e5, t0), sum/float64(len(r.Outflow)), 3e-4)
}
