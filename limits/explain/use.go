package explain

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/verdict"
)

func ofBody() []text {
	lung := benchmark.BenchmarkOf(benchmark.LungVolume)
	return []text{{
		id:   finding.MuzzleSealed,
		asks: finding.Words("A child puts the muzzle into the mouth and it fires: what does the lung see?"),
		way: finding.Say("All the air that the shot can let out is mixed into %s, with all that the supply goes on to blow in. The "+
			"pressure that results is held against the least at which harm to a lung is reported. Above it the verdict holds only while a "+
			"guard that lips cannot seal is on the muzzle.", finding.Litre(lung.Value)),
		not: always(), marks: []benchmark.BenchmarkID{benchmark.LungPressure, benchmark.LungVolume},
		moves: keys([]string{"barrel.seal_guard", "volumes.NAME.volume", "supply.free_air"}, pressing()),
	}, {
		id:   finding.ProjectileChoking,
		asks: finding.Words("Can a small child get the projectile into the throat?"),
		way: finding.Words("The smallest diameter of the projectile against the ring for small balls, or for a projectile over a tube the " +
			"cylinder for small parts. What passes the gauge holds only while no child under three is near; what does not, where one may be, " +
			"only while no piece comes off."),
		not:   always(),
		marks: []benchmark.BenchmarkID{benchmark.SmallBall, benchmark.SmallPart, benchmark.SmallPartAge, benchmark.SmallPieces},
		moves: []string{"projectile.diameter", "event.youngest", "barrel.fit"},
	}}
}

func ofEmptying() []text {
	emptied := finding.Words("Every volume is emptied from every state, from the highest pressure that a fault can leave, at the slow end " +
		"of the tolerances: coldest, narrowest, largest. The slowest must be at the target within the time that you state. It fails too where " +
		"the target itself is so high that a shot from it is too hard, or where the air on its way out pushes a loaded projectile out.")
	moves := keys([]string{"venting.within", "venting.target", "paths.NAME.orifice", "paths.NAME.Cv", "paths.NAME.open_in",
		"paths.NAME.unpowered", "volumes.NAME.volume"}, stopping())
	aimed := []string{"paths.NAME.points", "barrel.seal_guard", "paths.NAME.to", "paths.NAME.orifice", "paths.NAME.open_in"}
	return []text{{
		id:   finding.VentShutdown,
		asks: finding.Words("Somebody switches it off: how long until it is empty?"),
		way: emptied.Say(" Where a supply that runs on, or a valve that only a hand opens, stands in the way, it holds only while people do " +
			"their part."),
		not: always(), source: verdict.VentRule, moves: keys(moves, []string{"supply.runs_in"}),
	}, {
		id:   finding.VentPowerLoss,
		asks: finding.Words("The battery dies or a plug comes out: does it still empty by itself, and how fast?"),
		way:  emptied.Say(" Each valve is taken in the position that it has without power."),
		not:  always(), source: verdict.VentRule, moves: moves,
	}, {
		id:   finding.VentTrapped,
		asks: finding.Words("Is there a volume that keeps its air because every way out is shut?"),
		way: finding.Words("A walk over the paths of the circuit, on shutdown and without power, from every state and with a projectile stuck " +
			"in the barrel. Every volume needs an open way to the atmosphere; those without one are counted."),
		not: always(), source: verdict.VentRule,
		moves: []string{"paths.NAME.from", "paths.NAME.to", "paths.NAME.kind", "paths.NAME.open_in", "paths.NAME.unpowered",
			"paths.NAME.cracking_pressure"},
	}, {
		id:   finding.VentPoints,
		asks: finding.Words("Does an outlet blow at the muzzle, so that emptying it shoots?"),
		way: finding.Words("An outlet that points at the barrel is taken as if it led into it, and what it does to a loaded projectile is " +
			"computed as a push. Where switching off or a pulled plug is what makes it, no push at all is allowed; of a relief valve that lifts " +
			"none without a guard, or with hands at the muzzle. An outlet of which you do not say " +
			"where it blows is unknown where it would matter."),
		not:    finding.Words("Where every outlet points away, or there is none."),
		marks:  totals,
		source: ownRule + ": an outlet that points at the barrel counts as one that leads into it", moves: aimed,
	}}
}

func ofGauges() []text {
	return []text{{
		id:   finding.GaugeReadable,
		asks: finding.Words("Can the gauge show that it is empty? A coarse gauge reads zero when it is not."),
		way: finding.Words("The least pressure that each gauge can tell from zero, by its class, its scale and its stop pin, must not be above " +
			"the pressure that counts as empty. A gauge shows another volume than its own only through what is open then and passes both ways, " +
			"and only if an opening on its own side passes a tenth of that or less. " +
			"A volume that the barrel is shot from and no gauge ever shows fails; " +
			"one that no gauge shows while it is armed or empties is a condition: a clock and its vent, heard, tell."),
		not: finding.Words("Never: without a gauge the verdict is unknown."), marks: []benchmark.BenchmarkID{benchmark.VentTarget},
		source: ownRule + "; ISO 4414:2010, 5.2.8: residual pressure is indicated (V2: read in a secondary text)",
		moves:  []string{"gauge.on", "gauge.range", "gauge.class", "gauge.error", "gauge.graduation", "gauge.stop_pin", "venting.target"},
	}, {
		id:   finding.GaugeRange,
		asks: finding.Words("Can the gauge show, and bear, the pressures that there can be?"),
		way: finding.Words("For each gauge two marks: the highest pressure at a single fault against the end of its scale, and the steady " +
			"pressure, heat included, against three quarters of it. The nearer of the two is shown."),
		not:    finding.Words("Where no gauge sits on a volume."),
		source: "EN 837-1 and EN 837-2: steady load up to 75 % of the scale (M: from memory); " + ownRule,
		moves:  keys([]string{"gauge.range", "gauge.on", "pressure_switch.cut_out"}, stopping()),
	}}
}
