package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A stated clearance goes before the difference of the diameters; it is
// diametral: 0.5 mm in 41 mm leave pi/4 (41^2 - 40.5^2) = pi/4 40.75 = 32.005 mm2.
func TestClearanceGoesBeforeTheDiameters(t *testing.T) {
	l := plain(func(l *Launcher) {
		l.Projectile.Diameter = Exact("", 38*millimetres)
		l.Projectile.Clearance = Exact("projectile.clearance", 0.5*millimetres)
	})
	assert.InEpsilon(t, 32.005e-6, circuitOf(l).Barrel.LeakArea, 1e-5, "five digits printed")
	l.Projectile.Clearance = Exact("projectile.clearance", 0)
	assert.Zero(t, circuitOf(l).Barrel.LeakArea)
	// The diameter then bears on nothing in the shot and is no coordinate.
	l.Projectile.Diameter = between("projectile.diameter", 38*millimetres, 39*millimetres)
	assert.NotContains(t, newBox(l, l.energyQuestion(1e5)).labels, "projectile.diameter")
}
