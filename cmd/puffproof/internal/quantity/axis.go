package quantity

import (
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
)

// Axis is one unit for many figures: those of an axis, a column, a sheet.
type Axis struct {
	Name string // of the unit; of gauge readings it says so
	unit unit.Unit
	top  float64 // in the unit
}

// Axis is the unit in which a value of top [SI] would be shown.
func (s System) Axis(q Kind, top float64) Axis {
	sc, u := s.scale(q, top)
	return Axis{strings.TrimSpace(sc.named(q, "")), u, u.FromSI(top)}
}

// Of is an SI value in the axis' unit.
func (a Axis) Of(si float64) float64 { return a.unit.FromSI(si) }

// Difference is a difference of SI values in the axis' unit: of temperatures it does
// not begin at the unit's zero.
func (a Axis) Difference(si float64) float64 { return si / a.unit.Factor }

// All are SI values in the axis' unit.
func (a Axis) All(si []float64) []float64 {
	out := make([]float64, len(si))
	for i := range si {
		out[i] = a.Of(si[i])
	}
	return out
}

// Reading writes an SI value, without the unit, to a hundredth of the axis' top: more
// no gauge shows.
func (a Axis) Reading(si float64) string {
	return Fixed(a.Of(si), max(0, 2-int(math.Floor(math.Log10(a.top)))), Nearest)
}

// Apart writes two values with as many digits as it takes to tell them apart.
func (s System) Apart(q Kind, a, b float64) (string, string) {
	axis := s.Axis(q, math.Max(math.Abs(a), math.Abs(b)))
	for digits := 3; digits < 15; digits++ {
		if x, y := Number(axis.Of(a), digits), Number(axis.Of(b), digits); x != y {
			return x + " " + axis.Name, y + " " + axis.Name
		}
	}
	return s.Near(q, a), s.Near(q, b)
}
