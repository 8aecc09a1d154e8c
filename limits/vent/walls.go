package vent

import (
	"math"

	"puffproof/pneumatics"
)

// Walls is how the walls give heat to air that cools as it expands.
type Walls struct {
	Heat        pneumatics.Heat
	Coefficient float64 // of pneumatics.Transfer [W/(m2 K)]
}

// The ends of what walls can do, and the expected course.
var (
	ColdAir  = Walls{Heat: pneumatics.Adiabatic}
	warmAir  = Walls{Heat: pneumatics.Isothermal}
	StillAir = Walls{Heat: pneumatics.Convection}
)

// extremes are the ends.
func extremes() []Walls { return []Walls{warmAir, ColdAir} }

// slowWalls are the walls of which the slow end of an emptying takes the slowest.
//
// It is neither end. Cold air has less pressure, so less leaves; heat that comes
// late brings back pressure that has still to go. Every rate between none
// (adiabatic) and all (isothermal) is possible, so rates are tried. What they
// rest on:
//
//   - the coefficient of natural convection grows with the density of the air and with
//     its difference in temperature (Ra goes as rho^2 dT, Nu as Ra^(1/4) to Ra^(1/3)): as
//     a vessel empties its heat comes ever less readily;
//   - the less a coefficient depends on either, the later the heat comes and the longer
//     the emptying takes at its slowest rate: a constant one takes longest. Through one
//     nozzle that is up to 8 % over the isothermal time from 10 bar, where natural
//     convection reaches 4 % (testdata/reference/wall_heat.csv, set slowest). Where a wide
//     vent shuts at some pressure and a narrow one does the rest, either may be twice the
//     isothermal time: cold air is held back by the first and has to go by the second;
//   - so constant coefficients are tried, each larger than the one before by the root of
//     two. Between two of them the longest time is missed by less than 0.2 %.
//
// Ends and natural convection itself are among them.
func slowWalls() []Walls {
	out := append(extremes(), StillAir)
	for k := range triedTransfers {
		out = append(out, Walls{Heat: pneumatics.Transfer, Coefficient: leastTransfer * math.Pow(math.Sqrt2, float64(k))})
	}
	return out
}

// Heat transfer coefficients that are tried: from leastTransfer [W/(m2 K)] on, so many, up
// to 128 W/(m2 K). Free convection of gases has 2 to 25, forced convection up to 250
// (Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table 1.1; from
// memory): nothing drives the air of an emptying vessel but its own cold. The less of it
// that comes with the last few kelvins counts by natural convection itself.
const (
	leastTransfer  = 2
	triedTransfers = 13
)
