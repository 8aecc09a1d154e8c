package design

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

func pathKinds() []string {
	return []string{"orifice", "hose", "valve", "hand valve", diaphragm, threeWay, quickExhaust, "check", "regulator", "relief"}
}

// Kinds of parts that are more than one path of the circuit, or than its kind.
const (
	diaphragm    = "diaphragm"     // a valve whose small pilot lets the pressure lift its diaphragm
	threeWay     = "three_way"     // joins its outlet to its inlet or to its exhaust
	quickExhaust = "quick_exhaust" // empties its outlet once its inlet has emptied
)

func pathKeys() []key {
	moved, driven := []string{"valve", "hand valve", diaphragm, threeWay}, []string{"valve", diaphragm, threeWay}
	return append([]key{
		{table: "paths.*", name: "from", synonyms: []string{"source", "inlet", "in"}, kind: text, required: always(), example: `"dose"`,
			teach: "The volume on the charged side, or \"barrel\" or \"atmosphere\"."},
		{table: "paths.*", name: "to", synonyms: []string{"outlet", "out", "into"}, kind: text, required: always(), example: `"barrel"`,
			teach: "Where the air goes: a volume, \"barrel\" or \"atmosphere\"."},
		{table: "paths.*", name: "kind", synonyms: []string{"type"}, kind: word, words: pathKinds(), required: always(), example: `"valve"`,
			teach: "orifice and hose are always open; a valve is moved by current, a hand valve by a person; a diaphragm (irrigation, " +
				"pulse) valve opens when its chamber is vented; a three_way (3/2) valve joins its outlet to its inlet or to its exhaust; a " +
				"quick_exhaust (shuttle) valve empties its outlet once its inlet has emptied; check passes one way; regulator and relief " +
				"mind a pressure."},
		{table: "paths.*", name: "open_in", synonyms: []string{"open", "open_when", "opens_in"}, kind: states, in: moved, required: moved,
			example: `["firing"]`,
			teach:   "The states in which it is open with power: off, charging, armed, loading, firing. [] is never. Everywhere else it is shut."},
		{table: "paths.*", name: "unpowered", synonyms: []string{"normally", "nc_no", "rest_position", "fail_position", "normal_position",
			"without_power"}, kind: word, words: []string{"closed", "open", "stays"}, in: driven, required: driven,
			unless: [2]string{"drive", "hand"}, example: `"closed"`,
			teach: "Where it goes when the power fails: closed (the pneumatic trade's NC), open (NO), or stays (it needs a pulse to move). Pull " +
				"the plug and blow through it. Of a three_way: of its inlet; the exhaust is open where the inlet is shut."},
		{table: "paths.*", name: "drive", synonyms: []string{"actuation", "pilot", "operation"}, kind: word,
			words: []string{"direct", "piloted", "hand"}, in: moved, missing: "taken as piloted for its opening time", example: `"direct"`,
			teach: "direct: the coil or the hand lifts the seal itself. piloted: it lets the pressure move a diaphragm; such valves name a least " +
				"pressure. hand: a hand valve, a three_way, or the pilot of a diaphragm, that a person moves; unpowered is not needed then. Of a " +
				"hand valve that is turned itself, such as a ball valve (direct or hand), orifice is its own bore, no restrictor in it."},
		{table: "paths.*", name: "opening_time", synonyms: []string{"response_time", "delay", "lag", "click", "switching_time", "open_time"},
			dimension: unit.Time, sign: orZero, max: 5, in: moved, bands: bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			missing: "direct 0 to 40 ms, piloted or unsaid 0 to 150 ms, by hand 0 to 300 ms", example: `"30 ms -30/+30 ms"`,
			teach: "From the command to fully open. Record click and hiss with a phone at the muzzle, no ball: ± 2 ms. Low pressure and a weak " +
				"battery change it."},
		{table: "paths.*", name: "closing_time", synonyms: []string{"shut_time", "close_time"}, dimension: unit.Time, sign: orZero,
			max: 5, in: moved, bands: bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)}, missing: "the same as the opening time",
			example: `"30 ms ± 30 ms"`, teach: "From the command to fully shut."},
		{table: "paths.*", name: "pulse", synonyms: []string{"on_time", "pulse_time", "fire_time"}, dimension: unit.Time, in: moved, min: 1e-3,
			max:   60,
			bands: bands{measured: plusMinus(0.05, 1e-3), other: plusMinus(0.2, 5e-3)}, missing: "stays open while the state lasts",
			example: `"150 ms ± 10 ms"`,
			teach:   "How long a timer keeps it open. Leave it out where the button does."},
		{table: "paths.*", name: "min_differential", synonyms: []string{"minimum_pressure", "min_pressure", "minimum_differential",
			"pressure_min"}, dimension: unit.Pressure,
			pressure: asDifference, sign: orZero, max: 1e6, in: append([]string{quickExhaust}, moved...),
			bands:   bands{measured: plusMinus(0.1, 1e3), other: plusMinus(0.2, 5e3)},
			missing: "%s where piloted, also of a diaphragm; %s, %s to %s of a quick_exhaust; else none",
			missingOf: []finding.Shown{finding.Bars.Of(5e4, 1), finding.Bars.Of(1e4, 1), finding.Bars.Of(0, 1).Beside(),
				finding.Bars.Of(3e4, 1)}, example: `"0 bar"`,
			teach: "A data sheet that says \"0.3-10 bar\" means %s: below it the valve may stay shut or open slowly. Of a " +
				"quick_exhaust: what stays in its outlet.", teachOf: []finding.Shown{finding.Bars.Of(3e4, 1)}},
		{table: "paths.*", name: "full_differential", synonyms: []string{"full_lift", "full_open_pressure"}, dimension: unit.Pressure,
			pressure: asDifference, min: 100, max: 1e6, in: []string{diaphragm},
			bands: bands{measured: plusMinus(0.1, 1e3), other: plusMinus(0.3, 5e3)}, missing: "0 to 4 times min_differential", example: `"0.6 bar"`,
			teach: "The pressure difference from which on it is fully open. Below it the diaphragm is up by part only: listen for chatter."},
		{table: "paths.*", name: "seat_share", synonyms: []string{"area_ratio", "seat_ratio", "piston_ratio"}, dimension: unit.Dimensionless,
			min: 0.02, max: 0.95, in: []string{diaphragm, quickExhaust},
			bands: bands{measured: plusMinus(0.1, 0.02), other: plusMinus(0.3, 0.05)}, missing: "0.4, 0.1 to 0.8", example: `"0.4 ± 0.1"`,
			teach: "The seat's area over that of the whole diaphragm or shuttle: (seat bore / diaphragm diameter) squared. The inlet of a " +
				"quick_exhaust must fall to 1 less this share of the outlet's gauge pressure before it lets go."},
		{table: "paths.*", name: "pilot_vents", synonyms: []string{"pilot_outlet", "pilot_into"}, kind: word,
			words: []string{"atmosphere", "outlet"},
			in:    []string{diaphragm}, missing: "atmosphere, the stricter side", example: `"outlet"`,
			teach: "Where the pilot lets the chamber's air: into the valve's own outlet, as in most irrigation valves, or into the open, as where " +
				"the pilot was led out to a second valve."},
		{table: "paths.*", name: "cracking_pressure", synonyms: []string{"opening_pressure"}, dimension: unit.Pressure, pressure: asDifference,
			sign: orZero, max: 1e6,
			in: []string{"check", quickExhaust}, bands: bands{measured: plusMinus(0.2, 1e3), other: plusMinus(0.5, 2e3)},
			missing: "%s, %s to %s", missingOf: []finding.Shown{finding.Bars.Of(5e3, 1), finding.Bars.Of(0, 1).Beside(), finding.Bars.Of(2e4, 1)},
			example: `"0.05 bar ± 0.05 bar"`,
			teach:   "The least pressure difference that opens a check valve; what it holds back stays in."},
		{table: "paths.*", name: "points", synonyms: []string{"points_at", "direction", "aimed"},
			kind: word, words: []string{"away", "barrel", "unknown"}, missing: "unknown", example: `"away"`,
			teach: "Where an outlet to the atmosphere blows: away from people and barrel, into the barrel, or unknown."},
		{table: "paths.*", name: "hose", synonyms: []string{"tube", "pipe", "tubing"}, kind: subtable, required: []string{"hose"},
			example: `{ bore = "6 mm", length = "0.4 m", side = "before" }`, missing: "no hose",
			teach: "The hose between the two ends, if it is longer than a few bores."},
		{table: "paths.*", name: "exhaust", synonyms: []string{"vent", "exhaust_port", "port_3", "r", "outlet_3"}, kind: subtable,
			in:      []string{threeWay, quickExhaust},
			example: `{ orifice = "3 mm", points = "away" }`,
			missing: "it blows into the atmosphere and passes a quarter of the valve's flow to all of it; of a quick_exhaust half to three times",
			teach: "The exhaust port: where the outlet empties to while the inlet is shut. A silencer clogs and ices: what it lets through " +
				"decides how fast the outlet empties. Of a quick_exhaust: where the outlet empties to once the inlet has."},
		{table: "paths.*.hose", name: "bore", synonyms: []string{"diameter", "inner_diameter", "inside_diameter", "id"}, dimension: unit.Length,
			required: always(), min: 5e-4, max: 0.1, bands: bands{measured: plusMinus(0.03, 1e-4), other: plusMinus(0.05, 2e-4)},
			example: `"6 mm ± 0.2 mm"`, teach: "Inside diameter: a hose sold as 8 x 6 has %s. Try drill shanks in its end.",
			teachOf: []finding.Shown{finding.Millimetres.Of(6e-3, 1)}},
		{table: "paths.*.hose", name: "rated_pressure", synonyms: []string{"rating", "max_pressure", "working_pressure", "pn"},
			dimension: unit.Pressure, min: 1e3, max: 4e7, bands: declared(), missing: "not judged, and said to be so", example: `"10 bar"`,
			teach: "The highest working pressure printed on the hose, with its fittings, for air. Where it is stated it is held against the " +
				"highest pressure at a single fault; where a shot's air rushes through the hose against twice that."},
		{table: "paths.*.hose", name: "material", kind: text, missing: "its rating is taken as written", example: `"polyurethane"`,
			teach: "What it is made of. Plastics that soften early are derated at the hottest temperature, as for vessels."},
		{table: "paths.*.hose", name: "length", dimension: unit.Length, required: always(), min: 1e-3, max: 50,
			bands: bands{measured: plusMinus(0.02, 5e-3), other: plusMinus(0.1, 2e-2)}, example: `"0.40 m ± 0.02 m"`,
			teach: "Length between the fittings."},
		{table: "paths.*.hose", name: "side", kind: word, words: []string{"before", "after"}, missing: "before", example: `"before"`,
			teach: "before: on the charged side of the valve, so always full. after: between the valve and where the air goes, as where the valve " +
				"sits at the vessel."},
	}, exhaustKeys()...)
}

