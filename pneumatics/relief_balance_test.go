package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// A supply, a bleed and a relief valve on the falling line of its lift hold a tank in balance, at a corner of the valve's law.
// A projectile that stays behind it is followed to its end within some hundred steps; the implicit method alone stood before that corner,
// 72,000 steps of a fiftieth of a second each. The figures are invented.
func TestABalanceAtAReliefValveEnds(t *testing.T) {
	c := &Circuit{
		Gas:     flow.Nitrogen(),
		Ambient: Ambient{Pressure: 87000, Temperature: 295.65},
		Volumes: []Volume{{Name: "tank", Volume: 0.68e-3, InnerDiameter: 0.0661}, {Name: "dose", Volume: 0.3179e-3, InnerDiameter: 0.0401}},
		Barrel: Barrel{Present: true, Fit: OverTube, Area: 7.431e-4, ExitArea: 5.94e-4, LeakArea: 1.9315e-6, LeakCd: 0.6, DeadVolume: 16.32e-6,
			Travel: 0.05214, SinPitch: 0.909345, Mass: 0.0017, Breakaway: 0.464, Sliding: 0.2126249932095, JetFactor: 2},
		Paths: []Path{
			{Name: "feed", From: 0, To: 1, Kind: HandValve, Flow: flow.Nozzle(4.995e-6, 1), OpenIn: SetOf(Charging, Armed, Firing)},
			{Name: "fire", From: 1, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(2.79467708e-10, 0.35), OpenIn: SetOf(Firing),
				OpeningTime: 0.0189, ClosingTime: 0.0189, Balance: Balance{SeatShare: 0.45, Spring: 13750, Span: 86250, Pilot: -1}},
			{Name: "bleed", From: 0, To: Atmosphere, Flow: flow.Nozzle(2.0324508e-7, 1)},
			{Name: "relief", From: 0, To: Atmosphere, Kind: Relief, Flow: flow.Nozzle(1.53938e-5, 1), SetPressure: 34800,
				FullFlowPressure: 53900.2, ReseatPressure: 29580},
		},
		Supply: &Supply{Feeds: 0, FreeAir: 115e-3 / 60, DeadHead: 2e5},
	}
	sc := &Scenario{From: Charging, To: Firing, Volumes: []Condition{{357845.57, 295.65}, {357845.57, 295.65}}, SupplyRuns: true, Until: 3600}
	r := new(Sim).Run(c, sc, Options{Tolerance: 1e-6, NoPeak: true, OnlyLeaving: true})
	assert.Equal(t, Stalled, r.Outcome)
	assert.Less(t, r.Steps, 3000)
}

// A supply fills a vessel at the pressure of its relief valve while the firing valve begins to open: the pressure turns, and the step
// that shows it ends below the reseat pressure, where a relief valve counts as one that waits for a rise. The turn is told once. It was
// told again and again, 200,000 steps within a nanosecond, and the shot was not known. The figures are invented.
func TestATurnIsToldOnce(t *testing.T) {
	c := &Circuit{
		Gas:     flow.Air(),
		Ambient: Ambient{Pressure: 101325, Temperature: 285.15},
		Volumes: []Volume{{Name: "dose", Volume: 0.309e-3, InnerDiameter: 0.07}},
		Barrel: Barrel{Present: true, Fit: OverTube, Area: 2.6e-4, ExitArea: 1.52e-4, LeakArea: 2.85e-6, LeakCd: 0.6, DeadVolume: 24e-6,
			Travel: 0.117, SinPitch: 1, Mass: 0.0088, JetFactor: 2},
		Paths: []Path{
			{Name: "fire", From: 0, To: BarrelNode, Kind: Valve, Flow: flow.Nozzle(3.7e-5, 1), OpenIn: SetOf(Firing),
				OpeningTime: 0.04, ClosingTime: 0.04},
			{Name: "relief", From: 0, To: Atmosphere, Kind: Relief, Flow: flow.Nozzle(2.6e-5, 1), SetPressure: 2.2e5,
				FullFlowPressure: 2.4e5, ReseatPressure: 1.86e5},
		},
		Supply: &Supply{Feeds: 0, FreeAir: 11.5e-3 / 60, DeadHead: 8e5},
	}
	for _, over := range []float64{0, 5, 10, 20, 40, 60, 80} {
		sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{101325 + 1.86e5 + over, 285.15}}, SupplyRuns: true, Until: 120}
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-5, NoPeak: true, OnlyLeaving: true})
		assert.Equal(t, Left, r.Outcome, over)
		assert.Less(t, r.Steps, 300, over)
	}
}
