package limits

import (
	"puffproof/pneumatics"
)

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

// pathNamed finds a path by its name.
func (l *Launcher) pathNamed(name string) *PathSpec {
	for i := range l.Paths {
		if l.Paths[i].Name == name {
			return &l.Paths[i]
		}
	}
	panic("no path " + name)
}

// dumped is the float with dumps on both volumes, that of the dose open while
// loading, and a guard.
func dumped() *Launcher {
	l := whale()
	l.Barrel.SealGuard = "ring with slots"
	off := pneumatics.SetOf(pneumatics.Off)
	for _, v := range []string{"tank", "dose"} {
		l.Paths = append(l.Paths, PathSpec{Name: "dump_" + v, From: v, To: "atmosphere", Kind: pneumatics.Valve, Flow: orifice(1.1e-3, 0.6),
			OpenIn: off, Unpowered: pneumatics.Open, Points: "away"})
	}
	l.pathNamed("dump_dose").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Venting = &VentingSpec{Target: Exact("venting.target", 5000), Within: Exact("venting.within", 60)}
	return l
}

// rounding is for sums and products of a few doubles.
const rounding = 1e-12

// overTube makes the launcher a rocket of 18.3 mm inside on a tube of 18/14 mm.
func overTube(l *Launcher) {
	l.Barrel.Fit = pneumatics.OverTube
	l.Barrel.TubeOuterDiameter = Exact("barrel.tube_outer_diameter", 18*millimetres)
	l.Barrel.TubeInnerDiameter = Exact("barrel.tube_inner_diameter", 14*millimetres)
	l.Barrel.Engagement = Exact("barrel.engagement", 60*millimetres)
	l.Barrel.Bore, l.Barrel.Travel = Band{}, Band{}
	l.Projectile.InsideDiameter = Exact("projectile.inside_diameter", 18.3*millimetres)
	l.Projectile.Diameter = Exact("projectile.diameter", 40*millimetres)
}

// orderly is a launcher whose ladder is in order, all rungs known.
func orderly(l *Launcher) {
	l.Switch.CutOut, l.Switch.CutIn = between("cut_out", 0.38*bars, 0.42*bars), between("cut_in", 0.28*bars, 0.32*bars)
	l.Switch.Differential = Exact("differential", 0.05*bars)
	withRelief(between("set", 0.55*bars, 0.65*bars), between("full", 0.65*bars, 0.75*bars), 8*millimetres, 0.62)(l)
}

// sealedTank is the vented tank with a switch, so that a fill ends by itself.
func sealedTank() *Launcher {
	l := ventedTank()
	l.Switch = &SwitchSpec{Senses: "tank", CutOut: between("", 0.77e5, 0.83e5), CutIn: between("", 0.55e5, 0.65e5), Adjustable: No}
	l.Switch.CutOut.Nominal, l.Switch.CutIn.Nominal = 0.8e5, 0.6e5
	l.Supply.DeadHead = Exact("", 2e5)
	return l
}

// gentle is a launcher within the limits, with bands that shots can narrow.
func gentle() *Launcher {
	l := plain(measured, weak)
	l.Projectile.Sliding = between("projectile.sliding_force", 0.4, 0.8)
	l.Paths[0].Flow.Value = between("paths.fire.Cv", 0.8, 1.2)
	l.Volumes[0].Volume = Exact("volumes.tank.volume", 2e-3)
	return l
}

// measured gives the plain launcher what a shots file needs: drag, a gauge,
// bands. Invented.
func measured(l *Launcher) {
	l.Projectile.Drag = between("projectile.drag_coefficient", 0.4, 0.6)
	l.Gauges = []GaugeSpec{{On: "tank", Range: Exact("gauge.range", 1*bars), Class: 1.6}}
	l.Projectile.Mass = between("projectile.mass", 3.9*grams, 4.1*grams)
	l.Projectile.Sliding = between("projectile.sliding_force", 0, 1.2)
	l.Paths[0].Flow.Value = between("paths.fire.Cv", 1.5, 3.5)
	l.Paths[0].OpeningTime = between("paths.fire.opening_time", 0, 30e-3)
}

// withRelief adds a relief valve on the tank.
func withRelief(set, full Band, d, cd float64) func(*Launcher) {
	return func(l *Launcher) {
		l.Paths = append(l.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
			Flow: orifice(d, cd), SetPressure: set, FullFlowPressure: full, ReseatPressure: Exact("reseat", 0.8*set.Low)})
	}
}

