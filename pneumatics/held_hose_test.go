package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// TestAHeldProjectileWaitsForNoWaves: behind a projectile that its friction holds the air leaks out through gap and relief valve, of the
// order of half a second, and a hose hums between its vessels. Its waves, as large as the tolerance that keeps them up, are to
// die down in a few long steps, and larger ones are followed loosely. What comes out is the same as a hundred times as closely:
// the figures of a search are good to thousandths.
func TestAHeldProjectileWaitsForNoWaves(t *testing.T) {
	for name, c := range map[string]struct {
		start, opening, area, leak, relief, set, full, reseat float64
		most                                                  int // evaluations; else 20,500 and 19,900
	}{
		"waves as large as the tolerance": {299942, 0, 5.8123e-05, 2.2782e-06, 9.0365e-06, 226218, 349327, 192285, 2500}, // on their way 20,500
		"larger waves":                    {460090, 0.15, 4.53956e-05, 2.0107e-06, 2.02484e-05, 217782, 239560, 185115, 12000},
	} {
		t.Run(name, func(t *testing.T) {
			circuit := &Circuit{Gas: flow.Air(), Ambient: Ambient{105300, 323.15},
				Volumes: []Volume{{Name: "tank", Volume: 6.5772e-4, InnerDiameter: 0.0434}, {Name: "dose", Volume: 1.88368e-4, InnerDiameter: 0.0369}},
				Barrel: Barrel{Present: true, Fit: InBore, Area: c.area, ExitArea: c.area, LeakArea: c.leak, LeakCd: 0.6,
					DeadVolume: 2e-6, Travel: 0.0921895, Mass: 1.866e-3, Breakaway: 11.39, Sliding: 4.77, JetFactor: 1},
				Paths: []Path{
					{Name: "feed", From: 0, To: 1, Kind: Hose, Before: []line.Piece{{Bore: 0.00317814, Length: 0.141, Conductance: 0.9}},
						Flow: flow.SonicConductance(9.98e-9, 0.52)},
					{Name: "fire", From: 1, To: BarrelNode, Kind: Valve, Flow: flow.SonicConductance(1.27e-7, 0.2), OpenIn: SetOf(Firing),
						OpeningTime: c.opening, ClosingTime: 0.075},
					{Name: "relief", From: BarrelNode, To: Atmosphere, Kind: Relief, Flow: flow.Nozzle(c.relief, 1), SetPressure: c.set,
						FullFlowPressure: c.full, ReseatPressure: c.reseat},
				}}
			sc := &Scenario{From: Armed, To: Firing, Volumes: []Condition{{c.start, 323.15}, {c.start, 323.15}}, Until: 120}
			fine := new(Sim).Run(circuit, sc, Options{Tolerance: 1e-7})
			r := new(Sim).Run(circuit, sc, Options{Tolerance: 1e-5, NoPeak: true, Coarse: true})
			require.Equal(t, Stalled, fine.Outcome)
			require.Equal(t, Stalled, r.Outcome)
			assert.Less(t, r.Evaluations, c.most)
			assert.InEpsilon(t, fine.Freed, r.Freed, 1e-3)
		})
	}
}
