package pneumatics

import (
	"math"

	"puffproof/pneumatics/flow"
)

// The helpers of the tests: the reference shots A, C and D of
// testdata/reference/shots.csv and small makers of circuits.

const (
	standardAtmosphere = 101325.0 // [Pa], ISO 2533
	roomTemperature    = 293.15   // [K], ISO 6358-1
	litrePerMinute     = 1e-3 / 60
)

// allOff switches every part off that the closed forms and the reference shots
// leave out.
var allOff = Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}

func discArea(d float64) float64 { return math.Pi * d * d / 4 }

// shotCase is one tank, one valve, one barrel.
type shotCase struct {
	name               string
	volume, pressure   float64 // [m3], [Pa absolute]
	c, b               float64 // valve [m3/(s Pa)], [-]
	dead, bore, travel float64 // [m3], [m], [m]
	mass, friction     float64 // [kg], [N] breakaway and sliding
	opening            float64 // [s]

	exitTime, speed, tankExit, barrelExit float64 // the reference's answers
}

// referenceShots are cases A, C and D: SciPy DOP853 at rtol 1e-12, agreeing with
// 1e-10 to all digits, R 287.05, rho0 1.185, no chord near ratio 1.
func referenceShots() []shotCase {
	return []shotCase{
		{"A", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1.0, 0.05, 0, 0, 0.0234275341, 52.615999715, 256792.433, 92807.006},
		{"C", 5e-3, 301325, 8e-8, 0.4, 100e-6, 0.025, 0.4, 0.02, 2, 0, 0.0186083596, 42.779950324, 290690.083, 160987.394},
		{"D", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1.0, 0.05, 0, 0.010, 0.0282171300, 51.832872084, 253376.131, 96606.653},
	}
}

func (k shotCase) circuit() (*Circuit, *Scenario) {
	g := flow.Air()
	g.R = 287.05
	area := discArea(k.bore)
	c := &Circuit{Gas: g, Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "tank", Volume: k.volume}},
		Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Valve,
			Flow: flow.SonicConductance(k.c, k.b), OpenIn: SetOf(Firing), OpeningTime: k.opening}},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, DeadVolume: k.dead, Travel: k.travel,
			Mass: k.mass, Breakaway: k.friction, Sliding: k.friction, JetFactor: 1}}
	return c, &Scenario{From: Armed, To: Firing, Volumes: []Condition{{k.pressure, roomTemperature}}, Parts: allOff}
}

// shotAt runs a circuit of one tank at a gauge pressure [Pa].
func shotAt(c *Circuit, sc Scenario, gauge float64, o Options) *Result {
	sc.Volumes = []Condition{{c.Ambient.Pressure + gauge, c.Ambient.Temperature}}
	return new(Sim).Run(c, &sc, o)
}

// vessel is a circuit of one volume with one always-open path to the atmosphere.
func vessel(volume float64, outlet flow.Restriction) *Circuit {
	return &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature},
		Volumes: []Volume{{Name: "vessel", Volume: volume}},
		Paths:   []Path{{Name: "outlet", From: 0, To: Atmosphere, Kind: Orifice, Flow: outlet}}}
}

// whale is an invented launcher with every common part: tank, feed, dose, fire
// valve with hose, two dumps, relief, supply, barrel with a gap, full model. The
// tank and the dose start at 0.40 bar gauge.
func whale() (*Circuit, *Scenario) {
	area := discArea(0.051)
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101300, 291.15},
		Volumes: []Volume{{Name: "tank", Volume: 2.5e-3}, {Name: "dose", Volume: 0.85e-3}},
		Supply:  &Supply{Feeds: 0, FreeAir: 12 * litrePerMinute, DeadHead: 4e5},
		Barrel: Barrel{Present: true, Area: area, ExitArea: area, LeakArea: area - discArea(0.0505), LeakCd: 0.6,
			DeadVolume: 55e-6, Travel: 0.06, Mass: 5e-3, Breakaway: 0.5, Sliding: 0.2, JetFactor: 1},
		Paths: []Path{
			{Name: "feed", From: 0, To: 1, Kind: Valve, Flow: flow.Nozzle(discArea(1.2e-3), 0.65), OpenIn: SetOf(Charging)},
			{Name: "fire", From: 1, To: BarrelNode, Kind: Valve, Flow: flow.FromKv(3.4, 0.7, 0.35), Hose: flow.HoseFlow(12e-3, 0.3),
				OpenIn: SetOf(Firing), OpeningTime: 0.03, ClosingTime: 0.03},
			{Name: "dump dose", From: 1, To: Atmosphere, Kind: Valve, Flow: flow.Nozzle(discArea(1e-3), 0.65),
				OpenIn: SetOf(Off, Loading), Unpowered: Open},
			{Name: "dump tank", From: 0, To: Atmosphere, Kind: Valve, Flow: flow.Nozzle(discArea(1.2e-3), 0.65),
				OpenIn: SetOf(Off), Unpowered: Open},
			{Name: "relief", From: 0, To: Atmosphere, Kind: Relief, Flow: flow.Nozzle(discArea(5e-3), 0.62),
				SetPressure: 0.52e5, FullFlowPressure: 0.62e5, ReseatPressure: 0.44e5},
		}}
	start := Condition{c.Ambient.Pressure + 0.40e5, 291.15}
	return c, &Scenario{From: Armed, To: Firing, Volumes: []Condition{start, start}}
}
