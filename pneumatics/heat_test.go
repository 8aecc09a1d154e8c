package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/reference"
)

// A shut vessel at a constant transfer coefficient comes to the temperature of its walls
// as exp(-h A t/(m cv)) (Newton's law of cooling and the first law; any text on heat
// transfer). 1e-7: the integrator at 1e-9.
func TestAConstantTransferCoefficientCoolsExponentially(t *testing.T) {
	const h, volume, p0, t0, tw = 8.0, 2e-3, 4e5, 380.0, 290.0
	c := vessel(volume, flow.Restriction{})
	c.Ambient.Temperature = tw
	area := wallOf(c.Volumes[0], &c.Gas).area
	rate := h * area / (p0 * volume / (c.Gas.R * t0) * c.Gas.Cv())
	for _, at := range []float64{1, 5, 20} {
		sc := &Scenario{Volumes: []Condition{{p0, t0}}, Heat: Transfer, Coefficient: h, Until: at}
		r := new(Sim).Run(c, sc, Options{Settle: true, Tolerance: 1e-9})
		assert.InEpsilon(t, (t0-tw)*math.Exp(-rate*at), r.Volumes[0].Temperature-tw, 1e-7, "after %g s", at)
		assert.Less(t, math.Abs(r.EnergyResidual), 1e-9)
	}
}

// Emptying at a constant coefficient, against an independent model (wall_heat.csv, set
// constant, SciPy Radau; its agreement is 5e-9). 1e-6: both integrators.
func TestReferenceEmptyingAtAConstantCoefficient(t *testing.T) {
	const volume, ca = 2e-3, 0.75e-6
	rows := 0
	for _, row := range reference.Table(t, "../testdata/reference/wall_heat.csv") {
		if row["set"] != "constant" {
			continue
		}
		rows++
		c := vessel(volume, flow.Nozzle(ca, 1))
		start := Condition{standardAtmosphere + row.F("gauge_Pa"), roomTemperature}
		tau := volume / (ca * c.Gas.NozzleConstant() * math.Sqrt(c.Gas.R*roomTemperature))
		content := start.Pressure * volume / (c.Gas.R * roomTemperature)
		sc := &Scenario{Volumes: []Condition{start}, Heat: Transfer, Until: 4 * tau,
			Coefficient: row.F("N") * content * c.Gas.Cv() / (tau * wallOf(c.Volumes[0], &c.Gas).area)}
		o := Options{Tolerance: 1e-10, LaminarRatio: 1, Watch: []Watch{{0, standardAtmosphere + row.F("to_gauge_Pa")}}}
		assert.InEpsilon(t, row.F("t_over_tau"), new(Sim).Run(c, sc, o).WatchTimes[0]/tau, 1e-6, "%s N %s", row["gauge_Pa"], row["N"])
	}
	assert.GreaterOrEqual(t, rows, 12)
}
