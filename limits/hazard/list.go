package hazard

import (
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// all lists the hazards. Severities, likelihoods and measures are common practice, no source, unless a verdict stands for them.
func all() []Hazard {
	var out []Hazard
	for i, group := range [][]Hazard{ofTheShot(), ofThePressure(), ofPeople(), ofThings()} {
		for _, h := range group {
			h.Group = Groups()[i]
			out = append(out, h)
		}
	}
	return out
}

// valved tells that a valve is moved by current.
func valved(l *launcher.Launcher) bool {
	return slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Valve })
}

// driven tells that a motor fills the launcher.
func driven(l *launcher.Launcher) bool {
	return l.Supply != nil && l.Supply.Kind == launcher.Compressor
}

// bottled tells that gas comes out of a bottle or a main.
func bottled(l *launcher.Launcher) bool {
	return l.Supply != nil && (l.Supply.Kind == launcher.RegulatedCylinder || l.Supply.Kind == launcher.ShopAir)
}

// ridden tells that somebody sits on it, or that it moves.
func ridden(l *launcher.Launcher) bool {
	return l.Mount.RideOn || l.Mount.MovingAt.High > 0 || l.Event != nil && l.Event.Wheels.Set
}

// ofTheShot are the hazards of what flies.
func ofTheShot() []Hazard {
	return []Hazard{{
		ID: "eye", What: "Projectile meets an eye, a face or a hand", Who: "whoever leans over the muzzle, the crowd", Harm: "a lost eye",
		Before: Risk{Lasting, Likely}, Least: Serious,
		Measures: []Measure{
			{Design, "energy and energy per area within their limits, in the worst launcher and at any single fault",
				[]string{finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault}, []string{finding.ItemShots, finding.ItemTip,
					finding.ItemPrint, finding.ItemTipRadius}},
			{Guard, "elevation stops, a clear zone, two actions to fire", []string{finding.ShotUnasked},
				[]string{finding.ItemElevation, finding.ItemClearAllRound, finding.ItemTwoActions, finding.ItemGuard}},
			{Information, "key and stop with one adult; eye protection", nil, []string{finding.ItemKeyAndStop}},
		},
		Remains: "an eye can still be injured at close range: case reports of foam toys tell of it",
	}, {
		ID: "unasked", What: "It fires by itself, or while it is loaded", Who: "who loads", Harm: "a lost eye",
		Before: Risk{Lasting, Possible}, Least: Serious,
		Measures: []Measure{
			{Design, "nothing behind the projectile while hands are at the muzzle", []string{finding.LoadingEmpty}, []string{finding.ItemBarrelEmpty,
				finding.ItemLoadingWait}},
			{Guard, "no single fault shoots while hands are at the muzzle, nor else without two actions and a guard",
				[]string{finding.ShotUnasked}, []string{finding.ItemTwoActions, finding.ItemGuard}},
		},
		Remains: "two faults at once; haste",
	}, {
		ID: "other-object", What: "Something else is shot: a pebble, a pencil, a second ball, a soaked or frozen one", Who: "anyone in front",
		Harm: "a lost eye, a cut", Before: Risk{Lasting, Possible}, Least: Serious,
		Measures: []Measure{
			{Guard, "what the muzzle lets in is kept out", []string{finding.MisuseOfObjects}, []string{finding.ItemMuzzleAdmits,
				finding.ObjectControlItem(0),
				finding.ObjectControlItem(1), finding.ObjectControlItem(2)}},
			{Information, "a look in before each load, one projectile, dry and warm", nil, []string{finding.ItemLookIn, finding.ItemOneProjectile,
				finding.ItemColdDrain}},
		},
		Remains: "people who do not do this",
	}, {
		ID: "wet", What: "Open foam soaks water: rain into the muzzle, a projectile out of wet grass", Who: "whom it meets", Harm: "a lost eye",
		Before: Risk{Lasting, Likely}, Least: Serious, where: (*launcher.Launcher).MaySoak,
		Measures: []Measure{
			{Information, "each projectile weighed before each use, none fired in rain", []string{finding.EnergyFault},
				[]string{finding.ItemWeighed, finding.ItemShots}},
		},
		Remains: "one that got wet after it was weighed; closed cells would take up none",
	}, {
		ID: "frozen", What: "Ice holds a projectile in its seat until the whole charge breaks it loose", Who: "whom it meets",
		Harm: "a lost eye", Before: Risk{Lasting, Possible}, Least: Serious, where: (*launcher.Launcher).MayFreeze,
		Measures: []Measure{
			{Information, "in frost each projectile turned in its seat before it is shot; none waits in the barrel",
				[]string{finding.EnergyFault}, []string{finding.ItemNotFrozen, finding.ItemShots}},
		},
		Remains: "frost that nobody noticed",
	}, {
		ID: "jam", What: "A projectile sticks and is freed by hand", Who: "who frees it", Harm: "a lost eye", Before: Risk{Lasting, Possible},
		Least: Serious,
		Measures: []Measure{
			{Design, "the air behind it gets out by itself", []string{finding.BarrelJammed, finding.BarrelStalled}, nil},
			{Information, "the drill: air out first, nobody in line, never a look in", nil, []string{finding.ItemJamDrill}},
		},
		Remains: "haste",
	}, {
		ID: "hardened", What: "The tip hardens: cold, age, paint, another batch", Who: "whom it meets", Harm: "a lost eye",
		Before: Risk{Lasting, Possible},
		Least:  Lasting,
		Measures: []Measure{
			{Guard, "press test of the tip, retired by date", []string{finding.DatesPast}, []string{finding.ItemTip, finding.ItemAgeRetire}},
			{Information, "stored warm and dry", nil, []string{finding.ItemColdDrain}},
		},
		Remains: "a tip that was not looked at that day",
	}, {
		ID: "mount", What: "The mount falls, tips or turns to people", Who: "who stands near", Harm: "a crushed foot, a shot at a face",
		Before: Risk{Serious, Possible}, Least: Slight,
		Measures: []Measure{{Design, "stops that were pushed against; no energy from any elevation above the limit",
			[]string{finding.EnergyTotal},
			[]string{finding.ItemElevation, finding.ItemShots}}},
		Remains: "a stop that works loose on the way",
	}, {
		ID: "altitude", What: "It is used higher up, or in other weather, than it was tested in", Who: "everyone in front", Harm: "a harder hit",
		Before: Risk{Serious, Unlikely}, Least: Slight,
		Measures: []Measure{{Design, "the worst case runs over every air pressure and temperature that the design states",
			[]string{finding.EnergyTotal, finding.HeatSoak},
			[]string{finding.ItemShots}}},
		Remains: "a place or a day outside what the design states",
	}}
}

