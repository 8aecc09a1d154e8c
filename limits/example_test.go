package limits_test

import (
	"context"
	"fmt"
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// The hardest shot over all tolerances, of a launcher simple enough to reckon it by
// hand: through a very wide valve the air of a tank pushes a heavy plug without
// friction, so slowly that it expands as one body, isentropically, against the
// atmosphere:
//
//	E = p0 V0/(gamma - 1) (1 - (V0/V1)^(gamma - 1)) - pa (V1 - V0),  V1 = V0 + A travel
//
// (first law; any text on engineering thermodynamics). The most comes of the highest
// pressure, the largest tank and bore and the longest travel. The valve and the inertia
// of the air still take some hundredths of it.
func Example_worstCase() {
	band := func(key string, low, high float64) launcher.Band {
		return launcher.Band{Set: true, Key: key, Low: low, Nominal: 0.5 * (low + high), High: high}
	}
	l := &launcher.Launcher{
		Gas: "air",
		Ambient: launcher.AmbientSpec{Pressure: launcher.Exact("ambient.pressure", 101325),
			Temperature: launcher.Exact("ambient.temperature", 293.15)},
		Volumes: []launcher.VolumeSpec{{Name: "tank", Volume: band("volumes.tank.volume", 1.9e-3, 2.1e-3)}},
		Paths: []launcher.PathSpec{{Name: "fire", From: "tank", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing),
			Flow: launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("paths.fire.orifice", 60e-3),
				DischargeCoefficient: launcher.Exact("paths.fire.discharge_coefficient", 0.9)},
			OpeningTime: launcher.Exact("paths.fire.opening_time", 1e-4)}},
		Barrel: launcher.BarrelSpec{FixedSeat: true, Bore: band("barrel.bore", 40.8e-3, 41.2e-3), Travel: band("barrel.travel", 0.5, 0.6),
			DeadVolume: launcher.Exact("barrel.dead_volume", 1e-7)},
		Projectile: launcher.ProjectileSpec{Mass: band("projectile.mass", 0.9, 1.1), Diameter: launcher.Exact("projectile.diameter", 41.2e-3)},
		Model:      launcher.ModelSpec{Parts: pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}},
	}
	const start = 1e5 // the highest start pressure [Pa gauge]; the search tries every one up to it
	w, err := worst.Maximise(context.Background(), l, worst.EnergyQuestion(l, start), search.Light())
	if err != nil {
		fmt.Println(err)
		return
	}
	const pa, v0, gamma = 101325, 2.1e-3, 1.4
	v1 := v0 + math.Pi/4*41.2e-3*41.2e-3*0.6
	byHand := (pa+start)*v0/(gamma-1)*(1-math.Pow(v0/v1, gamma-1)) - pa*(v1-v0)
	fmt.Printf("by hand %.1f J, hardest shot of the search %.1f J\n", byHand, w.Value)
	for _, c := range w.Box.Point(w.Result.Best.Point) {
		fmt.Println(c.Key, c.Side)
	}
	// Output:
	// by hand 47.0 J, hardest shot of the search 46.9 J
	// volumes.tank.volume high
	// barrel.bore high
	// barrel.travel high
	// projectile.mass high
	// start pressure high
}
