package design

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/unit"
)

// builderKinds are builders' words for kinds of paths and of supplies, folded, the more
// particular kinds first.
func builderKinds() [][]string {
	return [][]string{
		{keys.ThreeWay, "3/2", "three_port", "3_port", "3_way", "three_way", "changeover", "diverter", "selector", "lock_out"},
		{keys.QuickExhaust, "quick_exhaust", "rapid_exhaust", "dump_valve", "shuttle"},
		{keys.Diaphragm, "diaphragm", "sprinkler", "irrigation", "garden", "pulse_jet", "piston_valve", "poppet"},
		{"relief", "relief", "safety", "pop_off", "blow_off", "overpressure", "burst_disc"},
		{"check", "check", "non_return", "one_way", "back_flow", "snifter"},
		{"regulator", "regulator", "reducer", "pressure_reducing", "regulating"},
		{"orifice", "orifice", "jet", "bleed", "restrictor", "needle", "snubber", "nozzle", "throttle", "flow_control", "hole", "silencer"},
		{"hand valve", "ball_valve", "butterfly", "manual", "lever", "tap", "cock", "gate_valve", "hand_operated", "hand_valve", "blow_gun",
			"trigger"},
		{"valve", "solenoid", "electric", "2/2", "valve"},
		{"hose", "hose", "pipe", "tube", "tubing"},
		{"hand pump", "bike_pump", "foot_pump", "track_pump", "hand_pump", "bellows", "person", "lungs"},
		{"regulated cylinder", "bottle", "cylinder", "cartridge", "scuba"},
		{"compressor", "compressor", "pump", "inflator", "blower", "fan"},
		{"stop", "stop", "kill", "mushroom"},
		{"key switch", "key", "selector", "ignition"},
		{"start button", "start", "reset"},
		{"button", "button", "dead_man", "push", "hold"},
		{"remote", "remote", "radio", "receiver", "pendant", "wireless"},
		{"timer", "timer", "delay"},
		{"pressure switch", "pressure", "pressostat"},
		{"switch", "switch", "interlock", "sensor", "brake", "contact"},
		{"fuse", "fuse", "breaker"},
		{"relay", "relay", "contactor", "transistor", "mosfet"},
		{"load", "solenoid", "coil", "valve", "motor", "pump", "compressor", "inflator", "supply"},
		{"shop air", "shop", "workshop", "main", "house_air", "plant", "compressed_air", "line"},
	}
}

// kindHint names the kind that comes nearest to a refused one: by a word that it
// contains, else by its spelling. None of these: what tells the kinds apart.
func kindHint(found string, words []string) string {
	f := unit.Fold(found)
	if f == "prv" && slices.Contains(words, "relief") {
		return `PRV may be a "relief" or a pressure-reducing "regulator"`
	}
	best := ""
	for _, row := range builderKinds() {
		holds := func(w string) bool { return strings.Contains(f, w) }
		if best == "" && slices.Contains(words, row[0]) && slices.ContainsFunc(row[1:], holds) {
			best = row[0]
		}
	}
	if best == "" {
		best = keys.Nearest(found, words)
	}
	switch {
	case best != "":
		return keys.Meant(`"` + best + `"`)
	case slices.Contains(words, "orifice"):
		return `nearest: "orifice" for what is always open, "valve" for what is moved by current, "hand valve" for what a hand moves`
	case slices.Contains(words, "compressor"):
		return `nearest: "compressor" for whatever is driven by a motor, "hand pump" for whatever a person drives; ` +
			`a vessel that is filled elsewhere has no [supply] but filled_to`
	}
	return ""
}
