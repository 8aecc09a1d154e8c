package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// TestASteadyFlowThroughHosesBindsNoSteps: a regulator feeds a bleed hole through hoses. Once it flows steadily the waves that a search's
// steps keep up, about as large as the tolerance, are to die down within a few implicit steps: two minutes then take little longer than
// the first seconds. Left after three such steps, the implicit method never got beyond the explicit one's steps.
func TestASteadyFlowThroughHosesBindsNoSteps(t *testing.T) {
	half := []line.Piece{{Bore: 6.8e-3, Length: 0.25, Cells: 4}}
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, 288.15},
		Volumes: []Volume{{Name: "tank", Volume: 1e-2}, {Name: "manifold", Volume: 7e-5}, {Name: "dose", Volume: 8.6e-5}},
		Paths: []Path{
			{Name: "regulator", From: 0, To: 1, Kind: Regulator, Flow: flow.SonicConductance(1.07e-8, 0.35), SetPressure: 5.6e3,
				Before: []line.Piece{{Bore: 4.7e-3, Length: 0.134, Cells: 3}}},
			{Name: "feed", From: 1, To: 2, Kind: Hose, Before: half, After: half},
			{Name: "bleed", From: 1, To: Atmosphere, Kind: Orifice, Flow: flow.SonicConductance(3.5e-11, 0.48)}}}
	sc := &Scenario{From: Armed, To: Firing, NoProjectile: true,
		Volumes: []Condition{{1.57e5, 288.15}, {1.35e5, 288.15}, {1.35e5, 288.15}}}
	sc.Until = 120
	r := new(Sim).Run(c, sc, Options{Tolerance: 1e-5, Settle: true})
	require.Empty(t, r.Reason)
	require.InDelta(t, sc.Until, r.Time, 1e-9)
	assert.Less(t, r.Evaluations, 20000, "1.4 million in the steps of the waves")
}
