package explain

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/sound"
)

func ofFaults() []text {
	return []text{{
		id:   finding.EnergyFault,
		asks: finding.Words("One part fails: how hard can it shoot then?"),
		way: finding.Say("Every single fault that the parts can have is made in turn: a valve stuck or leaking, a switch welded, a relief valve "+
			"stuck shut, a restrictor missing. Where it can change the shot, the worst over all tolerances is searched again, %s. The hardest "+
			"is shown. Foam whose cells are open, or not stated, is shot soaked with water as well, up to %d times its mass: above the limit it "+
			"holds only while each projectile is weighed before each use. Unless ambient.coldest is above freezing, one is shot too that ice "+
			"holds as firmly as all the air pushes, and that lets go then: above the limit it holds only while each turns freely in frost.",
			factor(), benchmark.SoakedMass),
		not: finding.Words("Where no single fault can change the shot."), marks: totals,
		moves: keys(stopping(), shooting(), limiting(), []string{"paths.NAME.orifice_removable", "projectile.open_cell",
			"ambient.coldest"}),
	}, {
		id:   finding.ShotUnasked,
		asks: finding.Words("Can one fault, a lost plug, or a change of state fire it when nobody asked?"),
		way: finding.Words("All faults of valves, power and, where [control] is stated, the wiring, while it charges, stands armed or is " +
			"loaded; and switching it off, charging, arming and loading it with no fault at all. By such a change, with hands at the muzzle, by " +
			"loss of power, by one part of [control] that fails, or without a guard, no energy is small enough. Else a shot within the limit " +
			"holds only behind two independent actions, of which a timer is none, and a guard that keeps faces and fingers away."),
		not: always(), source: ownRule + ": never while hands are at the muzzle, else only behind two independent actions and a guard",
		moves: []string{"paths.NAME.unpowered", "paths.NAME.open_in", "barrel.seal_guard", "paths.NAME.from", "paths.NAME.to"},
	}, {
		id:   finding.LoadingEmpty,
		asks: finding.Words("With hands at the muzzle, how much has to go wrong at once before air gets to them?"),
		way: finding.Words("Barriers are counted on every way from a volume that holds air to the barrel: a shut valve, a check valve against " +
			"its direction, or an open vent between that empties its volume within venting.within, by a hole that no grain blocks unseen. Two " +
			"are wanted, one of them a shut valve. Where a vent or a slow valve has to be waited for, it holds only while people do."),
		not: always(), source: ownRule,
		moves: []string{"paths.NAME.open_in", "paths.NAME.kind", "paths.NAME.from", "paths.NAME.to", "paths.NAME.orifice", "venting.within"},
	}}
}

func ofPeople() []text {
	flying := keys([]string{"mount.elevation_min", "mount.elevation_max", "event.wind", "event.muzzle_height",
		"projectile.drag_coefficient"}, shooting())
	return []text{{
		id:   finding.PeopleLanding,
		asks: finding.Words("Does somebody stand where the projectile can come down?"),
		way: finding.Words("The fastest shot is flown over every elevation and wind that you state, with its bounce: that gives the radius of " +
			"the landing zone. The nearest person must be outside. Inside it holds only while something is done about it, a net or a clear " +
			"ground, and only where the shot is within its energy limits, with what its fall from the muzzle adds too: m g h, without drag."),
		not:    finding.Words("Never: without event.nearest_person the verdict is unknown."),
		source: ownRule + ": the landing zone of the fastest shot with its bounce, over every elevation and wind",
		moves:  keys([]string{"event.nearest_person", "event.kerb", "event.ear_to_muzzle", "event.eye_to_muzzle"}, flying),
	}, {
		id:   finding.PeopleWheels,
		asks: finding.Words("Can a projectile land at the wheels of the launcher's own vehicle, where children run after it?"),
		way: finding.Words("The distance from muzzle to wheel against the same landing zone. Inside it fails where it may fire while it moves, " +
			"and holds while it stands with its brake set until adults have collected everything."),
		not:    finding.Words("Where there is no vehicle: neither wheels nor a speed nor a rider is stated."),
		source: ownRule + ": children run after a projectile",
		moves:  keys([]string{"event.wheels", "event.vehicle_speed", "mount.moving_at", "mount.ride_on"}, flying),
	}}
}

func ofSound() []text {
	return []text{{
		id:   finding.SoundAtPeak,
		asks: finding.Words("How loud is a shot at the worse ear, the nearest or the nearest person's?"),
		way: finding.Say("An interval for the peak level, C-weighted, of the loudest of: the air pushed out ahead of the projectile, the "+
			"burst of what is left behind it, valves that open, the pump by its stated level. Expected: the nominal shot, the burst through "+
			"the ring that the projectile uncovers, into the open. Upper end: the loudest shot over the tolerances, its bore opened at once, "+
			"before a hard wall. The upper end is judged. From %s on, there or expected at %s, it holds only while a recording shows less or "+
			"ears are protected. The interval is wide: 20 dB are common. A recorded peak (event.peak_level) takes the model's place, with "+
			"what the tolerances add. Of a pump that is stated to be loud the steady noise is told too, and from 100 dB(A) at %s on it holds only "+
			"behind ear defenders. Broadband noise of jets, rooms and single faults are left out.",
			finding.Decibel(benchmark.BenchmarkOf(benchmark.SoundPeak).Value), finding.Metre(sound.PlaceOfBenchmark), finding.Metres.Of(1, 1)),
		not:   finding.Words("Where no shot leaves the barrel and nothing else opens. Without event.ear_to_muzzle the verdict is unknown."),
		marks: []benchmark.BenchmarkID{benchmark.SoundPeak, benchmark.SoundWork, benchmark.SoundDaily},
		source: "compact source (monopole), the open end of a pipe after Levine and Schwinger, Phys. Rev. 73 (1948) 383, C-weighting of " +
			"IEC 61672-1; the upper end is an " + ownRule,
		moves: keys([]string{"event.ear_to_muzzle", "event.nearest_person", "event.peak_level", "supply.noise_level", "barrel.seating",
			"projectile.breakaway_force", "projectile.sliding_force"}, shooting()),
	}}
}

