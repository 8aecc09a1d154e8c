package sound

// Mouth is the open end of a round pipe as it meets the air around it.
//
// Its impedance over that of the pipe, s = i k a, k the wave number and a the radius:
//
//	z(s) = s (alpha + beta s)/(1 + kappa s + beta s^2)
//
// which is alpha i k a, the end correction, and resistance (alpha kappa - beta) (k a)^2 where k a is
// small, and 1, a pipe that goes on, where it is large.
type Mouth struct{ alpha, kappa, beta float64 }

// Unflanged is the end of a thin pipe: end correction 0.6133 a, resistance (k a)^2/4. Source:
// Levine and Schwinger, Phys. Rev. 73 (1948) 383; the rational form after Silva et al.,
// J. Sound Vib. 322 (2009) 255 (from memory; the test holds it to Levine and Schwinger's integral).
func Unflanged() Mouth { return Mouth{0.6133, 0.780, 0.2285} }

// Flanged is a pipe that ends in a large wall: end correction 0.8216 a, resistance (k a)^2/2.
// Source: Nomura, Yamamura and Inawashiro 1960, as given by Silva et al. (from memory).
func Flanged() Mouth { return Mouth{0.8216, 1.0035, 0.3245} }

// Reflection gives the share of a pressure wave of k a that the end throws back.
//
//	R = (z - 1)/(z + 1)
func (m Mouth) Reflection(ka float64) complex128 {
	z := m.Impedance(ka)
	return (z - 1) / (z + 1)
}

// Impedance gives z of k a [-].
func (m Mouth) Impedance(ka float64) complex128 {
	s := complex(0, ka)
	return s * (complex(m.alpha, 0) + complex(m.beta, 0)*s) / (1 + complex(m.kappa, 0)*s + complex(m.beta, 0)*s*s)
}

// filter is a Mouth in time: the pressure outside over the impedance of the pipe as a
// function of the mass flow through it, by the trapezoidal rule.
type filter struct {
	b0, b1, b2, a1, a2 float64
	s1, s2             float64
}

// newFilter makes the filter for steps of so many passages of sound across a radius [-], with a
// mass flow that has been steady for long.
func newFilter(m Mouth, step, flow float64) filter {
	k := 2 / step
	d := 1 + m.kappa*k + m.beta*k*k
	f := filter{b0: k * (m.alpha + m.beta*k) / d, b1: -2 * m.beta * k * k / d, b2: k * (m.beta*k - m.alpha) / d,
		a1: 2 * (1 - m.beta*k*k) / d, a2: (1 - m.kappa*k + m.beta*k*k) / d}
	f.s1, f.s2 = -f.b0*flow, f.b2*flow
	return f
}

// take books a step with its mass flow and gives the output.
func (f *filter) take(flow float64) float64 {
	out := f.b0*flow + f.s1
	f.s1 = f.b1*flow - f.a1*out + f.s2
	f.s2 = f.b2*flow - f.a2*out
	return out
}
