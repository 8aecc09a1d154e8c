package flow

import "math"

// Two powers of the pressure ratio for gamma 7/5, without logarithm and
// exponential: they were half of the time of a shot. Both are polynomials of
// degree 15 between choking and 1, interpolated at the zeros of a Chebyshev
// polynomial in
//
//	s = 2 (1 - r)/(1 - b) - 1,  b = 0.528281787717174
//
// with mpmath (chebyfit, 40 digits); their own errors are 4e-16 and 8e-16 of the
// value. TestDiatomicPowers compares them with the library's functions.
type polynomial [16]float64

const (
	diatomicSpan  = 4.2398193411300165 // 2/(1 - b)
	diatomicGamma = 1.4
)

// diatomicPhi is phi^2/(1 - r) of the ideal nozzle, phi^2 being
// 7/psi^2 (r^(10/7) - r^(12/7)).
var diatomicPhi = polynomial{
	3.188719775590833, -1.0747655046681663, 0.0036787084289508338, 0.00178880488871969,
	0.00038306253767962043, 8.145679531014558e-05, 1.796918896139871e-05, 4.112643588231066e-06,
	9.713348999448885e-07, 2.3552908142157734e-07, 5.851272425923282e-08, 1.477455896347486e-08,
	3.627374656750159e-09, 9.411057407812108e-10, 3.467935302778498e-10, 9.25916577576288e-11,
}

// diatomicDensity is r^(5/7), the density after isentropic expansion over that
// before.
var diatomicDensity = polynomial{
	0.8251871541680645, -0.18192971081799503, -0.008022039487985355, -0.0010611755043885296,
	-0.0001871666085330374, -3.796359816015316e-05, -8.369876928224273e-06, -1.9507608260133196e-06,
	-4.730540928955513e-07, -1.1819945057749109e-07, -3.031517764464988e-08, -7.900307198611695e-09,
	-1.988409056551185e-09, -5.318116121936457e-10, -2.066333727863193e-10, -5.675627050817889e-11,
}

// at evaluates the polynomial by Estrin's scheme, whose terms do not wait for each
// other.
func (p *polynomial) at(s float64) float64 {
	s2 := s * s
	s4 := s2 * s2
	a := (p[0] + s*p[1]) + s2*(p[2]+s*p[3])
	b := (p[4] + s*p[5]) + s2*(p[6]+s*p[7])
	c := (p[8] + s*p[9]) + s2*(p[10]+s*p[11])
	d := (p[12] + s*p[13]) + s2*(p[14]+s*p[15])
	return (a + s4*b) + (s4*s4)*(c+s4*d)
}

// nozzlePhi is the flow function of the ideal nozzle at a ratio from choking to 1.
func nozzlePhi(ratio float64) float64 {
	d := 1 - ratio
	return math.Sqrt(d * diatomicPhi.at(diatomicSpan*d-1))
}
