package stopwatch

import (
	"maps"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// Bounds of the log's judgement. The least opening that agrees is the lower end
// of the design's tolerances, but never less than slowShare: a wide band must not
// hide a blocked vent. The rest are own rules of this project.
const (
	slowShare   = 0.80 // of the designed opening
	fastShare   = 1.25
	widestShare = 20.0 // beyond it, or below narrowest, no vent of this design made the log
	narrowest   = 0.02
	misfit      = 0.06 // RMS over the span above which no vent fits
	flatShare   = 0.03 // of the span: no fall in the last third of the time
	leastShare  = 0.76 // of the designed opening, where air without heat from the walls fits as well: it falls faster and hides a blocked vent
	asWell      = 1.2  // RMS of that fit over the other
)

// Judge fits the effective opening of the vents to a log and says what it
// means. The launcher empties on shutdown from armed; a log of a power cut is the
// same wherever the vents are. Each run is judged by itself too: many good ones do
// not make up for a bad one, which is then named. day is as of launcher.Answered: the
// target follows from the energy limit, and that from a press test on the checklist.
func Judge(l *launcher.Launcher, log vent.Log, day string) (*Answer, error) {
	limits, err := l.EnergyLimits(day)
	if err != nil {
		return nil, err
	}
	target, _ := vent.Target(l, limits.Total.Value)
	whole, err := judgeLog(l, log, target)
	if err != nil {
		return nil, err
	}
	byRun := map[int][]vent.LogReading{}
	for _, r := range log.Readings {
		byRun[r.Run] = append(byRun[r.Run], r)
	}
	if len(byRun) < 2 {
		return whole, nil
	}
	var bad *Answer
	good := 0
	for i, id := range slices.Sorted(maps.Keys(byRun)) {
		one, err := judgeLog(l, vent.Log{Name: log.Name, Volume: log.Volume, Readings: byRun[id]}, target)
		switch {
		case err != nil:
			return nil, err
		case one.Status == Agrees:
			good++
		case bad == nil:
			bad, one.BadRun = one, i+1
		}
	}
	if bad == nil || good == 0 && whole.Status != Agrees {
		return whole, nil // all alike: what they say together is more certain
	}
	bad.Runs = len(byRun)
	bad.Says = finding.Say("run %d of %d: %s", bad.BadRun, bad.Runs, bad.Says)
	return bad, nil
}

// judgeLog judges the runs of a log together, to a target [Pa gauge].
func judgeLog(l *launcher.Launcher, log vent.Log, target float64) (*Answer, error) {
	a := &Answer{Name: log.Name, Volume: vent.LogVolume(l, log), Target: target, Opening: math.NaN(), Least: math.NaN(), Bore: math.NaN(),
		Cd: math.NaN(), Duration: math.NaN(), FreeZero: math.NaN()}
	f := newLogFit(l, a, log)
	if f == nil {
		return a, nil
	}
	if err := f.fit(); err != nil {
		return nil, err
	}
	if err := f.fitZero(); err != nil {
		return nil, err
	}
	if err := f.fitLeast(); err != nil {
		return nil, err
	}
	if err := f.above(); err != nil {
		return nil, err
	}
	f.judge()
	return a, nil
}

// fit finds the share that leaves the least squares, by a scan and a golden
// section in its logarithm; clock and zero are fitted at each share.
func (f *logFit) fit() error {
	best, at := math.Inf(1), 1.0
	try := func(logShare float64) (float64, error) {
		c, err := f.course(math.Exp(logShare))
		if err != nil {
			return 0, err
		}
		sum, zero := f.misfit(c)
		if sum < best {
			best, at = sum, logShare
			f.a.Opening, f.a.Zero = math.Exp(logShare), zero
			f.late = f.late[:0]
			for _, run := range f.runs {
				f.late = append(f.late, f.clock(c, run, zero))
			}
			f.a.RMS = math.Sqrt(sum / float64(f.a.Count))
			f.a.Duration = c.When(f.a.Target)
		}
		return sum, nil
	}
	const scan = 0.7
	for k := math.Log(narrowest / 2); k <= math.Log(2*widestShare); k += scan {
		if _, err := try(k); err != nil {
			return err
		}
	}
	return vent.GoldenSection(at-scan, at+scan, 15, try) // to 1.4 golden^15, 0.001 in the logarithm
}
