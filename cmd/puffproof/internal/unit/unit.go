// Package unit turns quantities with units, as a builder writes them, into SI
// values. Package quantity writes SI values for people.
//
// It knows the units of a workshop: pressure gauges, kitchen scales, tape
// measures, data sheets. It reads tolerances ("2.0 L ± 3 %") and how a figure
// is known ("12 g, measured"). It leaves out every rule of a design file: which
// key wants which quantity, default tolerances, gauge against ambient pressure.
// Start reading at Parse.
package unit

import "strings"

// Dimension is what a unit measures.
type Dimension uint8

// The dimensions. The SI unit that values of each are held in stands beside it.
const (
	Dimensionless Dimension = iota // [-]
	Pressure                       // [Pa]
	Volume                         // [m3]
	Length                         // [m]
	Mass                           // [kg]
	Time                           // [s]
	Temperature                    // [K]
	Speed                          // [m/s]
	Angle                          // [rad]
	VolumeFlow                     // [m3/s]
	Conductance                    // sonic conductance [m3/(s Pa)]
	Force                          // [N]
	Area                           // [m2]
	Energy                         // [J]
	EnergyPerArea                  // [J/m2]
	Age                            // of a person [s]
	SoundLevel                     // re 20 uPa, weighted as its key says [dB]
	Current                        // electric [A]
	numDimensions
)

// String gives the dimension's name in plain words.
func (d Dimension) String() string {
	names := [numDimensions]string{"plain number", "pressure", "volume", "length", "mass", "time",
		"temperature", "speed", "angle", "flow of free air", "sonic conductance", "force", "area",
		"energy", "energy per area", "age", "sound level", "current"}
	if d < numDimensions {
		return names[d]
	}
	return "unknown dimension"
}

// Reference says what a unit adds: from where a pressure is counted, how a sound is weighted.
type Reference uint8

const (
	Unsaid    Reference = iota // the unit alone: "bar", "dB"; a peak of sound is then C-weighted or not weighted
	Gauge                      // above the surrounding air: "bar gauge", "barg"
	Absolute                   // above vacuum: "bar abs", "bara"
	AWeighted                  // low tones taken away: "dB(A)"
)

// Unit is one unit. SI value = value * Factor + Offset; a tolerance or any other
// difference is value * Factor.
type Unit struct {
	Name      string // as it is written
	Dimension Dimension
	Factor    float64 // SI units in one of it
	Offset    float64 // SI value of its zero; not 0 for temperatures only
	Reference Reference
	alias     bool // another spelling; left out of lists of what is accepted
}

// ToSI converts a value in this unit to SI.
func (u Unit) ToSI(v float64) float64 { return v*u.Factor + u.Offset }

// FromSI converts an SI value to this unit.
func (u Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Factor }

// Lookup finds a unit by its exact name; ok is false where there is none.
func Lookup(name string) (u Unit, ok bool) {
	for _, u := range table() {
		if u.Name == name {
			return u, true
		}
	}
	return Unit{}, false
}

// Accepted lists the units of a dimension for a message, separated by commas.
func Accepted(d Dimension) string {
	text := ""
	for _, u := range table() {
		if u.Dimension != d || u.alias || u.Reference != Unsaid {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += u.Name
	}
	if d == Dimensionless {
		return "a plain number or %"
	}
	return text
}

// Fold brings the spellings of one name together: of a key, a column, a word.
func Fold(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(strings.TrimSpace(s)))
}
