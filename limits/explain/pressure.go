package explain

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// stopping are the keys of what keeps the pressure down when the switch fails.
func stopping() []string {
	return []string{"paths.NAME.set_pressure", "paths.NAME.full_flow_pressure", "paths.NAME.orifice", "supply.free_air", "supply.dead_head"}
}

func ofVessels() []text {
	return []text{{
		id:   finding.VesselRating,
		asks: finding.Words("Can any vessel, hose or the barrel see more pressure than its maker allows?"),
		way: finding.Words("The highest pressure of each part, at the worst single fault and left in the heat, against the rating that you " +
			"state for it, lowered for plastic pipe that is warm. The part nearest to its rating, or furthest above it, is shown. A hose without " +
			"a rating is named and not judged."),
		not: always(), marks: []benchmark.BenchmarkID{benchmark.PlasticPipeGas}, source: "the ratings stated in the design",
		moves: keys([]string{"volumes.NAME.rated_pressure", "barrel.rated_pressure", "paths.NAME.hose.rated_pressure"}, stopping(),
			[]string{"pressure_switch.cut_out", "ambient.hottest"}),
	}, {
		id:   finding.VesselMaterial,
		asks: finding.Words("Is everything that holds air made for compressed gas?"),
		way: finding.Words("Parts are counted that are plastic water pipe, or for which nobody says that their maker rates them for gas. One " +
			"is too many: water pipe bursts into splinters. The labels themselves are items of the checklist."),
		not: always(), marks: []benchmark.BenchmarkID{benchmark.PlasticPipeGas},
		moves: []string{"volumes.NAME.material", "volumes.NAME.rated_for_gas", "barrel.material", "barrel.rated_for_gas"},
	}, {
		id:   finding.BarrelBlocked,
		asks: finding.Words("A hand or mud closes the muzzle while it fires: does the barrel hold?"),
		way: finding.Words("The shot into a closed barrel is computed over all tolerances, with what the supply adds and the air that rushes " +
			"in through a hose, and the highest pressure is held against the rating of the barrel."),
		not: always(), source: "the rating of the barrel stated in the design",
		moves: keys([]string{"barrel.rated_pressure", "barrel.dead_volume", "volumes.NAME.volume", "paths.NAME.opening_time"}, pressing()),
	}, {
		id:   finding.StoredEnergy,
		asks: finding.Words("How much would be let loose if every vessel burst at once?"),
		way: finding.Words("Baker's formula for the expansion of the gas, for each vessel at its highest pressure at a fault, summed, against " +
			"a mark for high stored energy. Apart from that, a vessel of a large rated pressure times volume has to bear a maker's marking, with " +
			"its document at hand; a home-made one of that size fails."),
		not: always(), marks: []benchmark.BenchmarkID{benchmark.HighStoredEnergy, benchmark.SoundPracticePV},
		moves: keys([]string{"volumes.NAME.volume", "volumes.NAME.rated_pressure", "volumes.NAME.material"}, stopping()),
	}}
}

func ofPressures() []text {
	return []text{{
		id: finding.LadderOrder,
		asks: finding.Words("Do the pressures stand in order with room between them: cut-in, cut-out, relief valve opening, its full flow, " +
			"ratings?"),
		way: finding.Words("Each is taken at the end of its tolerance that is nearest to its neighbour. The smallest gap must not be " +
			"negative. Where two overlap, a relief valve hisses in normal use or opens too late."),
		not:    finding.Words("Where there is no pressure switch: then something else ends the filling, and it has no rungs to mix up."),
		marks:  []benchmark.BenchmarkID{benchmark.ReliefFullFlowShare},
		source: ownRule + ", except for the relief valve against the rating",
		moves: []string{"pressure_switch.cut_out", "pressure_switch.cut_in", "pressure_switch.gauge_error", "paths.NAME.set_pressure",
			"paths.NAME.full_flow_pressure", "paths.NAME.reseat_pressure", "volumes.NAME.rated_pressure", "ambient.hottest"},
	}, {
		id:   finding.SwitchBand,
		asks: finding.Words("Is there enough room between cut-in and cut-out for this switch?"),
		way: finding.Words("The lowest cut-out less the highest cut-in that the tolerances allow must be at least the smallest gap that the " +
			"switch can be set to. Below it the switch may never start, or chatter."),
		not: finding.Words("Where there is no pressure switch."), source: "the data of the switch stated in the design",
		moves: []string{"pressure_switch.cut_out", "pressure_switch.cut_in", "pressure_switch.differential"},
	}, {
		id:   finding.HeatSoak,
		asks: finding.Words("Filled when it is cool, sealed and left in the sun: how far does the pressure climb?"),
		way: finding.Words("The highest pressure of normal use is raised by the ideal gas law from the temperature at filling to the hottest " +
			"that you state, and held against the low end of the relief valve or the lowest rating, whichever is lower."),
		not: finding.Words("Where ambient.hottest is not stated."), source: "ideal gas at constant volume",
		moves: []string{"ambient.hottest", "ambient.temperature", "pressure_switch.cut_out", "supply.dead_head", "paths.NAME.set_pressure",
			"volumes.NAME.rated_pressure"},
	}, {
		id:   finding.ValveDifferential,
		asks: finding.Words("Does the firing valve open fully at the lowest pressure at which somebody can fire?"),
		way: finding.Words("The lowest cut-in, or nothing at all without a switch, against the least difference of pressure that the valve's " +
			"data sheet asks for. Below it a piloted valve may stay shut or open slowly."),
		not:    finding.Words("Where no firing valve states a least differential and none is piloted."),
		source: "the data sheet of the valve, as stated in the design",
		moves:  []string{"paths.NAME.min_differential", "paths.NAME.drive", "pressure_switch.cut_in"},
	}}
}

func ofRelief() []text {
	return []text{{
		id:   finding.ReliefCapacity,
		asks: finding.Words("If the switch never stops the supply, can the relief valve pass all that comes?"),
		way: finding.Words("The supply at its strongest and the relief valve at its weakest are balanced: the pressure at which both pass the " +
			"same must not be above the pressure of full flow at the top of its tolerance. A steady pressure that you measured with the " +
			"switch bridged takes the place of the computed one."),
		not: finding.Words("Where there is no supply, or no relief valve on the volume that it fills: then the dead head is the pressure at a " +
			"fault."),
		source: "ASME BPVC VIII-1 UG-125(c) and ISO 4126-1: capacity at the relieving pressure (V2: read in a secondary text)",
		moves: []string{"paths.NAME.orifice", "paths.NAME.discharge_coefficient", "paths.NAME.set_pressure", "paths.NAME.full_flow_pressure",
			"supply.free_air", "supply.peak_flow", "supply.dead_head"},
	}, {
		id:   finding.ReliefRating,
		asks: finding.Words("Does the relief valve keep the pressure below the weakest part that it protects?"),
		way: finding.Words("The pressure at which supply and relief valve balance, at the bad ends of their tolerances, against the lowest " +
			"rating of what is joined to the supply."),
		not:   finding.Words("Where there is no relief valve on the volume that the supply fills, or the launcher comes filled."),
		marks: []benchmark.BenchmarkID{benchmark.ReliefFullFlowShare, benchmark.ReliefFullFlowASME},
		moves: keys([]string{"volumes.NAME.rated_pressure"}, stopping()),
	}}
}
