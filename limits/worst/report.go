package worst

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
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
	ModelBounds   bool          // Model is a bound as well: all its shots were computed, gas dynamics were compared, and it shoots
	Limit         float64       // the policy's total energy [J]
	ContactArea   float64       // smallest contact area in the box [m2]; 0: not stated
	ProjectedArea float64       // frontal area of the projectile at its smallest [m2]
	AreaJudged    float64       // Judged / ContactArea [J/m2]
	AreaLimit     float64       // [J/m2]
	Rest          launcher.Band // where a gauge comes to rest against what is open while it fills [Pa gauge]; not set: something else ends it
	Beyond        float64       // from there on no measured bound is carried, and the model counts with its factor [Pa gauge]; 0: nowhere
	StartHigh     float64       // highest start pressure of normal operation [Pa gauge]
	CeilingDose   float64       // volume of air at StartHigh that the ceiling would pass [m3]
	Runs          int           // shots computed by the search
	Maxima        int           // local maxima found
	Gap           float64       // best minus second-best local maximum [J]
	Entered       []Entered     // the changes of state that open a way from air into the barrel; nil: none does
}

// Most is the most energy that a shot of normal operation has [J], as far as both bounds tell that hold: what its air could do, and the
// hardest shot of the model times its factor. What is judged is the ceiling where that is allowed, though the model may give far less.
// Whatever is added to the energy of a shot, or computed from it, takes this: else a launcher that was made weaker, and so came under its
// ceiling, would fail where it held before. Where shots were measured, or the model tells nothing, it is what is judged.
func (e *EnergyReport) Most() float64 {
	if !e.ModelBounds || e.Basis == finding.OnMeasured {
		return e.Judged
	}
	most := min(e.Ceiling, e.Model)
	if one := e.HardestEntered(); one != nil {
		most = max(most, one.Judged) // it has a ceiling of its own
	}
	return most
}

// ModelCounts tells that the model's shots, with its factor, are part of what is judged.
func (e *EnergyReport) ModelCounts() bool {
	return e.Basis == finding.OnModel || e.Basis == finding.OnMeasured && e.Beyond > 0
}

// ModelDecides tells, of an energy on the measured basis, whether the worst shot of the narrowed model decides: the larger of it and the
// measured bound does. Its factor counts where the bound does not reach (Beyond).
func (e *EnergyReport) ModelDecides() bool {
	model := e.WorstEnergy
	if e.Beyond > 0 {
		model = e.Model
	}
	return e.Basis == finding.OnMeasured && (e.Measured == nil || model > *e.Measured)
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
