package selfcheck

import (
	"math"

	"puffproof/limits/halving"
	"puffproof/pneumatics/flow"
)

const (
	atmosphere = 101325.0 // [Pa], ISO 2533
	room       = 293.15   // [K], ISO 6358-1
	litreBar   = 1e-8     // one L/(s bar) [m3/(s Pa)]
	litreMin   = 1e-3 / 60
	mm2        = 1e-6
)

// printed is the reason for a tolerance of half the last digit of a source.
const printed = "half of the last digit printed"

// freeAir turns a mass flow into L/min of free air at the reference density.
func freeAir(q float64) float64 { return q / flow.Air().ReferenceDensity / litreMin }

func disc(d float64) float64 { return math.Pi * d * d / 4 }

func flowChecks() []check {
	const text = "ISO 6358-1, ellipse, closed form evaluated outside this program (testdata/reference/restriction.csv)"
	const tables = "NACA Report 1135, isentropic tables"
	const hose = "Fanno flow through a smooth hose, sharp-edged entry, 2 bar absolute (testdata/reference/restriction.csv)"
	const reynolds = "10 %: the formula of a hose knows no Reynolds number"
	air := flow.Air()
	valve := flow.SonicConductance(2*litreBar, 0.3)
	passed := func(to float64) func() float64 {
		return func() float64 { return freeAir(valve.MassFlow(air, 7.013e5, room, to, room)) }
	}
	conductance := func(r flow.Restriction) func() float64 {
		return func() float64 { c, _ := r.Conductance(air); return c / litreBar }
	}
	series := func(c1, b1, c2, b2 float64) func() float64 {
		return conductance(flow.Series(flow.SonicConductance(c1*litreBar, b1), flow.SonicConductance(c2*litreBar, b2),
			air))
	}
	return []check{
		{"valve, C 2 L/(s bar), b 0.3, 7.013 to 1.013 bar", text, "L/min", 841.56, 5e-3, printed, passed(1.013e5)},
		{"the same valve to 5.013 bar", text, "L/min", 677.878, 5e-4, printed, passed(5.013e5)},
		{"flow function of the ideal nozzle, air", "closed form, any text of gas dynamics", "", 0.68473146, 5e-9, printed,
			func() float64 { return air.NozzleConstant() }},
		{"pressure at Mach 0.5 over stagnation pressure, through the flow of a nozzle", tables, "", 0.84301918, 5e-8,
			"the table's last digit, 2e-9 of the flow, grown by the slope", func() float64 { return pressureAtAreaRatio(1.3398438) }},
		{"Cv 1, xT 0.5, as sonic conductance", "IEC 60534-2-1, N7 = 4.17", "L/(s bar)", 3.29, 5e-3, printed,
			conductance(flow.FromCv(1, 0.5, 0.35))},
		{"Cv 1, xT 0.8, as sonic conductance", "IEC 60534-2-1, N7 = 4.17", "L/(s bar)", 4.16, 5e-3, printed,
			conductance(flow.FromCv(1, 0.8, 0.35))},
		{"effective area of 5.02 mm2 as sonic conductance", "ISO 6358 and makers' sheets (5.0 mm2)", "L/(s bar)", 1, 1e-3,
			"half of the last digit of 5.02", conductance(flow.Nozzle(5.02*mm2, 1))},
		{"two valves in series, 1/0.3 and 1/0.3", "ISO 6358-3, exact closed form", "L/(s bar)", 0.757216, 5e-7, printed,
			series(1, 0.3, 1, 0.3)},
		{"two valves in series, 2/0.4 and 1.3/0.35", "ISO 6358-3, exact closed form", "L/(s bar)", 1.156399, 5e-7, printed,
			series(2, 0.4, 1.3, 0.35)},
		{"hose, 4 mm bore, 1 m", hose, "L/(s bar)", 1.2014, 0.12, reynolds, conductance(flow.HoseFlow(4e-3, 1))},
		{"hose, 7.5 mm bore, 3 m", hose, "L/(s bar)", 3.7575, 0.38, reynolds, conductance(flow.HoseFlow(7.5e-3, 3))},
		{"speed of sound, air at 293.15 K, 1 bar", "equation of state of air, Lemmon et al. (2000)", "m/s", 343.343, 0.2,
			"perfect gas of the program against a real one",
			func() float64 { return air.SoundSpeed(room) }},
		{"viscosity of air at 330 K", "equation of state of air, Lemmon et al.", "uPa s", 19.953, 0.15,
			"Sutherland's law is good to 1 %; 0.75 % taken",
			func() float64 { return 1e6 * air.Viscosity(330) }},
	}
}

// pressureAtAreaRatio is the subsonic pressure over the stagnation pressure at
// which an ideal nozzle passes 1/ratio of its choked flow.
func pressureAtAreaRatio(ratio float64) float64 {
	air := flow.Air()
	nozzle := flow.Nozzle(mm2, 1)
	choked := nozzle.MassFlow(air, 1e5, room, 0, room)
	low, _ := halving.Between(air.CriticalRatio(), 1, 60, func(r float64) bool {
		return !(nozzle.MassFlow(air, 1e5, room, r*1e5, room) > choked/ratio)
	})
	return low
}
