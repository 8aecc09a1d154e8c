package sample

import (
	"context"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Units in SI.
const (
	Millimetres = 1e-3
	Millilitres = 1e-6
	Grams       = 1e-3
	Bars        = 1e5
	Kelvin0     = 273.15
	LitreMinute = 1e-3 / 60
)

// Weakly is a context whose searches make a twentieth of the usual effort: for tests
// that ask how figures go together, not how large they are.
func Weakly() context.Context { return Lightly(context.Background(), 0.01) }

// shots are those of a test binary.
var shots = recall.Shots()

// Lightly is a context below which searches make a share of their effort, and no shot of theirs is computed twice: launchers that differ in
// one figure, or in none that a shot reads, have most in common.
func Lightly(ctx context.Context, share float64) context.Context {
	return search.WithStrength(recall.With(ctx, shots), share)
}

// Between is a band with its nominal value in the middle.
func Between(key string, low, high float64) launcher.Band {
	return launcher.Band{Set: true, Nominal: 0.5 * (low + high), Low: low, High: high, Key: key}
}

// Cv is a valve by its Cv without tolerances: xT 0.7 and b 0.35, what is assumed of
// a valve that states neither (common practice, no source).
func Cv(v float64) launcher.FlowSpec {
	return launcher.FlowSpec{Form: launcher.FlowCv, Value: launcher.Exact("Cv", v),
		PressureDropRatio: launcher.Exact("pressure_drop_ratio", 0.7), CriticalRatio: launcher.Exact("critical_ratio", 0.35)}
}

// Orifice is a bore [m] with its discharge coefficient, without tolerances.
func Orifice(d, cd float64) launcher.FlowSpec {
	return launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("orifice", d),
		DischargeCoefficient: launcher.Exact("discharge_coefficient", cd)}
}

// Plain is a launcher without any tolerance: one tank, one valve, a bore of
// 41 mm with a ball that fills it. changes are applied in their order.
func Plain(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	l := &launcher.Launcher{
		Name: "plain", Gas: "air",
		Ambient: launcher.AmbientSpec{Pressure: launcher.Exact("ambient.pressure", 101325),
			Temperature: launcher.Exact("ambient.temperature", 293.15)},
		Volumes: []launcher.VolumeSpec{{Name: "tank", Volume: launcher.Exact("volumes.tank.volume", 2e-3),
			RatedPressure: launcher.Exact("volumes.tank.rated_pressure", 10*Bars),
			RatedForGas:   launcher.Yes, Material: "steel"}},
		Paths: []launcher.PathSpec{{Name: "fire", From: "tank", To: "barrel", Kind: pneumatics.Valve, Flow: Cv(2.5),
			OpenIn: pneumatics.SetOf(pneumatics.Firing), OpeningTime: launcher.Exact("paths.fire.opening_time", 15e-3),
			ClosingTime: launcher.Exact("paths.fire.closing_time", 15e-3)}},
		Switch: &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("pressure_switch.cut_out", 0.95*Bars),
			CutIn: launcher.Exact("pressure_switch.cut_in", 0.6*Bars)},
		Supply: &launcher.SupplySpec{Feeds: "tank", FreeAir: launcher.Exact("supply.free_air", 12*LitreMinute),
			DeadHead: launcher.Exact("supply.dead_head", 4*Bars),
			RunsIn:   pneumatics.SetOf(pneumatics.Charging), RunsInStated: true},
		Barrel: launcher.BarrelSpec{Fit: pneumatics.InBore, Bore: launcher.Exact("barrel.bore", 41*Millimetres),
			Travel:     launcher.Exact("barrel.travel", 0.3),
			DeadVolume: launcher.Exact("barrel.dead_volume", 40*Millilitres), FixedSeat: true,
			RatedPressure: launcher.Exact("barrel.rated_pressure", 6*Bars),
			RatedForGas:   launcher.Yes, Material: "aluminium"},
		Projectile: launcher.ProjectileSpec{Mass: launcher.Exact("projectile.mass", 4*Grams),
			Diameter:        launcher.Exact("projectile.diameter", 41*Millimetres),
			ContactDiameter: launcher.Exact("projectile.contact_diameter", 30*Millimetres), Resilient: true, TipStated: true,
			TipProof: "press test record",
			OpenCell: launcher.No, Breakaway: launcher.Exact("projectile.breakaway_force", 0),
			Sliding: launcher.Exact("projectile.sliding_force", 0.6)},
	}
	for _, change := range changes {
		change(l)
	}
	return l
}