// twoTanks is a launcher with a dose that fire empties, fed from the tank by the
// given paths; the switch senses the tank.
func twoTanks(feeds ...PathSpec) *Launcher {
	return plain(func(l *Launcher) {
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "dose", Volume: Exact("volumes.dose.volume", 0.5e-3)})
		l.Paths[0].From = "dose"
		for i, p := range feeds {
			if p.Name == "" {
				p.Name = []string{"feed", "second", "third"}[i]
			}
			if p.From == "" {
				p.From, p.To = "tank", "dose"
			}
			if p.Flow.Form == NoFlow {
				p.Flow = orifice(1.2*millimetres, 0.75)
			}
			l.Paths = append(l.Paths, p)
		}
	})
}

func valveIn(states ...pneumatics.State) PathSpec {
	return PathSpec{Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(states...)}
}

func regulator(set, creep float64) PathSpec {
	return PathSpec{Kind: pneumatics.Regulator, SetPressure: Exact("set", set), Creep: Exact("creep", creep), Droop: Exact("droop", 0.1*set)}
}

// ventedTank is a tank with one vent and a gauge: invented data.
func ventedTank() *Launcher {
	in := func(key string, nominal, tolerance float64) Band {
		return Band{Set: true, Key: key, Nominal: nominal, Low: nominal - tolerance, High: nominal + tolerance}
	}
	return &Launcher{
		Name: "vented tank", Gas: "air",
		Ambient: AmbientSpec{Pressure: in("ambient.pressure", 101325, 3000), Temperature: in("ambient.temperature", 293.15, 5),
			Coldest: in("ambient.coldest", 278.15, 0), Hottest: in("ambient.hottest", 308.15, 0)},
		Volumes: []VolumeSpec{{Name: "tank", Volume: in("volumes.tank.volume", 2e-3, 4e-5)}},
		Paths: []PathSpec{
			{Name: "fire", From: "tank", To: "barrel", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing),
				Flow: FlowSpec{Form: SonicConductance, Value: in("paths.fire.sonic_conductance", 2e-8, 2e-9),
					CriticalRatio: in("paths.fire.critical_ratio", 0.3, 0.1)}},
			{Name: "vent", From: "tank", To: "atmosphere", Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Off),
				Unpowered: pneumatics.Open,
				Flow: FlowSpec{Form: OrificeBore, Value: in("paths.vent.orifice", 1.2e-3, 0.05e-3),
					DischargeCoefficient: in("paths.vent.discharge_coefficient", 0.75, 0.15)}},
		},
		Supply: &SupplySpec{Feeds: "tank", FreeAir: in("supply.free_air", 2e-4, 2e-5), DeadHead: in("supply.dead_head", 1e5, 5e3),
			RunsIn: pneumatics.SetOf(pneumatics.Charging)},
		Gauges: []GaugeSpec{{On: "tank", Range: in("gauge.range", 1.6e5, 0), Class: 1.6, Graduation: in("gauge.graduation", 5e3, 0),
			StopPin: No}},
		Barrel: BarrelSpec{Bore: in("barrel.bore", 41e-3, 2e-4), Travel: in("barrel.travel", 0.06, 3e-3),
			DeadVolume: in("barrel.dead_volume", 4e-5, 5e-6)},
		Projectile: ProjectileSpec{Mass: in("projectile.mass", 4e-3, 4e-4), Diameter: in("projectile.diameter", 41e-3, 5e-4), TipStated: true,
			Resilient: true, TipProof: "invented", Breakaway: in("projectile.breakaway_force", 0.5, 0.5),
			Sliding: in("projectile.sliding_force", 0.2, 0.2)},
		Venting: &VentingSpec{Target: Exact("venting.target", 5000), Within: Exact("venting.within", 60)},
	}
}

