package explain

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// pressing are the keys that say how far a launcher is filled.
func pressing() []string {
	return []string{"pressure_switch.cut_out", "supply.dead_head", "supply.pumped_to", "volumes.NAME.filled_to", "ambient.hottest"}
}

// shooting are the keys that bear on the energy of a shot.
func shooting() []string {
	return keys(pressing(), []string{"volumes.NAME.volume", "barrel.travel", "barrel.engagement", "barrel.bore",
		"barrel.tube_outer_diameter", "barrel.dead_volume", "paths.NAME.orifice", "paths.NAME.Cv", "paths.NAME.sonic_conductance",
		"paths.NAME.opening_time", "projectile.mass", "projectile.breakaway_force", "projectile.sliding_force", "projectile.clearance"})
}

// limiting are the keys that choose the limit of an energy.
func limiting() []string {
	return []string{"projectile.tip", "projectile.tip_proof", "limits.total_energy", "limits.policy"}
}

// factor says by how much the model's energies are raised.
func factor() finding.Text {
	return finding.Say("times a model factor, %.3g, or more where the fast model is outside its range or air comes through a hose",
		worst.ModelFactor)
}

var totals = []benchmark.BenchmarkID{benchmark.TotalResilient, benchmark.TotalRigid}

func ofEnergies() []text {
	return []text{{
		id:   finding.EnergyTotal,
		asks: finding.Words("How hard can the projectile hit, in the worst launcher that your tolerances allow, on its worst shot?"),
		way: finding.Say("Many shots are computed over every tolerance, every depth to which the projectile can be pushed in and every "+
			"start pressure up to the highest of normal use, heat included. The hardest of them counts, %s: basis model; so does a harder one that "+
			"a change of state lets off by itself (shot.unasked). Where the air itself "+
			"cannot do more than the limit, whatever valve and friction do, that ceiling decides: basis ceiling. With enough measured shots the "+
			"bound that they give counts: basis measured. The tip chooses the limit: one that is not shown to be resilient counts as rigid.",
			factor()),
		not: always(), marks: totals, moves: keys(shooting(), limiting()),
	}, {
		id: finding.EnergyArea,
		asks: finding.Words("How hard does the projectile hit for the size of the spot that it touches? The same energy on a small spot " +
			"hurts more."),
		way: finding.Words("The energy that energy.total judges, divided by the area of the smallest print that the tip leaves on a flat " +
			"plate: you measure the print with ink and paper. Whatever the energy, a tip that counts as rigid holds only while it is " +
			"rounded."),
		not: finding.Say("Where the worst energy is at or below %s, at which no energy per area is tested.",
			finding.Joule(benchmark.BenchmarkOf(benchmark.EnergyFloor).Value)),
		marks: []benchmark.BenchmarkID{benchmark.AreaConservative, benchmark.AreaPublished, benchmark.EnergyFloor, benchmark.TipRadius},
		moves: keys([]string{"projectile.contact_diameter", "limits.policy", "limits.energy_per_area"}, shooting()),
	}, {
		id:   finding.MisuseOfObjects,
		asks: finding.Words("What if somebody loads something else: a pebble, a pencil, a marble, a second toy?"),
		way: finding.Say("Every object of a list, and each that your [[objects]] add, is tried against the opening of the muzzle. One that "+
			"enters is shot at the worst over all tolerances, its energy times %.3g, and judged as a rigid tip. So is a cap that somebody "+
			"puts over a launch tube, and each of your objects that is wider than the tube. Where it is too much, the "+
			"verdict holds only while people keep the object_control that you declare.", worst.ModelFactor),
		not:   finding.Words("Where nothing of the list goes into the muzzle of a bore. A second projectile is then an item of the checklist."),
		marks: []benchmark.BenchmarkID{benchmark.TotalRigid},
		moves: keys([]string{"barrel.muzzle_admits", "barrel.object_control", "objects.diameter", "objects.mass"}, shooting()),
	}, {
		id:   finding.SourceLimited,
		asks: finding.Words("Is the supply so weak that it cannot shoot too hard even if nothing ever stops it?"),
		way: finding.Words("The supply's dead head, at which it stalls by itself, left in the heat, is taken as the start pressure of the " +
			"worst shot. Where that shot is within the limits and the pressure within every rating, a switch that never stops the supply makes no " +
			"shot too hard while every other part does its work. It never fails, and excuses no switch and no relief valve: what one fault " +
			"adds to such a shot is no part of it."),
		not: finding.Words("Where there is no supply, its dead_head is not stated, a regulator stands before a stronger source, or the supply " +
			"can push too far: then switch and relief valve must do the work, and other verdicts judge them."),
		marks: totals, moves: keys([]string{"supply.dead_head", "supply.kind", "supply.source_pressure"}, limiting()),
	}}
}

func ofStandstill() []text {
	return []text{{
		id:   finding.BarrelStalled,
		asks: finding.Words("A shot does not leave the barrel and somebody pulls the projectile out: how hard can it come?"),
		way: finding.Words("Over all tolerances the highest start pressure is sought from which the projectile still stays in the barrel, and " +
			"the most that the air left behind it could give. No friction is counted on: basis ceiling. A valve that a timer shuts is looked " +
			"at without its pulse as well: the timer may fail, and whoever sees nothing fly pulls again."),
		not: always(), marks: totals,
		moves: keys([]string{"projectile.sliding_force", "projectile.breakaway_force", "projectile.restart_force",
			"projectile.clearance", "barrel.travel", "barrel.engagement"}, pressing(), limiting()),
	}, {
		id:   finding.BarrelJammed,
		asks: finding.Words("The projectile never moved, the whole charge stands behind it, and somebody frees it: how hard can it come?"),
		way: finding.Words("The most that the whole charge, and all that is joined to it, could give it at once; and what is left of that when " +
			"the launcher has been off, or without power, for the time of [venting] within. Within the limit at once it passes. Within it " +
			"only after that time, it holds while nobody comes near before. Above it even then it fails: let the air out by a hole that " +
			"nothing shuts."),
		not: always(), marks: totals,
		moves: keys([]string{"venting.within", "paths.NAME.orifice", "paths.NAME.open_in", "paths.NAME.unpowered",
			"volumes.NAME.volume"}, pressing(), limiting()),
	}}
}
