package show

import (
	"strings"

	"puffproof/limits/benchmark"
)

// Benchmark writes the value of a published figure.
func (s System) Benchmark(b benchmark.Benchmark) string {
	quantities := map[string]Quantity{"J": Energy, "J/m2": EnergyPerArea, "Pa": Gauge, "m": Length, "kg": Mass, "m/s": Speed, "m3": Volume,
		"s": Time, "Pa m3": PressureVolume}
	const year = 365.25 * 86400
	if b.Unit == "s" && b.Value >= year {
		return s.Near(Age, b.Value)
	}
	if q, ok := quantities[b.Unit]; ok {
		return s.Near(q, b.Value)
	}
	return strings.TrimSuffix(Number(b.Value, 3)+" "+b.Unit, " -") // "-" has no unit
}
