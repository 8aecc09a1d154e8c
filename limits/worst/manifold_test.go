package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// A hose that feeds the firing valve through a fitting raises the factor like the
// same hose at the valve itself: it is the same hardware.
func TestAHoseThroughAManifoldIsAHose(t *testing.T) {
	valve, hose := pneumatics.SonicConductance(4e-8, 0.3), pneumatics.HoseFlow(9e-3, 2.5)
	at := &pneumatics.Circuit{Gas: pneumatics.Air(), Volumes: []pneumatics.Volume{{Volume: 1e-3}},
		Paths: []pneumatics.Path{{From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve, Flow: valve, Hose: hose}}}
	through := &pneumatics.Circuit{Gas: at.Gas, Volumes: []pneumatics.Volume{{Volume: 1e-3}, {Volume: 5e-6}},
		Paths: []pneumatics.Path{{From: 0, To: 1, Kind: pneumatics.Hose, Flow: hose}, {From: 1, To: pneumatics.BarrelNode,
			Kind: pneumatics.Valve, Flow: valve}}}
	_, a := hoseToBarrel(at)
	_, b := hoseToBarrel(through)
	assert.InEpsilon(t, a, b, 1e-12, "one ratio of conductances, by two ways")
	through.Volumes[1].Volume = 1e-3 // a vessel of its own
	path, _ := hoseToBarrel(through)
	assert.Equal(t, -1, path)
}