// ofThePressure are the hazards of what is stored.
func ofThePressure() []Hazard {
	return []Hazard{{
		ID: "burst", What: "A vessel, hose or the barrel bursts", Who: "everyone near", Harm: "splinters", Before: Risk{Deadly, Possible},
		Least: Lasting,
		Measures: []Measure{
			{Design, "parts rated for gas above every pressure that was computed, single faults included",
				[]string{finding.VesselRating, finding.VesselMaterial,
					finding.BarrelBlocked, finding.StoredEnergy, finding.HeatSoak, finding.GaugeRange}, []string{finding.ItemLabels,
					finding.ItemWaterTest}},
			{Guard, "a relief valve that carries the whole supply, lifted on a bench, with nothing to shut before it",
				[]string{finding.ReliefCapacity, finding.ReliefRating, finding.LadderOrder}, []string{finding.ItemReliefTest,
					finding.ItemReliefShutOff}},
			{Information, "age and cracks looked for, parts retired by date", []string{finding.DatesPast}, []string{finding.ItemAgeRetire}},
		},
		Remains: "damage that nobody can see",
	}, {
		ID: "overpressure", What: "Too much pressure: what ends the filling fails, is misread or turned up, or another pump",
		Who:    "everyone near",
		Harm:   "a harder shot, a burst",
		Before: Risk{Lasting, Possible}, Least: Serious,
		Measures: []Measure{
			{Design, "at any single fault the energy and every rating hold", []string{finding.EnergyFault, finding.VesselRating,
				finding.SourceLimited},
				[]string{finding.ItemShots, finding.ItemLabels}},
			{Guard, "what ends the filling set on an independent gauge, sealed or watched; relief valve tested", []string{finding.SwitchBand},
				[]string{finding.ItemSwitchTest, finding.ItemReliefTest, finding.ItemPumpMark, finding.ItemTimerEmpty, finding.ItemPrefill}},
		},
		Remains: "two faults at once",
	}, {
		ID: "trapped", What: "Pressure stays in after switching off", Who: "who strips, carries or loads it",
		Harm:   "struck by air, by a part or by a shot",
		Before: Risk{Lasting, Possible},
		Least:  Slight,
		Measures: []Measure{
			{Design, "every volume empties by itself, without power too", []string{finding.VentShutdown, finding.VentPowerLoss, finding.VentTrapped},
				[]string{finding.ItemVentTest, finding.ItemVentByHand, finding.ItemStaysEmpty, finding.ItemSupplyOff}},
			{Guard, "a gauge that tells empty from full", []string{finding.GaugeReadable}, []string{finding.ItemGaugeCompare}},
			{Information, "the tag that says it is open", nil, []string{finding.ItemOpenTag}},
		},
		Remains: "a gauge that sticks",
	}, {
		ID: "unattended", What: "Left charged and unattended; a child tries it", Who: "children", Harm: "a lost eye",
		Before: Risk{Lasting, Possible},
		Least:  Serious,
		Measures: []Measure{
			{Design, "switched off it is empty within the time stated", []string{finding.VentShutdown}, []string{finding.ItemVentTest}},
			{Information, "the key goes with the adult", nil, []string{finding.ItemKeyAndStop}},
		},
		Remains: "an adult who is called away",
	}, {
		ID: "hose", What: "A hose lets go and whips", Who: "who stands near", Harm: "a bruise, an eye", Before: Risk{Lasting, Unlikely},
		Least: Serious,
		Measures: []Measure{{Guard, "clips, sleeve, restraint; leak-down before use", nil, []string{finding.ItemHoseRestraint,
			finding.ItemLeakDown,
			finding.ItemEndCaps}}},
		Remains: "ageing hose",
	}, {
		ID: "jet", What: "Air or grit from an outlet meets skin, an eye or an ear", Who: "who stands near",
		Harm:   "grit in an eye, air under the skin",
		Before: Risk{Serious, Possible}, Least: Slight,
		Measures: []Measure{{Guard, "outlets blow away from faces and ears", []string{finding.VentPoints}, []string{finding.ItemVentOutlets}}},
		Remains:  "a hand held before it",
	}, {
		ID: "water", What: "Water and rust in the tank; ice in valves", Who: "everyone near",
		Harm:   "a weak vessel, a valve that stays open or shut",
		Before: Risk{Serious, Possible}, Least: Slight,
		Measures: []Measure{{Information, "drained after each day, stored warm, age and rust looked for", nil, []string{finding.ItemColdDrain,
			finding.ItemAgeRetire}}},
		Remains: "frost that nobody noticed",
	}, {
		ID: "bottle", What: "Oxygen, carbon dioxide or a fuel gas in place of air; the regulator fails open; a bottle falls",
		Who: "everyone near", Harm: "fire, a burst, a bottle that flies", Before: Risk{Deadly, Possible}, Least: Lasting, where: bottled,
		Measures: []Measure{
			{Design, "a regulator that fails open is within every limit", []string{finding.VesselRating, finding.EnergyFault},
				[]string{finding.ItemShots, finding.ItemLabels}},
			{Information, "the label of bottle or main read at each change; a bottle strapped upright; never oxygen", nil,
				[]string{finding.ItemLabels}},
		},
		Remains: "gas that is not what the label says; the rules of who sells it go before this list",
	}}
}

