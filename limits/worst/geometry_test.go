package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// A stated clearance goes before the difference of the diameters; it is
// diametral: 0.5 mm in 41 mm leave pi/4 (41^2 - 40.5^2) = pi/4 40.75 = 32.005 mm2.
func TestClearanceGoesBeforeTheDiameters(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Projectile.Diameter = launcher.Exact("", 38*sample.Millimetres)
		l.Projectile.Clearance = launcher.Exact("projectile.clearance", 0.5*sample.Millimetres)
	})
	assert.InEpsilon(t, 32.005e-6, circuitOf(l).Barrel.LeakArea, 1e-5, "five digits printed")
	l.Projectile.Clearance = launcher.Exact("projectile.clearance", 0)
	assert.Zero(t, circuitOf(l).Barrel.LeakArea)
	// The diameter then bears on nothing in the shot and is no coordinate.
	l.Projectile.Diameter = sample.Between("projectile.diameter", 38*sample.Millimetres, 39*sample.Millimetres)
	assert.NotContains(t, NewBox(l, EnergyQuestion(l, 1e5)).Labels, "projectile.diameter")
}