// PartsOff switches the parts of the model off that a simple reference leaves out.
func PartsOff(l *launcher.Launcher) {
	l.Model.Parts = pneumatics.Parts{NoGasInertia: true, NoAirAhead: true, NoAfterMuzzle: true, NoWallHeat: true}
}

// FireCv sets the firing valve.
func FireCv(v float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) { l.Paths[0].Flow = Cv(v) }
}

// Friction sets breakaway and sliding force [N].
func Friction(breakaway, sliding float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Projectile.Breakaway = launcher.Exact("projectile.breakaway_force", breakaway)
		l.Projectile.Sliding = launcher.Exact("projectile.sliding_force", sliding)
	}
}

// CutOut sets the switch [Pa gauge].
func CutOut(p float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) { l.Switch.CutOut = launcher.Exact("pressure_switch.cut_out", p) }
}

// Weak makes the plain launcher one that passes everything.
func Weak(l *launcher.Launcher) {
	CutOut(0.30 * Bars)(l)
	l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 1e-3)
	l.Barrel.Travel = launcher.Exact("barrel.travel", 0.05)
	l.Paths[0].Flow = Cv(1)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow:        Orifice(5*Millimetres, 0.62),
		SetPressure: launcher.Exact("set", 0.5*Bars), FullFlowPressure: launcher.Exact("full", 0.6*Bars),
		ReseatPressure: launcher.Exact("reseat", 0.4*Bars)})
	l.Barrel.MuzzleAdmits = launcher.Exact("barrel.muzzle_admits", 5*Millimetres)
	l.Barrel.SealGuard = "slots"
	l.Event = &launcher.EventSpec{Youngest: launcher.Exact("event.youngest", 4*365.25*86400),
		NearestPerson: launcher.Exact("event.nearest_person", 3)}
}

// PathNamed finds a path by its name.
func PathNamed(l *launcher.Launcher, name string) *launcher.PathSpec {
	for i := range l.Paths {
		if l.Paths[i].Name == name {
			return &l.Paths[i]
		}
	}
	panic("no path " + name)
}

// Dumped is the float with dumps on both volumes, that of the dose open while
// loading, and a guard.
func Dumped() *launcher.Launcher {
	l := Whale()
	l.Barrel.SealGuard = "ring with slots"
	off := pneumatics.SetOf(pneumatics.Off)
	for _, v := range []string{"tank", "dose"} {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump_" + v, From: v, To: "atmosphere", Kind: pneumatics.Valve,
			Flow:   Orifice(1.1e-3, 0.6),
			OpenIn: off, Unpowered: pneumatics.Open, Points: "away"})
	}
	PathNamed(l, "dump_dose").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Venting = &launcher.VentingSpec{Target: launcher.Exact("venting.target", 5000), Within: launcher.Exact("venting.within", 60)}
	return l
}

// Bled gives the barrel a hole of a millimetre that nothing shuts.
func Bled(l *launcher.Launcher) {
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice,
		Flow: Orifice(1e-3, 0.6), Points: "away"})
}

// Rounding is for sums and products of a few doubles.
const Rounding = 1e-12

// OverTube makes the launcher a rocket of 18.3 mm inside on a tube of 18/14 mm.
func OverTube(l *launcher.Launcher) {
	l.Barrel.Fit = pneumatics.OverTube
	l.Barrel.TubeOuterDiameter = launcher.Exact("barrel.tube_outer_diameter", 18*Millimetres)
	l.Barrel.TubeInnerDiameter = launcher.Exact("barrel.tube_inner_diameter", 14*Millimetres)
	l.Barrel.Engagement = launcher.Exact("barrel.engagement", 60*Millimetres)
	l.Barrel.Bore, l.Barrel.Travel = launcher.Band{}, launcher.Band{}
	l.Projectile.InsideDiameter = launcher.Exact("projectile.inside_diameter", 18.3*Millimetres)
	l.Projectile.Diameter = launcher.Exact("projectile.diameter", 40*Millimetres)
}

