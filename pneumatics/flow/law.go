package flow

import "math"

// Law is a restriction made ready for one gas: what an inner loop evaluates.
type Law struct {
	form           form
	K              float64 // choked factor [kg sqrt(K)/(s Pa)]; a scale of it scales the flow
	B              float64 // pressure ratio up to which it is choked [-]
	invB, m        float64
	laminar, chord float64 // above laminar, phi = chord (1 - ratio)

	// Nozzle: phi = norm sqrt(z^power (1 - z)), z = r^expo, expo = 1 - 1/gamma and
	// power = 2/(gamma - 1), which is the same as r^(2/gamma) - r^(1+1/gamma).
	expo, power, norm float64
	diatomic          bool // gamma 7/5, for which there is a short cut
}

// NewLaw makes a restriction ready for a gas; laminar is the ratio above which its chord to
// 1 is used (1: none).
func NewLaw(r Restriction, g *Gas, laminar float64) Law {
	f := Law{form: r.form, K: r.chokedFactor(g), B: r.b, m: r.m}
	if r.form == formNozzle {
		f.B = g.CriticalRatio()
		f.expo = 1 - 1/g.Gamma
		f.power = 2 / (g.Gamma - 1)
		f.diatomic = g.Gamma == diatomicGamma
		f.norm = math.Sqrt(2*g.Gamma/(g.Gamma-1)) / g.NozzleConstant()
	}
	f.invB = 1 / (1 - f.B)
	f.setLaminar(laminar)
	return f
}

func (f *Law) setLaminar(ratio float64) {
	f.laminar = 2 // above every ratio: no chord
	if ratio < 1 {
		f.chord = f.Phi(ratio) / (1 - ratio)
		f.laminar = ratio
	}
}

// Phi is the flow function at a pressure ratio [0 … 1].
func (f *Law) Phi(ratio float64) float64 {
	switch {
	case ratio <= f.B:
		return 1
	case ratio > f.laminar:
		return f.chord * (1 - ratio)
	case f.diatomic:
		d := 1 - ratio
		return math.Sqrt(d * diatomicPhi.at(diatomicSpan*d-1))
	case f.form == formNozzle:
		d := -math.Expm1(f.expo * math.Log(ratio)) // 1 - z, exact near 1
		return f.norm * math.Sqrt(math.Pow(1-d, f.power)*d)
	}
	s := (ratio - f.B) * f.invB
	w := 1 - s*s
	if f.m == 0.5 {
		return math.Sqrt(w)
	}
	return math.Pow(w, f.m)
}

// Passes tells, for certain and without a division or a root, that the law passes more
// than a flow from p1 to p2, choked being what it passes at most, in the flow's unit;
// false where that takes a closer look.
//
// The square of an ideal nozzle's flow function of gamma 7/5 is at least that of the
// ellipse, 1 - ((r-b)/(1-b))^2 (TestPassesIsCertain).
func (f *Law) Passes(flow, choked, p1, p2 float64) bool {
	if !f.diatomic || p2 > f.laminar*p1 {
		return false
	}
	s := choked * max(0, p2-f.B*p1) * f.invB
	flow *= p1
	choked *= p1
	return flow*flow+s*s < choked*choked
}

// Expansion is the density after isentropic expansion over that before, at a
// pressure ratio from choking to 1 of a nozzle: r^(1/gamma).
func (f *Law) Expansion(ratio float64) float64 {
	if f.diatomic {
		return diatomicDensity.at(diatomicSpan*(1-ratio) - 1)
	}
	return math.Pow(ratio, 1-f.expo)
}
