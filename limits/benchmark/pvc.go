package benchmark

import (
	"fmt"
	"math"
)

// DeratingPoint is one row of a temperature derating table.
type DeratingPoint struct {
	Temperature float64 // [K]
	Factor      float64 // of the rating at 73 °F [-]
}

// PVCDerating is the rating factor of PVC pipe for water at 73 to 140 °F, the
// lower of several makers' tables (read in the primary texts). It never makes a
// pipe fit for gas.
func PVCDerating() []DeratingPoint {
	var table []DeratingPoint
	for _, row := range [...][2]float64{
		{73, 1.00}, {80, 0.88}, {90, 0.75}, {100, 0.62}, {110, 0.50}, {120, 0.40}, {130, 0.30}, {140, 0.22},
	} {
		table = append(table, DeratingPoint{Temperature: fahrenheit(row[0]), Factor: row[1]})
	}
	return table
}

// fahrenheit turns a temperature in °F into kelvins; exact by definition.
func fahrenheit(f float64) float64 { return (f-32)*5/9 + 273.15 }

// PVCFactor is the share of its water rating that a PVC pipe keeps at a
// temperature [K]. Between two rows it takes the lower factor, that of the
// hotter row; below the first row 1; above the last row the pipe has no rating:
// 0. It panics on a temperature that is none.
func PVCFactor(temperature float64) float64 {
	if math.IsNaN(temperature) || temperature <= 0 {
		panic(fmt.Sprintf("limits: temperature %v K", temperature))
	}
	// A microkelvin lets a row's own temperature, read in another unit, be that
	// row in spite of rounding.
	const rounding = 1e-6
	for _, row := range PVCDerating() {
		if temperature <= row.Temperature+rounding {
			return row.Factor
		}
	}
	return 0
}
