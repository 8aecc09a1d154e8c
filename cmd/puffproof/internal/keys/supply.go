package keys

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

func supplyKeys() []Key {
	return append([]Key{
		{Table: "supply", Name: "kind", Synonyms: []string{"type"}, Kind: Word, Words: supplyKinds(),
			Required: always(), Example: `"compressor"`, Teach: "What delivers the air: a compressor or inflator (whatever a motor drives), a " +
				"hand pump (whatever a person drives), a regulated cylinder, or shop air: a compressed-air main behind a regulator. A vessel " +
				"that comes filled has no supply: volumes.NAME.filled_to."},
		{Table: "supply", Name: "feeds", Synonyms: []string{"to", "into", "fills"}, Kind: Text, Required: always(), Example: `"tank"`,
			Teach: "The volume it pumps into."},
		{Table: "supply", Name: "free_air", Synonyms: []string{"cfm", "lpm", "scfm", "fad", "nl_min", "flow", "delivery", "output"},
			Dimension: unit.VolumeFlow, Min: 1e-7, Max: 0.05, Bands: bands{measured: plusMinus(0.05, 0),
				other: rule{below: 0.40, above: 0.30}}, Missing: "fill time and relief capacity are unknown; the energy too where " +
				"it may push while it is fired", Example: `"12 L/min ± 15 %"`,
			Teach: "Air delivered at zero pressure, as intake air. Labels flatter it. Time how long a known volume takes from 0 to p: ± 5 %."},
		{Table: "supply", Name: "peak_flow", Synonyms: []string{"stroke_flow", "peak_free_air", "max_flow"}, Dimension: unit.VolumeFlow,
			Min: 1e-7, Max: 0.3, In: []string{"hand pump"}, Bands: bands{measured: plusMinus(0.10, 0), other: plusMinus(0.30, 0)},
			Missing: "3.1 times free_air, 1 to 6 times", Example: `"60 L/min"`, Teach: "Free air in the middle of a stroke: that is what a relief " +
				"valve must carry. A pump that delivers on one of its two strokes has pi times the mean of free_air there, a jerk twice that; " +
				"less than half of pi times, which both strokes in turn have, counts as not stated."},
		{Table: "supply", Name: "pumped_to", Synonyms: []string{"mark", "pump_to", "stop_at", "pumped_until"}, Dimension: unit.Pressure,
			Min: 100, Max: 1e6, In: []string{"hand pump"}, Bands: bands{measured: plusMinus(0.10, 5e3), other: plusMinus(0.20, 1e4)},
			Missing: "nobody stops it: what relief valve or dead head allow", Example: `"0.30 bar ± 0.05 bar"`, Teach: "The mark on the gauge at " +
				"which the person stops, the last stroke included. It holds only while somebody watches: an item of the checklist; " +
				"pumping on is a fault, up to the relief valve's full flow; without one how far is unknown."},
		{Table: "supply", Name: "fill_time", Synonyms: []string{"timer", "run_time", "runs_for", "on_time"}, Dimension: unit.Time, Min: 0.1,
			Max: 3600, In: []string{"compressor"}, Bands: bands{measured: plusMinus(0.05, 0.2), other: plusMinus(0.20, 0.5)},
			Missing: "no timer stops it", Example: `"8 s ± 0.5 s"`, Teach: "How long a timer lets it run for one fill. Highest pressure: that of " +
				"its free air in this time, the heat of the fill included; a timer that never stops is a fault."},
		{Table: "supply", Name: "fills_from", Synonyms: []string{"starts_from", "fill_from"}, Kind: Word,
			Words: []string{"empty", "what is left"}, In: []string{"compressor"},
			Missing: "what is left: the timer may be started again and again, up to the dead head",
			Example: `"empty"`, Teach: "With fill_time: whether the launcher is emptied before the timer can start again (an item of the " +
				"checklist), or filled on top of what a shot has left, which nothing limits but relief valve and dead head."},
		{Table: "supply", Name: "source_pressure", Synonyms: []string{"cylinder_pressure", "main_pressure", "inlet_pressure", "bottle_pressure"},
			Dimension: unit.Pressure, Min: 1e4, Max: 4e7, In: []string{"regulated cylinder", "shop air"},
			Bands:   bands{measured: plusMinus(0.05, 0), other: plusMinus(0.20, 0)},
			Missing: "a cylinder %s, %s to %s; shop air %s, %s to %s",
			missingOf: []finding.Shown{finding.Bars.Of(200e5, 3), finding.Bars.Of(150e5, 3).Beside(), finding.Bars.Of(300e5, 3),
				finding.Bars.Of(8e5, 3), finding.Bars.Of(5e5, 3).Beside(), finding.Bars.Of(16e5, 3)}, Example: `"8 bar"`,
			Teach: "Gauge pressure before the regulator, by the gauge on the source's side: of the full cylinder, or of the shop's main. It " +
				"stands behind a regulator that fails open. Less than %s of a cylinder, or %s of a main, counts as not stated: a " +
				"cylinder that is filled to less stands as volumes.NAME.filled_to, before a path of the kind regulator.",
			teachOf: []finding.Shown{finding.Bars.Of(20e5, 2), finding.Bars.Of(4e5, 1)}},
		{Table: "supply", Name: "regulator_bore", Synonyms: []string{"regulator_seat", "regulator_orifice"}, Dimension: unit.Length, Min: 1e-4,
			Max: 0.05, In: []string{"regulated cylinder", "shop air"}, Bands: bands{measured: plusMinus(0.03, 5e-5), other: plusMinus(0.20, 2e-4)},
			Missing: "%s, %s to %s", missingOf: []finding.Shown{finding.Millimetres.Of(4e-3, 1), finding.Millimetres.Of(1e-3, 1).Beside(),
				finding.Millimetres.Of(8e-3, 1)}, Example: `"2 mm"`,
			Teach: "The bore of the regulator's own seat: it decides what the relief valve must carry when the regulator fails open. A jet in " +
				"the line bounds nothing, for it may be left out or drilled. Less than %s counts as not stated.",
			teachOf: []finding.Shown{finding.Millimetres.Of(0.5e-3, 1)}},
		{Table: "supply", Name: "dead_head", Synonyms: []string{"max_pressure", "stall_pressure", "maximum_pressure", "cut_off_pressure",
			"deadhead"}, Dimension: unit.Pressure, Min: 100, Max: 4e7, Bands: bands{measured: plusMinus(0.05, 1e3), other: plusMinus(0.20, 1e3)},
			Missing: "what happens with the switch welded is unknown", Example: `"4 bar"`, Teach: "Gauge pressure at which it delivers nothing " +
				"more; behind a regulator the one it is set to, with its creep. Let it run against a closed gauge, only below the relief " +
				"setting; else take the label, ± 20 %. Of a hand pump it is a person's force, which bounds no fault: a relief valve that carries " +
				"the pump does."},
		{Table: "supply", Name: "curve", Synonyms: []string{"points", "delivery_curve"}, Kind: Curve,
			Missing: "a straight line from free_air to dead_head",
			Example: `[["0 bar", "12 L/min"], ["2 bar", "6 L/min"]]`,
			Teach:   "Points of its delivery: gauge pressure and free air, rising pressure."},
		{Table: "supply", Name: "noise_level", Synonyms: []string{"noise", "sound_level", "loudness", "db"}, Dimension: unit.SoundLevel,
			Min: 20, Max: 140, Bands: bands{measured: rule{least: 3}, other: rule{least: 5}},
			Missing: "a compressor counts as one of 50 to 100 dB(A) (labels, from memory)", Example: `"78 dB"`,
			teachOf: []finding.Shown{finding.Metres.Of(1, 1)},
			Teach:   "Its A-weighted sound pressure level at %s, from the label or a meter, in dB(A)."},
		{Table: "supply", Name: "runs_in", Synonyms: []string{"on_in", "runs_when"}, Kind: States, Missing: `["charging", "armed", "firing"]`,
			Example: `["charging", "armed"]`, Teach: "The states in which it may run. It never runs in off or without power. An inflator or " +
				"blower that drives the projectile itself: [\"firing\"]; the expected shot then counts what it blows."},
	}, switchKeys()...)
}