// exhaustKeys are those of the exhaust port of a valve with three.
func exhaustKeys() []key {
	const table = "paths.*.exhaust"
	own := []key{
		{table: table, name: "to", synonyms: []string{"into", "leads_to", "outlet"}, kind: text, missing: `"atmosphere"`, example: `"atmosphere"`,
			teach: "Where it leads: \"atmosphere\", or the volume or the barrel that a second hose is on."},
		{table: table, name: "opening_time", synonyms: []string{"response_time", "delay"}, dimension: unit.Time, sign: orZero, max: 5,
			in:      []string{threeWay},
			bands:   bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			missing: "some time within the closing time of the valve", example: `"20 ms -20/+20 ms"`,
			teach: "From the command until the exhaust is fully open."},
		{table: table, name: "closing_time", synonyms: []string{"shut_time", "close_time"}, dimension: unit.Time, sign: orZero, max: 5,
			in:      []string{threeWay},
			bands:   bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			missing: "some time within the opening time of the valve", example: `"10 ms -10/+10 ms"`,
			teach: "From the command until the exhaust is shut: meanwhile the inlet blows into it too."},
		{table: table, name: "points", synonyms: []string{"points_at", "direction", "aimed"}, kind: word, words: []string{"away", "barrel",
			"unknown"}, missing: "that of the path, else unknown", example: `"away"`,
			teach: "Where an exhaust to the atmosphere blows: away from people and barrel, into the barrel, or unknown."},
	}
	return append(own, flowKeysOf(table, nil, nil)...)
}

