package stopwatch

import "puffproof/limits/finding"

// Status is what a log says about the vent.
type Status string

// The answers to a log. Only the first is good.
const (
	Agrees       Status = "agrees"
	Returns      Status = "comes back"
	StartsLate   Status = "starts too late"
	SettlesOff   Status = "does not settle at zero"
	Slower       Status = "slower than designed"
	Stays        Status = "does not reach zero"
	Inconsistent Status = "inconsistent"
	StopsEarly   Status = "stops before the target"
	Faster       Status = "faster than designed"
	TooFew       Status = "too few readings"
	GaugeBlind   Status = "gauge cannot tell"
	NotInTime    Status = "not shown in time"
)

// Answer is the judgement of a log.
type Answer struct {
	Name   string
	Status Status
	Volume string
	Says   finding.Text // in a sentence
	Runs   int
	Count  int // readings used
	Hidden int // readings left out because the gauge's stop pin hides them

	Opening  float64 // effective opening over the designed one [-]; NaN: not fitted
	Low      float64 // least share that still agrees [-]
	High     float64 // greatest
	Least    float64 // opening that fits if no heat comes from the walls: the least that the readings allow [-]; NaN: not fitted
	LeastRMS float64 // of the readings about that course [Pa]
	BadRun   int     // the run that the answer is about, from 1; 0: all of them
	Bore     float64 // effective bore of the vent [m]; NaN: it has none, or several
	Path     string  // the vent that the bore is of
	Cd       float64 // discharge coefficient that goes with the stated bore [-]; NaN
	Zero     float64 // what the gauge reads at zero [Pa]
	RMS      float64 // of the readings about the fitted course [Pa]
	Span     float64 // highest less lowest reading [Pa]
	End      float64 // the lowest pressure that the log shows [Pa gauge]
	Target   float64
	Duration float64 // to the target, as fitted [s]; +Inf: not within the run
	Resolves float64 // difference of pressures that the readings are taken to tell [Pa]
	FreeZero float64 // zero of the gauge that fits best if its error has no bound [Pa]; NaN: not fitted
}
