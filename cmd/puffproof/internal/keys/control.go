package keys

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/control"
	"puffproof/limits/finding"
)

// Kinds of parts of [control] that readers name.
const (
	FusePart = "fuse"
	LoadPart = "load"
)

// ControlKinds are the words for the kinds of parts of [control], in the order of control.Kind.
func ControlKinds() []string {
	return []string{control.Fuse: FusePart, control.Stop: "stop", control.KeySwitch: "key switch", control.StartButton: "start button",
		control.Button: "button", control.Remote: "remote", control.Timer: "timer", control.Switch: "switch",
		control.PressureSwitch: "pressure switch", control.Relay: "relay", control.Load: LoadPart}
}

func controlKeys() []Key {
	area := func(mm2 float64) finding.Shown { return finding.SquareMillimetres.Of(mm2*1e-6, 2) }
	const table = "control.*"
	return []Key{
		{Table: table, Name: "kind", Synonyms: []string{"type", "is"}, Kind: Word, Words: ControlKinds(), Required: always(),
			Example: `"relay"`, Teach: "stop: the emergency stop, whose contacts are closed until it is pressed. start button: pressed once, and " +
				"springs back. button: closed only while it is held. remote: the contacts of a receiver, or of a box on a cable. switch: moved by " +
				"a brake, a lid, a guard. pressure switch: the one of [pressure_switch]. relay: what its contacts switch is named by them, k1.1, " +
				"k1.2. load: coils of valves, or the supply."},
		{Table: table, Name: "closed_in", Synonyms: []string{"on_in", "closed", "on_when", "closed_when", "open_in"}, Kind: States,
			In:      []string{"key switch", "start button", "button", "remote", "timer", "switch"},
			Missing: "nothing is known of what it switches", Example: `["charging", "armed", "firing"]`,
			Teach: "The states in which its contacts are closed; of a start button, those that begin with a press of it or come after one."},
		{Table: table, Name: "through", Synonyms: []string{"via", "in_series", "series", "path", "way", "fed_by", "wired_through", "contacts"},
			Kind: Names, In: []string{"relay", LoadPart}, Missing: "nothing is known of when it has current",
			Example: `["f1", "key", "stop", "start or k1"]`, Teach: "What the current passes on its way to it, from the fuse on: each contact " +
				"by the name of " +
				"its part, the second contact of one as k1.2. Contacts side by side, of which one is enough: \"start or k1\". The contact of a " +
				"relay that is closed while it has dropped: \"not k1\". Two loads that name the same contact hang on the same wire behind it, " +
				"and have the same before it. A " +
				"relay that has its own contact beside the start button holds itself."},
		{Table: table, Name: "moves", Synonyms: []string{"valve", "valves", "drives", "coil", "coils", "switches", "feeds", "opens"}, Kind: Names,
			In: []string{LoadPart}, Required: []string{LoadPart}, Example: `["fire"]`,
			Teach: "What has current with it: names of paths, each a valve with a coil, or \"supply\"."},
		{Table: table, Name: "rating", Synonyms: []string{"amps", "amperes", "current", "size", "fuse"}, Dimension: unit.Current, Min: 0.01,
			Max: 100, In: []string{FusePart}, Bands: declared(), Missing: "control.fuses is unknown", Example: `"5 A"`,
			Teach: "What is printed on the fuse."},
		{Table: table, Name: "wire_rating", Synonyms: []string{"wire", "cable", "wire_size", "wire_current", "wire_area"},
			Dimension: unit.Current,
			Min:       0.01, Max: 200, In: []string{FusePart}, Bands: declared(), Missing: "control.fuses is unknown", Example: `"10 A"`,
			Teach: "What the thinnest wire behind the fuse bears for good, by its maker or a table; bundled or hot it bears less. Usual for " +
				"single " +
				"copper wires in the open (common practice, no source): %s (AWG 20) 3 A, %s (AWG 18) 6 A, %s (AWG 16) 10 A, %s (AWG 14) 16 A.",
			teachOf: []finding.Shown{area(0.5), area(0.75), area(1), area(1.5)}},
	}
}