// ofPeople are the hazards of who is near.
func ofPeople() []Hazard {
	return []Hazard{{
		ID: "wheels", What: "A child runs after a projectile, into wheels or traffic", Who: "children near", Harm: "killed or maimed",
		Before: Risk{Deadly, Likely},
		Least:  Deadly,
		Measures: []Measure{
			{Design, "nothing comes down near wheels that move", []string{finding.PeopleWheels}, nil},
			{Guard, "a landing zone with a net or with adults who collect", []string{finding.PeopleLanding}, []string{finding.ItemLandingClear,
				finding.ItemClearAllRound}},
		},
		Remains: "a child who breaks away",
	}, {
		ID: "sealed", What: "Mouth or ear sealed on the muzzle", Who: "children", Harm: "a torn lung or eardrum", Before: Risk{Deadly,
			Unlikely}, Least: Serious,
		Measures: []Measure{{Design, "a muzzle that cannot be sealed, or pressures below what hurts a lung", []string{finding.MuzzleSealed},
			[]string{finding.ItemSealGuard}}},
		Remains: "a guard that is taken off",
	}, {
		ID: "choking", What: "Choking on a ball or a bitten piece", Who: "under-threes", Harm: "death", Before: Risk{Deadly, Unlikely},
		Least: Deadly,
		Measures: []Measure{
			{Design, "a size that does not fit, or none so young near", []string{finding.ProjectileChoking}, []string{finding.ItemTugAndBite}},
			{Information, "counted in and out", nil, []string{finding.ItemTugAndBite}},
		},
		Remains: "pieces that come off later",
	}, {
		ID: "hearing", What: "Noise at the ear: shot, vents, pump", Who: "rider, crew", Harm: "lost hearing", Before: Risk{Lasting, Possible},
		Least: Slight,
		Measures: []Measure{
			{Design, "the peak stays below the benchmark", []string{finding.SoundAtPeak}, nil},
			{Guard, "outlets turned away; ear defenders", nil, []string{finding.ItemVentOutlets, finding.ItemHearing}},
		},
		Remains: "children's ears: their sensitivity is not known",
	}, {
		ID: "rider", What: "The rider is startled, lets go, or reaches in", Who: "the rider", Harm: "a fall, a trapped finger",
		Before: Risk{Serious, Possible},
		Least:  Slight, where: ridden,
		Measures: []Measure{
			{Guard, "muzzle and moving parts out of reach, first shots at a stand", nil, []string{finding.ItemGuard, finding.ItemElevation}},
			{Information, "the rider is told before each shot; the adult fires", nil, []string{finding.ItemKeyAndStop}},
		},
		Remains: "a shot that comes sooner than expected",
	}}
}

