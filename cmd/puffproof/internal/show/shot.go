package show

import (
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// The outcomes of a shot, as pneumatics names them.
const (
	OutcomeLeft    = "left"
	OutcomeStalled = "stalled"
)

// ShotView is one shot as plain data in SI units. Gauge pressures [Pa] are above
// the design's ambient pressure.
type ShotView struct {
	Design  DesignID
	Outcome string      // "left", "stalled" or "time ran out"
	Start   []NodeGauge // every volume, in the order of the design

	// Of a shot that left the muzzle; not read for any other.
	MuzzleSpeed  float64 // [m/s]
	MuzzleEnergy float64 // [J]
	FinalSpeed   float64 // with the push after the muzzle [m/s]
	FinalEnergy  float64 // [J]
	ExitTime     float64 // [s]
	ExitGauge    float64 // in the barrel when the projectile leaves [Pa]

	ContactArea float64     // nominal [m2]; 0: not stated
	AreaEnergy  float64     // FinalEnergy / ContactArea [J/m2]; not read without a ContactArea
	PeakGauge   float64     // highest pressure in the barrel [Pa]
	After       []NodeGauge // when the run ended
	Ceiling     float64     // the most the air could do [J]

	// Of a shot that did not leave.
	RestTravel float64 // where the projectile is, from its seat [m]
	RestGauge  float64 // pressure behind it [Pa]
	Freed      float64 // the most it could get if freed by hand [J]

	Account        []budget.Entry // where the energy went, in the order shown
	MassResidual   float64        // [-]
	EnergyResidual float64        // [-]

	// Highest is the same shot from the seat that gives the most energy; nil
	// where the seat is fixed.
	Highest *worst.ShotFigures
	// Wave is the same shot in the wave model too; nil: not asked for.
	Wave *worst.WaveComparison

	Travel float64 // the stated travel to the muzzle [m]
	Series Series
	Why    []finding.Text // why it does so little; none where it flies
	Notes  []finding.Text
}

// NodeGauge is the pressure of one volume.
type NodeGauge struct {
	Name  string
	Gauge float64 // [Pa]
}

// Series is the course of a shot: slices of one length, Time rising.
type Series struct {
	Time   []float64 // from the command to fire [s]
	Travel []float64 // from the seat [m]
	Speed  []float64 // [m/s]
	Gauge  []float64 // in the barrel, behind the projectile [Pa]
}

// Length is the number of points that all four slices have.
func (s Series) Length() int { return min(len(s.Time), len(s.Travel), len(s.Speed), len(s.Gauge)) }
