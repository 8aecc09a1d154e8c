package stopwatch

import (
	"math"

	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// fitLeast fits the opening without heat from the walls. Air that stays cold falls
// in pressure faster, so that a narrower opening makes the same readings: it is the
// least opening that they allow.
func (f *logFit) fitLeast() error {
	f.cold = true
	defer func() { f.cold = false }()
	best, at := math.Inf(1), math.Log(f.a.Opening)
	const around = 0.5 // in the logarithm of the opening: cold and warm air differ by less than gamma
	return vent.GoldenSection(at-around, at+0.1, 12, func(logShare float64) (float64, error) {
		c, err := f.course(math.Exp(logShare))
		if err != nil {
			return 0, err
		}
		sum, _ := f.misfit(c)
		if sum < best {
			best, f.a.Least, f.a.LeastRMS = sum, math.Exp(logShare), math.Sqrt(sum/float64(f.a.Count))
		}
		return sum, nil
	})
}

// above looks for a reading that the slow end of the design, from the highest
// pressure that the log could have begun at, does not reach at that time, even with
// the gauge's error. A clock that was late only makes it worse.
func (f *logFit) above() error {
	e := vent.Emptier{Target: f.a.Target, Start: f.from()}
	worst := 0.0
	var limit []*vent.Curve
	for _, w := range vent.AtEndInAnyAir(f.l, vent.SlowEnd) {
		s := e.Setup(w, vent.Scenario{Kind: vent.Shutdown, From: pneumatics.Armed}, vent.SlowEnd)
		runs, err := e.SlowRuns(s, 1.5*f.length, 251)
		if err != nil {
			return err
		}
		for _, r := range runs {
			limit = append(limit, gaugeCurve(s, r, f.volume))
		}
	}
	for _, run := range f.runs {
		for i, r := range run {
			most := 0.0
			for _, c := range limit {
				most = max(most, c.At(r.Time-run[0].Time))
			}
			if by := r.Gauge - most - f.errors - f.step; by > worst {
				worst, f.over, f.overBy = by, &run[i], most
			}
		}
	}
	return nil
}

// from are the pressures of the volumes where the one that was read starts where the
// log does [Pa gauge].
func (f *logFit) from() []float64 {
	start := f.l.HighStart(f.start)
	top := start[f.volume]
	for i := range start {
		if top > 0 {
			start[i] *= f.start / top
		} else {
			start[i] = f.start
		}
	}
	return start
}

// gaugeCurve is the course of a volume in a run [Pa gauge].
func gaugeCurve(s *vent.Setup, r *pneumatics.Result, volume int) *vent.Curve {
	c := &vent.Curve{T: r.Trace.Time}
	for _, p := range r.Trace.Volumes[volume] {
		c.P = append(c.P, p-s.Circuit.Ambient.Pressure)
	}
	return c
}
