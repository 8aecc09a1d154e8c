package keys

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/material"
)

// always is the requirement of a key that stands in every table of its kind.
func always() []string { return []string{"*"} }

func topKeys() []Key {
	return []Key{
		{Name: "name", Synonyms: []string{"title", "design"}, Kind: Text, Required: always(), Example: `"My launcher"`,
			Teach: "What the launcher is called. It stands on every report."},
		{Name: "revision", Synonyms: []string{"version", "rev"}, Kind: Text, Example: `"A"`, Missing: "left blank",
			Teach: "Change it at every change of the build."},
		{Name: "serial", Synonyms: []string{"serial_number", "serial_no"}, Kind: Text, Example: `"3, stamped beneath the tank"`,
			Missing: "left blank", Teach: "What is marked on the launcher itself, by which it is told from a second one of the same design: " +
				"each has a design file and a record of its own."},
		{Name: "description", Synonyms: []string{"notes", "comment"}, Kind: Text, Example: `"Foam ball launcher, invented data"`,
			Missing: "left blank",
			Teach:   "One sentence for people who have not seen it."},
		{Name: "owner", Kind: Text, Example: `"who built it and keeps it"`, Missing: "left blank", Teach: "Who answers for the launcher."},
		{Name: "adult_in_charge", Synonyms: []string{"operator", "supervisor"}, Kind: Text, Example: `"who holds the key at the event"`,
			Missing: "left blank", Teach: "The named adult who holds the key and the remote stop."},
	}
}

func ambientKeys() []Key {
	return []Key{
		{Table: "ambient", Name: "pressure", Synonyms: []string{"barometer", "barometric_pressure", "air_pressure"}, Dimension: unit.Pressure,
			Pressure: AsAbsolute, Min: 5e4, Max: 1.1e5, Bands: bands{measured: rule{least: 1000}, other: rule{least: 4000}},
			Missing:   "%s abs ± %s",
			missingOf: []finding.Shown{finding.Hectopascals.Of(101325, 6), finding.Hectopascals.Of(4000, 2)}, Example: `"1013 hPa abs ± 30 hPa"`,
			Teach: "Barometric pressure at the place of use, not reduced to sea level: about %s less for each %s of height. A phone often " +
				"shows it.",
			teachOf: []finding.Shown{finding.Hectopascals.Of(1200, 2), finding.Metres.Of(100, 3)}},
		{Table: "ambient", Name: "temperature", Synonyms: []string{"temp", "air_temperature"}, Dimension: unit.Temperature,
			Min: ColdestGas, Max: HottestGas, Bands: bands{measured: rule{least: 2}, other: rule{least: 10}},
			Missing:   "%s -%s/+%s",
			missingOf: []finding.Shown{Celsius(15), finding.Kelvins.Of(20, 2).Beside(), finding.Kelvins.Of(25, 2)}, Example: `"18 degC ± 10 K"`,
			Teach: "Air temperature while it is used."},
		{Table: "ambient", Name: "hottest", Synonyms: []string{"max_temperature", "hot"}, Dimension: unit.Temperature,
			Min: ColdestGas, Max: HottestGas, Bands: declared(), Missing: "%s", missingOf: []finding.Shown{Celsius(50)},
			Example: `"45 degC"`, Teach: "The hottest a filled launcher may get: a closed car in the sun reaches %s, a dark float in summer %s.",
			teachOf: []finding.Shown{Celsius(60), Celsius(50)}},
		{Table: "ambient", Name: "coldest", Synonyms: []string{"min_temperature", "cold"}, Dimension: unit.Temperature,
			Min: ColdestGas, Max: HottestGas, Bands: declared(), Missing: "%s", missingOf: []finding.Shown{Celsius(-5)},
			Example: `"0 degC"`,
			Teach:   "The coldest it is used at: cold foam is hard, cold valves are slow, cold vents are slow too."},
		{Table: "gas", Name: "name", Synonyms: []string{"gas", "kind"}, Kind: Word, OutIsNone: true,
			Words:   []string{"air", "nitrogen"},
			Missing: "air", Example: `"air"`,
			Teach: "Air. Nitrogen only with a supply of kind \"regulated cylinder\"."},
	}
}

