package sound

import "math"

// reference is the pressure of 0 dB in air [Pa]. Source: ISO 1683, 20 uPa.
const reference = 20e-6

// Level gives the level of a peak pressure [dB re 20 uPa]; -Inf: none.
//
//	L = 20 log10(|p|/20 uPa)
func Level(peak float64) float64 { return 20 * math.Log10(math.Abs(peak)/reference) }

// Pressure gives the peak pressure of a level [Pa].
func Pressure(level float64) float64 { return reference * math.Pow(10, level/20) }

// Carried gives the level at one distance of a source whose level at another is known,
// without losses on the way [dB]: it falls by 6 dB where the distance doubles. Distances [m] are
// above zero, outside of the source.
func Carried(level, from, to float64) float64 { return level - 20*math.Log10(to/from) }

// Space is what a source radiates into.
type Space uint8

// The spaces.
const (
	FreeSpace Space = iota // all round
	HalfSpace              // before a large hard wall: twice the pressure
)

// angle is the solid angle of the space [sr].
func (s Space) angle() float64 {
	if s == HalfSpace {
		return 2 * math.Pi
	}
	return 4 * math.Pi
}

// AtOneMetre gives the pressure 1 m from a compact source [Pa], of one whose mass flow
// changes at rate [kg/s2]; at r it is the r-th part.
//
//	p'(r, t) = (1/(4 pi r)) dq/dt (t - r/c),  twice as much in a half space
//
// Source: the monopole of linear acoustics; for instance Pierce, Acoustics (1981), section 4-3
// (from memory).
func AtOneMetre(rate float64, s Space) float64 { return rate / s.angle() }
