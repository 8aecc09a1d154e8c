package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// SizeQuestion is what a builder knows before there is a design. SI values.
type SizeQuestion struct {
	Limit   float64 // energy [J]
	Bore    float64 // [m]
	Travel  float64 // [m]; 0: the usual travels only
	Mass    float64 // of the projectile [kg]; 0: no speeds
	Ambient float64 // [Pa absolute]; 0: 101325
}

// Size is a table to plan from.
type Size struct {
	Question SizeQuestion
	Rows     []SizeRow
	Travels  []float64 // columns of SizeRow.ByTravel [m]
	Factor   float64   // the travel columns keep this factor below the limit [-]
	Speed    *float64  // of the projectile at the limit [m/s]
	Notes    []string
}

// SizeRow is one charge pressure.
type SizeRow struct {
	Gauge    float64    // [Pa]
	Ceiling  float64    // volume of air that no valve can make exceed the limit [m3]
	AnyDose  float64    // travel up to which no volume of air is too large [m]
	ByTravel []*float64 // volume of air for each travel [m3]; nil: any volume
	Source   string     // what kind of source and parts the pressure means
}

// FindSize plans: how much air may reach the barrel at which pressure. It is an
// error where a figure is not above zero or the model does not cover it.
//
// Ceiling is the volume whose whole availability is the limit
// (pneumatics.CeilingDose). For a travel x in a bore of section A the air V at
// pressure p, kept at ambient temperature, can do no more work up to the muzzle
// than
//
//	E = p V ln((V + A x)/V) - pa A x
//
// while the barrel is above ambient pressure. The push after the muzzle is not in
// it: these columns keep the model factor in hand, and the design must be checked.
func FindSize(q SizeQuestion) (Size, error) {
	if q.Ambient == 0 {
		q.Ambient = 101325
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"limit", q.Limit}, {"bore", q.Bore}, {"ambient pressure", q.Ambient}} {
		if !(f.v > 0) || math.IsInf(f.v, 1) {
			return Size{}, fmt.Errorf("the %s must be above zero", f.name)
		}
	}
	if q.Travel < 0 || q.Mass < 0 || math.IsNaN(q.Travel+q.Mass) {
		return Size{}, fmt.Errorf("travel and mass cannot be negative")
	}
	s := Size{Question: q, Factor: ModelFactor, Travels: []float64{0.01, 0.02, 0.05, 0.1}}
	if q.Travel > 0 {
		s.Travels = []float64{0.1 * q.Travel, 0.25 * q.Travel, 0.5 * q.Travel, q.Travel}
	}
	if q.Mass > 0 {
		v := math.Sqrt(2 * q.Limit / q.Mass)
		s.Speed = &v
	}
	for _, gauge := range []float64{0.05e5, 0.1e5, 0.2e5, 0.3e5, 0.5e5, 0.7e5, 1e5, 1.5e5, 2e5, 3e5, 4e5} {
		row := SizeRow{Gauge: gauge, Ceiling: pneumatics.CeilingDose(q.Limit, gauge, q.Ambient), Source: sourceFor(gauge),
			AnyDose: q.Limit / ModelFactor / (gauge * circle(q.Bore))}
		for _, x := range s.Travels {
			row.ByTravel = append(row.ByTravel, doseForTravel(q, gauge, x))
		}
		s.Rows = append(s.Rows, row)
	}
	s.Notes = []string{
		"The ceiling column holds whatever the valve and the friction: it counts all air that can reach the barrel, hoses and dead volume too.",
		fmt.Sprintf("The travel columns are for a tight projectile and an instant valve, up to the muzzle, and keep the factor %.3g below the limit for the push after it. A real valve gives less. Check the design before anyone plays.", ModelFactor),
		"any: at this travel and pressure no volume is too large, and any dose says up to which travel that is so. A longer travel than the air can fill above ambient pressure adds nothing.",
	}
	return s, nil
}

// doseForTravel is the volume of air that a travel allows [m3]; nil: any.
func doseForTravel(q SizeQuestion, gauge, travel float64) *float64 {
	limit := q.Limit / ModelFactor
	swept := circle(q.Bore) * travel
	if gauge*swept <= limit {
		return nil // even at constant pressure
	}
	p := q.Ambient + gauge
	work := func(v float64) float64 {
		x := min(swept, v*gauge/q.Ambient) // beyond it the barrel is below ambient
		return p*v*math.Log1p(x/v) - q.Ambient*x
	}
	high := swept
	for work(high) < limit {
		high *= 2 // work tends to gauge times swept, above the limit
	}
	v := bisect(1e-12*high, high, func(v float64) bool { return work(v) <= limit })
	return &v
}

// sourceFor says what a charge pressure means for source and parts.
func sourceFor(gauge float64) string {
	switch {
	case gauge < 0.25e5:
		return "a blower or aquarium-type pump that stalls below it needs no switch"
	case gauge < ordinaryPart:
		return "special low-pressure switch and relief valve"
	case gauge <= 1.5e5:
		return "ordinary workshop switch, relief valve, small compressor"
	}
	return "workshop compressor: only with a small dose"
}