// ofThings are the hazards of what is not air.
func ofThings() []Hazard {
	return []Hazard{{
		ID: "mains", What: "Mains voltage outdoors and beside water", Who: "who touches it", Harm: "electric shock", Before: Risk{Deadly,
			Unlikely}, Least: Slight,
		where: driven,
		Measures: []Measure{{Guard, "battery, or a residual-current device of 30 mA at the socket, tested that day; local code decides", nil,
			[]string{finding.ItemFuses}}},
		Remains: "a damaged lead",
	}, {
		ID: "fire", What: "Battery, charger, wiring, hot pump", Who: "who touches it", Harm: "a burn, a fire", Before: Risk{Serious,
			Possible}, Least: Slight,
		where: (*launcher.Launcher).Electric,
		Measures: []Measure{{Guard, "a fuse below each wire's rating, battery strapped, charger away from people, pump head guarded",
			[]string{finding.ControlFuses},
			[]string{finding.ItemFuses}}},
		Remains: "damage on the way",
	}, {
		ID: "fuel", What: "Fumes and fuel of an engine that drives the pump", Who: "everyone near", Harm: "poisoning, fire",
		Before: Risk{Deadly, Unlikely},
		Least:  Deadly, where: driven,
		Measures: []Measure{{Information, "an engine runs in the open only and is filled cold; better none", nil, []string{finding.ItemFuses}}},
		Remains:  "exhaust that the wind carries to people",
	}, {
		ID: "link", What: "A radio link, where there is one, is lost, or another sender fires it", Who: "who stands near",
		Harm:   "a shot or a vent at the wrong moment",
		Before: Risk{Lasting, Possible}, Least: Serious, where: valved,
		Measures: []Measure{
			{Design, "without power and signal it empties and does not fire", []string{finding.VentPowerLoss, finding.ShotUnasked}, nil},
			{Information, "the stop pressed in every state; two launchers never on one channel", []string{finding.ControlStop,
				finding.ControlRestart}, []string{finding.ItemKeyAndStop, finding.ItemDryControl, finding.ItemContacts}},
		},
		Remains: "a receiver whose output stays on",
	}, {
		ID: "entangle", What: "Tripping over hose and lead; hair and scarf in moving parts", Who: "everyone near",
		Harm:   "a fall, a trapped finger",
		Before: Risk{Serious, Possible}, Least: Slight,
		Measures: []Measure{{Information, "a zone that is taped off, hoses and leads tied along the frame", nil,
			[]string{finding.ItemClearAllRound,
				finding.ItemHoseRestraint}}},
		Remains: "people who cross the tape",
	}, {
		ID: "transport", What: "Carried under pressure; something loosens on the way", Who: "who carries and who opens it",
		Harm:   "a shot, a fitting that flies",
		Before: Risk{Lasting, Unlikely}, Least: Slight,
		Measures: []Measure{
			{Design, "empty when it is switched off", []string{finding.VentShutdown, finding.VentTrapped}, []string{finding.ItemVentTest}},
			{Information, "the tag that says it is open; leak-down after each journey", nil, []string{finding.ItemOpenTag, finding.ItemLeakDown}},
		},
		Remains: "a crack that nobody saw",
	}}
}
