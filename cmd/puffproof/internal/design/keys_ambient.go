package design

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// always is the requirement of a key that stands in every table of its kind.
func always() []string { return []string{"*"} }

func topKeys() []key {
	return []key{
		{name: "name", synonyms: []string{"title", "design"}, kind: text, required: always(), example: `"My launcher"`,
			teach: "What the launcher is called. It stands on every report."},
		{name: "revision", synonyms: []string{"version", "rev"}, kind: text, example: `"A"`, missing: "left blank",
			teach: "Change it at every change of the build."},
		{name: "description", synonyms: []string{"notes", "comment"}, kind: text, example: `"Foam ball launcher, invented data"`,
			missing: "left blank",
			teach:   "One sentence for people who have not seen it."},
		{name: "owner", kind: text, example: `"who built it and keeps it"`, missing: "left blank", teach: "Who answers for the launcher."},
		{name: "adult_in_charge", synonyms: []string{"operator", "supervisor"}, kind: text, example: `"who holds the key at the event"`,
			missing: "left blank", teach: "The named adult who holds the key and the remote stop."},
	}
}

func ambientKeys() []key {
	return []key{
		{table: "ambient", name: "pressure", synonyms: []string{"barometer", "barometric_pressure", "air_pressure"}, dimension: unit.Pressure,
			pressure: asAbsolute, min: 5e4, max: 1.1e5, bands: bands{measured: rule{least: 1000}, other: rule{least: 4000}},
			missing:   "%s abs ± %s",
			missingOf: []finding.Shown{finding.Hectopascals.Of(101325, 6), finding.Hectopascals.Of(4000, 2)}, example: `"1013 hPa abs ± 30 hPa"`,
			teach: "Barometric pressure at the place of use, not reduced to sea level: about %s less for each %s of height. A phone often " +
				"shows it.",
			teachOf: []finding.Shown{finding.Hectopascals.Of(1200, 2), finding.Metres.Of(100, 3)}},
		{table: "ambient", name: "temperature", synonyms: []string{"temp", "air_temperature"}, dimension: unit.Temperature,
			min: coldestGas, max: hottestGas, bands: bands{measured: rule{least: 2}, other: rule{least: 10}},
			missing:   "%s -%s/+%s",
			missingOf: []finding.Shown{celsius(15), finding.Kelvins.Of(20, 2).Beside(), finding.Kelvins.Of(25, 2)}, example: `"18 degC ± 10 K"`,
			teach: "Air temperature while it is used."},
		{table: "ambient", name: "hottest", synonyms: []string{"max_temperature", "hot"}, dimension: unit.Temperature,
			min: coldestGas, max: hottestGas, bands: declared(), missing: "%s", missingOf: []finding.Shown{celsius(50)},
			example: `"45 degC"`, teach: "The hottest a filled launcher may get: a closed car in the sun reaches %s, a dark float in summer %s.",
			teachOf: []finding.Shown{celsius(60), celsius(50)}},
		{table: "ambient", name: "coldest", synonyms: []string{"min_temperature", "cold"}, dimension: unit.Temperature,
			min: coldestGas, max: hottestGas, bands: declared(), missing: "%s", missingOf: []finding.Shown{celsius(-5)},
			example: `"0 degC"`,
			teach:   "The coldest it is used at: cold foam is hard, cold valves are slow, cold vents are slow too."},
		{table: "gas", name: "name", synonyms: []string{"gas", "kind"}, kind: word, words: []string{"air", "nitrogen"},
			missing: "air", example: `"air"`,
			teach: "Air. Nitrogen only with a supply of kind \"regulated cylinder\"."},
	}
}