// Orderly is a launcher whose ladder is in order, all rungs known.
func Orderly(l *launcher.Launcher) {
	l.Switch.CutOut, l.Switch.CutIn = Between("cut_out", 0.38*Bars, 0.42*Bars), Between("cut_in", 0.28*Bars, 0.32*Bars)
	l.Switch.Differential = launcher.Exact("differential", 0.05*Bars)
	WithRelief(Between("set", 0.55*Bars, 0.65*Bars), Between("full", 0.65*Bars, 0.75*Bars), 8*Millimetres, 0.62)(l)
}

// SealedTank is the vented tank with a switch, so that a fill ends by itself.
func SealedTank() *launcher.Launcher {
	l := VentedTank()
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: Between("", 0.77e5, 0.83e5), CutIn: Between("", 0.55e5, 0.65e5),
		Adjustable: launcher.No}
	l.Switch.CutOut.Nominal, l.Switch.CutIn.Nominal = 0.8e5, 0.6e5
	l.Supply.DeadHead = launcher.Exact("", 2e5)
	return l
}

// Gentle is a launcher within the limits, with bands that shots can narrow.
func Gentle() *launcher.Launcher {
	l := Plain(Measured, Weak)
	l.Projectile.Sliding = Between("projectile.sliding_force", 0.4, 0.8)
	l.Paths[0].Flow.Value = Between("paths.fire.Cv", 0.8, 1.2)
	l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 2e-3)
	return l
}

// Measured gives the plain launcher what a shots file needs: drag, a gauge,
// bands. Invented.
func Measured(l *launcher.Launcher) {
	l.Projectile.Drag = Between("projectile.drag_coefficient", 0.4, 0.6)
	l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 1*Bars), Class: 1.6}}
	l.Projectile.Mass = Between("projectile.mass", 3.9*Grams, 4.1*Grams)
	l.Projectile.Sliding = Between("projectile.sliding_force", 0, 1.2)
	l.Paths[0].Flow.Value = Between("paths.fire.Cv", 1.5, 3.5)
	l.Paths[0].OpeningTime = Between("paths.fire.opening_time", 0, 30e-3)
}

// WithRelief adds a relief valve on the tank.
func WithRelief(set, full launcher.Band, d, cd float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
			Flow: Orifice(d, cd), SetPressure: set, FullFlowPressure: full, ReseatPressure: launcher.Exact("reseat", 0.8*set.Low)})
	}
}

// TwoTanks is a launcher with a dose that fire empties, fed from the tank by the
// given paths; the switch senses the tank.
func TwoTanks(feeds ...launcher.PathSpec) *launcher.Launcher {
	return Plain(func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("volumes.dose.volume", 0.5e-3)})
		l.Paths[0].From = "dose"
		for i, p := range feeds {
			if p.Name == "" {
				p.Name = []string{"feed", "second", "third"}[i]
			}
			if p.From == "" {
				p.From, p.To = "tank", "dose"
			}
			if p.Flow.Form == launcher.NoFlow {
				p.Flow = Orifice(1.2*Millimetres, 0.75)
			}
			l.Paths = append(l.Paths, p)
		}
	})
}

// ValveIn is a valve that is open in the given states.
func ValveIn(states ...pneumatics.State) launcher.PathSpec {
	return launcher.PathSpec{Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(states...)}
}

// Regulator is one set to a pressure, with its creep [Pa gauge].
func Regulator(set, creep float64) launcher.PathSpec {
	return launcher.PathSpec{Kind: pneumatics.Regulator, SetPressure: launcher.Exact("set", set), Creep: launcher.Exact("creep", creep),
		Droop: launcher.Exact("droop", 0.1*set)}
}