func supplyKinds() []string {
	return []string{"compressor", "hand pump", "regulated cylinder", "shop air"}
}

func switchKeys() []Key {
	set := bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.15, 1e4)}
	return []Key{
		{Table: "pressure_switch", Name: "senses", Synonyms: []string{"on", "at", "measures"}, Kind: Text, Required: always(),
			Example: `"tank"`, Teach: "The volume whose pressure it feels."},
		{Table: "pressure_switch",
			Name: "cut_out", Synonyms: []string{"shut_off", "shutoff", "cutoff", "cut_off", "trips_at", "max_setting", "stop", "off_at", "upper"},
			Dimension: unit.Pressure, Required: always(), Min: 100, Max: 1e6, Bands: set, Example: `"0.45 bar ± 0.05 bar"`, Teach: "Gauge " +
				"pressure at which it stops the supply. Ten cycles on an independent gauge: take highest and lowest, and add the gauge's error."},
		{Table: "pressure_switch", Name: "cut_in", Synonyms: []string{"kicks_in", "restart", "start", "on_at", "lower", "restarts_at"},
			Dimension: unit.Pressure, Required: always(), Min: 50, Max: 1e6, Bands: set, Example: `"0.30 bar ± 0.05 bar"`,
			Teach: "Gauge pressure at which it starts the supply again. Without a tolerance it gets the one of cut_out."},
		{Table: "pressure_switch", Name: "differential",
			Synonyms: []string{"hysteresis", "dead_band", "deadband"}, Dimension: unit.Pressure, Pressure: AsDifference, Min: 10, Max: 1e6,
			Bands: bands{measured: plusMinus(0.1, 500), other: plusMinus(0.3, 2e3)}, Missing: "switch.band is unknown", Example: `"0.1 bar"`,
			Teach: "The smallest gap between cut-out and cut-in that this switch can be set to."},
		{Table: "pressure_switch", Name: "reaction_time", Synonyms: []string{"delay", "lag"}, Dimension: unit.Time, Sign: OrZero, Max: 60,
			Bands: bands{measured: plusMinus(0.2, 0.02), other: plusMinus(1, 0.1)}, Missing: "0.1 s, 0 to 0.5 s", Example: `"0.1 s ± 0.1 s"`,
			Teach:   "From reaching cut-out to the supply standing still: the tank goes on filling. Less than %s counts as not stated.",
			teachOf: []finding.Shown{finding.Milliseconds.Of(10e-3, 2)}},
		{Table: "pressure_switch", Name: "gauge_error", Dimension: unit.Pressure, Pressure: AsDifference, Sign: OrZero, Max: 1e6,
			Bands:   declared(),
			Missing: "the class of the gauge on the sensed volume, else none is counted and it is unknown", Example: `"0.02 bar"`,
			Teach: "Error of the gauge that the switch was set by; counted to both sides. Less than a thousandth of cut_out counts as not stated."},
		{Table: "pressure_switch", Name: "adjustable", Kind: Answer, Missing: "unknown, which counts as adjustable", Example: `true`,
			Teach: "Whether anybody can turn it up. Seal the screw."},
		{Table: "pressure_switch", Name: "adjustable_to", Synonyms: []string{"end_stop", "max_adjustment", "range"},
			Dimension: unit.Pressure, Min: 100, Max: 4e6, Bands: bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.15, 1e4)},
			Missing: "the end of its range is unknown", Example: `"1.5 bar"`, Teach: "Cut-out with its screw at the end stop."},

		{Table: "gauge", Name: "on", Aliases: []string{"senses"}, Synonyms: []string{"at", "reads"}, Kind: Text, Required: always(),
			Example: `"tank"`, Teach: "The volume it reads."},
		{Table: "gauge", Name: "range", Synonyms: []string{"full_scale", "max", "scale"}, Dimension: unit.Pressure, Pressure: AsDifference,
			Required: always(), Min: 100, Max: 4e7, Bands: declared(), Example: `"1 bar"`, Teach: "The last figure on its dial."},
		{Table: "gauge", Name: "class", Synonyms: []string{"accuracy", "accuracy_class"},
			Dimension: unit.Dimensionless, Min: 100 * benchmark.FinestDial, Max: 20, Bands: declared(), Missing: "4 percent of the range",
			Example: `1.6`, Teach: "Small print on the dial, such as 1.6: percent of the range. The classes are 0.1, 0.25, 0.6, 1, 1.6, 2.5 and 4 " +
				"(EN 837-1, from memory): a finer figure is no class. Check it against a U-tube: %s of water.",
			teachOf: []finding.Shown{finding.MillibarsPerMetre.Of(9800, 2)}},
		{Table: "gauge", Name: "error", Dimension: unit.Pressure, Pressure: AsDifference, Sign: OrZero, Max: 1e6, Bands: declared(),
			Missing: "from class and range",
			Example: `"0.02 bar"`, Teach: "Its largest error, instead of a class."},
		{Table: "gauge", Name: "graduation", Synonyms: []string{"division", "resolution"}, Dimension: unit.Pressure, Pressure: AsDifference,
			Min: 1, Max: 1e6, Bands: declared(), Missing: "a fiftieth of the range", Example: `"0.02 bar"`, Teach: "From one mark to the next."},
		{Table: "gauge", Name: "stop_pin", Synonyms: []string{"pin"}, Kind: Answer, Missing: "unknown, which counts as yes", Example: `false`,
			Teach: "Whether the needle rests on a pin: \"zero\" then means anything below 6 % of the range."},
	}
}