func vesselKeys() []Key {
	return append([]Key{
		{Table: "volumes.*", Name: "volume", Synonyms: []string{"size", "capacity", "content", "litres", "liters"}, Dimension: unit.Volume,
			Required: always(), Min: 1e-6, Max: 0.2,
			Bands:   bands{measured: plusMinus(0.02, 0), other: plusMinus(0.05, 0), datasheet: &rule{below: 0.03, above: 0.03}},
			Example: `"0.80 L ± 2 %"`,
			Teach:   "Inside volume with its fittings. Fill it with water and weigh: %s is %s. Dry it well afterwards. Hoses are counted apart.",
			teachOf: []finding.Shown{finding.Grams.Of(1, 4), finding.Litres.Of(1e-3, 1)}},
	}, append(ratingKeys("volumes.*"), Key{Table: "volumes.*", Name: "inner_diameter", Synonyms: []string{"bore", "inside_diameter",
		"diameter"}, Dimension: unit.Length, Min: 5e-3, Max: 1, Bands: bands{measured: plusMinus(0.02, 1e-3), other: plusMinus(0.1, 2e-3)},
		Missing: "that of a lying cylinder three diameters long", Example: `"90 mm"`, Teach: "Inside diameter of the vessel: it sets how fast " +
			"the walls warm the gas while it vents. The outside less two walls is good enough."},
		Key{Table: "volumes.*", Name: "filled_to", Synonyms: []string{"prefilled", "precharge", "fill_pressure", "charged_to", "prefilled_to"},
			OutIsNone: true, Dimension: unit.Pressure, Min: 100, Max: 1e6, Bands: bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.20, 1e4)},
			Missing: "it does not come filled", Example: `"0.50 bar ± 0.05 bar"`, Teach: "Of a vessel that is filled elsewhere and closed, in a " +
				"file without a [supply]: the gauge pressure it is filled to, the gauge's error included. Heat that it meets later counts."},
		Key{Table: "volumes.*", Name: "filler_reaches", Synonyms: []string{"fill_limit", "filler_dead_head"}, Dimension: unit.Pressure, Min: 100,
			Max: 4e7, Bands: bands{measured: plusMinus(0.05, 1e3), other: plusMinus(0.20, 1e3)},
			Missing: "how far it may be filled by mistake is unknown", Example: `"3 bar"`, Teach: "Of a vessel that comes filled: the pressure " +
				"that what fills it can push to, its dead head, or a relief valve's full flow there. Too full by mistake is a fault."})...)
}

// ratingKeys are the keys that a vessel and a barrel share.
func ratingKeys(table string) []Key {
	return []Key{
		{Table: table, Name: "rated_pressure", Synonyms: []string{"rating", "max_pressure", "working_pressure", "pn", "pressure_rating"},
			Dimension: unit.Pressure, Min: 1e3, Max: 4e7, Bands: declared(), Missing: "its verdicts are unknown", Example: `"10 bar"`,
			Teach: "The highest working pressure that the maker's plate or document names. Pipe print such as PN10 is for water at %s: it " +
				"is no rating for gas.", teachOf: []finding.Shown{Celsius(20)}},
		{Table: table, Name: "rated_for_gas", Synonyms: []string{"gas_rated", "for_gas"}, Kind: Answer, Missing: "unknown, which counts as no",
			Example: `true`, Teach: "true only if a document of the maker says that the rating holds for air or gas."},
		{Table: table, Name: "material", Kind: Text, Missing: "its verdicts are unknown", Example: `"steel"`, Teach: "What it is made of, as " +
			"on the plate: steel, aluminium, polycarbonate, PVC pipe. A word that is not known here leaves its verdict unknown; a plastic is " +
			"derated in the heat. No plastic pipe that is not rated for gas, no acrylic and no printed part is a pressure vessel."},
		{Table: table, Name: "proof_test", Synonyms: []string{"test", "hydro_test", "pressure_test"}, Kind: Text, Missing: "none recorded",
			Example: `"15 bar, water, 2026-03-01, two initials"`,
			Teach:   "For home-made parts: pressure, medium, date, who. With water only, never with air.", Refuses: byGas},
		{Table: table, Name: "made_on", Synonyms: []string{"made", "built", "year_made"}, Kind: Date,
			Missing: "without a retire_by either, its age is a condition",
			Example: `"2026-03-01"`,
			Teach:   "Date of manufacture, from the plate. Older than forty years it needs a retire_by, and a paper that shows it."},
		{Table: table, Name: "retire_by", Synonyms: []string{"expires", "expiry", "use_until"}, Kind: Date, Missing: "not known",
			Example: `"2031-03-01"`,
			Teach:   "Date after which it is not used any more."},
	}
}

// The temperatures that the gas model covers [K].
const ColdestGas, HottestGas = 250, 340

// byGas says what is wrong with a proof test that was made with a gas; "" nothing.
func byGas(test string) string {
	if material.Has(test, "air", "gas", "nitrogen", "pneumatic") && !material.Has(test, "water", "hydraulic", "hydrostatic") {
		return "is a test with a gas, by which whatever gives way bursts"
	}
	return ""
}
