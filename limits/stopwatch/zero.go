package stopwatch

import (
	"math"

	"puffproof/limits/vent"
)

// surelyBetter is the share of the RMS of the fit with a gauge within its error
// below which a fit with a zero beyond it counts (own rule of this project): the
// course of the model is not exact either.
const surelyBetter = 0.5

// fitZero looks for a zero of the gauge beyond its error that fits the readings
// better, with the opening free too. A needle that rests on its pin at zero shows
// no negative pressure. FreeZero is the bounded zero where none is surely better.
func (f *logFit) fitZero() error {
	f.a.FreeZero = f.a.Zero
	lowest := math.Inf(1)
	for _, run := range f.runs {
		for _, r := range run {
			lowest = min(lowest, r.Gauge)
		}
	}
	if math.Abs(lowest) <= f.step {
		f.floor = lowest
		defer func() { f.floor = math.Inf(-1) }()
	}
	// A sum that is small enough, else the search follows the noise.
	best := surelyBetter * surelyBetter * f.a.RMS * f.a.RMS * float64(f.a.Count)
	at := math.Log(f.a.Opening)
	const around = 1.5 // in the logarithm of the opening: a wrong zero misleads the first fit that far
	return vent.GoldenSection(at-around, at+around, 16, func(logShare float64) (float64, error) {
		c, err := f.course(math.Exp(logShare))
		if err != nil {
			return 0, err
		}
		sum, zero := f.freeMisfit(c)
		if sum < best {
			best, f.a.FreeZero = sum, zero
		}
		return sum, nil
	})
}

// freeMisfit is the least sum of squares over the clocks and any zero of the
// gauge up to half the span.
func (f *logFit) freeMisfit(c *vent.Curve) (sum, zero float64) {
	sum = math.Inf(1)
	try := func(z float64) (float64, error) {
		total := 0.0
		for _, run := range f.runs {
			total += f.squares(c, run, f.clock(c, run, z), z)
		}
		if total < sum {
			sum, zero = total, z
		}
		return total, nil
	}
	half := 0.5 * f.a.Span
	if err := vent.GoldenSection(-half, half, 14, try); err != nil { // to span golden^14, a thousandth
		return math.Inf(1), 0
	}
	return sum, zero
}
