package sound

import "math"

// The corner frequencies of the C-weighting [Hz] and its gain, which makes it 0 dB at 1 kHz
// [dB]. Source: IEC 61672-1:2013, 5.5 and annex E (from memory; the nominal values of its table
// 3 are in the test).
const (
	lowCorner  = 20.598997
	highCorner = 12194.217
	cGain      = 0.062
)

// CWeighted gives equally spaced samples of a pressure C-weighted; step is the time between
// two [s]. Before the first sample it was silent.
//
//	H(s) = g (s/(s + w1))^2 (w4/(s + w4))^2
//
// Each of the four poles is integrated as exactly as a straight line between two samples allows.
func CWeighted(p []float64, step float64) []float64 {
	out := make([]float64, len(p))
	gain := math.Pow(10, cGain/20)
	for i, v := range p {
		out[i] = gain * v
	}
	for range 2 {
		onePole(out, step, lowCorner, func(in, low float64) float64 { return in - low })
		onePole(out, step, highCorner, func(_, low float64) float64 { return low })
	}
	return out
}

// onePole passes samples through y' = w (x - y), x a straight line from sample to sample,
// and keeps of each what take makes of sample and y.
func onePole(x []float64, step, corner float64, take func(in, low float64) float64) {
	k := 2 * math.Pi * corner * step
	fade := math.Exp(-k)
	// y1 = fade y0 + a x0 + b x1: the integral of the straight line against the exponential.
	b := 1 + math.Expm1(-k)/k
	a := -math.Expm1(-k) - b
	last, low := 0.0, 0.0
	for i, in := range x {
		low = fade*low + a*last + b*in
		last, x[i] = in, take(in, low)
	}
}

// Pulse is how the mass flow of a source changes, at equally spaced times.
type Pulse struct {
	Step   float64   // [s]
	Source []float64 // d(mass flow)/dt [kg/s2]
}

// Peak is the largest value of a pulse whatever its sign, as it is and C-weighted [kg/s2].
func (p Pulse) Peak() (plain, weighted float64) {
	for _, v := range p.Source {
		plain = max(plain, math.Abs(v))
	}
	for _, v := range CWeighted(p.Source, p.Step) {
		weighted = max(weighted, math.Abs(v))
	}
	return plain, weighted
}
