package design

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// benchKeys are the raw readings of bench tests. Each test replaces the bands that
// were assumed or stated before.
func benchKeys() []key {
	return []key{
		{table: "bench", name: "gauge_error", synonyms: []string{"error", "accuracy"},
			dimension: unit.Pressure, pressure: asDifference, sign: orZero, max: 1e6, bands: declared(), required: always(), example: `"0.01 bar"`,
			teach: "Largest error of the gauge that all pressures here were read on: class times range, or checked against a U-tube (%s of " +
				"water). It widens every reading to both sides.", teachOf: []finding.Shown{finding.MillibarsPerMetre.Of(9800, 2)}},
		{table: "bench", name: "relief_steady", synonyms: []string{"relief", "steady", "relief_pressure"}, kind: readings,
			dimension: unit.Pressure, least: launcher.LeastSteady,
			min: 100, max: 1e6, missing: "full_flow_pressure and the balance by the circuit decide", example: `["0.84 bar", "0.85 bar", "0.84 bar"]`,
			teach: "Switch bridged, no projectile, an adult at a distance, only where every part takes what the supply can push to: " +
				"the gauge reading where the relief valve holds the supply and it rises no more. Three times."},
		{table: "bench", name: "cut_outs", synonyms: []string{"cut_out", "cycles", "switch_cycles"}, kind: readings,
			dimension: unit.Pressure, least: launcher.LeastCycles, min: 100, max: 1e6, missing: "the band of pressure_switch.cut_out decides",
			example: `["0.44 bar", "0.45 bar", "0.45 bar", "0.44 bar", "0.46 bar", "0.45 bar", "0.44 bar", "0.45 bar", "0.45 bar", "0.46 bar"]`,
			teach:   "Gauge readings at which the switch stopped the supply, ten cycles."},
		{table: "bench", name: "cut_ins", synonyms: []string{"cut_in"}, kind: readings, dimension: unit.Pressure, least: launcher.LeastCycles,
			min: 50, max: 1e6, missing: "the band of pressure_switch.cut_in decides",
			example: `["0.30 bar", "0.31 bar", "0.30 bar", "0.30 bar", "0.29 bar", "0.30 bar", "0.31 bar", "0.30 bar", "0.30 bar", "0.29 bar"]`,
			teach:   "Gauge readings at which it started the supply again, in the same ten cycles."},
		{table: "bench", name: "fill_volume", synonyms: []string{"volume"}, dimension: unit.Volume, min: 1e-5, max: 1,
			bands:   bands{measured: plusMinus(0.02, 0), other: plusMinus(0.1, 0)},
			missing: "the band of supply.free_air decides", example: `"2.0 L ± 2 %, measured"`,
			teach: "A known volume that the supply filled, hoses included: weighed full of water."},
		{table: "bench", name: "fill_from", synonyms: []string{"from"}, dimension: unit.Pressure, sign: orZero, max: 1e6, bands: declared(),
			missing: "zero", example: `"0 bar"`, teach: "Gauge reading at the start of the filling."},
		{table: "bench", name: "fill_to", synonyms: []string{"to"}, dimension: unit.Pressure, min: 100, max: 1e6, bands: declared(),
			missing: "the band of supply.free_air decides",
			example: `"0.40 bar"`, teach: "Gauge reading at its end, well below the dead head."},
		{table: "bench", name: "fill_times", synonyms: []string{"times", "fill_time"}, kind: readings, dimension: unit.Time,
			least: launcher.LeastFillings,
			min:   0.1, max: 36000, missing: "the band of supply.free_air decides", example: `["6.1 s", "6.0 s", "6.2 s"]`,
			teach: "Stop-watch readings from fill_from to fill_to, three fillings."},
	}
}
