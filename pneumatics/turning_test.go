package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// emptyingHose is a small vessel that empties through a bleed hole. A wide valve opens to five metres of narrow hose, at
// whose end a rocket stays where it is. Invented.
func emptyingHose() (*Circuit, *Scenario) {
	c, sc := rocketOnHose(5, true)
	c.Volumes[0].Volume = 2e-4
	c.Paths[0].Flow = flow.FromKv(3.3, 0.6, 0.37)
	c.Paths[0].After = []line.Piece{{Bore: 1e-3, Length: 5}}
	c.Paths = append(c.Paths, Path{Name: "bleed", From: 0, To: Atmosphere, Kind: Orifice,
		Flow: flow.Nozzle(discArea(0.4e-3), 0.65)})
	c.Supply = &Supply{Feeds: 0, FreeAir: 3e-3 / 60, DeadHead: 0.22e5}
	sc.SupplyRuns = true
	c.Barrel.Breakaway, c.Barrel.Sliding, c.Barrel.LeakArea = 4.9, 4.9, 0
	sc.Volumes[0].Pressure = standardAtmosphere + 0.2e5
	sc.Until = 120
	return c, sc
}

// TestAFlowThatTurnsBindsNoSteps: what the hose gives back passes the valve at next to no pressure, and there the valve's slope is seventy
// times that of the hose's open end: with a corner at no flow the run was still at 12 s after 20,000 steps. Past a gap at the rocket air
// flows steadily, and trial steps that are thrown away must not put off the next trial of the implicit method: at 20 s after as many.
func TestAFlowThatTurnsBindsNoSteps(t *testing.T) {
	for _, gap := range []float64{0, 1e-5} {
		for _, o := range []Options{{Tolerance: 1e-5, Coarse: true}, {Tolerance: 1e-5}, {Tolerance: 1e-6}, {Tolerance: 1e-7}} {
			c, sc := emptyingHose()
			c.Barrel.LeakArea = gap
			o.MaxSteps = 20000
			r := new(Sim).Run(c, sc, o)
			require.Empty(t, r.Reason)
			t.Logf("gap %g m2, tolerance %g: to %.1f s in %d steps, %d evaluations", gap, o.Tolerance, r.Time, r.Steps, r.Evaluations)
			assert.InDelta(t, sc.Until, r.Time, 1e-9)
			assert.Less(t, r.Steps+r.Rejected, 2000, "400 at most where nothing binds them, 5,000 and more else")
		}
	}
}
