package advise

import "math"

// What can be bought or drilled. Where no document is named it is common practice, no source.

// drill is the step of twist drills [m]: ISO 235 and DIN 338 list them each 0.1 mm in this range
// (from memory).
const drill = 1e-4

// gaugeRanges are the ends of scales [Pa]: EN 837-1, table of preferred ranges (from memory).
var gaugeRanges = []float64{0.6e5, 1e5, 1.6e5, 2.5e5, 4e5, 6e5, 10e5, 16e5}

// gaugeClasses are the classes of gauges [% of range] (EN 837-1, from memory).
var gaugeClasses = []float64{1.6, 1, 0.6, 0.25}

// vessels are the volumes of small vessels in the trade [m3] (common practice, no source).
var vessels = []float64{0.03e-3, 0.05e-3, 0.075e-3, 0.1e-3, 0.15e-3, 0.2e-3, 0.25e-3, 0.3e-3, 0.4e-3, 0.5e-3, 0.6e-3, 0.75e-3, 1e-3, 1.5e-3,
	2e-3, 3e-3, 4e-3, 5e-3}

// bores are the orifices of small relief valves [m] (common practice, no source).
var bores = []float64{4e-3, 5e-3, 6e-3, 8e-3, 10e-3, 12e-3, 15e-3}

// stepped rounds to a multiple of a step.
func stepped(step float64) func(float64) float64 {
	return func(v float64) float64 { return math.Max(1, math.Round(v/step)) * step }
}

// upTo rounds up to a multiple of a step.
func upTo(v, step float64) float64 { return math.Ceil(v/step-1e-9) * step }

// downTo rounds down to a multiple of a step.
func downTo(v, step float64) float64 { return math.Floor(v/step+1e-9) * step }

// nearest is the entry of a list next to a value, in ratio.
func nearest(list []float64) func(float64) float64 {
	return func(v float64) float64 {
		best := list[0]
		for _, s := range list {
			if math.Abs(math.Log(s/v)) < math.Abs(math.Log(best/v)) {
				best = s
			}
		}
		return best
	}
}

// atLeast is the first entry of a rising list that is not below a value; the last where all are.
func atLeast(list []float64, v float64) float64 {
	for _, s := range list {
		if s >= v {
			return s
		}
	}
	return list[len(list)-1]
}
