package flow

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
	form form
	c    float64 // ellipse: sonic conductance [m3/(s Pa)]
	b    float64 // ellipse: critical pressure ratio [-]
	m    float64 // ellipse: subsonic index [-]
	area float64 // nozzle: discharge coefficient times area [m2]
}

type form uint8

const (
	formNone form = iota
	formEllipse
	formNozzle
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
	return Restriction{form: formEllipse, c: c, b: b, m: 0.5}
}

// WithIndex is the same part with a subsonic index m other than 0.5.
func (r Restriction) WithIndex(m float64) Restriction { r.m = m; return r }

// Nozzle is an ideal nozzle of the section area [m2] times a discharge
// coefficient cd [-].
//
//	q = cd A p1/sqrt(R T1) sqrt(2 gamma/(gamma-1) (r^(2/gamma) - r^((gamma+1)/gamma)))
//
// Source: NACA Report 1135 (1953), isentropic relations.
func Nozzle(area, cd float64) Restriction { return Restriction{form: formNozzle, area: area * cd} }

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
func (r Restriction) IsZero() bool { return r.form == formNone || (r.c == 0 && r.area == 0) }

// Scaled is the same characteristic with its flow multiplied by f.
func (r Restriction) Scaled(f float64) Restriction {
	r.c *= f
	r.area *= f
	return r
}

// Conductance gives C [m3/(s Pa)] and b [-] of the restriction for gas g. An
// ideal nozzle has the C that gives its choked flow and the critical ratio of g.
func (r Restriction) Conductance(g Gas) (c, b float64) {
	if r.form == formNozzle {
		k := r.area * g.NozzleConstant() / math.Sqrt(g.R)
		return k / (g.ReferenceDensity * math.Sqrt(ReferenceTemperature)), g.CriticalRatio()
	}
	return r.c, r.b
}

// JetDiameter is that of the ideal nozzle with the same choked flow [m].
func (r Restriction) JetDiameter(g *Gas) float64 {
	return 2 * math.Sqrt(r.chokedFactor(g)*math.Sqrt(g.R)/g.NozzleConstant()/math.Pi)
}

// chokedFactor is K of the common form [kg sqrt(K)/(s Pa)].
func (r Restriction) chokedFactor(g *Gas) float64 {
	switch r.form {
	case formEllipse:
		return r.c * g.ReferenceDensity * math.Sqrt(ReferenceTemperature)
	case formNozzle:
		return r.area * g.NozzleConstant() / math.Sqrt(g.R)
	}
	return 0
}

// flowFunction is phi for an ellipse, without gas properties; laminar is the
// ratio above which the chord to 1 is used (1: none).
func (r Restriction) flowFunction(ratio, laminar float64) float64 {
	f := Law{form: r.form, B: r.b, invB: 1 / (1 - r.b), m: r.m}
	f.setLaminar(laminar)
	return f.Phi(ratio)
}

// MassFlow gives the flow [kg/s] from a node at (p1, t1) to a node at (p2, t2),
// negative when it runs back. Pressures [Pa absolute], temperatures [K].
func (r Restriction) MassFlow(g Gas, p1, t1, p2, t2 float64) float64 {
	if r.IsZero() {
		return 0
	}
	f := NewLaw(r, &g, DefaultLaminarRatio)
	if p1 >= p2 {
		return f.K * p1 / math.Sqrt(t1) * f.Phi(p2/p1)
	}
	return -f.K * p2 / math.Sqrt(t2) * f.Phi(p1/p2)
}