// flowWords are the keys of the ways to state a flow.
func flowWords() []string {
	return []string{"sonic_conductance", "Cv", "Kv", "nominal_flow", "orifice", "seat_bore"}
}

func flowKeys() []key {
	return flowKeysOf("paths.*", []string{"orifice", "valve", "hand valve", diaphragm, threeWay, quickExhaust, "check", "regulator", "relief"},
		[]string{"valve", "hand valve", diaphragm, threeWay, quickExhaust, "check", "regulator"})
}

// flowKeysOf are the ways to state a flow in a table, for the kinds part; a seat only
// for those of seated. nil: for all.
func flowKeysOf(table string, part, seated []string) []key {
	figure := bands{measured: plusMinus(0.10, 0), datasheet: &rule{below: 0.10, above: 0.10}, other: plusMinus(0.20, 0)}
	hole := bands{measured: plusMinus(0.01, 5e-5), datasheet: &rule{below: 0.03, above: 0.03, least: 1e-4}, other: plusMinus(0.10, 1e-4)}
	shape := bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}
	return []key{
		{table: table, name: "sonic_conductance", synonyms: []string{"c", "conductance", "flow", "flow_rate"}, dimension: unit.Conductance,
			min: 1e-12, max: 1e-5, in: part, bands: figure, example: `"14 L/(s bar) ± 10 %"`, teach: "C of ISO 6358 from the data sheet. At " +
				"home: hold the valve open for 1 s on the bare tank and read the gauge before and after: ± 10 %."},
		{table: table, name: "critical_ratio", synonyms: []string{"b", "critical_pressure_ratio"}, dimension: unit.Dimensionless, min: 0.01,
			max: 0.6, in: part, bands: shape, missing: "0.35, 0.2 to 0.5; with nominal_flow 0.3, 0.2 to 0.528", example: `"0.35 ± 0.15"`,
			teach: "b of ISO 6358, beside sonic_conductance, Cv, Kv or nominal_flow."},
		{table: table, name: "Cv", synonyms: []string{"cv_value"}, dimension: unit.Dimensionless, min: 1e-4, max: 200, in: part,
			bands:   figure,
			example: `"2.0 ± 10 %"`, teach: "The US flow coefficient of the data sheet."},
		{table: table, name: "Kv", synonyms: []string{"kv_value", "kvs"}, dimension: unit.Dimensionless, min: 1e-4, max: 200, in: part,
			bands: figure, example: `"1.7 ± 10 %"`, teach: "The metric flow coefficient of the data sheet, m3/h of water at 1 bar."},
		{table: table, name: "pressure_drop_ratio", synonyms: []string{"xt", "x_t"}, dimension: unit.Dimensionless, min: 0.1, max: 1, in: part,
			bands: shape, missing: "0.7, 0.5 to 0.8", example: `"0.7 ± 0.1"`, teach: "xT of IEC 60534, beside Cv or Kv. Few data sheets name it."},
		{table: table, name: "nominal_flow", synonyms: []string{"qn", "qnn", "flow_at_6_bar", "nominal_flow_rate"},
			dimension: unit.VolumeFlow, min: 1e-8, max: 1, in: part,
			bands: figure, example: `"1200 L/min ± 10 %"`, teach: "Free air from 6 to 5 bar gauge, as pneumatic catalogues state it."},
		{table: table, name: "orifice", synonyms: []string{"jet", "bleed", "restrictor", "needle", "snubber", "bore", "hole", "diameter"},
			dimension: unit.Length, min: 5e-5, max: 0.1, in: part, bands: hole, example: `"1.2 mm ± 0.1 mm"`, teach: "Diameter of the narrowest " +
				"hole. Try drill shanks: the largest that goes in, ± %s. A hole of %s ± %s has ± 10 %% of its area; below %s it clogs. " +
				"A muffler on it counts too: state the hole that passes as much as both.",
			teachOf: []finding.Shown{finding.Millimetres.Of(5e-5, 1), finding.Millimetres.Of(1e-3, 1), finding.Millimetres.Of(5e-5, 1),
				finding.Millimetres.Of(8e-4, 1)}},
		{table: table, name: "seat_bore", synonyms: []string{"seat", "dn", "port", "valve_bore", "thread", "nominal_size"},
			dimension: unit.Length, min: 5e-4, max: 0.1, in: seated, bands: bands{measured: plusMinus(0.03, 2e-4), other: plusMinus(0.10, 5e-4)},
			example: `"8 mm ± 0.5 mm"`, teach: "For a valve without any flow figure: the bore of its seat, never its thread (G1/4 is %s " +
				"outside and %s inside). The flow is then known to a factor of four.",
			teachOf: []finding.Shown{finding.Millimetres.Of(13e-3, 2), finding.Millimetres.Of(8e-3, 1)}},
		{table: table, name: "discharge_coefficient", synonyms: []string{"cd", "discharge"}, dimension: unit.Dimensionless,
			min: 0.1, max: 1, in: part, bands: bands{measured: rule{least: 0.10}, other: rule{least: 0.10}},
			missing: "orifice 0.75, 0.60 to 0.90; seat 0.5, 0.25 to 1; relief 0.62, 0.50 to 0.75", example: `"0.75 ± 0.15"`,
			teach: "Share of the hole's area that the jet fills, beside orifice or seat_bore. Leave it out unless you measured it: sharp-edged " +
				"holes reach 0.84 at high pressure."},
	}
}

