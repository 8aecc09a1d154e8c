package design

import "puffproof/cmd/puffproof/internal/unit"

func supplyKeys() []key {
	return append([]key{
		{table: "supply", name: "kind", synonyms: []string{"type"}, kind: word, words: []string{"compressor", "hand pump", "regulated cylinder"},
			required: always(), example: `"compressor"`, teach: "What delivers the air."},
		{table: "supply", name: "feeds", synonyms: []string{"to", "into", "fills"}, kind: text, required: always(), example: `"tank"`,
			teach: "The volume it pumps into."},
		{table: "supply", name: "free_air", synonyms: []string{"cfm", "lpm", "scfm", "fad", "nl_min", "flow", "delivery", "output"},
			dimension: unit.VolumeFlow, min: 1e-7, max: 0.05, bands: bands{measured: plusMinus(0.05, 0),
				other: rule{below: 0.40, above: 0.30}}, missing: "fill time and relief capacity are unknown", example: `"12 L/min ± 15 %"`,
			teach: "Air delivered at zero pressure, as intake air. Labels flatter it. Time how long a known volume takes from 0 to p: ± 5 %."},
		{table: "supply", name: "dead_head", synonyms: []string{"max_pressure", "stall_pressure", "maximum_pressure", "cut_off_pressure",
			"deadhead"}, dimension: unit.Pressure, min: 100, max: 4e7, bands: bands{measured: plusMinus(0.05, 1e3), other: plusMinus(0.20, 1e3)},
			missing: "what happens with the switch welded is unknown", example: `"4 bar"`, teach: "Gauge pressure at which it delivers nothing " +
				"more. Let it run against a closed gauge, only below the relief setting; else take the label, ± 20 %."},
		{table: "supply", name: "curve", synonyms: []string{"points", "delivery_curve"}, kind: curve,
			missing: "a straight line from free_air to dead_head",
			example: `[["0 bar", "12 L/min"], ["2 bar", "6 L/min"]]`,
			teach:   "Points of its delivery: gauge pressure and free air, rising pressure."},
		{table: "supply", name: "runs_in", synonyms: []string{"on_in", "runs_when"}, kind: states, missing: `["charging", "armed", "firing"]`,
			example: `["charging", "armed"]`, teach: "The states in which the switch may start it. It never runs in off or without power."},
	}, switchKeys()...)
}

func switchKeys() []key {
	set := bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.15, 1e4)}
	return []key{
		{table: "pressure_switch", name: "senses", synonyms: []string{"on", "at", "measures"}, kind: text, required: always(),
			example: `"tank"`, teach: "The volume whose pressure it feels."},
		{table: "pressure_switch",
			name: "cut_out", synonyms: []string{"shut_off", "shutoff", "cutoff", "cut_off", "trips_at", "max_setting", "stop", "off_at", "upper"},
			dimension: unit.Pressure, required: always(), min: 100, max: 1e6, bands: set, example: `"0.45 bar ± 0.05 bar"`, teach: "Gauge " +
				"pressure at which it stops the supply. Ten cycles on an independent gauge: take highest and lowest, and add the gauge's error."},
		{table: "pressure_switch", name: "cut_in", synonyms: []string{"kicks_in", "restart", "start", "on_at", "lower", "restarts_at"},
			dimension: unit.Pressure, required: always(), min: 50, max: 1e6, bands: set, example: `"0.30 bar ± 0.05 bar"`,
			teach: "Gauge pressure at which it starts the supply again. Without a tolerance it gets the one of cut_out."},
		{table: "pressure_switch", name: "differential",
			synonyms: []string{"hysteresis", "dead_band", "deadband"}, dimension: unit.Pressure, pressure: asDifference, min: 10, max: 1e6,
			bands: bands{measured: plusMinus(0.1, 500), other: plusMinus(0.3, 2e3)}, missing: "switch.band is unknown", example: `"0.1 bar"`,
			teach: "The smallest gap between cut-out and cut-in that this switch can be set to."},
		{table: "pressure_switch", name: "reaction_time", synonyms: []string{"delay", "lag"}, dimension: unit.Time, sign: orZero, max: 60,
			bands: bands{measured: plusMinus(0.2, 0.02), other: plusMinus(1, 0.1)}, missing: "0.1 s, 0 to 0.5 s", example: `"0.1 s ± 0.1 s"`,
			teach: "From reaching cut-out to the supply standing still: the tank goes on filling."},
		{table: "pressure_switch", name: "gauge_error", dimension: unit.Pressure, pressure: asDifference, sign: orZero, max: 1e6,
			bands:   declared(),
			missing: "the class of the gauge on the sensed volume, else none is counted and it is unknown", example: `"0.02 bar"`,
			teach: "Error of the gauge that the switch was set by; counted to both sides."},
		{table: "pressure_switch", name: "adjustable", kind: answer, missing: "unknown, which counts as adjustable", example: `true`,
			teach: "Whether anybody can turn it up. Seal the screw."},
		{table: "pressure_switch", name: "adjustable_to", synonyms: []string{"end_stop", "max_adjustment", "range"},
			dimension: unit.Pressure, min: 100, max: 4e6, bands: bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.15, 1e4)},
			missing: "the end of its range is unknown", example: `"1.5 bar"`, teach: "Cut-out with its screw at the end stop."},

		{table: "gauge", name: "on", aliases: []string{"senses"}, synonyms: []string{"at", "reads"}, kind: text, required: always(),
			example: `"tank"`, teach: "The volume it reads."},
		{table: "gauge", name: "range", synonyms: []string{"full_scale", "max", "scale"}, dimension: unit.Pressure, pressure: asDifference,
			required: always(), min: 100, max: 4e7, bands: declared(), example: `"1 bar"`, teach: "The last figure on its dial."},
		{table: "gauge", name: "class", synonyms: []string{"accuracy", "accuracy_class"},
			dimension: unit.Dimensionless, min: 0.01, max: 20, bands: declared(), missing: "4 percent of the range", example: `1.6`,
			teach: "Small print on the dial, such as 1.6: percent of the range. Check it against a U-tube: 98 mbar for a metre of water."},
		{table: "gauge", name: "error", dimension: unit.Pressure, pressure: asDifference, sign: orZero, max: 1e6, bands: declared(),
			missing: "from class and range",
			example: `"0.02 bar"`, teach: "Its largest error, instead of a class."},
		{table: "gauge", name: "graduation", synonyms: []string{"division", "resolution"}, dimension: unit.Pressure, pressure: asDifference,
			min: 1, max: 1e6, bands: declared(), missing: "a fiftieth of the range", example: `"0.02 bar"`, teach: "From one mark to the next."},
		{table: "gauge", name: "stop_pin", synonyms: []string{"pin"}, kind: answer, missing: "unknown, which counts as yes", example: `false`,
			teach: "Whether the needle rests on a pin: \"zero\" then means anything below 6 % of the range."},
	}
}
