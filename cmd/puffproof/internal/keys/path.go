package keys

import (
	"slices"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// PathKinds are the words for the kinds of path.
func PathKinds() []string {
	return []string{"orifice", "hose", "valve", "hand valve", Diaphragm, ThreeWay, QuickExhaust, "check", "regulator", "relief"}
}

// Kinds of parts that are more than one path of the circuit, or than its kind.
const (
	Diaphragm    = "diaphragm"     // a valve whose small pilot lets the pressure lift its diaphragm
	ThreeWay     = "three_way"     // joins its outlet to its inlet or to its exhaust
	QuickExhaust = "quick_exhaust" // empties its outlet once its inlet has emptied
)

func pathKeys() []Key {
	moved, driven := []string{"valve", "hand valve", Diaphragm, ThreeWay}, []string{"valve", Diaphragm, ThreeWay}
	return append([]Key{
		{Table: "paths.*", Name: "from", Synonyms: []string{"source", "inlet", "in"}, Kind: Text, Required: always(), Example: `"dose"`,
			Teach: "The volume on the charged side, or \"barrel\" or \"atmosphere\"."},
		{Table: "paths.*", Name: "to", Synonyms: []string{"outlet", "out", "into"}, Kind: Text, Required: always(), Example: `"barrel"`,
			Teach: "Where the air goes: a volume, \"barrel\" or \"atmosphere\"."},
		{Table: "paths.*", Name: "kind", Synonyms: []string{"type"}, Kind: Word, Words: PathKinds(), Required: always(), Example: `"valve"`,
			Teach: "orifice and hose are always open; a valve is moved by current, a hand valve by a person; a diaphragm (irrigation, " +
				"pulse) valve opens when its chamber is vented; a three_way (3/2) valve joins its outlet to its inlet or to its exhaust; a " +
				"quick_exhaust (shuttle) valve empties its outlet once its inlet has emptied; check passes one way; regulator and relief " +
				"mind a pressure."},
		{Table: "paths.*", Name: "open_in", Synonyms: []string{"open", "open_when", "opens_in"}, Kind: States, In: moved, Required: moved,
			Example: `["firing"]`,
			Teach:   "The states in which it is open with power: off, charging, armed, loading, firing. [] is never. Everywhere else it is shut."},
		{Table: "paths.*", Name: "unpowered", Synonyms: []string{"normally", "nc_no", "rest_position", "fail_position", "normal_position",
			"without_power"}, Kind: Word, Words: []string{"closed", "open", "stays"}, In: driven, Required: driven,
			Unless: [2]string{"drive", "hand"}, Example: `"closed"`,
			Teach: "Where it goes when the power fails: closed (the pneumatic trade's NC), open (NO), or stays (it needs a pulse to move). Pull " +
				"the plug and blow through it. Of a three_way: of its inlet; the exhaust is open where the inlet is shut."},
		{Table: "paths.*", Name: "drive", Synonyms: []string{"actuation", "pilot", "operation"}, Kind: Word,
			Words: []string{"direct", "piloted", "hand"}, In: moved, Missing: "taken as piloted for its opening time", Example: `"direct"`,
			Teach: "direct: the coil or the hand lifts the seal itself. piloted: it lets the pressure move a diaphragm; such valves name a least " +
				"pressure. hand: a hand valve, a three_way, or the pilot of a diaphragm, that a person moves; unpowered is not needed then. Of a " +
				"hand valve that is turned itself, such as a ball valve (direct or hand), orifice is its own bore, no restrictor in it."},
		{Table: "paths.*", Name: "opening_time", Synonyms: []string{"response_time", "delay", "lag", "click", "switching_time", "open_time"},
			Dimension: unit.Time, Sign: OrZero, Max: 5, In: moved, Bands: bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			Missing: "direct 0 to 40 ms, piloted or unsaid 0 to 150 ms, by hand 0 to 300 ms", Example: `"30 ms -30/+30 ms"`,
			Teach: "From the command to fully open. Record click and hiss with a phone at the muzzle, no ball: ± 2 ms. Low pressure and a weak " +
				"battery change it. Somebody's slap at a hand valve is a fault: it opens at once. Where current moves it and it is stated far slower " +
				"than such valves are, opening at once counts too."},
		{Table: "paths.*", Name: "closing_time", Synonyms: []string{"shut_time", "close_time"}, Dimension: unit.Time, Sign: OrZero,
			Max: 5, In: moved, Bands: bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)}, Missing: "the same as the opening time",
			Example: `"30 ms ± 30 ms"`, Teach: "From the command to fully shut."},
		{Table: "paths.*", Name: "pulse", Synonyms: []string{"on_time", "pulse_time", "fire_time"}, Dimension: unit.Time, In: moved, Min: 1e-3,
			Max:   60,
			Bands: bands{measured: plusMinus(0.05, 1e-3), other: plusMinus(0.2, 5e-3)}, Missing: "stays open while the state lasts",
			Example: `"150 ms ± 10 ms"`,
			Teach:   "How long a timer keeps it open. Leave it out where the button does."},
		{Table: "paths.*", Name: "min_differential", Synonyms: []string{"minimum_pressure", "min_pressure", "minimum_differential",
			"pressure_min"}, Dimension: unit.Pressure,
			Pressure: AsDifference, Sign: OrZero, Max: 1e6, In: append([]string{QuickExhaust}, moved...),
			Bands:   bands{measured: plusMinus(0.1, 1e3), other: plusMinus(0.2, 5e3)},
			Missing: "%s where piloted, also of a diaphragm; %s, %s to %s of a quick_exhaust; else none",
			missingOf: []finding.Shown{finding.Bars.Of(5e4, 1), finding.Bars.Of(1e4, 1), finding.Bars.Of(0, 1).Beside(),
				finding.Bars.Of(3e4, 1)}, Example: `"0 bar"`,
			Teach: "A data sheet that says \"0.3-10 bar\" means %s: below it the valve may stay shut or open slowly. Of a " +
				"quick_exhaust: what stays in its outlet.", teachOf: []finding.Shown{finding.Bars.Of(3e4, 1)}},
		{Table: "paths.*", Name: "full_differential", Synonyms: []string{"full_lift", "full_open_pressure"}, Dimension: unit.Pressure,
			Pressure: AsDifference, Min: 100, Max: 1e6, In: []string{Diaphragm},
			Bands: bands{measured: plusMinus(0.1, 1e3), other: plusMinus(0.3, 5e3)}, Missing: "0 to 4 times min_differential", Example: `"0.6 bar"`,
			Teach: "The pressure difference from which on it is fully open. Below it the diaphragm is up by part only: listen for chatter."},
		{Table: "paths.*", Name: "seat_share", Synonyms: []string{"area_ratio", "seat_ratio", "piston_ratio"}, Dimension: unit.Dimensionless,
			Min: 0.02, Max: 0.95, In: []string{Diaphragm, QuickExhaust},
			Bands: bands{measured: plusMinus(0.1, 0.02), other: plusMinus(0.3, 0.05)}, Missing: "0.4, 0.1 to 0.8", Example: `"0.4 ± 0.1"`,
			Teach: "The seat's area over that of the whole diaphragm or shuttle: (seat bore / diaphragm diameter) squared. The inlet of a " +
				"quick_exhaust must fall to 1 less this share of the outlet's gauge pressure before it lets go."},
		{Table: "paths.*", Name: "pilot_vents", Synonyms: []string{"pilot_outlet", "pilot_into"}, Kind: Word,
			Words: []string{"atmosphere", "outlet"},
			In:    []string{Diaphragm}, Missing: "atmosphere, the stricter side", Example: `"outlet"`,
			Teach: "Where the pilot lets the chamber's air: into the valve's own outlet, as in most irrigation valves, or into the open, as where " +
				"the pilot was led out to a second valve."},
		{Table: "paths.*", Name: "cracking_pressure", Synonyms: []string{"opening_pressure"}, Dimension: unit.Pressure, Pressure: AsDifference,
			Sign: OrZero, Max: 1e6,
			In: []string{"check", QuickExhaust}, Bands: bands{measured: plusMinus(0.2, 1e3), other: plusMinus(0.5, 2e3)},
			Missing: "%s, %s to %s", missingOf: []finding.Shown{finding.Bars.Of(5e3, 1), finding.Bars.Of(0, 1).Beside(), finding.Bars.Of(2e4, 1)},
			Example: `"0.05 bar ± 0.05 bar"`,
			Teach:   "The least pressure difference that opens a check valve; what it holds back stays in."},
		{Table: "paths.*", Name: "points", Synonyms: []string{"points_at", "direction", "aimed"},
			Kind: Word, Words: []string{"away", "barrel", "unknown"}, Missing: "unknown", Example: `"away"`,
			Teach: "Where an outlet to the atmosphere blows: away from people and barrel, into the barrel, or unknown."},
		{Table: "paths.*", Name: "hose", Synonyms: []string{"tube", "pipe", "tubing"}, Kind: Subtable, Required: []string{"hose"},
			Example: `{ bore = "6 mm", length = "0.4 m", side = "before" }`, Missing: "no hose",
			Teach: "The hose between the two ends, if it is longer than a few bores."},
		{Table: "paths.*", Name: "exhaust", Synonyms: []string{"vent", "exhaust_port", "port_3", "r", "outlet_3"}, Kind: Subtable,
			In:      []string{ThreeWay, QuickExhaust},
			Example: `{ orifice = "3 mm", points = "away" }`,
			Missing: "it blows into the atmosphere and passes a quarter of the valve's flow to all of it; of a quick_exhaust half to three times",
			Teach: "The exhaust port: where the outlet empties to while the inlet is shut. A silencer clogs and ices: what it lets through " +
				"decides how fast the outlet empties. Of a quick_exhaust: where the outlet empties to once the inlet has."},
		{Table: "paths.*.hose", Name: "bore", Synonyms: []string{"diameter", "inner_diameter", "inside_diameter", "id"}, Dimension: unit.Length,
			Required: always(), Min: 5e-4, Max: 0.1, Bands: bands{measured: plusMinus(0.03, 1e-4), other: plusMinus(0.05, 2e-4)},
			Example: `"6 mm ± 0.2 mm"`, Teach: "Inside diameter: a hose sold as 8 x 6 has %s. Try drill shanks in its end.",
			teachOf: []finding.Shown{finding.Millimetres.Of(6e-3, 1)}},
		{Table: "paths.*.hose", Name: "rated_pressure", Synonyms: []string{"rating", "max_pressure", "working_pressure", "pn"},
			Dimension: unit.Pressure, Min: 1e3, Max: 4e7, Bands: declared(), Missing: "what its print says is a condition", Example: `"10 bar"`,
			Teach: "The highest working pressure printed on the hose, with its fittings, for air. Where it is stated it is held against the " +
				"highest pressure at a single fault; where a shot's air rushes through the hose against twice that."},
		{Table: "paths.*.hose", Name: "material", Kind: Text, Missing: "taken as a plastic that softens early", Example: `"polyurethane"`,
			Teach: "What it is made of. What is not known to stay strong is derated at the hottest temperature, as for vessels."},
		{Table: "paths.*.hose", Name: "length", Dimension: unit.Length, Required: always(), Min: 1e-3, Max: 50,
			Bands: bands{measured: plusMinus(0.02, 5e-3), other: plusMinus(0.1, 2e-2)}, Example: `"0.40 m ± 0.02 m"`,
			Teach: "Length between the fittings."},
		{Table: "paths.*.hose", Name: "side", Kind: Word, Words: []string{"before", "after"}, Missing: "before", Example: `"before"`,
			Teach: "before: on the charged side of the valve, so always full. after: between the valve and where the air goes, as where the valve " +
				"sits at the vessel."},
	}, exhaustKeys()...)
}

