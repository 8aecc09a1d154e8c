package pneumatics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

// Where the steps run out the smallest volume in the stream is named: here one of a
// cubic millimetre between a tank and the open.
func TestTheFastestExchangeIsNamed(t *testing.T) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{Pressure: 101325, Temperature: 293.15},
		Volumes: []Volume{{Name: "tank", Volume: 1e-3}, {Name: "speck", Volume: 1e-9}},
		Paths: []Path{{Name: "in", From: 0, To: 1, Kind: Orifice, Flow: flow.Nozzle(7.85e-7, 1)},
			{Name: "out", From: 1, To: Atmosphere, Kind: Orifice, Flow: flow.Nozzle(7.85e-7, 1)}}}
	sc := &Scenario{From: Armed, To: Armed, Until: 100,
		Volumes: []Condition{{Pressure: 2e5, Temperature: 293.15}, {Pressure: 101325, Temperature: 293.15}}}
	r := new(Sim).Run(c, sc, Options{MaxSteps: 10})
	require.Less(t, r.Time, 100.0, "the steps run out")
	assert.Equal(t, 1, r.Fastest.Volume)
	// A choked nozzle of area A empties a volume V of still air in V / (0.0404 R sqrt(T) A),
	// 6.4 us here; the outlet is not quite choked.
	assert.InDelta(t, 5e-6, r.Fastest.Time, 4e-6)
	assert.Zero(t, new(Sim).Run(c, sc, Options{}).Fastest.Time, "a run that ends names nothing")
}
