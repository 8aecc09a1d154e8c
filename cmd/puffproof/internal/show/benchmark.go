package show

import (
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/benchmark"
)

// Benchmark writes the value of a published figure in a system of units.
func Benchmark(units quantity.System, b benchmark.Benchmark) string {
	quantities := map[string]quantity.Kind{"J": quantity.Energy, "J/m2": quantity.EnergyPerArea, "Pa": quantity.Gauge, "m": quantity.Length,
		"kg": quantity.Mass, "m/s": quantity.Speed, "m3": quantity.Volume, "s": quantity.Time, "Pa m3": quantity.PressureVolume}
	const year = 365.25 * 86400
	if b.Unit == "s" && b.Value >= year {
		return units.Near(quantity.Age, b.Value)
	}
	if q, ok := quantities[b.Unit]; ok {
		return units.Near(q, b.Value)
	}
	return strings.TrimSuffix(quantity.Number(b.Value, 3)+" "+b.Unit, " -") // "-" has no unit
}