// exhaustKeys are those of the exhaust port of a valve with three.
func exhaustKeys() []Key {
	const table = "paths.*.exhaust"
	own := []Key{
		{Table: table, Name: "to", Synonyms: []string{"into", "leads_to", "outlet"}, Kind: Text, Missing: `"atmosphere"`, Example: `"atmosphere"`,
			Teach: "Where it leads: \"atmosphere\", or the volume or the barrel that a second hose is on."},
		{Table: table, Name: "opening_time", Synonyms: []string{"response_time", "delay"}, Dimension: unit.Time, Sign: OrZero, Max: 5,
			In:      []string{ThreeWay},
			Bands:   bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			Missing: "some time within the closing time of the valve", Example: `"20 ms -20/+20 ms"`,
			Teach: "From the command until the exhaust is fully open."},
		{Table: table, Name: "closing_time", Synonyms: []string{"shut_time", "close_time"}, Dimension: unit.Time, Sign: OrZero, Max: 5,
			In:      []string{ThreeWay},
			Bands:   bands{measured: plusMinus(0.3, 2e-3), other: plusMinus(1, 2e-3)},
			Missing: "some time within the opening time of the valve", Example: `"10 ms -10/+10 ms"`,
			Teach: "From the command until the exhaust is shut: meanwhile the inlet blows into it too."},
		{Table: table, Name: "points", Synonyms: []string{"points_at", "direction", "aimed"}, Kind: Word, Words: []string{"away", "barrel",
			"unknown"}, Missing: "that of the path, else unknown", Example: `"away"`,
			Teach: "Where an exhaust to the atmosphere blows: away from people and barrel, into the barrel, or unknown."},
	}
	return append(own, flowKeysOf(table, nil, nil)...)
}

