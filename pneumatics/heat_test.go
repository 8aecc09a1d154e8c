package pneumatics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/internal/reference"
	"puffproof/pneumatics/internal/wall"
)

// A shut vessel at a constant transfer coefficient comes to the temperature of its walls
// as exp(-h A t/(m cv)) (Newton's law of cooling and the first law; any text on heat
// transfer). 1e-7: the integrator at 1e-9.
func TestAConstantTransferCoefficientCoolsExponentially(t *testing.T) {
	const h, volume, p0, t0, tw = 8.0, 2e-3, 4e5, 380.0, 290.0
	c := vessel(volume, flow.Restriction{})
	c.Ambient.Temperature = tw
	area := wall.Of(c.Volumes[0].Volume, c.Volumes[0].InnerDiameter, &c.Gas).Area
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
			Coefficient: row.F("N") * content * c.Gas.Cv() / (tau * wall.Of(c.Volumes[0].Volume, c.Volumes[0].InnerDiameter, &c.Gas).Area)}
		o := Options{Tolerance: 1e-10, LaminarRatio: 1, Watch: []Watch{{0, standardAtmosphere + row.F("to_gauge_Pa")}}}
		assert.InEpsilon(t, row.F("t_over_tau"), new(Sim).Run(c, sc, o).WatchTimes[0]/tau, 1e-6, "%s N %s", row["gauge_Pa"], row["N"])
	}
	assert.GreaterOrEqual(t, rows, 12)
}

// Fillings at a constant delivery, against an independent model (wall_heat.csv, set
// filling, SciPy DOP853; its agreement is 1e-8). 1e-7: both integrators.
func TestReferenceFillings(t *testing.T) {
	heats := map[string]Heat{"adiabatic": Adiabatic, "convection": Convection, "stirring": Stirring}
	rows := 0
	for _, row := range reference.Table(t, "../testdata/reference/wall_heat.csv") {
		if row["set"] != "filling" {
			continue
		}
		rows++
		c := vessel(row.F("V_m3"), flow.Restriction{})
		c.Supply = &Supply{FreeAir: row.F("free_air_m3_s"), DeadHead: 1e15, Inlet: row.F("inlet_m")}
		sc := &Scenario{To: Charging, SupplyRuns: true, Heat: heats[row["model"]], Until: row.F("t_s"),
			Volumes: []Condition{{standardAtmosphere, roomTemperature}}}
		r := new(Sim).Run(c, sc, Options{Tolerance: 1e-10})
		assert.InEpsilon(t, row.F("T_K"), r.Volumes[0].Temperature, 1e-7, "%v", row)
		assert.InEpsilon(t, row.F("p_Pa"), r.Volumes[0].Pressure, 1e-7, "%v", row)
		assert.Less(t, math.Abs(r.EnergyResidual), 1e-8)
	}
	assert.GreaterOrEqual(t, rows, 12)
}

// What blows in through a path stirs as the supply does: 10 g/s into 1 L through 4 mm, by
// hand Re = 4 q/(pi mu d), 0.56 Re^0.67 of the Nusselt number beside 0.104 Ra^0.352, which
// is none at the walls' temperature. A volume that only loses air is not stirred.
func TestTheJetOfAPathStirs(t *testing.T) {
	const bore = 4e-3
	c := vessel(1e-3, flow.Nozzle(discArea(bore), 1))
	c.Volumes = append(c.Volumes, Volume{Name: "source", Volume: 1})
	c.Paths[0].From, c.Paths[0].To = 1, 0
	from := Condition{5e5, roomTemperature}
	for _, cold := range []float64{260, roomTemperature} {
		e := new(engine)
		e.compile(c, &Scenario{Volumes: []Condition{{1e5, cold}, from}, Heat: Stirring, WallTemperature: roomTemperature}, Options{})
		d := make([]float64, e.n)
		e.Derivatives(0, e.state, d)
		q := flow.Nozzle(discArea(bore), 1).MassFlow(c.Gas, 5e5, roomTemperature, 1e5, cold)
		w, mu := wall.Of(c.Volumes[0].Volume, c.Volumes[0].InnerDiameter, &c.Gas), c.Gas.Viscosity(cold)
		ra := w.Rayleigh(&c.Gas, 1e5, cold, roomTemperature-cold)
		nu := 0.56*math.Pow(4*q/(math.Pi*mu*bore), 0.67) + 0.104*math.Pow(ra, 0.352)
		want := q*c.Gas.Cp()*roomTemperature + nu*c.Gas.Conductivity(cold)/w.Length*w.Area*(roomTemperature-cold)
		assert.InEpsilon(t, want, d[1], 1e-9)
		assert.InEpsilon(t, -q*c.Gas.Cp()*roomTemperature, d[3], 1e-9, "no heat at the walls' own temperature, and no jet")
	}
}
