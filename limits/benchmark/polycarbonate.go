package benchmark

import (
	"fmt"
	"math"
)

// PolycarbonateFactor is the share of its rating that a part of polycarbonate keeps at a temperature [K]: all of it up to 23 degC, then
// along a line
//
//	f = 1 - 0.3 (T - 23 degC)/47 K
//
// to 0.7 at 70 degC (its yield stress falls from about 62 to 45 N/mm2 on the way, a factor of 0.73: handbooks of plastics, from memory).
// Above that nobody gives one: 0. Unlike pipe of PVC it keeps the same shape, for it softens at 130 degC and more. It panics on a
// temperature that is none.
func PolycarbonateFactor(temperature float64) float64 {
	if math.IsNaN(temperature) || temperature <= 0 {
		panic(fmt.Sprintf("limits: temperature %v K", temperature))
	}
	const cool, warm, least, rounding = 273.15 + 23, 273.15 + 70, 0.7, 1e-6
	switch {
	case temperature <= cool:
		return 1
	case temperature > warm+rounding:
		return 0
	}
	return 1 - (1-least)*(temperature-cool)/(warm-cool)
}
