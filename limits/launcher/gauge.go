package launcher

import (
	"fmt"
	"math"
)

// unknownClass is the class of a gauge without one [percent of range] (common
// practice, no source); stopPinShare is the part of the range that a stop pin
// hides (from memory).
const (
	unknownClass = 4.0
	StopPinShare = 0.06
)

// LeastReading is the least gauge pressure that the gauge can tell from zero
// [Pa]: its error, half a division, or what its stop pin hides.
func (g *GaugeSpec) LeastReading() (pressure float64, why string) {
	pressure, why = g.ErrorSize()
	if half := g.Graduation.Nominal / 2; g.Graduation.Set && half > pressure {
		pressure, why = half, "half a division"
	}
	if pin := StopPinShare * g.Range.High; g.StopPin != No && pin > pressure {
		pressure, why = pin, "a stop pin hides the first 6 % of the range"
		if g.StopPin == Unanswered {
			why += " (stop_pin is not answered, which counts as yes)"
		}
	}
	return pressure, why
}

// ErrorSize is the largest error of the gauge [Pa].
func (g *GaugeSpec) ErrorSize() (pressure float64, why string) {
	switch {
	case g.Error.Set:
		return math.Max(math.Abs(g.Error.High), math.Abs(g.Error.Low)), "its stated error"
	case g.Class > 0:
		return g.Class / 100 * g.Range.High, fmt.Sprintf("class %.3g of its range", g.Class)
	}
	return unknownClass / 100 * g.Range.High, "its class is not stated and counts as 4"
}

// ReadingStep is the step in which pressures can be read off the gauge on a volume, or of an assumed one, near a
// pressure [Pa]: its stated division; else the usual division, of 1, 2 or 5 times a power of ten pascals, that is not
// finer than its error (common practice, no source).
func (l *Launcher) ReadingStep(volume string, near float64) float64 {
	if g := l.GaugeOn(volume); g != nil && g.Graduation.Set && !g.Graduation.Assumed {
		return g.Graduation.Nominal
	}
	size := l.AssumedGaugeError(volume, near).High
	if !(size > 0) {
		return 1
	}
	decade := math.Pow(10, math.Floor(math.Log10(size)))
	for _, step := range [...]float64{1, 2, 5} {
		if step*decade >= size*(1-1e-9) { // an error on a division is on it
			return step * decade
		}
	}
	return 10 * decade
}

// VolumeNames lists the names of the volumes.
func (l *Launcher) VolumeNames() (names []string) {
	for i := range l.Volumes {
		names = append(names, l.Volumes[i].Name)
	}
	return names
}
