package manual

// sampleTable is one table of the template, its values as pairs of key and text.
type sampleTable struct {
	row, header, about string
	values             [][2]string
}

// sample is the launcher of the template. Its data are invented; the template marks its figures and leaves its claims blank.
func sample() (parts []Part) {
	for _, t := range append(append(sampleVessels(), samplePaths()...), sampleRest()...) {
		p := Part{Row: t.row, Header: t.header, About: t.about}
		for _, v := range t.values {
			p.Values = append(p.Values, Value{Key: v[0], Text: v[1]})
		}
		parts = append(parts, p)
	}
	return parts
}

func sampleVessels() []sampleTable {
	return []sampleTable{
		{row: "", values: [][2]string{{"name", `"My launcher"`}, {"revision", `"A"`}, {"description",
			`"Foam ball launcher; every figure here is invented"`}}},
		{row: "ambient", header: "ambient", values: [][2]string{{"pressure", `"1013 hPa abs ± 30 hPa"`}, {"temperature", `"18 degC ± 8 K"`},
			{"hottest", `"35 degC"`}, {"coldest", `"10 degC"`}}},
		{row: "gas", header: "gas", values: [][2]string{{"name", `"air"`}}},
		{row: "volumes.*", header: "volumes.tank", about: "Filled by the compressor.", values: [][2]string{{"volume", `"2.5 L ± 2 %"`},
			{"rated_pressure", `"10 bar"`}, {"rated_for_gas", "true"}, {"material", `"steel"`}}},
		{row: "volumes.*", header: "volumes.dose", about: "Holds the air of one shot.", values: [][2]string{{"volume",
			`"1.0 L ± 3 %"`}, {"rated_pressure", `"10 bar"`}, {"rated_for_gas", "true"}, {"material", `"steel"`}}},
	}
}

func samplePaths() []sampleTable {
	return []sampleTable{
		{row: "paths.*", header: "paths.feed", about: "Fills the dose slowly: its small hole keeps the tank out of the shot.",
			values: [][2]string{{"from", `"tank"`}, {"to", `"dose"`}, {"kind", `"valve"`}, {"orifice", `"1.2 mm ± 0.1 mm"`},
				{"orifice_removable", "false"}, {"open_in", `["charging"]`}, {"unpowered", `"closed"`}, {"drive", `"direct"`},
				{"opening_time", `"20 ms -20/+20 ms"`}}},
		{row: "paths.*", header: "paths.fire", about: "Lets the dose into the barrel: the valve " +
			"sits at the dose, a hose leads to the barrel. Take the hose away where the valve sits at the barrel itself.",
			values: [][2]string{{"from", `"dose"`}, {"to", `"barrel"`}, {"kind", `"valve"`}, {"Cv", `"1.5 ± 10 %"`},
				{"open_in", `["firing"]`}, {"unpowered", `"closed"`}, {"drive", `"direct"`}, {"opening_time", `"40 ms ± 10 ms"`},
				{"hose", `{ bore = "8.0 mm ± 0.2 mm, template", length = "0.60 m ± 0.01 m, template", side = "after" }`}}},
		{row: "paths.*", header: "paths.dump_tank", about: "Empties the tank when it is switched off or the power fails.",
			values: [][2]string{{"from", `"tank"`}, {"to", `"atmosphere"`}, {"kind", `"valve"`}, {"orifice", `"1.2 mm ± 0.1 mm"`},
				{"open_in", `["off"]`}, {"unpowered", `"open"`}, {"drive", `"direct"`}, {"points", `"away"`}}},
		{row: "paths.*", header: "paths.dump_dose", about: "Empties the dose; open while hands are at the muzzle too.",
			values: [][2]string{{"from", `"dose"`}, {"to", `"atmosphere"`},
				{"kind", `"valve"`}, {"orifice", `"1.0 mm ± 0.1 mm"`}, {"open_in", `["off", "loading"]`}, {"unpowered", `"open"`}, {"drive",
					`"direct"`}, {"points", `"away"`}}},
		{row: "paths.*", header: "paths.bleed", about: "Always open: no ball that sticks keeps air behind it.",
			values: [][2]string{{"from", `"barrel"`}, {"to", `"atmosphere"`}, {"kind", `"orifice"`}, {"orifice", `"1.0 mm ± 0.1 mm"`},
				{"points", `"away"`}}},
		{row: "paths.*", header: "paths.relief", about: "Opens if the switch fails. No shut-off between it and the tank.",
			values: [][2]string{{"from", `"tank"`}, {"to", `"atmosphere"`},
				{"kind", `"relief"`}, {"orifice", `"5 mm ± 0.2 mm"`}, {"set_pressure", `"0.65 bar ± 0.03 bar"`}, {"full_flow_pressure",
					`"0.80 bar ± 0.02 bar"`}, {"points", `"away"`}}},
	}
}

