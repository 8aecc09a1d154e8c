package design

// newKeyTable puts the one table of keys together.
func newKeyTable() *keyTable {
	k := &keyTable{tables: tableRows(), index: map[string]map[string]*key{}}
	for _, part := range [][]key{topKeys(), ambientKeys(), vesselKeys(), pathKeys(), flowKeys(), reliefKeys(), supplyKeys(),
		barrelKeys(), projectileKeys(), eventKeys(), ruleKeys(), benchKeys()} {
		k.keys = append(k.keys, part...)
	}
	for i := range k.keys {
		row := &k.keys[i]
		if k.index[row.table] == nil {
			k.index[row.table] = map[string]*key{}
		}
		k.index[row.table][row.name] = row
		for _, a := range row.aliases {
			k.index[row.table][a] = row
		}
	}
	return k
}

func tableRows() []tableRow {
	return []tableRow{
		{name: "", required: true, teach: "The design as a whole."},
		{name: "ambient", synonyms: []string{"environment", "weather", "surroundings"},
			teach: "The air around the launcher, and the heat and cold that it may meet while filled."},
		{name: "gas", teach: "The gas that drives the projectile."},
		{name: "volumes.*", required: true, synonyms: []string{"tank", "bottle", "tanks", "volume", "reservoir", "receiver", "accumulator",
			"vessel", "vessels", "air_can", "chamber", "dose"},
			teach: "Each closed space that holds pressure, under a name of your own: tank, dose, manifold. Hoses and the barrel are not volumes."},
		{name: "paths.*", selector: "kind", required: true, synonyms: []string{"path", "valve", "valves", "line", "lines", "plumbing", "circuit",
			"relief", "vent", "vents", "pipes"}, teach: "Each way that air can take between two volumes, the barrel and the atmosphere: valves, " +
			"orifices, hoses, the relief valve. Its flow stands in exactly one of: sonic_conductance, Cv, Kv, nominal_flow, orifice, seat_bore."},
		{name: "paths.*.exhaust",
			teach: "The exhaust port of a three_way or quick_exhaust valve. Its flow stands in one of the same keys as a path's."},
		{name: "paths.*.hose", teach: "A hose in series with its path: it slows the flow, and its inside adds to the volume on its side."},
		{name: "supply", selector: "kind", synonyms: []string{"compressor", "pump", "source"}, teach: "Where the air comes from."},
		{name: "pressure_switch", synonyms: []string{"switch", "pressureswitch", "pressostat", "cutoff"},
			teach: "The switch that stops the supply."},
		{name: "gauge", list: true, synonyms: []string{"gauges", "manometer", "gage"}, teach: "A pressure gauge. Several are written [[gauge]]."},
		{name: "barrel", selector: "fit", required: true, synonyms: []string{"tube", "launch_tube", "bore", "muzzle"},
			teach: "What guides the projectile: a bore that it sits in, or a tube that it sits over."},
		{name: "projectile", required: true, synonyms: []string{"ball", "rocket", "foam", "ammo", "shot", "dart"}, teach: "What flies."},
		{name: "venting", synonyms: []string{"dump", "blow_down", "bleed", "exhaust"},
			teach: "How far and how fast the launcher must empty itself on shutdown."},
		{name: "event", synonyms: []string{"show", "place"}, teach: "Who is near, and where."},
		{name: "mount", synonyms: []string{"stand", "elevation"}, teach: "How the barrel is held, and whether it moves."},
		{name: "limits", synonyms: []string{"limit", "policy"}, teach: "Which limits are used; your own may be stricter, never looser."},
		{name: "model", teach: "Only for comparison with references: switches parts of the model off."},
		{name: "objects", list: true, synonyms: []string{"object", "misuse"},
			teach: "Objects of your own that a child may put into the barrel, written [[objects]]; they join the built-in list."},
		{name: "bench", synonyms: []string{"tests", "bench_tests", "readings"},
			teach: "Raw readings of bench tests. Each test replaces the bands that stood for it, and the reports say by how much the answer moved."},
		{name: "checklist", synonyms: []string{"confirmed"}, teach: "Answers to checklist items: [checklist.ITEM] with who, date, value."},
	}
}