func vesselKeys() []key {
	return append([]key{
		{table: "volumes.*", name: "volume", synonyms: []string{"size", "capacity", "content", "litres", "liters"}, dimension: unit.Volume,
			required: always(), min: 1e-6, max: 0.2,
			bands:   bands{measured: plusMinus(0.02, 0), other: plusMinus(0.05, 0), datasheet: &rule{below: 0.03, above: 0.03}},
			example: `"0.80 L ± 2 %"`,
			teach:   "Inside volume with its fittings. Fill it with water and weigh: %s is %s. Dry it well afterwards. Hoses are counted apart.",
			teachOf: []finding.Shown{finding.Grams.Of(1, 4), finding.Litres.Of(1e-3, 1)}},
	}, append(ratingKeys("volumes.*"), key{table: "volumes.*", name: "inner_diameter", synonyms: []string{"bore", "inside_diameter",
		"diameter"}, dimension: unit.Length, min: 5e-3, max: 1, bands: bands{measured: plusMinus(0.02, 1e-3), other: plusMinus(0.1, 2e-3)},
		missing: "that of a lying cylinder three diameters long", example: `"90 mm"`, teach: "Inside diameter of the vessel: it sets how fast " +
			"the walls warm the gas while it vents. The outside less two walls is good enough."},
		key{table: "volumes.*", name: "filled_to", synonyms: []string{"prefilled", "precharge", "fill_pressure", "charged_to", "prefilled_to"},
			dimension: unit.Pressure, min: 100, max: 1e6, bands: bands{measured: plusMinus(0.05, 3e3), other: plusMinus(0.20, 1e4)},
			missing: "it does not come filled", example: `"0.50 bar ± 0.05 bar"`, teach: "Of a vessel that is filled elsewhere and closed, in a " +
				"file without a [supply]: the gauge pressure it is filled to, the gauge's error included. Heat that it meets later counts."},
		key{table: "volumes.*", name: "filler_reaches", synonyms: []string{"fill_limit", "filler_dead_head"}, dimension: unit.Pressure, min: 100,
			max: 4e7, bands: bands{measured: plusMinus(0.05, 1e3), other: plusMinus(0.20, 1e3)},
			missing: "how far it may be filled by mistake is unknown", example: `"3 bar"`, teach: "Of a vessel that comes filled: the pressure " +
				"that what fills it can push to, its dead head, or a relief valve's full flow there. Too full by mistake is a fault."})...)
}

// ratingKeys are the keys that a vessel and a barrel share.
func ratingKeys(table string) []key {
	return []key{
		{table: table, name: "rated_pressure", synonyms: []string{"rating", "max_pressure", "working_pressure", "pn", "pressure_rating"},
			dimension: unit.Pressure, min: 1e3, max: 4e7, bands: declared(), missing: "its verdicts are unknown", example: `"10 bar"`,
			teach: "The highest working pressure that the maker's plate or document names. Pipe print such as PN10 is for water at %s: it " +
				"is no rating for gas.", teachOf: []finding.Shown{celsius(20)}},
		{table: table, name: "rated_for_gas", synonyms: []string{"gas_rated", "for_gas"}, kind: answer, missing: "unknown, which counts as no",
			example: `true`, teach: "true only if a document of the maker says that the rating holds for air or gas."},
		{table: table, name: "material", kind: text, missing: "its verdicts are unknown", example: `"steel"`, teach: "What it is made of, as " +
			"on the plate: steel, aluminium, PVC pipe. Plastic pipe that is not rated for gas is not a pressure vessel."},
		{table: table, name: "proof_test", synonyms: []string{"test", "hydro_test", "pressure_test"}, kind: text, missing: "none recorded",
			example: `"15 bar, water, 2026-03-01, two initials"`,
			teach:   "For home-made parts: pressure, medium, date, who. With water only, never with air."},
		{table: table, name: "made_on", synonyms: []string{"made", "built", "year_made"}, kind: date, missing: "not known",
			example: `"2026-03-01"`,
			teach:   "Date of manufacture, from the plate."},
		{table: table, name: "retire_by", synonyms: []string{"expires", "expiry", "use_until"}, kind: date, missing: "not known",
			example: `"2031-03-01"`,
			teach:   "Date after which it is not used any more."},
	}
}