func ofPapers() []text {
	asked := func(file string) finding.Text {
		return finding.Words("It is asked only where a file of readings is given: " + file + ".")
	}
	unwired := finding.Words("It is not asked where the design has no [control].")
	wired := []string{"control.NAME.through", "control.NAME.kind", "control.NAME.closed_in", "control.NAME.moves"}
	return []text{{
		id:   finding.ControlStop,
		asks: finding.Words("Does the stop take the current from everything, whichever single contact is welded or dead?"),
		way: finding.Words("The wiring is switched through on paper: in each state the stop is pressed, as built and with each contact, relay, " +
			"remote, timer, key, button and switch stuck in turn, and with each contact, coil and fuse dead. A load that still has current " +
			"then fails, but for one that is meant to have it when all is off. Where a wire that several hang on would take the stop away at " +
			"plus, it holds while that wire is kept off. That the stop itself jams is not asked: take one that latches and forces its contacts " +
			"open."),
		not: unwired, source: "ISO 13850, ISO 13849-1 (from memory); " + ownRule, moves: wired,
	}, {
		id:   finding.ControlRestart,
		asks: finding.Words("Does anything start by itself when the stop is released, or the power comes back?"),
		way: finding.Words("After the stop, and after the power was gone, all relays have dropped; then the wiring is switched through with " +
			"nobody pressing a button. A load that gets current so fails: whoever released the stop may have a hand in it."),
		not: unwired, source: "ISO 13850, IEC 60204-1 (from memory); " + ownRule, moves: wired,
	}, {
		id:   finding.ControlFuses,
		asks: finding.Words("Does each wire have a fuse that blows before the wire burns?"),
		way: finding.Words("The first part in the way of each relay and load has to be a fuse, and no fuse may be above what the thinnest wire " +
			"behind it bears."),
		not: unwired, source: "common practice, after IEC 60364-4-43 (from memory)",
		moves: []string{"control.NAME.rating", "control.NAME.wire_rating", "control.NAME.through"},
	}, {
		id:   finding.DatesPast,
		asks: finding.Words("Is a part, or a test that somebody confirmed, past its date?"),
		way: finding.Say("A part fails from the day after its retire_by on, and a confirmed item from the day after its valid_until, which is "+
			"%d months after its date where it states none. The date on which a part was made (made_on) fails where it is still to come; and where "+
			"a vessel or a barrel was made more than forty years ago, foam more than ten, until a retire_by says how long it may be used, and then "+
			"it holds only while a paper shows that it may. "+
			"Where a part has neither date it holds only while a look at the part shows that it is younger. Otherwise the age of a part is "+
			"not judged here: the item %s looks for what it does.", finding.ItemValidMonths, finding.ItemAgeRetire),
		not:    finding.Words("It is not asked where every part has a made_on that does not fail, none a retire_by, and no item is confirmed."),
		source: "dates stated in the design; " + ownRule,
		moves: []string{"volumes.NAME.retire_by", "volumes.NAME.made_on", "barrel.retire_by", "barrel.made_on", "projectile.retire_by",
			"projectile.made_on", "checklist.date", "checklist.valid_until"},
	}, {
		id:   finding.DesignTemplate,
		asks: finding.Words("Which figures are still those of the file that the design was started from?"),
		way: finding.Words("A figure that says \"template\" was written by init and is of nobody's launcher. While there is one, nothing of " +
			"the design is known, whatever the other verdicts say."),
		not: finding.Words("It is not asked where no figure says \"template\"."), source: ownRule,
		moves: []string{"volumes.NAME.volume", "paths.NAME.orifice", "supply.free_air", "barrel.bore", "projectile.mass"},
	}, {
		id:   finding.MeasuredEmptying,
		asks: finding.Words("Does the real launcher empty as it was computed?"),
		way: finding.Words("The readings of a gauge over time are compared with what is computed for your tolerances. What is slower, faster " +
			"or comes back fails; readings that show too little leave the verdict unknown."),
		not: asked("vent --log, dossier --vent-log"), source: "the readings, judged by an " + ownRule,
		moves: []string{"venting.target", "volumes.NAME.volume", "paths.NAME.orifice", "paths.NAME.Cv"},
	}, {
		id:   finding.MeasuredLeak,
		asks: finding.Words("Is the real launcher tight?"),
		way: finding.Words("The readings of a gauge on a shut launcher over time are fitted with a leak, the air's own cooling taken off. A " +
			"leak that is too large fails; too short a log leaves the verdict unknown."),
		not: asked("vent --leak-log, dossier --leak-log"), source: "the readings, judged by an " + ownRule,
		moves: []string{"volumes.NAME.volume", "ambient.temperature"},
	}}
}
