package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
)

// TestTwinsEmptyAtOneTime: vessels that are alike reach a pressure at one and the same moment, each as late as one of them alone; of the
// two events the solver tells one. Alone is held to closed forms in blowdown_test.go.
func TestTwinsEmptyAtOneTime(t *testing.T) {
	empty := func(n int, link bool) []float64 {
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}}
		sc := &Scenario{From: Charging, To: Off, Until: 60}
		o := Options{}
		for i := range n {
			c.Volumes = append(c.Volumes, Volume{Volume: 0.5e-3})
			c.Paths = append(c.Paths, Path{Name: "dump", From: Node(i), To: Atmosphere, Kind: Valve, OpenIn: SetOf(Off), OpeningTime: 0.02,
				Flow: flow.Nozzle(discArea(1e-3), 0.7)})
			sc.Volumes = append(sc.Volumes, Condition{standardAtmosphere + 1e5, roomTemperature})
			o.Watch = append(o.Watch, Watch{i, standardAtmosphere + 2e3})
		}
		if link {
			c.Paths = append(c.Paths, Path{Name: "between", From: 0, To: 1, Kind: Valve, OpenIn: SetOf(Charging), ClosingTime: 0.01,
				Flow: flow.Nozzle(discArea(1e-3), 0.7)})
		}
		return new(Sim).Run(c, sc, o).WatchTimes
	}
	one := empty(1, false)[0]
	assert.Less(t, one, 10.0)
	for _, times := range [][]float64{empty(2, false), empty(3, false), empty(2, true)} {
		for _, at := range times {
			assert.InEpsilon(t, one, at, 1e-6, "%v", times) // ten times the default tolerance
			assert.False(t, math.IsNaN(at))
		}
	}
}
