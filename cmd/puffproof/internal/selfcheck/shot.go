package selfcheck

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// plainShot is one tank, one valve, one barrel, with every part of the model off
// that the reference leaves out.
type plainShot struct {
	volume, pressure, c, b, dead, bore, travel, mass, friction, opening float64
}

// The reference shots A, C, D.
var (
	shotA = plainShot{2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1, 0.05, 0, 0}
	shotC = plainShot{5e-3, 301325, 8e-8, 0.4, 100e-6, 0.025, 0.4, 0.02, 2, 0}
	shotD = plainShot{2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1, 0.05, 0, 0.010}
)

func (k plainShot) circuit() (*pneumatics.Circuit, *pneumatics.Scenario) {
	g := flow.Air()
	g.R = 287.05
	area := disc(k.bore)
	c := &pneumatics.Circuit{Gas: g, Ambient: pneumatics.Ambient{Pressure: atmosphere, Temperature: room},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: k.volume}},
		Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
			Flow: flow.SonicConductance(k.c, k.b), OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: k.opening}},
		Barrel: pneumatics.Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: k.dead, Travel: k.travel,
			Mass: k.mass, Breakaway: k.friction, Sliding: k.friction, JetFactor: 1}}
	return c, &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing,
		Volumes: []pneumatics.Condition{{Pressure: k.pressure, Temperature: room}},
		Parts:   pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}}
}

func (k plainShot) run(o pneumatics.Options) *pneumatics.Result {
	c, sc := k.circuit()
	return new(pneumatics.Sim).Run(c, sc, o)
}

func shotChecks() []check {
	const reference = "SciPy DOP853, relative tolerance 1e-12, testdata/reference/shots.csv"
	const cannon = "Rohrbach, Buresh and Madsen, Am. J. Phys. 80 (2012) 24, equation for no valve"
	const all = "the digits printed, at the integrator's finest setting"
	tight := pneumatics.Options{Tolerance: 1e-12, LaminarRatio: 1}
	speed := func(k plainShot) func() float64 { return func() float64 { return k.run(tight).MuzzleSpeed } }
	return []check{
		{"case A, instant valve: muzzle speed", reference, "m/s", 52.615999715, 1e-9, all, speed(shotA)},
		{"case A: time to the muzzle", reference, "ms", 23.4275341, 1e-7, all, func() float64 { return 1e3 * shotA.run(tight).ExitTime }},
		{"case A: barrel pressure as it leaves", reference, "Pa", 92807.006, 1e-3, all,
			func() float64 { return shotA.run(tight).BarrelExit }},
		{"case C, with friction: muzzle speed", reference, "m/s", 42.779950324, 1e-9, all, speed(shotC)},
		{"case D, valve opens in 10 ms: muzzle speed", reference, "m/s", 51.832872084, 1e-9, all, speed(shotD)},
		{"case A as the program runs it by default", reference, "m/s", 52.615999715, 52.6e-7, "default accuracy of the integrator, 1e-7",
			func() float64 { return shotA.run(pneumatics.Options{}).MuzzleSpeed }},
		{"no valve, no friction, adiabatic", cannon, "m/s", 106.084746, 0.08, "three ever larger valves, extrapolated: 0.15 % in energy",
			func() float64 { return noValve(0, 106.084746) }},
		{"no valve, friction of 20 N", cannon, "m/s", 102.244674, 0.08, "three ever larger valves, extrapolated: 0.15 % in energy",
			func() float64 { return noValve(20, 102.244674) }},
		{"energy balance of case A, share left open", "first law", "", 0, 1e-9, "the integrator at its finest setting",
			func() float64 { return math.Abs(shotA.run(tight).EnergyResidual) }},
	}
}

// noValve extrapolates the muzzle speed of the tank of case A to a valve without
// resistance and no dead volume: three valves that pass the tank within 0.4, 0.2
// and 0.1 of the shot's own time, which about the speed tells, with dead volumes
// in the same ratio, and the parabola in energy through them.
func noValve(friction, about float64) float64 {
	var e [3]float64
	for i, shrink := range []float64{0.4, 0.2, 0.1} {
		k := shotA
		k.friction = friction
		swept := disc(k.bore) * k.travel
		k.c = (k.volume + swept) / (287.05 * room * flow.Air().ReferenceDensity * k.travel / about * shrink)
		k.dead = 0.1 * shrink * swept
		e[i] = k.run(pneumatics.Options{Tolerance: 1e-8}).MuzzleEnergy
	}
	return math.Sqrt(2 * (8*e[2] - 6*e[1] + e[0]) / 3 / shotA.mass)
}
