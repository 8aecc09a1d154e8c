package pneumatics

import "math"

// Restriction is a flow characteristic: how much gas passes at which pressures.
// The zero value lets nothing through.
//
// Both laws have the form
//
//	q = K p1/sqrt(T1) phi(p2/p1)
//
// q mass flow [kg/s], p1, T1 upstream stagnation pressure [Pa] and temperature
// [K], p2 downstream pressure [Pa], K [kg sqrt(K)/(s Pa)] the choked flow, phi
// [0 … 1] the flow function. The same law serves both directions.
type Restriction struct {
	law  law
	c    float64 // ellipse: sonic conductance [m3/(s Pa)]
	b    float64 // ellipse: critical pressure ratio [-]
	m    float64 // ellipse: subsonic index [-]
	area float64 // nozzle: discharge coefficient times area [m2]
}

type law uint8

const (
	lawNone law = iota
	lawEllipse
	lawNozzle
)

// DefaultLaminarRatio is the pressure ratio above which the flow function,
// whose slope is infinite at 1, is replaced by its chord to 1 (common practice
// 0.995 to 0.999).
const DefaultLaminarRatio = 0.999

// SonicConductance is a part stated by ISO 6358-1: C [m3/(s Pa)] and critical
// pressure ratio b [0 … 1), subsonic index 0.5.
//
//	q = C rho0 p1 sqrt(T0/T1) phi,  phi = 1 for r <= b, else (1 - ((r-b)/(1-b))^2)^m
//
// Source: ISO 6358-1:2013, equations 1 to 3.
func SonicConductance(c, b float64) Restriction {
	return Restriction{law: lawEllipse, c: c, b: b, m: 0.5}
}

// WithIndex is the same part with a subsonic index m other than 0.5.
func (r Restriction) WithIndex(m float64) Restriction { r.m = m; return r }

// Nozzle is an ideal nozzle of the section area [m2] times a discharge
// coefficient cd [-].
//
//	q = cd A p1/sqrt(R T1) sqrt(2 gamma/(gamma-1) (r^(2/gamma) - r^((gamma+1)/gamma)))
//
// Source: NACA Report 1135 (1953), isentropic relations.
func Nozzle(area, cd float64) Restriction { return Restriction{law: lawNozzle, area: area * cd} }

// FromCv is a control valve of flow coefficient Cv (US) with the terminal
// pressure-drop ratio xT [-] and the critical ratio b [-]:
//
//	C = 2/3 N7 Cv sqrt(xT/T0) (101.325/100)(T0/288.15)/3600e3,  N7 = 4.17
//
// the choked gas law of IEC 60534-2-1, Q at 101.325 kPa and 15 degC turned into
// free air of ISO 6358. 3.890e-8 m3/(s Pa) per Cv at xT 0.7.
func FromCv(cv, xt, b float64) Restriction {
	const n7 = 4.17
	t0 := ReferenceTemperature
	free := (101325 / ReferencePressure) * (t0 / 288.15)
	return SonicConductance(2.0/3*n7*cv*math.Sqrt(xt/t0)*free/3600e3, b)
}

// CvPerKv is the ratio of the US and the metric flow coefficients (IEC 60534-1).
const CvPerKv = 1.156

// FromKv is a control valve of flow coefficient Kv (metric); see FromCv.
func FromKv(kv, xt, b float64) Restriction { return FromCv(kv*CvPerKv, xt, b) }

// FromNominalFlow is a part stated by its nominal flow qn [m3/s of free air]
// from 7 to 6 bar absolute (6 to 5 bar gauge) with the critical ratio b [-]:
//
//	C = qn/(700e3 phi(6/7))
func FromNominalFlow(qn, b float64) Restriction {
	r := SonicConductance(1, b)
	return SonicConductance(qn/(700e3*r.flowFunction(6.0/7, 1)), b)
}

// HoseFlow is a straight hose of the given bore and length [m]:
//
//	C = 0.029 d^2/sqrt(L/d^1.25 + 510),  b = 474 C/d^2
//
// in SI units (Eckersten's form, from memory; for 4 and 7.5 mm and 0.5 to 10 m it
// lies within 10 % of Fanno flow through a smooth hose at 1.5 to 4 bar absolute).
func HoseFlow(bore, length float64) Restriction {
	c := 0.029 * bore * bore / math.Sqrt(length/math.Pow(bore, 1.25)+510)
	return SonicConductance(c, 474*c/(bore*bore))
}

// IsZero tells whether the restriction lets nothing through.
func (r Restriction) IsZero() bool { return r.law == lawNone || (r.c == 0 && r.area == 0) }

// Scaled is the same characteristic with its flow multiplied by f.
func (r Restriction) Scaled(f float64) Restriction {
	r.c *= f
	r.area *= f
	return r
}

