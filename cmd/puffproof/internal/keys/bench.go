package keys

import (
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// benchKeys are the raw readings of bench tests. Each test replaces the bands that
// were assumed or stated before.
func benchKeys() []Key {
	return []Key{
		{Table: "bench", Name: "gauge_error", Synonyms: []string{"error", "accuracy"},
			Dimension: unit.Pressure, Pressure: AsDifference, Sign: OrZero, Max: 1e6, Bands: declared(), Required: always(), Example: `"0.01 bar"`,
			Teach: "Largest error of the gauge that all pressures here were read on: class times range, or checked against a U-tube (%s of " +
				"water). It widens every reading to both sides.", teachOf: []finding.Shown{finding.MillibarsPerMetre.Of(9800, 2)}},
		{Table: "bench", Name: "relief_steady", Synonyms: []string{"relief", "steady", "relief_pressure"}, Kind: Readings,
			Dimension: unit.Pressure, Least: launcher.LeastSteady,
			Min: 100, Max: 1e6, Missing: "full_flow_pressure and the balance by the circuit decide", Example: `["0.84 bar", "0.85 bar", "0.84 bar"]`,
			Teach: "Switch bridged, no projectile, an adult at a distance, only where every part takes what the supply can push to: " +
				"the gauge reading where the relief valve holds the supply and it rises no more. Three times."},
		{Table: "bench", Name: "cut_outs", Synonyms: []string{"cut_out", "cycles", "switch_cycles"}, Kind: Readings,
			Dimension: unit.Pressure, Least: launcher.LeastCycles, Min: 100, Max: 1e6, Missing: "the band of pressure_switch.cut_out decides",
			Example: `["0.44 bar", "0.45 bar", "0.45 bar", "0.44 bar", "0.46 bar", "0.45 bar", "0.44 bar", "0.45 bar", "0.45 bar", "0.46 bar"]`,
			Teach:   "Gauge readings at which the switch stopped the supply, ten cycles."},
		{Table: "bench", Name: "cut_ins", Synonyms: []string{"cut_in"}, Kind: Readings, Dimension: unit.Pressure, Least: launcher.LeastCycles,
			Min: 50, Max: 1e6, Missing: "the band of pressure_switch.cut_in decides",
			Example: `["0.30 bar", "0.31 bar", "0.30 bar", "0.30 bar", "0.29 bar", "0.30 bar", "0.31 bar", "0.30 bar", "0.30 bar", "0.29 bar"]`,
			Teach:   "Gauge readings at which it started the supply again, in the same ten cycles."},
		{Table: "bench", Name: "fill_volume", Synonyms: []string{"volume"}, Dimension: unit.Volume, Min: 1e-5, Max: 1,
			Bands:   bands{measured: plusMinus(0.02, 0), other: plusMinus(0.1, 0)},
			Missing: "the band of supply.free_air decides", Example: `"2.0 L ± 2 %, measured"`,
			Teach: "A known volume that the supply filled, hoses included: weighed full of water."},
		{Table: "bench", Name: "fill_from", Synonyms: []string{"from"}, Dimension: unit.Pressure, Sign: OrZero, Max: 1e6, Bands: declared(),
			Missing: "zero", Example: `"0 bar"`, Teach: "Gauge reading at the start of the filling."},
		{Table: "bench", Name: "fill_to", Synonyms: []string{"to"}, Dimension: unit.Pressure, Min: 100, Max: 1e6, Bands: declared(),
			Missing: "the band of supply.free_air decides",
			Example: `"0.40 bar"`, Teach: "Gauge reading at its end, well below the dead head."},
		{Table: "bench", Name: "fill_times", Synonyms: []string{"times", "fill_time"}, Kind: Readings, Dimension: unit.Time,
			Least: launcher.LeastFillings,
			Min:   0.1, Max: 36000, Missing: "the band of supply.free_air decides", Example: `["6.1 s", "6.0 s", "6.2 s"]`,
			Teach: "Stop-watch readings from fill_from to fill_to, three fillings."},
	}
}
