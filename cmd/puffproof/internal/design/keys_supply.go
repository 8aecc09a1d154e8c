package design

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

func supplyKeys() []key {
	return append([]key{
		{table: "supply", name: "kind", synonyms: []string{"type"}, kind: word, words: supplyKinds(),
			required: always(), example: `"compressor"`, teach: "What delivers the air: a compressor or inflator (whatever a motor drives), a " +
				"hand pump (whatever a person drives), a regulated cylinder, or shop air: a compressed-air main behind a regulator. A vessel " +
				"that comes filled has no supply: volumes.NAME.filled_to."},
		{table: "supply", name: "feeds", synonyms: []string{"to", "into", "fills"}, kind: text, required: always(), example: `"tank"`,
			teach: "The volume it pumps into."},
		{table: "supply", name: "free_air", synonyms: []string{"cfm", "lpm", "scfm", "fad", "nl_min", "flow", "delivery", "output"},
			dimension: unit.VolumeFlow, min: 1e-7, max: 0.05, bands: bands{measured: plusMinus(0.05, 0),
				other: rule{below: 0.40, above: 0.30}}, missing: "fill time and relief capacity are unknown; the energy too where " +
				"it may push while it is fired", example: `"12 L/min ± 15 %"`,
			teach: "Air delivered at zero pressure, as intake air. Labels flatter it. Time how long a known volume takes from 0 to p: ± 5 %."},
		{table: "supply", name: "peak_flow", synonyms: []string{"stroke_flow", "peak_free_air", "max_flow"}, dimension: unit.VolumeFlow,
			min: 1e-7, max: 0.3, in: []string{"hand pump"}, bands: bands{measured: plusMinus(0.10, 0), other: plusMinus(0.30, 0)},
			missing: "3.1 times free_air, 1 to 6 times", example: `"60 L/min"`, teach: "Free air in the middle of a stroke: that is what a relief " +
				"valve must carry. A pump that delivers on one of its two strokes has pi times the mean of free_air there, a jerk twice that."},
		{table: "supply", name: "pumped_to", synonyms: []string{"mark", "pump_to", "stop_at", "pumped_until"}, dimension: unit.Pressure,
			min: 100, max: 1e6, in: []string{"hand pump"}, bands: bands{measured: plusMinus(0.10, 5e3), other: plusMinus(0.20, 1e4)},
			missing: "nobody stops it: what relief valve or dead head allow", example: `"0.30 bar ± 0.05 bar"`, teach: "The mark on the gauge at " +
				"which the person stops, the last stroke included. It holds only while somebody watches: an item of the checklist; " +
				"pumping on is a fault, up to the relief valve's full flow or the dead head."},
		{table: "supply", name: "fill_time", synonyms: []string{"timer", "run_time", "runs_for", "on_time"}, dimension: unit.Time, min: 0.1,
			max: 3600, in: []string{"compressor"}, bands: bands{measured: plusMinus(0.05, 0.2), other: plusMinus(0.20, 0.5)},
			missing: "no timer stops it", example: `"8 s ± 0.5 s"`, teach: "How long a timer lets it run for one fill. Highest pressure: that of " +
				"its free air in this time, the heat of the fill included; a timer that never stops is a fault."},
		{table: "supply", name: "fills_from", synonyms: []string{"starts_from", "fill_from"}, kind: word,
			words: []string{"empty", "what is left"}, in: []string{"compressor"},
			missing: "what is left: the timer may be started again and again, up to the dead head",
			example: `"empty"`, teach: "With fill_time: whether the launcher is emptied before the timer can start again (an item of the " +
				"checklist), or filled on top of what a shot has left, which nothing limits but relief valve and dead head."},
		{table: "supply", name: "source_pressure", synonyms: []string{"cylinder_pressure", "main_pressure", "inlet_pressure", "bottle_pressure"},
			dimension: unit.Pressure, min: 1e4, max: 4e7, in: []string{"regulated cylinder", "shop air"},
			bands:   bands{measured: plusMinus(0.05, 0), other: plusMinus(0.20, 0)},
			missing: "a cylinder %s, %s to %s; shop air %s, %s to %s",
			missingOf: []finding.Shown{finding.Bars.Of(200e5, 3), finding.Bars.Of(150e5, 3).Beside(), finding.Bars.Of(300e5, 3),
				finding.Bars.Of(8e5, 3), finding.Bars.Of(5e5, 3).Beside(), finding.Bars.Of(16e5, 3)}, example: `"8 bar"`,
			teach: "Gauge pressure before the regulator: of the full cylinder, or of the shop's main. It stands behind a regulator that " +
				"fails open."},
		{table: "supply", name: "regulator_bore", synonyms: []string{"regulator_seat", "regulator_orifice"}, dimension: unit.Length, min: 1e-4,
			max: 0.05, in: []string{"regulated cylinder", "shop air"}, bands: bands{measured: plusMinus(0.03, 5e-5), other: plusMinus(0.20, 2e-4)},
			missing: "%s, %s to %s", missingOf: []finding.Shown{finding.Millimetres.Of(4e-3, 1), finding.Millimetres.Of(1e-3, 1).Beside(),
				finding.Millimetres.Of(8e-3, 1)}, example: `"2 mm"`,
			teach: "The narrowest bore between source and regulator outlet, its seat's or that of " +
				"an orifice in the line: it decides what the relief valve must carry when the regulator fails open."},
		{table: "supply", name: "dead_head", synonyms: []string{"max_pressure", "stall_pressure", "maximum_pressure", "cut_off_pressure",
			"deadhead"}, dimension: unit.Pressure, min: 100, max: 4e7, bands: bands{measured: plusMinus(0.05, 1e3), other: plusMinus(0.20, 1e3)},
			missing: "what happens with the switch welded is unknown", example: `"4 bar"`, teach: "Gauge pressure at which it delivers nothing " +
				"more; behind a regulator the one it is set to, with its creep. Let it run against a closed gauge, only below the relief " +
				"setting; else take the label, ± 20 %."},
		{table: "supply", name: "curve", synonyms: []string{"points", "delivery_curve"}, kind: curve,
			missing: "a straight line from free_air to dead_head",
			example: `[["0 bar", "12 L/min"], ["2 bar", "6 L/min"]]`,
			teach:   "Points of its delivery: gauge pressure and free air, rising pressure."},
		{table: "supply", name: "noise_level", synonyms: []string{"noise", "sound_level", "loudness", "db"}, dimension: unit.SoundLevel, min: 20,
			max: 140, bands: bands{measured: rule{least: 3}, other: rule{least: 5}},
			missing: "its sound is not in sound.peak", example: `"78 dB"`, teachOf: []finding.Shown{finding.Metres.Of(1, 1)},
			teach: "Its A-weighted sound pressure level at %s, from the label or a meter, in dB(A)."},
		{table: "supply", name: "runs_in", synonyms: []string{"on_in", "runs_when"}, kind: states, missing: `["charging", "armed", "firing"]`,
			example: `["charging", "armed"]`, teach: "The states in which it may run. It never runs in off or without power. An inflator or " +
				"blower that drives the projectile itself: [\"firing\"]; the expected shot then counts what it blows."},
	}, switchKeys()...)
}

func supplyKinds() []string {
	return []string{"compressor", "hand pump", "regulated cylinder", "shop air"}
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
			teach:   "Small print on the dial, such as 1.6: percent of the range. Check it against a U-tube: %s of water.",
			teachOf: []finding.Shown{finding.MillibarsPerMetre.Of(9800, 2)}},
		{table: "gauge", name: "error", dimension: unit.Pressure, pressure: asDifference, sign: orZero, max: 1e6, bands: declared(),
			missing: "from class and range",
			example: `"0.02 bar"`, teach: "Its largest error, instead of a class."},
		{table: "gauge", name: "graduation", synonyms: []string{"division", "resolution"}, dimension: unit.Pressure, pressure: asDifference,
			min: 1, max: 1e6, bands: declared(), missing: "a fiftieth of the range", example: `"0.02 bar"`, teach: "From one mark to the next."},
		{table: "gauge", name: "stop_pin", synonyms: []string{"pin"}, kind: answer, missing: "unknown, which counts as yes", example: `false`,
			teach: "Whether the needle rests on a pin: \"zero\" then means anything below 6 % of the range."},
	}
}