// whale is the float of testdata/designs in SI units, as far as a shot needs it.
func whale() *Launcher {
	x, b := Exact, between
	drilled := func(d, tol float64) FlowSpec {
		f := orifice(d*millimetres, 0.75)
		f.Value = b("orifice", (d-tol)*millimetres, (d+tol)*millimetres)
		f.DischargeCoefficient = b("discharge_coefficient", 0.6, 0.9)
		return f
	}
	fire := FlowSpec{Form: FlowCv, Value: b("paths.fire.Cv", 1.8, 2.2), PressureDropRatio: b("xT", 0.5, 0.8), CriticalRatio: b("b", 0.2, 0.5)}
	direct := func(low, high float64) Band { return b("opening_time", low*1e-3, high*1e-3) }
	return &Launcher{Name: "whale", Gas: "air",
		Ambient: AmbientSpec{Pressure: b("ambient.pressure", 98300, 104300), Temperature: b("ambient.temperature", 283.15, 299.15),
			Hottest: x("ambient.hottest", 313.15), Coldest: x("ambient.coldest", 278.15)},
		Volumes: []VolumeSpec{
			{Name: "tank", Volume: b("volumes.tank.volume", 1.96e-3, 2.04e-3), RatedPressure: x("", 10*bars), RatedForGas: Yes, Material: "steel"},
			{Name: "dose", Volume: b("volumes.dose.volume", 0.97e-3, 1.03e-3), RatedPressure: x("", 10*bars), RatedForGas: Yes, Material: "steel"}},
		Paths: []PathSpec{
			{Name: "fire", From: "dose", To: "barrel", Kind: pneumatics.Valve, Flow: fire, OpenIn: pneumatics.SetOf(pneumatics.Firing),
				OpeningTime: direct(20, 40), ClosingTime: direct(20, 40)},
			{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve, Flow: drilled(1.2, 0.1), OpenIn: pneumatics.SetOf(pneumatics.Charging),
				OpeningTime: direct(0, 40), ClosingTime: direct(0, 40)},
			{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: drilled(5, 0.2), SetPressure: b("set", 0.65*bars, 0.85*bars),
				FullFlowPressure: b("full", 0.85*bars, 1.05*bars), ReseatPressure: b("reseat", 0.55*bars, 0.72*bars)}},
		Supply: &SupplySpec{Feeds: "tank", FreeAir: b("supply.free_air", 10.2*litreMinute, 13.8*litreMinute), DeadHead: b("", 3.2*bars, 4.8*bars)},
		Switch: &SwitchSpec{Senses: "tank", CutOut: b("", 0.38*bars, 0.46*bars), CutIn: b("", 0.25*bars, 0.35*bars), GaugeError: b("", -1600, 1600)},
		Barrel: BarrelSpec{Bore: b("barrel.bore", 40.8*millimetres, 41.2*millimetres), Travel: b("barrel.travel", 67*millimetres, 73*millimetres),
			DeadVolume: b("barrel.dead_volume", 35*millilitres, 45*millilitres), RatedPressure: x("", 6*bars), RatedForGas: Yes, Material: "polycarbonate",
			ObjectControl: []string{"supervised loading by the adult in charge"}, SealGuard: "four slots"},
		Projectile: ProjectileSpec{Mass: b("projectile.mass", 3.6*grams, 4.4*grams), Diameter: b("projectile.diameter", 40.5*millimetres, 41.5*millimetres),
			ContactDiameter: b("", 20*millimetres, 24*millimetres), Resilient: true, TipStated: true, TipProof: "record", OpenCell: No,
			Breakaway: b("projectile.breakaway_force", 0, 1.5), Sliding: b("projectile.sliding_force", 0, 0.4)},
		Event: &EventSpec{Youngest: x("", 4*365.25*86400)},
	}
}

// rocket is the stand of testdata/designs in SI units.
func rocket() *Launcher {
	x, b := Exact, between
	return plain(overTube, func(l *Launcher) {
		l.Switch = nil
		l.Ambient.Temperature = b("ambient.temperature", 289.15, 299.15)
		l.Ambient.Hottest = x("", 303.15)
		l.Volumes[0].Volume = b("volumes.tank.volume", 0.198e-3, 0.202e-3)
		l.Paths[0].Flow = FlowSpec{Form: FlowKv, Value: b("Kv", 1.54, 2.86), PressureDropRatio: b("xT", 0.5, 0.8), CriticalRatio: b("b", 0.2, 0.5)}
		l.Paths[0].OpeningTime = b("opening_time", 5e-3, 50e-3)
		l.Paths = append(l.Paths, PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice, Flow: orifice(0.4*millimetres, 0.65)})
		l.Supply = &SupplySpec{Feeds: "tank", FreeAir: b("free_air", 2.7*litreMinute, 3.3*litreMinute), DeadHead: b("", 0.18*bars, 0.22*bars)}
		l.Barrel.FixedSeat = false
		l.Barrel.DeadVolume = b("dead_volume", 20*millilitres, 24*millilitres)
		l.Barrel.Engagement = b("engagement", 55*millimetres, 65*millimetres)
		l.Projectile.Mass = b("mass", 7.2*grams, 8.8*grams)
		l.Projectile.Clearance = b("clearance", 0.1*millimetres, 0.5*millimetres)
		l.Projectile.Breakaway, l.Projectile.Sliding = b("breakaway", 0, 0.8), b("sliding", 0, 0.4)
	})
}
