package pneumatics_test

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A vessel that empties through a hole. A tyre of 1 ft3 at 50 psia and 70 degF
// blows into air at 14.7 psia through a stem of 0.0938 in, slowly enough to stay at
// its temperature. Its flow is choked until it has fallen to 27.8 psia, after 18.7 s:
// Balmer, Modern Engineering Thermodynamics, example 16.8.
func ExampleSim_Run_blowDown() {
	const psi, inch, foot, warm = 6894.757293, 0.0254, 0.3048, 294.26
	air := flow.Air()
	stem := math.Pi / 4 * (0.0938 * inch) * (0.0938 * inch)
	tyre := &pneumatics.Circuit{
		Gas:     air,
		Ambient: pneumatics.Ambient{Pressure: 14.7 * psi, Temperature: warm},
		Volumes: []pneumatics.Volume{{Name: "tyre", Volume: foot * foot * foot}},
		Paths: []pneumatics.Path{{Name: "stem", From: 0, To: pneumatics.Atmosphere, Kind: pneumatics.Orifice,
			Flow: flow.Nozzle(stem, 1)}},
	}
	start := &pneumatics.Scenario{
		Volumes: []pneumatics.Condition{{Pressure: 50 * psi, Temperature: warm}},
		Heat:    pneumatics.Isothermal,
		Until:   30,
	}
	choked := tyre.Ambient.Pressure / air.CriticalRatio()
	r := new(pneumatics.Sim).Run(tyre, start, pneumatics.Options{Watch: []pneumatics.Watch{{Volume: 0, Pressure: choked}}})
	fmt.Printf("choked down to %.1f psia, %.1f s\n", choked/psi, r.WatchTimes[0])
	// Output: choked down to 27.8 psia, 18.7 s
}

// One shot of an invented cannon: 2 L at 401325 Pa (absolute), a valve, a barrel of
// 50 mm and 1 m, a projectile of 50 g that nothing rubs. The same equations solved by
// SciPy (DOP853, relative tolerance 1e-12) give 52.6160 m/s after 23.42753 ms: row A
// of testdata/reference/shots.csv.
func ExampleSim_Run_shot() {
	gas := flow.Air()
	gas.R = 287.05 // that of the row
	bore := math.Pi / 4 * 0.05 * 0.05
	cannon := &pneumatics.Circuit{
		Gas:     gas,
		Ambient: pneumatics.Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: 2e-3}},
		Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
			Flow: flow.SonicConductance(3e-7, 0.3), OpenIn: pneumatics.SetOf(pneumatics.Firing)}},
		Barrel: pneumatics.Barrel{Present: true, Area: bore, ExitArea: bore, DeadVolume: 50e-6, Travel: 1, Mass: 0.05, JetFactor: 1},
	}
	fire := &pneumatics.Scenario{
		From:    pneumatics.Armed,
		To:      pneumatics.Firing,
		Volumes: []pneumatics.Condition{{Pressure: 401325, Temperature: 293.15}},
		// The row leaves these parts of the model out.
		Parts: pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true},
	}
	r := new(pneumatics.Sim).Run(cannon, fire, pneumatics.Options{})
	if why := r.Withheld(); why != "" {
		fmt.Println("no result:", why)
		return
	}
	fmt.Printf("%s at %.4f m/s after %.5f ms\n", r.Outcome, r.MuzzleSpeed, 1e3*r.ExitTime)
	// Output: left at 52.6160 m/s after 23.42753 ms
}

// What no valve and no model can exceed: 2 L at 401325 Pa (absolute) behind 50 g in a
// barrel of 50 mm and 1 m. Expanding at constant temperature they would reach 350.04 J,
// 118.33 m/s, at the muzzle (Rohrbach, Buresh and Madsen, Am. J. Phys. 80, 24 (2012),
// isothermal; digits in testdata/reference/closed_forms.csv). With a barrel of any length
// it is the availability of the tank, p V ln(p/pa) - (p - pa) V = 504.80 J.
func ExampleSim_Ceiling() {
	bore := math.Pi / 4 * 0.05 * 0.05
	cannon := &pneumatics.Circuit{
		Gas:     flow.Air(),
		Ambient: pneumatics.Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []pneumatics.Volume{{Name: "tank", Volume: 2e-3}},
		Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
			Flow: flow.SonicConductance(3e-7, 0.3), OpenIn: pneumatics.SetOf(pneumatics.Firing)}},
		// A dead volume of next to nothing: the closed form has none.
		Barrel: pneumatics.Barrel{Present: true, Area: bore, ExitArea: bore, DeadVolume: 1e-9, Travel: 1, Mass: 0.05, JetFactor: 1},
	}
	fire := &pneumatics.Scenario{
		From:    pneumatics.Armed,
		To:      pneumatics.Firing,
		Volumes: []pneumatics.Condition{{Pressure: 401325, Temperature: 293.15}},
	}
	bound := new(pneumatics.Sim).Ceiling(cannon, fire, 0)
	fmt.Printf("at the muzzle at most %.2f J, %.2f m/s\n", bound.Muzzle, math.Sqrt(2*bound.Muzzle/cannon.Barrel.Mass))
	fmt.Printf("with any barrel at most %.2f J\n", bound.Final)
	// Output:
	// at the muzzle at most 350.04 J, 118.33 m/s
	// with any barrel at most 504.80 J
}
