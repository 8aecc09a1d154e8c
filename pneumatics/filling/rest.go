package filling

import (
	"math"

	"puffproof/pneumatics"
)

// forGood is a force that no pressure here moves [N].
const forGood = 1e9

// Open tells whether what the circuit's supply delivers in a state gets out again, whatever the pressure: by holes, by valves that are open
// then, past a check valve or a regulator. Relief valves do not count, nor does a barrel that a projectile closes.
func Open(c *pneumatics.Circuit, in pneumatics.State) bool {
	return c.Supply != nil && !math.IsInf(pneumatics.Residual(c, &pneumatics.Scenario{From: in, To: in})[c.Supply.Feeds], 1)
}

// Within is where the volumes have got to after so many seconds of what Rest asks [Pa gauge]; +Inf: Rest.
func Within(c *pneumatics.Circuit, in pneumatics.State, seconds float64) (gauge []float64, ok bool) {
	if math.IsInf(seconds, 1) {
		return Rest(c, in)
	}
	w, sc := atFirst(c, in)
	sc.Until = seconds
	var sim pneumatics.Sim
	r := sim.Run(w, sc, pneumatics.Options{Settle: true, Tolerance: 1e-6})
	for _, v := range r.Volumes {
		gauge = append(gauge, v.Pressure-c.Ambient.Pressure)
	}
	return gauge, r.Reason == ""
}

// atFirst is a circuit with a projectile that does not move, empty, its supply running.
func atFirst(c *pneumatics.Circuit, in pneumatics.State) (*pneumatics.Circuit, *pneumatics.Scenario) {
	w := *c
	w.Barrel.Breakaway, w.Barrel.Restart = forGood, forGood
	return &w, &pneumatics.Scenario{From: in, To: in, Volumes: GaugeConditions(c, make([]float64, len(c.Volumes))), SupplyRuns: true,
		NoProjectile: !feedsBarrel(c, in), Heat: pneumatics.Isothermal}
}

// Rest is where the volumes of a circuit come to rest [Pa gauge] while its supply goes on in a state, from empty: the supply's delivery
// at the pressure of the volume that it feeds is what leaves by all that is open then,
//
//	Q(p) pa/(R T) = sum of m(p)
//
// with Q of free air [m3/s], pa ambient pressure [Pa absolute], T the temperature of air and walls [K], and m the mass flow of a way out
// [kg/s], by its own law (package flow: ISO 6358-1:2013, equations 1 to 3, or the ideal nozzle). Never above the dead head. A projectile is
// in the barrel and does not move; what leaks past it counts. Not ok: it does not come to rest within a year, or could not be computed.
func Rest(c *pneumatics.Circuit, in pneumatics.State) (gauge []float64, ok bool) {
	w, sc := atFirst(c, in)
	var sim pneumatics.Sim
	for sc.Until = slowest(c); sc.Until < year; sc.Until *= 8 {
		r := sim.Run(w, sc, pneumatics.Options{Settle: true, Tolerance: 1e-6, Samples: 3})
		if r.Reason != "" {
			return nil, false
		}
		if gauge, ok = atRest(c, r); ok {
			return gauge, true
		}
	}
	return nil, false
}

const (
	year  = 3e7  // [s]
	still = 1e-4 // of the pressure: what is no change in the second half of a run
)

// slowest is many times as long as the slowest of the volumes takes [s], as far as the supply's steepest delivery tells:
//
//	tau = V p/(pa Q)
func slowest(c *pneumatics.Circuit) float64 {
	all := 0.0
	for _, v := range c.Volumes {
		all += v.Volume
	}
	return max(60, 30*all*c.Supply.DeadHead/(c.Ambient.Pressure*max(c.Supply.Delivery(0), 1e-9)))
}

// atRest are the pressures at the end of a run [Pa gauge], if they no longer changed.
func atRest(c *pneumatics.Circuit, r *pneumatics.Result) (gauge []float64, ok bool) {
	for _, p := range r.Trace.Volumes {
		last := len(p) - 1
		at := p[last] - c.Ambient.Pressure
		if math.Abs(p[last]-p[last/2]) > still*max(at, 1) {
			return nil, false
		}
		gauge = append(gauge, at)
	}
	return gauge, true
}

// feedsBarrel tells that a path into the barrel is open in a state.
func feedsBarrel(c *pneumatics.Circuit, in pneumatics.State) bool {
	for i := range c.Paths {
		p := &c.Paths[i]
		if (p.From == pneumatics.BarrelNode || p.To == pneumatics.BarrelNode) && p.OpeningAtLast(&pneumatics.Scenario{From: in, To: in}) > 0 {
			return true
		}
	}
	return false
}
