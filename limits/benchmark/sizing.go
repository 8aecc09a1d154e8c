package benchmark

import "math"

// GasConstant is the molar gas constant [J/(kmol K)] (CODATA 2018, exact).
const GasConstant = 8314.462618

// GasSizing is the flow that a relief device must pass, in the form of API 520
// Part I: SI values, pressures absolute.
type GasSizing struct {
	MassFlow        float64 // [kg/s]
	Temperature     float64 // at the inlet, relieving [K]
	Compressibility float64 // Z [-]
	MolarMass       float64 // [kg/kmol]
	Gamma           float64 // ratio of specific heats [-]
	Inlet           float64 // relieving pressure P1 [Pa]
	Outlet          float64 // back pressure P2 [Pa]
	Coefficient     float64 // of discharge Kd [-]
}

// Critical tells whether the flow is choked: P2/P1 at or below the critical ratio
// (2/(k+1))^(k/(k-1)).
func (g GasSizing) Critical() bool {
	k := g.Gamma
	return g.Outlet/g.Inlet <= math.Pow(2/(k+1), k/(k-1))
}

// Area is the effective discharge area that is needed [m2]. API 520 has, with W
// [kg/h], T [K], P [kPa absolute], M [kg/kmol] and A [mm2], capacity correction
// factors 1:
//
//	critical      A = W/(C Kd P1) sqrt(T Z/M),  C = 0.03948 sqrt(k (2/(k+1))^((k+1)/(k-1)))
//	subcritical   A = 17.9 W/(F2 Kd) sqrt(T Z/(M P1 (P1 - P2)))
//	F2 = sqrt(k/(k-1) r^(2/k) (1 - r^((k-1)/k))/(1 - r)),  r = P2/P1
//
// Source: API 520 Part I, sizing for gas or vapour relief (read in a secondary
// text). It panics where Inlet is not above Outlet.
func (g GasSizing) Area() float64 {
	if !(g.Inlet > g.Outlet) || !(g.Outlet >= 0) {
		panic("limits: sizing without a fall of pressure")
	}
	const (
		perHour = 3600
		kilo    = 1e3
		mm2     = 1e-6
	)
	w, p1, p2 := g.MassFlow*perHour, g.Inlet/kilo, g.Outlet/kilo
	root := math.Sqrt(g.Temperature * g.Compressibility / g.MolarMass)
	if g.Critical() {
		return mm2 * w / (CriticalCoefficient(g.Gamma) * g.Coefficient * p1) * root
	}
	return mm2 * 17.9 * w / (SubcriticalCoefficient(g.Gamma, p2/p1) * g.Coefficient) * root / math.Sqrt(p1*(p1-p2))
}

// CriticalCoefficient is C of API 520 Part I in SI [sqrt(kg kmol K)/(mm2 h kPa)];
// k is the ratio of specific heats, above 1.
func CriticalCoefficient(k float64) float64 {
	return 0.03948 * math.Sqrt(k*math.Pow(2/(k+1), (k+1)/(k-1)))
}

// SubcriticalCoefficient is F2 of API 520 Part I [-]; r is the pressure ratio
// P2/P1, below 1.
func SubcriticalCoefficient(k, r float64) float64 {
	return math.Sqrt(k / (k - 1) * math.Pow(r, 2/k) * (1 - math.Pow(r, (k-1)/k)) / (1 - r))
}