func sampleRest() []sampleTable {
	return []sampleTable{
		{row: "supply", header: "supply", values: [][2]string{{"kind", `"compressor"`}, {"feeds", `"tank"`}, {"free_air",
			`"12 L/min ± 15 %"`}, {"dead_head", `"4 bar"`}}},
		{row: "pressure_switch", header: "pressure_switch", values: [][2]string{{"senses", `"tank"`}, {"cut_out",
			`"0.35 bar ± 0.02 bar"`},
			{"cut_in", `"0.20 bar ± 0.02 bar"`}, {"differential", `"0.08 bar ± 0.02 bar"`}, {"adjustable", "false"}}},
		{row: "gauge", header: "gauge", values: [][2]string{{"on", `"tank"`}, {"range", `"1 bar"`}, {"class", "1.6"}, {"stop_pin", "false"}}},
		{row: "barrel", header: "barrel", values: [][2]string{{"fit", `"in bore"`}, {"bore", `"41.0 mm ± 0.2 mm"`}, {"travel",
			`"50 mm ± 2 mm"`},
			{"dead_volume", `"40 mL ± 5 mL"`}, {"seating", `"free"`}, {"rated_pressure", `"6 bar"`}, {"rated_for_gas", "true"},
			{"material", `"polycarbonate"`}, {"muzzle_admits", `"41 mm"`}, {"object_control",
				`["supervised loading by the adult in charge"]`}, {"seal_guard", `"four slots of 8 mm in the muzzle ring"`}}},
		{row: "projectile", header: "projectile", values: [][2]string{{"mass", `"4.0 g ± 0.4 g"`}, {"diameter",
			`"41.2 mm ± 0.3 mm"`}, {"contact_diameter", `"22 mm ± 2 mm"`}, {"tip", `"resilient"`},
			{"tip_proof", `"press test record, two initials"`}, {"open_cell", "false"}, {"breakaway_force", `"0.4 N -0.4/+0.6 N"`},
			{"sliding_force", `"0.2 N ± 0.2 N"`}, {"drag_coefficient",
				`"0.5 ± 20 %"`}}},
		{row: "venting", header: "venting", values: [][2]string{{"target", `"0.05 bar"`}, {"within", `"60 s"`}}},
		{row: "event", header: "event", values: [][2]string{{"youngest", `"4 years"`}, {"ear_to_muzzle", `"0.6 m"`}, {"nearest_person",
			`"3 m"`}, {"wheels", `"2.2 m"`}, {"muzzle_height", `"1.5 m"`},
			{"elevation", `"80 deg ± 5 deg"`}, {"vehicle_speed", `"0 km/h ± 0"`}, {"wind", `"5 m/s"`}}},
		{row: "mount", header: "mount", values: [][2]string{{"elevation_min", `"75 deg ± 2 deg"`}, {"elevation_max", `"85 deg ± 2 deg"`},
			{"moving_at", `"0 m/s ± 0"`}}},
		{row: "limits", header: "limits", values: [][2]string{{"policy", `"conservative"`}}},
	}
}

// sampleControl is a wiring of the sample's launcher: two relays that hold themselves, either of which cuts everything.
func sampleControl() (out []sampleTable) {
	part := func(name, about, kind string, values ...[2]string) {
		out = append(out, sampleTable{header: "control." + name, about: about, values: append([][2]string{{"kind", `"` + kind + `"`}},
			values...)})
	}
	in := func(states string) [2]string { return [2]string{"closed_in", states} }
	load := func(name, moves, way string) {
		part(name, "", "load", [2]string{"moves", `["` + moves + `"]`}, [2]string{"through", `["f1", ` + way + `]`})
	}
	const on, ready = `["charging", "armed", "loading", "firing"]`, `["charging", "armed", "firing"]`
	part("f1", "", "fuse", [2]string{"rating", `"5 A"`}, [2]string{"wire_rating", `"10 A"`})
	part("key", "Each part by its contacts: stop.1 and stop.2 are two of one stop.", "key switch", in(on))
	part("stop", "", "stop")
	part("start", "", "start button", in(on))
	part("k1", "Two relays that hold themselves: either cuts every load.", "relay", [2]string{"through",
		`["f1", "key.1", "stop.1", "start.1 or k1.1"]`})
	part("k2", "", "relay", [2]string{"through", `["f1", "key.2", "stop.2", "start.2 or k2.1"]`})
	part("ready", "Moved by the lid over the muzzle.", "switch", in(ready))
	part("fill", "", "switch", in(`["charging"]`))
	part("remote", "Two hands, or two people, fire.", "remote", in(`["firing"]`))
	part("button", "", "button", in(`["firing"]`))
	part("cut_out", "", "pressure switch")
	load("pump", "supply", `"k1.2", "k2.2", "ready.1", "cut_out"`)
	load("feed", "feed", `"k1.3", "k2.3", "fill"`)
	load("dump_tank", "dump_tank", `"k1.4", "k2.4"`)
	load("dump_dose", "dump_dose", `"k1.5", "k2.5", "ready.2"`)
	load("fire", "fire", `"k1.6", "k2.6", "ready.3", "button", "remote"`)
	return out
}
