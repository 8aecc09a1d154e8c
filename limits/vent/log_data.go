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

// Curve is the course of the volume with the vents opened by a share.
type Curve struct {
	T, P []float64
}

// At interpolates the gauge pressure at a time; after the end it stays.
func (c *Curve) At(t float64) float64 {
	switch last := len(c.T) - 1; {
	case t <= 0:
		return c.P[0]
	case t >= c.T[last]:
		return c.P[last]
	}
	dt := c.T[1] - c.T[0]
	k := min(int(t/dt), len(c.T)-2)
	u := t/dt - float64(k)
	return c.P[k] + u*(c.P[k+1]-c.P[k])
}

// When is the first time at or below a pressure; +Inf: never.
func (c *Curve) When(p float64) float64 {
	for k, g := range c.P {
		if g <= p {
			return c.T[k]
		}
	}
	return math.Inf(1)
}

// AsRead is a gauge reading [Pa] with every digit that was read.
func AsRead(p float64) finding.Shown { return finding.Bar(p).With(3) }

// MeanGauge is the mean of readings [Pa gauge].
func MeanGauge(r []LogReading) (mean float64) {
	for _, one := range r {
		mean += one.Gauge / float64(len(r))
	}
	return mean
}

// GoldenSection narrows [low, high] around the least value of f in so many steps.
func GoldenSection(low, high float64, steps int, f func(float64) (float64, error)) error {
	const golden = 0.6180339887498949
	x, y := high-golden*(high-low), low+golden*(high-low)
	fx, err := f(x)
	if err != nil {
		return err
	}
	fy, err := f(y)
	if err != nil {
		return err
	}
	for range steps {
		if fx < fy {
			high, y, fy = y, x, fx
			x = high - golden*(high-low)
			fx, err = f(x)
		} else {
			low, x, fx = x, y, fy
			y = low + golden*(high-low)
			fy, err = f(y)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// StartShare of the lowest cut-out: a log that begins lower shows too little of the course. Own rule of
// this project.
const StartShare = 0.7
