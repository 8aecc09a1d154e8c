package limits

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// The launchers of these tests are built here in SI units. All are invented.

const (
	millimetres = 1e-3
	millilitres = 1e-6
	grams       = 1e-3
	bars        = 1e5
	kelvin0     = 273.15
	litreMinute = 1e-3 / 60
)

// between is a band with its nominal value in the middle.
func between(key string, low, high float64) Band {
	return Band{Set: true, Nominal: 0.5 * (low + high), Low: low, High: high, Key: key}
}

// cv is a valve by its Cv without tolerances: xT 0.7 and b 0.35, what is assumed of
// a valve that states neither (common practice, no source).
func cv(v float64) FlowSpec {
	return FlowSpec{Form: FlowCv, Value: Exact("Cv", v), PressureDropRatio: Exact("pressure_drop_ratio", 0.7), CriticalRatio: Exact("critical_ratio", 0.35)}
}

func orifice(d, cd float64) FlowSpec {
	return FlowSpec{Form: OrificeBore, Value: Exact("orifice", d), DischargeCoefficient: Exact("discharge_coefficient", cd)}
}

// plain is a launcher without any tolerance: one tank, one valve, a bore of
// 41 mm with a ball that fills it. changes are applied in their order.
func plain(changes ...func(*Launcher)) *Launcher {
	l := &Launcher{
		Name: "plain", Gas: "air",
		Ambient: AmbientSpec{Pressure: Exact("ambient.pressure", 101325), Temperature: Exact("ambient.temperature", 293.15)},
		Volumes: []VolumeSpec{{Name: "tank", Volume: Exact("volumes.tank.volume", 2e-3), RatedPressure: Exact("volumes.tank.rated_pressure", 10*bars),
			RatedForGas: Yes, Material: "steel"}},
		Paths: []PathSpec{{Name: "fire", From: "tank", To: "barrel", Kind: pneumatics.Valve, Flow: cv(2.5),
			OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: Exact("paths.fire.opening_time", 15e-3), ClosingTime: Exact("paths.fire.closing_time", 15e-3)}},
		Switch: &SwitchSpec{Senses: "tank", CutOut: Exact("pressure_switch.cut_out", 0.95*bars), CutIn: Exact("pressure_switch.cut_in", 0.6*bars)},
		Supply: &SupplySpec{Feeds: "tank", FreeAir: Exact("supply.free_air", 12*litreMinute), DeadHead: Exact("supply.dead_head", 4*bars),
			RunsIn: pneumatics.SetOf(pneumatics.Charging), RunsInStated: true},
		Barrel: BarrelSpec{Fit: pneumatics.InBore, Bore: Exact("barrel.bore", 41*millimetres), Travel: Exact("barrel.travel", 0.3),
			DeadVolume: Exact("barrel.dead_volume", 40*millilitres), FixedSeat: true, RatedPressure: Exact("barrel.rated_pressure", 6*bars),
			RatedForGas: Yes, Material: "aluminium"},
		Projectile: ProjectileSpec{Mass: Exact("projectile.mass", 4*grams), Diameter: Exact("projectile.diameter", 41*millimetres),
			ContactDiameter: Exact("projectile.contact_diameter", 30*millimetres), Resilient: true, TipStated: true, TipProof: "press test record",
			OpenCell: No, Breakaway: Exact("projectile.breakaway_force", 0), Sliding: Exact("projectile.sliding_force", 0.6)},
	}
	for _, change := range changes {
		change(l)
	}
	return l
}

// partsOff switches the parts of the model off that a simple reference leaves out.
func partsOff(l *Launcher) {
	l.Model.Parts = pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}
}

// fireCv sets the firing valve.
func fireCv(v float64) func(*Launcher) { return func(l *Launcher) { l.Paths[0].Flow = cv(v) } }

// friction sets breakaway and sliding force [N].
func friction(breakaway, sliding float64) func(*Launcher) {
	return func(l *Launcher) {
		l.Projectile.Breakaway = Exact("projectile.breakaway_force", breakaway)
		l.Projectile.Sliding = Exact("projectile.sliding_force", sliding)
	}
}

// cutOut sets the switch [Pa gauge].
func cutOut(p float64) func(*Launcher) {
	return func(l *Launcher) { l.Switch.CutOut = Exact("pressure_switch.cut_out", p) }
}

// weak makes the plain launcher one that passes everything.
func weak(l *Launcher) {
	cutOut(0.30 * bars)(l)
	l.Volumes[0].Volume = Exact("volumes.tank.volume", 1e-3)
	l.Barrel.Travel = Exact("barrel.travel", 0.05)
	l.Paths[0].Flow = cv(1)
	l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: orifice(5*millimetres, 0.62),
		SetPressure: Exact("set", 0.5*bars), FullFlowPressure: Exact("full", 0.6*bars), ReseatPressure: Exact("reseat", 0.4*bars)})
	l.Barrel.MuzzleAdmits = Exact("barrel.muzzle_admits", 5*millimetres)
	l.Barrel.SealGuard = "slots"
	l.Event = &EventSpec{Youngest: Exact("event.youngest", 4*365.25*86400)}
}

// check runs the whole check.
func check(t testing.TB, l *Launcher) Report {
	t.Helper()
	r, err := Check(context.Background(), l, Options{})
	require.NoError(t, err)
	return r
}

// verdict gives the one verdict of an identifier.
func verdict(t testing.TB, r Report, id string) Verdict {
	t.Helper()
	var found []Verdict
	for _, v := range r.Verdicts {
		if v.ID == id {
			found = append(found, v)
		}
	}
	require.Len(t, found, 1, "verdicts %s", id)
	return found[0]
}

// asked gives one verdict on a launcher for which nothing needs to be searched.
func asked(t testing.TB, l *Launcher, question func(*Assessment) Verdict) Verdict {
	t.Helper()
	limits, err := l.energyLimits("")
	require.NoError(t, err)
	return question(&Assessment{Launcher: l, Stated: l, Limits: limits})
}

// withEnergies is the assessment of a launcher with the energies of normal operation
// alone, and what measurements do to them.
func withEnergies(t testing.TB, l *Launcher, o Options) *Assessment {
	t.Helper()
	o.Want = EnergyStage
	a, err := Assess(context.Background(), l, o)
	require.NoError(t, err)
	return a
}
