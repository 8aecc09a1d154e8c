package limits

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// Barriers between the tank and the barrel, counted by hand: one shut firing valve
// on every way. A vented volume on one way is no help where another way has none,
// in whatever order the paths are listed.
func TestTheWayWithoutAVentCounts(t *testing.T) {
	join := func(name, from, to string, kind pneumatics.PathKind) PathSpec {
		return PathSpec{Name: name, From: from, To: to, Kind: kind, Flow: orifice(4*millimetres, 0.75)}
	}
	one := join("one", "tank", "mid", pneumatics.Orifice)
	two := join("two", "mid", "dose", pneumatics.Check)
	direct := join("direct", "tank", "dose", pneumatics.Check)
	gate := join("gate", "tank", "dose", pneumatics.Valve)
	for name, c := range map[string]struct {
		feeds  []PathSpec
		shut   float64
		vented bool
	}{
		"only past the vent":              {[]PathSpec{one, two}, 1, true},
		"past the vent or directly":       {[]PathSpec{one, two, direct}, 1, false},
		"directly or past the vent":       {[]PathSpec{direct, one, two}, 1, false},
		"past the vent or two shut gates": {[]PathSpec{one, two, gate}, 1, true},
		"two shut gates":                  {[]PathSpec{gate}, 2, false},
	} {
		t.Run(name, func(t *testing.T) {
			l := twoTanks(slices.Clone(c.feeds)...)
			l.Volumes = append(l.Volumes, VolumeSpec{Name: "mid", Volume: Exact("volumes.mid.volume", 1e-4)})
			g := &loadingGraph{l: l, sc: pneumatics.Scenario{From: pneumatics.Loading, To: pneumatics.Loading}, vent: []bool{false, false, true}}
			l.Fill(&g.c)
			shut, vented := g.barriers(l.Node("tank"))
			assert.Equal(t, c.shut, shut)
			assert.Equal(t, c.vented, vented)
		})
	}
}
