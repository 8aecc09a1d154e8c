package vent

import (
	"math"

	"puffproof/limits/finding"
)

// LogReading is one line of a stopwatch test.
type LogReading struct {
	Run   int     // runs are told apart by it
	Time  float64 // [s] by the stopwatch, which may have been started late
	Gauge float64 // [Pa gauge]
}

// Log is what a builder read off a gauge while the launcher emptied.
type Log struct {
	Name     string // of the file
	Volume   string // whose gauge it was; "": the volume that the gauge of the design reads
	Readings []LogReading
}

// LogStatus is what a log says about the vent.
type LogStatus string

// The answers to a log. Only the first is good.
const (
	LogAgrees       LogStatus = "agrees"
	LogReturns      LogStatus = "comes back"
	LogStartsLate   LogStatus = "starts too late"
	LogSettlesOff   LogStatus = "does not settle at zero"
	LogSlower       LogStatus = "slower than designed"
	LogStays        LogStatus = "does not reach zero"
	LogInconsistent LogStatus = "inconsistent"
	LogStopsEarly   LogStatus = "stops before the target"
	LogFaster       LogStatus = "faster than designed"
	LogTooFew       LogStatus = "too few readings"
	LogGaugeBlind   LogStatus = "gauge cannot tell"
	LogNotInTime    LogStatus = "not shown in time"
)

// LogAnswer is the judgement of a log.
type LogAnswer struct {
	Name   string
	Status LogStatus
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

// curve is the course of the volume with the vents opened by a share.
type curve struct {
	t, p []float64
}

// at interpolates the gauge pressure at a time; after the end it stays.
func (c *curve) at(t float64) float64 {
	switch last := len(c.t) - 1; {
	case t <= 0:
		return c.p[0]
	case t >= c.t[last]:
		return c.p[last]
	}
	dt := c.t[1] - c.t[0]
	k := min(int(t/dt), len(c.t)-2)
	u := t/dt - float64(k)
	return c.p[k] + u*(c.p[k+1]-c.p[k])
}

// when is the first time at or below a pressure; +Inf: never.
func (c *curve) when(p float64) float64 {
	for k, g := range c.p {
		if g <= p {
			return c.t[k]
		}
	}
	return math.Inf(1)
}
