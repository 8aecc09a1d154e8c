package vent

import (
	"math"
	"slices"

	"puffproof/pneumatics"
)

// heatRun is one run of the band of readings.
type heatRun struct {
	setup *Setup
	r     *pneumatics.Result
}

// gauge is the reading of volume i at sample k [Pa gauge].
func (h heatRun) gauge(i, k int) float64 {
	return h.r.Trace.Volumes[i][k] - h.setup.Circuit.Ambient.Pressure
}

// fill adds the expected readings, their band, and the rebound. The expected
// course is that of the stated values with natural convection at the walls. The
// band spans both ends of the tolerances, each without heat from the walls and
// with gas as warm as the walls, the slow end with every heat between as well.
func (v *venter) fill(cases []Case, slow, fast []*Setup, s Scenario) error {
	step, n := sheetSteps(cases, v.within)
	until := step * float64(n-1)
	nominal := v.setups(s, NominalEnd)[0]
	samples := finer*(n-1) + 1
	expected, err := v.e.Run(nominal, v.expectedWalls(), until, samples)
	if err != nil {
		return err
	}
	course := heatRun{nominal, expected}
	band := []heatRun{course}
	for _, one := range slices.Concat([]*Setup{nominal}, fast, slow) {
		walls := extremes()
		if slices.Contains(slow, one) {
			walls = slowWalls()
		}
		runs, err := v.e.runs(one, walls, until, samples)
		if err != nil {
			return err
		}
		for _, r := range runs {
			band = append(band, heatRun{one, r})
		}
	}
	for i := range cases {
		c := &cases[i]
		c.Course = sheet(i, samples, course, band)
		c.Sheet = thinned(c.Course)
	}
	if err := v.afterWithin(cases, slow); err != nil {
		return err
	}
	return v.times(cases, nominal, fast)
}

// sheet reads volume i off the runs.
func sheet(i, n int, expected heatRun, band []heatRun) []Reading {
	out := make([]Reading, 0, n)
	for k := range min(n, len(expected.r.Trace.Time)) {
		r := Reading{Time: expected.r.Trace.Time[k], Gauge: expected.gauge(i, k), Low: math.Inf(1), High: math.Inf(-1)}
		for _, b := range band {
			g := b.gauge(i, k)
			r.Low, r.High = min(r.Low, g), max(r.High, g)
		}
		out = append(out, r)
	}
	return out
}

// times adds the times of the nominal and fast ends.
func (v *venter) times(cases []Case, nominal *Setup, fast []*Setup) error {
	type want struct {
		s     *Setup
		walls Walls
		put   func(c *Case, t float64)
	}
	wants := []want{
		{nominal, v.expectedWalls(), func(c *Case, t float64) { c.Expected = t }},
		{nominal, warmAir, func(c *Case, t float64) { c.Isothermal = t }},
		{nominal, ColdAir, func(c *Case, t float64) { c.Adiabatic = t }},
	}
	for i := range cases {
		cases[i].Fastest = math.Inf(1)
	}
	for _, one := range fast {
		for _, walls := range extremes() {
			wants = append(wants, want{one, walls, func(c *Case, t float64) { c.Fastest = min(c.Fastest, t) }})
		}
	}
	for _, w := range wants {
		r, err := v.e.Run(w.s, w.walls, v.until, 0)
		if err != nil {
			return err
		}
		for i := range cases {
			w.put(&cases[i], OrInf(r.WatchTimes[i]))
		}
	}
	for i := range cases {
		cases[i].Fastest = min(cases[i].Fastest, cases[i].Expected)
	}
	return nil
}

// rebounds adds what comes back after the vent is shut too early.
func (v *venter) rebounds(cases []Case, fast []*Setup) error {
	for i := range cases {
		cases[i].Rebound = math.Inf(-1)
		for _, one := range fast {
			p, err := v.rebound(&cases[i], i, one)
			if err != nil {
				return err
			}
			cases[i].Rebound = max(cases[i].Rebound, p)
		}
	}
	return nil
}

