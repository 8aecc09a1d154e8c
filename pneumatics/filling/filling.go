// Package filling asks two things of a circuit that its supply fills: how long that takes, and where it comes to rest where
// something is open meanwhile. Every answer is a run of the circuit in a state that it stays in, with air as warm as the walls.
// Who fills, what stops the supply and how wide the tolerances are it does not know. SI throughout, pressures gauge [Pa].
//
// Start reading at Time, then at Rest.
package filling

import (
	"math"

	"puffproof/pneumatics"
)

// Longest ends a filling that does not come to its end [s].
const Longest = 3600

// Time is the time [s] that the circuit's supply takes in state charging from
// the given gauge pressures [Pa] of all volumes until the sensed one stands at to
// [Pa gauge], the gas staying at ambient temperature. NaN where an hour does not
// suffice.
func Time(c *pneumatics.Circuit, sensed pneumatics.Node, from []float64, to float64) float64 {
	t, _ := To(c, sensed, from, to, pneumatics.Isothermal)
	return t
}

// To is Time with another heat at the walls, and what the volumes hold
// when it is up; nil where an hour does not suffice.
func To(c *pneumatics.Circuit, sensed pneumatics.Node, from []float64, to float64, heat pneumatics.Heat) (seconds float64,
	end []pneumatics.Condition) {
	sc := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging, Volumes: GaugeConditions(c, from),
		NoProjectile: true, SupplyRuns: true, Heat: heat}
	if from[sensed] >= to {
		return 0, sc.Volumes
	}
	var all float64
	for _, v := range c.Volumes {
		all += v.Volume
	}
	guess := all * (to - from[sensed]) / (c.Ambient.Pressure * max(c.Supply.Delivery(to), 0.02*c.Supply.Delivery(0)))
	var sim pneumatics.Sim
	for until := min(1.2*guess, Longest); ; until = min(4*until, Longest) {
		sc.Until = until
		// The time is read off a trace; between its points the pressure is close to a
		// straight line.
		r := sim.Run(c, &sc, pneumatics.Options{Settle: true, Samples: 400})
		p, temp := r.Trace.Volumes, r.Trace.Temperatures
		for i := 1; i < len(p[sensed]); i++ {
			a, b := p[sensed][i-1]-c.Ambient.Pressure, p[sensed][i]-c.Ambient.Pressure
			if b >= to && a < b {
				u := (to - a) / (b - a)
				for k := range p {
					end = append(end, pneumatics.Condition{Pressure: p[k][i-1] + u*(p[k][i]-p[k][i-1]),
						Temperature: temp[k][i-1] + u*(temp[k][i]-temp[k][i-1])})
				}
				t := r.Trace.Time
				return t[i-1] + (t[i]-t[i-1])*u, end
			}
		}
		if until >= Longest {
			return math.NaN(), nil
		}
	}
}

// GaugeConditions turns gauge pressures into the start of a scenario at ambient
// temperature.
func GaugeConditions(c *pneumatics.Circuit, gauge []float64) []pneumatics.Condition {
	out := make([]pneumatics.Condition, len(gauge))
	for i, g := range gauge {
		out[i] = pneumatics.Condition{Pressure: c.Ambient.Pressure + g, Temperature: c.Ambient.Temperature}
	}
	return out
}
