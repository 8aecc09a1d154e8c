package design

import (
	"maps"
	"slices"
	"strings"
)

// builderKinds are builders' words for kinds of paths and of supplies, folded.
func builderKinds() map[string]string {
	return map[string]string{
		"solenoid": "valve", "electric": "valve", "2/2": "valve", "butterfly": "hand valve",
		"ball_valve": "hand valve", "manual": "hand valve", "lever": "hand valve", "tap": "hand valve", "cock": "hand valve", "gate": "hand valve",
		"hand_operated": "hand valve", "blow_gun": "hand valve", "trigger": "hand valve",
		"safety": "relief", "pop_off": "relief", "blow_off": "relief", "overpressure": "relief", "burst_disc": "relief",
		"non_return": "check", "check": "check", "one_way": "check", "back_flow": "check", "snifter": "check",
		"jet": "orifice", "bleed": "orifice", "restrictor": "orifice", "needle": "orifice", "snubber": "orifice", "nozzle": "orifice",
		"throttle": "orifice", "flow_control": "orifice", "hole": "orifice", "silencer": "orifice",
		"pipe": "hose", "tube": "hose", "tubing": "hose",
		"reducer": "regulator", "pressure_reducing": "regulator", "regulating": "regulator",
		"pump": "compressor", "inflator": "compressor", "blower": "compressor", "fan": "compressor", "bellows": "hand pump",
		"bike_pump": "hand pump", "foot_pump": "hand pump", "track_pump": "hand pump", "person": "hand pump", "lungs": "hand pump",
		"bottle": "regulated cylinder", "cylinder": "regulated cylinder", "cartridge": "regulated cylinder", "scuba": "regulated cylinder",
	}
}

// kindHint names the kind that comes nearest to a refused one: by a builder's word,
// by one that it contains, by its spelling. None of these: what tells the kinds apart.
func kindHint(found string, words []string) string {
	f := fold(found)
	if f == "prv" && contains(words, "relief") {
		return `PRV may be a "relief" or a pressure-reducing "regulator"`
	}
	best, longest := "", 0
	take := func(word, kind string) {
		if contains(words, kind) && strings.Contains(f, word) && len(word) > longest {
			best, longest = kind, len(word)
		}
	}
	known := builderKinds()
	for _, word := range slices.Sorted(maps.Keys(known)) { // of equally long ones always the same
		take(word, known[word])
	}
	for _, w := range words {
		take(fold(w), w)
	}
	if best == "" {
		best = nearest(found, words)
	}
	switch {
	case best != "":
		return meant(`"` + best + `"`)
	case contains(words, "orifice"):
		return `nearest: "orifice" for what is always open, "valve" for what is moved by current, "hand valve" for what a hand moves`
	case contains(words, "compressor"):
		return `nearest: "compressor" for whatever is driven by a motor, "hand pump" for whatever a person drives`
	}
	return ""
}