func reliefKeys() []key {
	set := bands{measured: plusMinus(0.05, 5e3), other: plusMinus(0.15, 1e4)}
	relief, both := []string{"relief"}, []string{"relief", "regulator"}
	return []key{
		{table: "paths.*", name: "set_pressure", synonyms: []string{"set", "setting", "opens_at", "lift_pressure", "cracking"},
			dimension: unit.Pressure, min: 100, max: 4e6, in: both, required: both, bands: set, example: `"0.75 bar ± 0.1 bar"`,
			teach: "Gauge pressure at which it starts to open (relief) or which it holds (regulator). Ten lifts on a bench, by a hand " +
				"pump with a gauge, before it is fitted; until they are written down ± 15 %%, at least ± %s.",
			teachOf: []finding.Shown{finding.Bars.Of(1e4, 1)}},
		{table: "paths.*", name: "full_flow_pressure", synonyms: []string{"full_flow", "full_lift", "fully_open"},
			dimension: unit.Pressure, min: 100, max: 6e6, in: relief, bands: declared(),
			missing:   "from the larger of 1.1 times set and set + %s up to 1.5 times the highest set + %s",
			missingOf: []finding.Shown{finding.Bars.Of(1e4, 1), finding.Bars.Of(1e4, 1)}, example: `"0.95 bar"`,
			teach: "Gauge pressure at which it is fully open; without a tolerance it shifts with the set pressure. Bench test: the steady " +
				"reading while the supply blows through it."},
		{table: "paths.*", name: "reseat_pressure", aliases: []string{"reseat"}, synonyms: []string{"blowdown", "closes_at", "reset"},
			dimension: unit.Pressure, min: 50, max: 4e6, in: relief, bands: declared(), missing: "0.85 times set", example: `"0.62 bar"`,
			teach: "Gauge pressure at which it is shut again; without a tolerance it shifts with the set pressure."},
		{table: "paths.*", name: "droop", dimension: unit.Pressure, pressure: asDifference, min: 10, max: 1e6, in: []string{"regulator"},
			bands: bands{measured: plusMinus(0.2, 0), other: plusMinus(0.5, 0)}, missing: "0.1 times set, 0.02 to 0.3 times set",
			example: `"0.1 bar"`, teach: "How far its outlet falls below the set pressure at full flow."},
		{table: "paths.*", name: "creep", synonyms: []string{"lockup", "lock_up"}, dimension: unit.Pressure, pressure: asDifference,
			sign: orZero, max: 1e6, in: []string{"regulator"},
			bands: bands{measured: plusMinus(0.2, 0), other: plusMinus(0.5, 0)}, missing: "0.1 times set, 0 to 0.3 times set", example: `"0.05 bar"`,
			teach: "How far its outlet rises above the set pressure when nothing flows: read the gauge after ten minutes."},
		{table: "paths.*", name: "relieving", synonyms: []string{"self_relieving", "venting"}, kind: answer, in: []string{"regulator"},
			missing: "no", example: `false`, teach: "true if it lets air out when its outlet is too high."},
	}
}