// rebound is the gauge pressure that comes back when every way out is shut at
// the moment the volume reads the target, and its gas, cold from expanding
// without heat from the walls, warms up to them:
//
//	p = (p_target + pa) Tw/T - pa
func (v *venter) rebound(c *Case, i int, fast *Setup) (float64, error) {
	if c.Trapped || c.Start <= v.e.Target {
		return c.Start, nil
	}
	first, err := v.e.Run(fast, ColdAir, v.until, 0)
	if err != nil {
		return 0, err
	}
	at := first.WatchTimes[i]
	if math.IsNaN(at) {
		return c.Start, nil
	}
	r, err := v.e.Run(fast, ColdAir, max(at, 1e-9), 0)
	if err != nil {
		return 0, err
	}
	g := r.Volumes[i]
	return g.Pressure*fast.Circuit.Ambient.Temperature/g.Temperature - fast.Circuit.Ambient.Pressure, nil
}

// afterWithin adds the highest pressure when the time asked is up, at the slow
// end.
func (v *venter) afterWithin(cases []Case, slow []*Setup) error {
	if math.IsNaN(v.within) {
		return nil
	}
	for i := range cases {
		cases[i].AfterWithin = math.Inf(-1)
	}
	for _, one := range slow {
		runs, err := v.e.SlowRuns(one, v.within, 0)
		if err != nil {
			return err
		}
		for _, r := range runs {
			for i := range cases {
				cases[i].AfterWithin = max(cases[i].AfterWithin, r.Volumes[i].Pressure-one.Circuit.Ambient.Pressure)
			}
		}
	}
	return nil
}

// sheetEnd is the last time worth reading: a fifth beyond the slowest volume
// that empties; where none does, half beyond the time asked, or a minute [s].
func sheetEnd(cases []Case, within float64) float64 {
	end := 0.0
	for _, c := range cases {
		if !math.IsInf(c.Slowest, 1) {
			end = max(end, 1.2*c.Slowest)
		}
	}
	switch {
	case end > 0:
		return end
	case !math.IsNaN(within):
		return 1.5 * within
	}
	return 60
}

// A person reads stopwatch and gauge together once a second at the best; what is over in fewer seconds than make a
// course of readings has to be filmed (common practice, no source).
const (
	byEye      = 1.0 // [s]
	filmedUpTo = 5.0 // [s]
)

// sheetSteps gives a step that a person can read a stopwatch by, or a film where it is over too soon, and the number of
// readings.
func sheetSteps(cases []Case, within float64) (step float64, n int) {
	end := sheetEnd(cases, within)
	for _, step = range []float64{0.1, 0.2, 0.5, byEye, 2, 5, 10, 15, 30, 60, 120, 300, 600} {
		if (step >= byEye || end < filmedUpTo) && end/step <= 24 {
			break
		}
	}
	return step, int(math.Ceil(end/step)) + 1
}

// Filmed tells that the readings of a sheet follow each other faster than a person reads them: gauge and stopwatch have to
// be filmed together.
func Filmed(sheet []Reading) bool {
	const hair = 1e-9 // of rounding
	for k := 1; k < len(sheet); k++ {
		if sheet[k].Time-sheet[k-1].Time < byEye-hair {
			return true
		}
	}
	return false
}

// finer is how many samples of a course there are for each step of a stopwatch: enough for a smooth curve.
const finer = 6

// thinned keeps a dozen readings of a course: that of every step at first, when the pressure falls fast, and fewer later.
func thinned(course []Reading) []Reading {
	var out []Reading
	for at := 0; at < len(course); at += finer {
		switch k := at / finer; {
		case k <= 6, k <= 12 && k%2 == 0, k%4 == 0, at+finer >= len(course):
			out = append(out, course[at])
		}
	}
	return out
}
