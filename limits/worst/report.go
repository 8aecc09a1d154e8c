package worst

import (
	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Point is one labelled point of the tolerance box: the coordinates that
// matter, by key.
type Point []Coordinate

// Coordinate is one quantity at one point of the box.
type Coordinate struct {
	Key   string
	Value float64 // SI
	Side  string  // "low", "high", "inside" or "nominal"
}

// EnergyReport puts the bases of the energy verdicts side by side.
type EnergyReport struct {
	NominalShot   ShotFigures // nominal values, stated travel, nominal cut-out
	NominalMax    ShotFigures // nominal values, the worst seating
	Worst         ShotFigures // worst case over the box, every seating and start pressure
	WorstEnergy   float64     // the worst final energy, relative to a person standing still [J]
	MovingAt      float64     // speed of the vehicle that is in WorstEnergy [m/s]; 0: it stands
	WorstPoint    Point       // where the worst case lies
	Factor        float64     // the model factor on energy [-]
	FactorSource  finding.Text
	Model         float64  // WorstEnergy times Factor [J]
	Ceiling       float64  // thermodynamic bound over the box [J]
	Measured      *float64 // bound from measured shots [J]; nil: none
	Judged        float64  // the energy that is judged [J]
	Basis         finding.Basis
	Limit         float64   // the policy's total energy [J]
	ContactArea   float64   // smallest contact area in the box [m2]; 0: not stated
	ProjectedArea float64   // frontal area of the projectile at its smallest [m2]
	AreaJudged    float64   // Judged / ContactArea [J/m2]
	AreaLimit     float64   // [J/m2]
	StartHigh     float64   // highest start pressure of normal operation [Pa gauge]
	CeilingDose   float64   // volume of air at StartHigh that the ceiling would pass [m3]
	Runs          int       // shots computed by the search
	Maxima        int       // local maxima found
	Gap           float64   // best minus second-best local maximum [J]
	Entered       []Entered // the changes of state that open a way from air into the barrel; nil: none does
}

// creeps is the speed below which a projectile creeps out rather than being shot [m/s] (own rule of this project).
const creeps = 1.0

// Slow tells that no shot over the tolerances leaves, or none faster than it creeps: then nothing is known of what it does once it
// is not held back, and nothing passes by it.
func (e *EnergyReport) Slow() bool {
	switch e.Worst.Outcome {
	case pneumatics.Stalled.String():
		return true
	case pneumatics.Left.String():
		return e.Worst.FinalSpeed < creeps
	}
	return false
}

// ShotFigures are the figures of one shot.
type ShotFigures struct {
	Outcome      string // "left", "stalled" or "time ran out"
	MuzzleSpeed  float64
	MuzzleEnergy float64
	FinalSpeed   float64
	FinalEnergy  float64
	ExitTime     float64
	StartGauge   float64 // of the sensed volume [Pa gauge]
	Seat         float64 // travel left to the muzzle is Travel - Seat [m]
}
