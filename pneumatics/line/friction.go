package line

import "math"

// The friction factor's laminar and turbulent branches are joined smoothly between
// these Reynolds numbers (pipe flow turns turbulent between 2000 and 4000, any text
// on fluid mechanics).
const (
	laminarEnd     = 2000.0
	turbulentBegin = 4000.0
)

// Friction is Darcy's friction factor of a smooth pipe [-] at a Reynolds
// number: 64/Re, and Haaland's form of the smooth-pipe law above Re 4000:
//
//	f = (1.8 log10(Re/6.9))^-2
//
// between 2000 and 4000 a smooth step from one to the other. Source: Haaland, J.
// Fluids Eng. 105 (1983) 89 (read in a later text).
func Friction(re float64) float64 { return friction(re * re) }

// FrictionOfSquare is Friction by the square of the Reynolds number and from a table, for inner
// loops: within 5e-7 of it, and 3e-5 in the pieces of the table where its branches
// join. It is 0 at rest, where nothing holds the gas.
func FrictionOfSquare(square float64) float64 {
	bits := math.Float64bits(square)
	i := int(bits>>(52-tableBits)) - 1023<<tableBits
	if uint(i) >= uint(len(frictionTable)) {
		return friction(square)
	}
	c := &frictionTable[i]
	x := math.Float64frombits(bits&(1<<(52-tableBits)-1)|1023<<52) - 1
	return c[0] + x*(c[1]+x*(c[2]+x*c[3]))
}

// The table takes the squares of Re 1 to 1e8, each octave in 16 pieces: cubics that share
// value and slope with their neighbours, by what the square is past the piece's start over
// the octave's.
const (
	tableBits    = 4
	tableOctaves = 53
)

var frictionTable = makeFrictionTable()

func makeFrictionTable() (table [tableOctaves << tableBits][4]float64) {
	const h = 1.0 / (1 << tableBits)
	for i := range table {
		octave := math.Ldexp(1, i>>tableBits)
		start := 1 + h*float64(i&(1<<tableBits-1))
		at := func(x float64) float64 { return friction(octave * x) }
		slope := func(x float64) float64 { return (at(x*(1+1e-5)) - at(x*(1-1e-5))) / (2e-5 * x) }
		a, b, da, db := at(start), at(start+h), slope(start), slope(start+h)
		table[i] = [4]float64{a, da, (3*(b-a)/h - 2*da - db) / h, (2*(a-b)/h + da + db) / (h * h)}
	}
	return table
}

// friction is Friction by the square of the Reynolds number.
func friction(square float64) float64 {
	const low, high = laminarEnd * laminarEnd, turbulentBegin * turbulentBegin
	if square >= high {
		return haaland(square)
	}
	if square < 1e-200 { // rounding, where 64/Re would not be finite
		return 0
	}
	re := math.Sqrt(square)
	if square <= low {
		return 64 / re
	}
	s := (re - laminarEnd) / (turbulentBegin - laminarEnd)
	s *= s * (3 - 2*s)
	return (1-s)*64/re + s*haaland(square)
}

// haaland is (1.8 log10(Re/6.9))^-2 by the square of Re.
func haaland(square float64) float64 {
	const c = 4 * (math.Ln10 / 1.8) * (math.Ln10 / 1.8)
	l := math.Log(square * (1 / (6.9 * 6.9)))
	return c / (l * l)
}
