package quantity

import (
	"math"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
)

// System is the family of units that text for people is written in; the zero value
// is metric.
type System unit.System

const (
	Metric = System(unit.Metric)
	US     = System(unit.US)
)

// Kind is what a figure is of: it decides the units in which the figure is
// shown, its digits and what stands behind the unit. The SI unit that figures are
// held in stands beside each.
type Kind uint8

// The quantities: those of the units of a workshop, and some that are shown in a
// way of their own.
const (
	Plain         = Kind(unit.Dimensionless) // [-]
	Pressure      = Kind(unit.Pressure)      // a difference, or one that says elsewhere from where it is counted [Pa]
	Volume        = Kind(unit.Volume)        // [m3]
	Length        = Kind(unit.Length)        // [m]
	Mass          = Kind(unit.Mass)          // [kg]
	Time          = Kind(unit.Time)          // [s]
	Temperature   = Kind(unit.Temperature)   // [K]
	Speed         = Kind(unit.Speed)         // [m/s]
	Angle         = Kind(unit.Angle)         // [rad]
	VolumeFlow    = Kind(unit.VolumeFlow)    // of free air [m3/s]
	Conductance   = Kind(unit.Conductance)   // sonic conductance [m3/(s Pa)]
	Force         = Kind(unit.Force)         // [N]
	Area          = Kind(unit.Area)          // [m2]
	Energy        = Kind(unit.Energy)        // [J]
	EnergyPerArea = Kind(unit.EnergyPerArea) // [J/m2]
	Age           = Kind(unit.Age)           // [s]
	SoundLevel    = Kind(unit.SoundLevel)    // as a design states it [dB]
	Current       = Kind(unit.Current)       // [A]

	Gauge             Kind = iota + 100 // a reading above the surrounding air, and says so [Pa]
	Setting                             // a gauge reading that is set by: a digit more, always in bar or psi [Pa]
	ShotSpeed                           // of a measured shot: differences between shots matter [m/s]
	LeakBore                            // finer than bores are drilled [m]
	LeakFlow                            // of free air [m3/s]
	PressureVolume                      // the product that pressure law looks at [Pa m3]
	TemperatureStep                     // a difference of temperatures [K]
	PerLength                           // a share lost on the way [1/m]
	PressurePerLength                   // of a column of water [Pa/m]
	PeakLevel                           // of a sound, C-weighted [dB]
	Count                               // of things [-]
)

// Of is how figures of a dimension are shown: a pressure does not say from where it
// is counted.
func Of(d unit.Dimension) Kind { return Kind(d) }

// OfVerdict is how a verdict's value and limit are shown.
func OfVerdict(q finding.Quantity) Kind {
	return map[finding.Quantity]Kind{finding.InJoule: Energy, finding.InJoulePerArea: EnergyPerArea, finding.InPascalGauge: Gauge,
		finding.InSecond: Time, finding.InMetre: Length, finding.InMetrePerSecond: Speed, finding.InCount: Count,
		finding.InDecibel: PeakLevel}[q] // else Plain
}

// Words writes an SI value for people, its last digit rounded in the given
// direction: "0.45 bar gauge", "6.5 psi", "12.3 m/s", "0.31 J".
func (s System) Words(q Kind, si float64, r Rounding) string {
	switch {
	case math.IsNaN(si):
		return "not known"
	case math.IsInf(si, 0):
		return "without end"
	}
	if beyond(q, si) {
		return "over " + s.Words(q, finding.MostPressure, Nearest)
	}
	sc, u := s.scale(q, si)
	return sc.named(q, sc.number(q, u.FromSI(si), r))
}

// beyond tells that a figure is a pressure that no model here covers: its digits are not written.
func beyond(q Kind, si float64) bool {
	return (q == Pressure || q == Gauge || q == Setting) && si > finding.MostPressure && !math.IsInf(si, 0)
}

// Like writes a value in the unit in which another would be shown, so that a reader can hold the two against each other, where
// neither is more than a hundred times the other; else in its own.
func (s System) Like(q Kind, si, other float64, r Rounding) string {
	const far = 100
	if a, b := math.Abs(si), math.Abs(other); !(a <= far*b && b <= far*a) || math.IsInf(a, 0) || beyond(q, si) {
		return s.Words(q, si, r)
	}
	own, _ := s.scale(q, si)
	sc, u := s.scale(q, other)
	if own.name == sc.name {
		return s.Words(q, si, r)
	}
	return sc.named(q, sc.number(q, u.FromSI(si), r))
}

// Near writes a value rounded to the nearest digit shown.
func (s System) Near(q Kind, si float64) string { return s.Words(q, si, Nearest) }

// Worst writes a value that must not look better than it is: rounded up.
func (s System) Worst(q Kind, si float64) string { return s.Words(q, si, Up) }

// Bare is Words without the unit.
func (s System) Bare(q Kind, si float64, r Rounding) string {
	if beyond(q, si) {
		return "over " + s.Bare(q, finding.MostPressure, Nearest)
	}
	sc, u := s.scale(q, si)
	return sc.number(q, u.FromSI(si), r)
}