// VentedTank is a tank with one vent and a gauge: invented data.
func VentedTank() *launcher.Launcher {
	in := func(key string, nominal, tolerance float64) launcher.Band {
		return launcher.Band{Set: true, Key: key, Nominal: nominal, Low: nominal - tolerance, High: nominal + tolerance}
	}
	return &launcher.Launcher{
		Name: "vented tank", Gas: "air",
		Ambient: launcher.AmbientSpec{Pressure: in("ambient.pressure", 101325, 3000), Temperature: in("ambient.temperature", 293.15, 5),
			Coldest: in("ambient.coldest", 278.15, 0), Hottest: in("ambient.hottest", 308.15, 0)},
		Volumes: []launcher.VolumeSpec{{Name: "tank", Volume: in("volumes.tank.volume", 2e-3, 4e-5)}},
		Paths: []launcher.PathSpec{
			{Name: "fire", From: "tank", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing),
				Flow: launcher.FlowSpec{Form: launcher.SonicConductance, Value: in("paths.fire.sonic_conductance", 2e-8, 2e-9),
					CriticalRatio: in("paths.fire.critical_ratio", 0.3, 0.1)}},
			{Name: "vent", From: "tank", To: "atmosphere", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Off),
				Unpowered: pneumatics.Open,
				Flow: launcher.FlowSpec{Form: launcher.OrificeBore, Value: in("paths.vent.orifice", 1.2e-3, 0.05e-3),
					DischargeCoefficient: in("paths.vent.discharge_coefficient", 0.75, 0.15)}},
		},
		Supply: &launcher.SupplySpec{Feeds: "tank", FreeAir: in("supply.free_air", 2e-4, 2e-5), DeadHead: in("supply.dead_head", 1e5, 5e3),
			RunsIn: pneumatics.SetOf(pneumatics.Charging)},
		Gauges: []launcher.GaugeSpec{{On: "tank", Range: in("gauge.range", 1.6e5, 0), Class: 1.6, Graduation: in("gauge.graduation", 5e3, 0),
			StopPin: launcher.No}},
		Barrel: launcher.BarrelSpec{Bore: in("barrel.bore", 41e-3, 2e-4), Travel: in("barrel.travel", 0.06, 3e-3),
			DeadVolume: in("barrel.dead_volume", 4e-5, 5e-6)},
		Projectile: launcher.ProjectileSpec{Mass: in("projectile.mass", 4e-3, 4e-4), Diameter: in("projectile.diameter", 41e-3, 5e-4),
			TipStated: true,
			Resilient: true, TipProof: "press test record", Breakaway: in("projectile.breakaway_force", 0.5, 0.5),
			Sliding: in("projectile.sliding_force", 0.2, 0.2)},
		Venting: &launcher.VentingSpec{Target: launcher.Exact("venting.target", 5000), Within: launcher.Exact("venting.within", 60)},
	}
}

// Whale is the float of testdata/designs in SI units, as far as a shot needs it.
func Whale() *launcher.Launcher {
	x, b := launcher.Exact, Between
	drilled := func(d, tol float64) launcher.FlowSpec {
		f := Orifice(d*Millimetres, 0.75)
		f.Value = b("orifice", (d-tol)*Millimetres, (d+tol)*Millimetres)
		f.DischargeCoefficient = b("discharge_coefficient", 0.6, 0.9)
		return f
	}
	fire := launcher.FlowSpec{Form: launcher.FlowCv, Value: b("paths.fire.Cv", 1.8, 2.2), PressureDropRatio: b("xT", 0.5, 0.8),
		CriticalRatio: b("b", 0.2, 0.5)}
	direct := func(low, high float64) launcher.Band { return b("opening_time", low*1e-3, high*1e-3) }
	return &launcher.Launcher{Name: "whale", Gas: "air",
		Ambient: launcher.AmbientSpec{Pressure: b("ambient.pressure", 98300, 104300), Temperature: b("ambient.temperature", 283.15, 299.15),
			Hottest: x("ambient.hottest", 313.15), Coldest: x("ambient.coldest", 278.15)},
		Volumes: []launcher.VolumeSpec{
			{Name: "tank", Volume: b("volumes.tank.volume", 1.96e-3, 2.04e-3), RatedPressure: x("", 10*Bars), RatedForGas: launcher.Yes,
				Material: "steel"},
			{Name: "dose", Volume: b("volumes.dose.volume", 0.97e-3, 1.03e-3), RatedPressure: x("", 10*Bars), RatedForGas: launcher.Yes,
				Material: "steel"}},
		Paths: []launcher.PathSpec{
			{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, Flow: fire, OpenIn: pneumatics.SetOf(pneumatics.Firing),
				OpeningTime: direct(20, 40), ClosingTime: direct(20, 40)},
			{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve, Flow: drilled(1.2, 0.1), OpenIn: pneumatics.SetOf(pneumatics.Charging),
				OpeningTime: direct(0, 40), ClosingTime: direct(0, 40)},
			{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: drilled(5, 0.2),
				SetPressure:      b("set", 0.65*Bars, 0.85*Bars),
				FullFlowPressure: b("full", 0.85*Bars, 1.05*Bars), ReseatPressure: b("reseat", 0.55*Bars, 0.72*Bars)}},
		Supply: &launcher.SupplySpec{Feeds: "tank", FreeAir: b("supply.free_air", 10.2*LitreMinute, 13.8*LitreMinute),
			DeadHead: b("supply.dead_head", 3.2*Bars, 4.8*Bars)},
		Switch: &launcher.SwitchSpec{Senses: "tank", CutOut: b("", 0.38*Bars, 0.46*Bars), CutIn: b("", 0.25*Bars, 0.35*Bars),
			GaugeError: b("", -1600, 1600)},
		Barrel: launcher.BarrelSpec{Bore: b("barrel.bore", 40.8*Millimetres, 41.2*Millimetres),
			Travel:     b("barrel.travel", 67*Millimetres, 73*Millimetres),
			DeadVolume: b("barrel.dead_volume", 35*Millilitres, 45*Millilitres), RatedPressure: x("", 6*Bars), RatedForGas: launcher.Yes,
			Material:      "polycarbonate",
			ObjectControl: []string{"supervised loading by the adult in charge"}, SealGuard: "four slots"},
		Projectile: launcher.ProjectileSpec{Mass: b("projectile.mass", 3.6*Grams, 4.4*Grams),
			Diameter:        b("projectile.diameter", 40.5*Millimetres, 41.5*Millimetres),
			ContactDiameter: b("", 20*Millimetres, 24*Millimetres), Resilient: true, TipStated: true, TipProof: "record", OpenCell: launcher.No,
			Breakaway: b("projectile.breakaway_force", 0, 1.5), Sliding: b("projectile.sliding_force", 0, 0.4)},
		Event: &launcher.EventSpec{Youngest: x("", 4*365.25*86400), NearestPerson: x("", 3)},
	}
}