// FlowWords are the keys of the ways to state a flow.
func FlowWords() []string {
	return []string{"sonic_conductance", "Cv", "Kv", "nominal_flow", "orifice", "seat_bore"}
}

func flowKeys() []Key {
	return flowKeysOf("paths.*", []string{"orifice", "valve", "hand valve", Diaphragm, ThreeWay, QuickExhaust, "check", "regulator", "relief"},
		[]string{"valve", "hand valve", Diaphragm, ThreeWay, QuickExhaust, "check", "regulator"})
}

// flowKeysOf are the ways to state a flow in a table, for the kinds part; a seat only
// for those of seated. nil: for all.
func flowKeysOf(table string, part, seated []string) []Key {
	figure := bands{measured: plusMinus(0.10, 0), datasheet: &rule{below: 0.10, above: 0.10}, other: plusMinus(0.20, 0)}
	hole := bands{measured: plusMinus(0.01, 5e-5), datasheet: &rule{below: 0.03, above: 0.03, least: 1e-4}, other: plusMinus(0.10, 1e-4)}
	shape := bands{measured: plusMinus(0.10, 0), other: plusMinus(0.20, 0)}
	holed := slices.DeleteFunc(slices.Clone(part), func(kind string) bool { return kind == "relief" }) // its bore is its own
	return []Key{
		{Table: table, Name: "sonic_conductance", Synonyms: []string{"c", "conductance", "flow", "flow_rate"}, Dimension: unit.Conductance,
			Min: 1e-12, Max: 1e-5, In: part, Bands: figure, Example: `"14 L/(s bar) ± 10 %"`, Teach: "C of ISO 6358 from the data sheet. At " +
				"home: hold the valve open for 1 s on the bare tank and read the gauge before and after: ± 10 %."},
		{Table: table, Name: "critical_ratio", Synonyms: []string{"b", "critical_pressure_ratio"}, Dimension: unit.Dimensionless, Min: 0.01,
			Max: 0.6, In: part, Bands: shape, Missing: "0.35, 0.2 to 0.5; with nominal_flow 0.3, 0.2 to 0.528", Example: `"0.35 ± 0.15"`,
			Teach: "b of ISO 6358, beside sonic_conductance, Cv, Kv or nominal_flow."},
		{Table: table, Name: "Cv", Synonyms: []string{"cv_value"}, Dimension: unit.Dimensionless, Min: 1e-4, Max: 200, In: part,
			Bands:   figure,
			Example: `"2.0 ± 10 %"`, Teach: "The US flow coefficient of the data sheet."},
		{Table: table, Name: "Kv", Synonyms: []string{"kv_value", "kvs"}, Dimension: unit.Dimensionless, Min: 1e-4, Max: 200, In: part,
			Bands: figure, Example: `"1.7 ± 10 %"`, Teach: "The metric flow coefficient of the data sheet, m3/h of water at 1 bar."},
		{Table: table, Name: "pressure_drop_ratio", Synonyms: []string{"xt", "x_t"}, Dimension: unit.Dimensionless, Min: 0.1, Max: 1, In: part,
			Bands: shape, Missing: "0.7, 0.5 to 0.8", Example: `"0.7 ± 0.1"`, Teach: "xT of IEC 60534, beside Cv or Kv. Few data sheets name it."},
		{Table: table, Name: "nominal_flow", Synonyms: []string{"qn", "qnn", "flow_at_6_bar", "nominal_flow_rate"},
			Dimension: unit.VolumeFlow, Min: 1e-8, Max: 1, In: part,
			Bands: figure, Example: `"1200 L/min ± 10 %"`, Teach: "Free air from 6 to 5 bar gauge, as pneumatic catalogues state it."},
		{Table: table, Name: "orifice", Synonyms: []string{"jet", "bleed", "restrictor", "needle", "snubber", "bore", "hole", "diameter"},
			Dimension: unit.Length, Min: 5e-5, Max: 0.1, In: part, Bands: hole, Example: `"1.2 mm ± 0.1 mm"`, Teach: "Diameter of the narrowest " +
				"hole. Try drill shanks: the largest that goes in, ± %s. A hole of %s ± %s has ± 10 %% of its area; below %s it clogs. " +
				"A muffler on it counts too: state the hole that passes as much as both.",
			teachOf: []finding.Shown{finding.Millimetres.Of(5e-5, 1), finding.Millimetres.Of(1e-3, 1), finding.Millimetres.Of(5e-5, 1),
				finding.Millimetres.Of(8e-4, 1)}},
		{Table: table, Name: "orifice_removable", Synonyms: []string{"removable", "jet_removable", "insert", "screwed_in"}, Kind: Answer,
			In: holed, Missing: "unknown, which counts as yes", Example: `false`, Teach: "Whether the hole is in a jet or another insert that " +
				"can be left out: the bore of the hose then passes, or that of a G1/4 fitting, %s. false: it is drilled through the part itself, " +
				"or is a valve's own seat.", teachOf: []finding.Shown{finding.Millimetres.Of(8e-3, 1)}},
		{Table: table, Name: "seat_bore", Synonyms: []string{"seat", "dn", "port", "valve_bore", "thread", "nominal_size"},
			Dimension: unit.Length, Min: 5e-4, Max: 0.1, In: seated, Bands: bands{measured: plusMinus(0.03, 2e-4), other: plusMinus(0.10, 5e-4)},
			Example: `"8 mm ± 0.5 mm"`, Teach: "For a valve without any flow figure: the bore of its seat, never its thread (G1/4 is %s " +
				"outside and %s inside). The flow is then known to a factor of four.",
			teachOf: []finding.Shown{finding.Millimetres.Of(13e-3, 2), finding.Millimetres.Of(8e-3, 1)}},
		{Table: table, Name: "discharge_coefficient", Synonyms: []string{"cd", "discharge"}, Dimension: unit.Dimensionless,
			Min: 0.1, Max: 1, In: part, Bands: bands{measured: rule{least: 0.10}, other: rule{least: 0.10}},
			Missing: "orifice 0.75, 0.60 to 0.90; seat 0.5, 0.25 to 1; relief 0.62, 0.50 to 0.75", Example: `"0.75 ± 0.15"`,
			Teach: "Share of the hole's area that the jet fills, beside orifice or seat_bore. Leave it out unless you measured it: sharp-edged " +
				"holes reach 0.84 at high pressure."},
	}
}