// Conductance gives C [m3/(s Pa)] and b [-] of the restriction for gas g. An
// ideal nozzle has the C that gives its choked flow and the critical ratio of g.
func (r Restriction) Conductance(g Gas) (c, b float64) {
	if r.law == lawNozzle {
		k := r.area * g.NozzleConstant() / math.Sqrt(g.R)
		return k / (g.ReferenceDensity * math.Sqrt(ReferenceTemperature)), g.CriticalRatio()
	}
	return r.c, r.b
}

// jetDiameter is that of the ideal nozzle with the same choked flow [m].
func (r Restriction) jetDiameter(g *Gas) float64 {
	return 2 * math.Sqrt(r.chokedFactor(g)*math.Sqrt(g.R)/g.NozzleConstant()/math.Pi)
}

// chokedFactor is K of the common form [kg sqrt(K)/(s Pa)].
func (r Restriction) chokedFactor(g *Gas) float64 {
	switch r.law {
	case lawEllipse:
		return r.c * g.ReferenceDensity * math.Sqrt(ReferenceTemperature)
	case lawNozzle:
		return r.area * g.NozzleConstant() / math.Sqrt(g.R)
	}
	return 0
}

// flowFunction is phi for an ellipse, without gas properties; laminar is the
// ratio above which the chord to 1 is used (1: none).
func (r Restriction) flowFunction(ratio, laminar float64) float64 {
	f := flow{law: r.law, b: r.b, invB: 1 / (1 - r.b), m: r.m}
	f.setLaminar(laminar)
	return f.phi(ratio)
}

// MassFlow gives the flow [kg/s] from a node at (p1, t1) to a node at (p2, t2),
// negative when it runs back. Pressures [Pa absolute], temperatures [K].
func (r Restriction) MassFlow(g Gas, p1, t1, p2, t2 float64) float64 {
	if r.IsZero() {
		return 0
	}
	f := newFlow(r, &g, DefaultLaminarRatio)
	if p1 >= p2 {
		return f.k * p1 / math.Sqrt(t1) * f.phi(p2/p1)
	}
	return -f.k * p2 / math.Sqrt(t2) * f.phi(p1/p2)
}

// flow is a restriction made ready for one gas: what the inner loop evaluates.
type flow struct {
	law            law
	k              float64 // choked factor [kg sqrt(K)/(s Pa)]
	b, invB, m     float64
	laminar, chord float64 // above laminar, phi = chord (1 - ratio)

	// Nozzle: phi = norm sqrt(z^power (1 - z)), z = r^expo, expo = 1 - 1/gamma and
	// power = 2/(gamma - 1), which is the same as r^(2/gamma) - r^(1+1/gamma).
	expo, power, norm float64
	diatomic          bool // gamma 7/5, for which there is a short cut
}

func newFlow(r Restriction, g *Gas, laminar float64) flow {
	f := flow{law: r.law, k: r.chokedFactor(g), b: r.b, m: r.m}
	if r.law == lawNozzle {
		f.b = g.CriticalRatio()
		f.expo = 1 - 1/g.Gamma
		f.power = 2 / (g.Gamma - 1)
		f.diatomic = g.Gamma == diatomicGamma
		f.norm = math.Sqrt(2*g.Gamma/(g.Gamma-1)) / g.NozzleConstant()
	}
	f.invB = 1 / (1 - f.b)
	f.setLaminar(laminar)
	return f
}

func (f *flow) setLaminar(ratio float64) {
	f.laminar = 2 // above every ratio: no chord
	if ratio < 1 {
		f.chord = f.phi(ratio) / (1 - ratio)
		f.laminar = ratio
	}
}

// phi is the flow function at a pressure ratio [0 … 1].
func (f *flow) phi(ratio float64) float64 {
	switch {
	case ratio <= f.b:
		return 1
	case ratio > f.laminar:
		return f.chord * (1 - ratio)
	case f.diatomic:
		return nozzlePhi(ratio)
	case f.law == lawNozzle:
		d := -math.Expm1(f.expo * math.Log(ratio)) // 1 - z, exact near 1
		return f.norm * math.Sqrt(math.Pow(1-d, f.power)*d)
	}
	s := (ratio - f.b) * f.invB
	w := 1 - s*s
	if f.m == 0.5 {
		return math.Sqrt(w)
	}
	return math.Pow(w, f.m)
}

// expansion is the density after isentropic expansion over that before, at a
// pressure ratio from choking to 1 of a nozzle: r^(1/gamma).
func (f *flow) expansion(ratio float64) float64 {
	if f.diatomic {
		return diatomicDensity.at(diatomicSpan*(1-ratio) - 1)
	}
	return math.Pow(ratio, 1-f.expo)
}