// Rocket is the stand of testdata/designs in SI units.
func Rocket() *launcher.Launcher {
	x, b := launcher.Exact, Between
	return Plain(OverTube, func(l *launcher.Launcher) {
		l.Switch = nil
		l.Ambient.Temperature = b("ambient.temperature", 289.15, 299.15)
		l.Ambient.Hottest = x("", 303.15)
		l.Volumes[0].Volume = b("volumes.tank.volume", 0.198e-3, 0.202e-3)
		l.Paths[0].Flow = launcher.FlowSpec{Form: launcher.FlowKv, Value: b("Kv", 1.54, 2.86), PressureDropRatio: b("xT", 0.5, 0.8),
			CriticalRatio: b("b", 0.2, 0.5)}
		l.Paths[0].OpeningTime = b("opening_time", 5e-3, 50e-3)
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: Orifice(0.4*Millimetres, 0.65)})
		l.Supply = &launcher.SupplySpec{Feeds: "tank", FreeAir: b("free_air", 2.7*LitreMinute, 3.3*LitreMinute),
			DeadHead: b("supply.dead_head", 0.18*Bars, 0.22*Bars)}
		l.Barrel.FixedSeat = false
		l.Barrel.DeadVolume = b("dead_volume", 20*Millilitres, 24*Millilitres)
		l.Barrel.Engagement = b("engagement", 55*Millimetres, 65*Millimetres)
		l.Projectile.Mass = b("mass", 7.2*Grams, 8.8*Grams)
		l.Projectile.Clearance = b("clearance", 0.1*Millimetres, 0.5*Millimetres)
		l.Projectile.Breakaway, l.Projectile.Sliding = b("breakaway", 0, 0.8), b("sliding", 0, 0.4)
	})
}

// PressedWords is a press test in the words of a person: 60 N flatten a tip by 8 mm in each of its states.
const PressedWords = "60 N 8 mm dry, 60 N 8 mm wet, 60 N 8 mm cold at 0 degC"

// Pressed are the figures of PressedWords.
func Pressed() []finding.Figure {
	return append(slices.Repeat([]finding.Figure{{Value: 60, Unit: finding.InNewton}, {Value: 8e-3, Unit: finding.InMetre}}, 3),
		finding.Figure{Value: 273.15, Unit: finding.InKelvin})
}
