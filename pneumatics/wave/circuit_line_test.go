package wave

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// Lines of the circuit and hoses of the options are two ways to describe one launcher.
// Identity.
func TestLinesOfTheCircuitAreHoses(t *testing.T) {
	before, after := line.Piece{Bore: 0.012, Length: 0.4, Loss: 0.8, Conductance: 1.1}, line.Piece{Bore: 0.008, Length: 1.2}
	c, sc := launcher(rocket)
	o := Options{Cells: 24, Before: hosesOf([]line.Piece{before}), After: hosesOf([]line.Piece{after})}
	c.Volumes[0].Volume += before.Volume()
	c.Barrel.DeadVolume += after.Volume()
	want := shoot(t, c, sc, o)

	c, sc = launcher(rocket)
	c.Paths[0].Before, c.Paths[0].After = []line.Piece{before}, []line.Piece{after}
	got := shoot(t, c, sc, Options{Cells: 24})
	assert.InEpsilon(t, want.MuzzleSpeed, got.MuzzleSpeed, 1e-12, "rounding of the volumes")
	_, err := Shot(c, sc, o)
	assert.ErrorContains(t, err, "has lines of its own")

	// The other way round: the path leads from the barrel.
	p := &c.Paths[0]
	p.From, p.To = p.To, p.From
	p.Before, p.After = p.After, p.Before
	turned := shoot(t, c, sc, Options{Cells: 24})
	assert.InEpsilon(t, want.MuzzleSpeed, turned.MuzzleSpeed, 1e-12)
}

// Lines between vessels are resolved too, and keep the balances, which shoot checks: a
// dose fed through a hose, a hose alone between vessels, a check valve with a
// hose, a bleed through a hose.
func TestLinesBetweenVessels(t *testing.T) {
	hose := []line.Piece{{Bore: 0.006, Length: 0.8}}
	for kind, within := range map[pneumatics.PathKind]float64{pneumatics.Orifice: 0.02, pneumatics.Hose: 0.02, pneumatics.Check: 0.05} {
		c, sc := launcher(rocket)
		c.Volumes = append(c.Volumes, pneumatics.Volume{Name: "dose", Volume: 2e-4})
		sc.Volumes = append(sc.Volumes, sc.Volumes[0])
		c.Paths[0].From = 1
		c.Paths = append(c.Paths,
			pneumatics.Path{Name: "feed", From: 0, To: 1, Kind: kind, Flow: flow.Nozzle(2e-5, 0.8), Before: hose, After: hose},
			pneumatics.Path{Name: "bleed", From: pneumatics.BarrelNode, To: pneumatics.Atmosphere, Flow: flow.Nozzle(1e-6, 0.8), After: hose})
		r := shoot(t, c, sc, Options{Cells: 24, LineCells: 24})
		require.Equal(t, pneumatics.Left, r.Outcome)
		assert.Less(t, r.Volumes[1].Pressure, r.Volumes[0].Pressure, "%s: the dose lags behind", kind)
		var sim pneumatics.Sim
		sc.Parts.NoAfterMuzzle = true
		lumped := sim.Run(c, sc, pneumatics.Options{})
		t.Logf("%s: lumped %.3f m/s, wave %.3f m/s", kind, lumped.MuzzleSpeed, r.MuzzleSpeed)
		assert.InEpsilon(t, lumped.MuzzleSpeed, r.MuzzleSpeed, within, "inside the rule; behind a spring a line is a resistance here")
	}
}
