package stopwatch

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// logFit is a log with the launcher that it is fitted to.
type logFit struct {
	l      *launcher.Launcher
	a      *Answer
	volume int
	runs   [][]vent.LogReading
	late   []float64 // by how much the clock of each run was late, as fitted [s]
	errors float64   // largest zero error of the gauge [Pa]
	step   float64   // one division, or a hundredth of the span [Pa]
	start  float64   // [Pa gauge]
	length float64   // longest run [s]
	floor  float64   // the gauge shows no less [Pa gauge]; -Inf: it does
	least  float64   // the least that the gauge can tell from zero [Pa]
	blind  string    // what keeps it from that
	cold   bool      // no heat comes from the walls

	over   *vent.LogReading // a reading above the slow end of the design; nil: none
	overBy float64          // what that end has there [Pa gauge]
	sim    pneumatics.Sim
}

// newLogFit sorts the readings into runs; nil: the log needs no fit, and says why.
func newLogFit(l *launcher.Launcher, a *Answer, log vent.Log) *logFit {
	f := &logFit{l: l, a: a, volume: int(l.Node(a.Volume)), floor: math.Inf(-1)}
	hides := math.Inf(-1)
	f.errors = 0.02 * a.Target
	for i := range l.Gauges {
		if g := &l.Gauges[i]; g.On == a.Volume && g.Range.Set {
			f.errors, _ = g.ErrorSize()
			f.step = g.Graduation.Nominal / 2
			f.least, f.blind = g.LeastReading()
			if g.StopPin == launcher.Yes {
				hides = launcher.StopPinShare * g.Range.High
			}
		}
	}
	byRun := map[int][]vent.LogReading{}
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range log.Readings {
		low, high = min(low, r.Gauge), max(high, r.Gauge)
		if r.Gauge < hides {
			a.Hidden++
			continue
		}
		byRun[r.Run] = append(byRun[r.Run], r)
		a.Count++
	}
	for _, id := range slices.Sorted(maps.Keys(byRun)) {
		run := byRun[id]
		slices.SortStableFunc(run, func(x, y vent.LogReading) int { return cmp.Compare(x.Time, y.Time) })
		f.runs = append(f.runs, run)
		f.length = max(f.length, run[len(run)-1].Time-run[0].Time)
	}
	a.Runs, a.Span, a.End = len(f.runs), high-low, low
	// A clock that was started late does not change where the launcher began: its
	// air has cooled since.
	f.start = max(high+f.errors, l.HighStart(worst.NominalStart(l))[f.volume])
	f.step = max(f.step, 0.005*a.Span)
	a.Resolves = 2 * f.step
	top, ok := vent.StartPressures(l)
	switch {
	case a.Count >= 4 && !(f.length > 0):
		a.Status = TooFew
		a.Says = finding.Words("no two readings follow each other in time: the column runs backwards, or it is not the time; a run is " +
			"read from the top down.")
		return nil
	case a.Count < 4:
		a.Status = TooFew
		a.Says = finding.Say("too few readings: %d that the gauge can show, at least four at different times are needed; read on to the target.",
			a.Count)
		return nil
	case ok && high > 1.1*top[f.volume]+f.errors:
		return f.inconsistent(finding.Say("it starts at %s, but %s never holds more than %s: wrong file or wrong units",
			finding.Bar(high), a.Volume, finding.Bar(top[f.volume])))
	case f.rising():
		return f.inconsistent(finding.Words("the readings rise; an emptying volume falls"))
	}
	return f
}

// inconsistent ends the judgement without a fit.
func (f *logFit) inconsistent(why finding.Text) *logFit {
	f.a.Status = Inconsistent
	f.a.Says = finding.Say("inconsistent with any vent of this design: %s.", why)
	return nil
}

// rising tells that a run ends well above where it began.
func (f *logFit) rising() bool {
	return slices.ContainsFunc(f.runs, func(r []vent.LogReading) bool { return r[len(r)-1].Gauge > r[0].Gauge+3*f.step+f.errors })
}

// course computes a curve: nominal values, natural convection at the walls.
func (f *logFit) course(share float64) (*vent.Curve, error) {
	e := vent.Emptier{Target: f.a.Target, Start: f.from()}
	s := e.Setup(f.l, vent.Scenario{Kind: vent.Shutdown, From: pneumatics.Armed}, vent.NominalEnd)
	for i := range s.Circuit.Paths {
		if p := &s.Circuit.Paths[i]; p.From == pneumatics.Atmosphere || p.To == pneumatics.Atmosphere {
			p.Flow, p.Hose = p.Flow.Scaled(share), p.Hose.Scaled(share)
		}
	}
	walls := vent.StillAir
	if f.l.Model.Parts.NoWallHeat || f.cold {
		walls = vent.ColdAir
	}
	e.Sim = f.sim
	r, err := e.Run(s, walls, 1.5*f.length, 251)
	f.sim = e.Sim
	if err != nil {
		return nil, err
	}
	return gaugeCurve(s, r, f.volume), nil
}

// misfit is the least sum of squares over the clocks of the runs and the zero of
// the gauge, which is the same in all of them.
func (f *logFit) misfit(c *vent.Curve) (sum, zero float64) {
	offsets := make([]float64, len(f.runs))
	for range 3 {
		var residual float64
		for i, run := range f.runs {
			offsets[i] = f.clock(c, run, zero)
			for _, r := range run {
				residual += r.Gauge - c.At(r.Time-run[0].Time+offsets[i])
			}
		}
		zero = min(max(residual/float64(f.a.Count), -f.errors), f.errors)
	}
	for i, run := range f.runs {
		sum += f.squares(c, run, offsets[i], zero)
	}
	return sum, zero
}

// squares is the sum of squares of a run with a clock late by offset [s] and a gauge
// off by zero [Pa].
func (f *logFit) squares(c *vent.Curve, run []vent.LogReading, offset, zero float64) (sum float64) {
	for _, r := range run {
		d := r.Gauge - max(zero+c.At(r.Time-run[0].Time+offset), f.floor)
		sum += d * d
	}
	return sum
}

// clock finds how late the stopwatch was started in one run [s].
func (f *logFit) clock(c *vent.Curve, run []vent.LogReading, zero float64) float64 {
	guess := c.When(run[0].Gauge - zero)
	if math.IsInf(guess, 1) {
		guess = 0
	}
	width := max(0.1*f.length, 2*(c.T[1]-c.T[0]))
	low, high := max(0, guess-width), guess+width
	for range 24 {
		x, y := low+(high-low)/3, high-(high-low)/3
		if f.squares(c, run, x, zero) < f.squares(c, run, y, zero) {
			high = y
		} else {
			low = x
		}
	}
	return 0.5 * (low + high)
}
