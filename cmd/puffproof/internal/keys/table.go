package keys

// Version of the design file's keys, printed in the reference and the schema.
const Version = "1"

// New puts the one table of keys together.
func New() *Table {
	k := &Table{Tables: TableRows(), Index: map[string]map[string]*Key{}}
	for _, part := range [][]Key{topKeys(), ambientKeys(), vesselKeys(), pathKeys(), flowKeys(), reliefKeys(), supplyKeys(),
		controlKeys(), barrelKeys(), projectileKeys(), eventKeys(), ruleKeys(), benchKeys()} {
		k.Keys = append(k.Keys, part...)
	}
	for i := range k.Keys {
		row := &k.Keys[i]
		if k.Index[row.Table] == nil {
			k.Index[row.Table] = map[string]*Key{}
		}
		k.Index[row.Table][row.Name] = row
		for _, a := range row.Aliases {
			k.Index[row.Table][a] = row
		}
	}
	return k
}

// TableRows are the tables of a design file, in the order of the template.
func TableRows() []Row {
	return []Row{
		{Name: "", Required: true, Teach: "The design as a whole."},
		{Name: "ambient", Synonyms: []string{"environment", "weather", "surroundings"},
			Teach: "The air around the launcher, and the heat and cold that it may meet while filled."},
		{Name: "gas", Teach: "The gas that drives the projectile."},
		{Name: "volumes.*", Required: true, Synonyms: []string{"tank", "bottle", "tanks", "volume", "reservoir", "receiver", "accumulator",
			"vessel", "vessels", "air_can", "chamber", "dose"},
			Teach: "Each closed space that holds pressure, under a name of your own: tank, dose, manifold. Hoses and the barrel are not volumes."},
		{Name: "paths.*", Selector: "kind", Required: true, Synonyms: []string{"path", "valve", "valves", "line", "lines", "plumbing", "circuit",
			"relief", "vent", "vents", "pipes"}, Teach: "Each way that air can take between two volumes, the barrel and the atmosphere: valves, " +
			"orifices, hoses, the relief valve. Its flow stands in exactly one of: sonic_conductance, Cv, Kv, nominal_flow, orifice, seat_bore."},
		{Name: "paths.*.exhaust",
			Teach: "The exhaust port of a three_way or quick_exhaust valve. Its flow stands in one of the same keys as a path's."},
		{Name: "paths.*.hose", Teach: "A hose in series with its path: it slows the flow, and its inside adds to the volume on its side."},
		{Name: "supply", Selector: "kind", Synonyms: []string{"compressor", "pump", "source"}, Teach: "Where the air comes from."},
		{Name: "pressure_switch", Synonyms: []string{"switch", "pressureswitch", "pressostat", "cutoff"},
			Teach: "The switch that stops the supply."},
		{Name: "gauge", List: true, Synonyms: []string{"gauges", "manometer", "gage", "dial"},
			Teach: "A pressure gauge. Several are written [[gauge]]."},
		{Name: "control.*", Selector: "kind", Synonyms: []string{"controls", "electric", "electrics", "electrical", "wiring", "relay", "relays",
			"fuse", "fuses", "stop", "estop", "e_stop", "emergency_stop", "key_switch", "remote", "timer", "contact", "contacts"},
			Teach: "The wiring, if it is to be judged: each fuse, switch, relay and load under a name of its own. What is left out, as a " +
				"whole, is " +
				"judged as if any valve could get current at any time. With it, each contact that welds, each wire that shorts, each coil that drops " +
				"is a fault of its own."},
		{Name: "barrel", Selector: "fit", Required: true, Synonyms: []string{"tube", "launch_tube", "bore", "muzzle"},
			Teach: "What guides the projectile: a bore that it sits in, or a tube that it sits over."},
		{Name: "projectile", Required: true, Synonyms: []string{"ball", "rocket", "foam", "ammo", "shot", "dart"}, Teach: "What flies."},
		{Name: "venting", Synonyms: []string{"dump", "blow_down", "bleed", "exhaust"},
			Teach: "How far and how fast the launcher must empty itself on shutdown."},
		{Name: "event", Synonyms: []string{"show", "place"}, Teach: "Who is near, and where."},
		{Name: "mount", Synonyms: []string{"stand", "elevation"}, Teach: "How the barrel is held, and whether it moves."},
		{Name: "limits", Synonyms: []string{"limit", "policy"}, Teach: "Which limits are used; your own may be stricter, never looser."},
		{Name: "model", Teach: "Only for comparison with references: switches parts of the model off. Nothing that is computed passes then."},
		{Name: "objects", List: true, Synonyms: []string{"object", "misuse"},
			Teach: "Objects of your own that a child may put into the barrel, written [[objects]]; they join the built-in list."},
		{Name: "bench", Synonyms: []string{"tests", "bench_tests", "readings"},
			Teach: "Raw readings of bench tests. Each test replaces the bands that stood for it, and the reports say by how much the answer moved."},
		{Name: "checklist", Synonyms: []string{"confirmed"}, Teach: "Answers to checklist items: [checklist.ITEM] with who, date, value."},
	}
}