func reliefKeys() []Key {
	set := bands{measured: plusMinus(0.05, 5e3), other: plusMinus(0.15, 1e4)}
	relief, both := []string{"relief"}, []string{"relief", "regulator"}
	return []Key{
		{Table: "paths.*", Name: "set_pressure", Synonyms: []string{"set", "setting", "opens_at", "lift_pressure", "cracking"},
			Dimension: unit.Pressure, Min: 100, Max: 4e6, In: both, Required: both, Bands: set, Example: `"0.75 bar ± 0.1 bar"`,
			Teach: "Gauge pressure at which it starts to open (relief) or which it holds (regulator). Ten lifts on a bench, by a hand " +
				"pump with a gauge, before it is fitted; until they are written down ± 15 %%, at least ± %s.",
			teachOf: []finding.Shown{finding.Bars.Of(1e4, 1)}},
		{Table: "paths.*", Name: "full_flow_pressure", Synonyms: []string{"full_flow", "full_lift", "fully_open"},
			Dimension: unit.Pressure, Min: 100, Max: 6e6, In: relief, Bands: declared(),
			Missing:   "from the larger of 1.1 times set and set + %s up to 1.5 times the highest set + %s",
			missingOf: []finding.Shown{finding.Bars.Of(1e4, 1), finding.Bars.Of(1e4, 1)}, Example: `"0.95 bar"`,
			Teach: "Gauge pressure at which it is fully open; without a tolerance it shifts with the set pressure. Bench test: the steady " +
				"reading while the supply blows through it. At its set pressure, or at most 1 % above, it counts as not stated."},
		{Table: "paths.*", Name: "reseat_pressure", Aliases: []string{"reseat"}, Synonyms: []string{"blowdown", "closes_at", "reset"},
			Dimension: unit.Pressure, Min: 50, Max: 4e6, In: relief, Bands: declared(), Missing: "0.85 times set", Example: `"0.62 bar"`,
			Teach: "Gauge pressure at which it is shut again; without a tolerance it shifts with the set pressure."},
		{Table: "paths.*", Name: "droop", Dimension: unit.Pressure, Pressure: AsDifference, Min: 10, Max: 1e6, In: []string{"regulator"},
			Bands: bands{measured: plusMinus(0.2, 0), other: plusMinus(0.5, 0)}, Missing: "0.1 times set, 0.02 to 0.3 times set",
			Example: `"0.1 bar"`, Teach: "How far its outlet falls below the set pressure at full flow."},
		{Table: "paths.*", Name: "creep", Synonyms: []string{"lockup", "lock_up"}, Dimension: unit.Pressure, Pressure: AsDifference,
			Sign: OrZero, Max: 1e6, In: []string{"regulator"},
			Bands: bands{measured: plusMinus(0.2, 0), other: plusMinus(0.5, 0)}, Missing: "0.1 times set, 0 to 0.3 times set", Example: `"0.05 bar"`,
			Teach: "How far its outlet rises above the set pressure when nothing flows: read the gauge after ten minutes. " +
				"Less than 1 % of the set pressure counts as not stated."},
		{Table: "paths.*", Name: "relieving", Synonyms: []string{"self_relieving", "venting"}, Kind: Answer, In: []string{"regulator"},
			Missing: "no", Example: `false`, Teach: "true if it lets air out when its outlet is too high."},
	}
}
