package selfcheck

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// vessel is one volume that empties to the atmosphere.
func vessel(gas flow.Gas, volume float64, outlet flow.Restriction) *pneumatics.Circuit {
	return &pneumatics.Circuit{Gas: gas, Ambient: pneumatics.Ambient{Pressure: atmosphere, Temperature: room},
		Volumes: []pneumatics.Volume{{Name: "vessel", Volume: volume}},
		Paths:   []pneumatics.Path{{Name: "outlet", From: 0, To: pneumatics.Atmosphere, Kind: pneumatics.Orifice, Flow: outlet}}}
}

// timeTo is how long a vessel takes to fall to a pressure [s].
func timeTo(c *pneumatics.Circuit, heat pneumatics.Heat, from pneumatics.Condition, to, until float64) float64 {
	sc := &pneumatics.Scenario{Volumes: []pneumatics.Condition{from}, Heat: heat, WallTemperature: from.Temperature, Until: until}
	r := new(pneumatics.Sim).Run(c, sc, pneumatics.Options{Tolerance: 1e-11, LaminarRatio: 1,
		Watch: []pneumatics.Watch{{Volume: 0, Pressure: to}}})
	return r.WatchTimes[0]
}

func vesselChecks() []check {
	const exact = "quadrature of the exact equations (mpmath), testdata/reference/blowdown.csv"
	nozzle := func(gauge float64, heat pneumatics.Heat) func() float64 {
		return func() float64 {
			const volume, area = 2e-3, mm2
			air := flow.Air()
			tau := volume / (area * air.NozzleConstant() * math.Sqrt(air.R*room))
			from := pneumatics.Condition{Pressure: atmosphere + gauge, Temperature: room}
			return timeTo(vessel(air, volume, flow.Nozzle(area, 1)), heat, from, 1.01*atmosphere, 3*tau) / tau
		}
	}
	return []check{
		{"blow-down from 1 bar to 1 % above ambient, no heat, in time constants", exact, "", 0.662515, 6e-7, printed,
			nozzle(1e5, pneumatics.Adiabatic)},
		{"the same at constant temperature", exact, "", 0.876306, 6e-7, printed, nozzle(1e5, pneumatics.Isothermal)},
		{"blow-down from 7 bar, no heat", exact, "", 1.897805, 6e-7, printed, nozzle(7e5, pneumatics.Adiabatic)},
		{"choked part of a blow-down of 1 L, C 1 L/(s bar), b 0.3", "closed form, p = p0 exp(-t/tau), R 287.05", "s", 0.730848371, 1e-8,
			"integrator", func() float64 {
				gas := flow.Air()
				gas.R = 287.05
				c := vessel(gas, 1e-3, flow.SonicConductance(litreBar, 0.3))
				return timeTo(c, pneumatics.Isothermal, pneumatics.Condition{Pressure: 7e5, Temperature: room}, atmosphere/0.3, 2)
			}},
		{"a tyre of 1 ft3 from 50 psia until its stem unchokes", "Balmer, Modern Engineering Thermodynamics, example 16.8", "s", 18.7, 0.09,
			"three digits printed, and the book rounds on the way: 0.5 %", tyre},
		{"a tyre's leak through 4 mm at 220 kPa", "Çengel and Boles, example 12-5", "kg/min", 0.554, 1.5e-3,
			"three digits printed, gas constant rounded",
			func() float64 {
				return 60 * flow.Nozzle(disc(4e-3), 1).MassFlow(flow.Air(), 314e3, 298.15, 94e3, 298.15)
			}},
		{"large vessel joined to a small one, temperature there at rest", "energy balance and isentropic expansion, closed form", "K",
			370.721432, 4e-6, "the last balance takes for ever; 1e-8", joined},
		{"insulated vessel filled from 1 to 4 bar absolute", "first law of an open system", "K", 372.764353, 1e-5,
			"integrator, and the end found by time", filled},
	}
}

func tyre() float64 {
	const psi, inch, foot = 6894.757293, 0.0254, 0.3048
	c := vessel(flow.Air(), foot*foot*foot, flow.Nozzle(disc(0.0938*inch), 1))
	c.Ambient = pneumatics.Ambient{Pressure: 14.7 * psi, Temperature: 294.26}
	return timeTo(c, pneumatics.Isothermal, pneumatics.Condition{Pressure: 50 * psi, Temperature: 294.26},
		c.Ambient.Pressure/c.Gas.CriticalRatio(), 30)
}

func joined() float64 {
	c := &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: atmosphere, Temperature: room},
		Volumes: []pneumatics.Volume{{Name: "large", Volume: 5e-3}, {Name: "small", Volume: 0.2e-3}},
		Paths:   []pneumatics.Path{{Name: "join", From: 0, To: 1, Kind: pneumatics.Orifice, Flow: flow.SonicConductance(3e-8, 0.3)}}}
	sc := &pneumatics.Scenario{Volumes: []pneumatics.Condition{{Pressure: 401325, Temperature: room},
		{Pressure: 101325, Temperature: room}}}
	return new(pneumatics.Sim).Run(c, sc, pneumatics.Options{Tolerance: 1e-12}).Volumes[1].Temperature
}

func filled() float64 {
	c := &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: atmosphere, Temperature: room},
		Volumes: []pneumatics.Volume{{Name: "vessel", Volume: 1e-3}},
		Supply:  &pneumatics.Supply{Feeds: 0, DeadHead: 300000, FreeAir: 1e-3}}
	sc := &pneumatics.Scenario{To: pneumatics.Charging, Volumes: []pneumatics.Condition{{Pressure: atmosphere, Temperature: room}},
		SupplyRuns: true, Until: 1000}
	return new(pneumatics.Sim).Run(c, sc, pneumatics.Options{Tolerance: 1e-10}).Volumes[0].Temperature
}
