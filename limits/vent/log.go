package vent

import (
	"cmp"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
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
	startShare  = 0.7  // of the lowest cut-out: a log that begins lower shows too little of the course
	leastShare  = 0.76 // of the designed opening, where air without heat from the walls fits as well: it falls faster and hides a blocked vent
	asWell      = 1.2  // RMS of that fit over the other
)

// JudgeLog fits the effective opening of the vents to a log and says what it
// means. The launcher empties on shutdown from armed; a log of a power cut is the
// same wherever the vents are. Each run is judged by itself too: many good ones do
// not make up for a bad one, which is then named. day is as of launcher.Answered: the
// target follows from the energy limit, and that from a press test on the checklist.
func JudgeLog(l *launcher.Launcher, log Log, day string) (*LogAnswer, error) {
	limits, err := l.EnergyLimits(day)
	if err != nil {
		return nil, err
	}
	target, _ := Target(l, limits.Total.Value)
	whole, err := judgeLog(l, log, target)
	if err != nil {
		return nil, err
	}
	byRun := map[int][]LogReading{}
	for _, r := range log.Readings {
		byRun[r.Run] = append(byRun[r.Run], r)
	}
	if len(byRun) < 2 {
		return whole, nil
	}
	var bad *LogAnswer
	good := 0
	for i, id := range sortedKeys(byRun) {
		one, err := judgeLog(l, Log{Name: log.Name, Volume: log.Volume, Readings: byRun[id]}, target)
		switch {
		case err != nil:
			return nil, err
		case one.Status == LogAgrees:
			good++
		case bad == nil:
			bad, one.BadRun = one, i+1
		}
	}
	if bad == nil || good == 0 && whole.Status != LogAgrees {
		return whole, nil // all alike: what they say together is more certain
	}
	bad.Runs = len(byRun)
	bad.Says = finding.Say("run %d of %d: %s", bad.BadRun, bad.Runs, bad.Says)
	return bad, nil
}

// judgeLog judges the runs of a log together, to a target [Pa gauge].
func judgeLog(l *launcher.Launcher, log Log, target float64) (*LogAnswer, error) {
	a := &LogAnswer{Name: log.Name, Volume: LogVolume(l, log), Target: target, Opening: math.NaN(), Least: math.NaN(), Bore: math.NaN(),
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

// logFit is a log with the launcher that it is fitted to.
type logFit struct {
	l      *launcher.Launcher
	a      *LogAnswer
	volume int
	runs   [][]LogReading
	late   []float64 // by how much the clock of each run was late, as fitted [s]
	errors float64   // largest zero error of the gauge [Pa]
	step   float64   // one division, or a hundredth of the span [Pa]
	start  float64   // [Pa gauge]
	length float64   // longest run [s]
	floor  float64   // the gauge shows no less [Pa gauge]; -Inf: it does
	least  float64   // the least that the gauge can tell from zero [Pa]
	blind  string    // what keeps it from that
	cold   bool      // no heat comes from the walls

	over   *LogReading // a reading above the slow end of the design; nil: none
	overBy float64     // what that end has there [Pa gauge]
	sim    pneumatics.Sim
}

// newLogFit sorts the readings into runs; nil: the log needs no fit, and says why.
func newLogFit(l *launcher.Launcher, a *LogAnswer, log Log) *logFit {
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
	byRun := map[int][]LogReading{}
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
	for _, id := range sortedKeys(byRun) {
		run := byRun[id]
		slices.SortStableFunc(run, func(x, y LogReading) int { return cmp.Compare(x.Time, y.Time) })
		f.runs = append(f.runs, run)
		f.length = max(f.length, run[len(run)-1].Time-run[0].Time)
	}
	a.Runs, a.Span, a.End = len(f.runs), high-low, low
	// A clock that was started late does not change where the launcher began: its
	// air has cooled since.
	f.start = max(high+f.errors, l.HighStart(worst.NominalStart(l))[f.volume])
	f.step = max(f.step, 0.005*a.Span)
	a.Resolves = 2 * f.step
	top, ok := StartPressures(l)
	switch {
	case a.Count >= 4 && !(f.length > 0):
		a.Status = LogTooFew
		a.Says = finding.Words("no two readings follow each other in time: the column runs backwards, or it is not the time; a run is " +
			"read from the top down.")
		return nil
	case a.Count < 4:
		a.Status = LogTooFew
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

// sortedKeys are the runs in the order of their numbers.
func sortedKeys(m map[int][]LogReading) []int {
	var out []int
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// inconsistent ends the judgement without a fit.
func (f *logFit) inconsistent(why finding.Text) *logFit {
	f.a.Status = LogInconsistent
	f.a.Says = finding.Say("inconsistent with any vent of this design: %s.", why)
	return nil
}

// rising tells that a run ends well above where it began.
func (f *logFit) rising() bool {
	for _, r := range f.runs {
		if r[len(r)-1].Gauge > r[0].Gauge+3*f.step+f.errors {
			return true
		}
	}
	return false
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

// course computes a curve: nominal values, natural convection at the walls.
func (f *logFit) course(share float64) (*curve, error) {
	e := Emptier{Target: f.a.Target, Start: f.from()}
	s := e.Setup(f.l, Scenario{Shutdown, pneumatics.Armed}, NominalEnd)
	for i := range s.circuit.Paths {
		if p := &s.circuit.Paths[i]; p.From == pneumatics.Atmosphere || p.To == pneumatics.Atmosphere {
			p.Flow, p.Hose = p.Flow.Scaled(share), p.Hose.Scaled(share)
		}
	}
	walls := stillAir
	if f.l.Model.Parts.NoWallHeat || f.cold {
		walls = coldAir
	}
	e.sim = f.sim
	r, err := e.Run(s, walls, 1.5*f.length, 251)
	f.sim = e.sim
	if err != nil {
		return nil, err
	}
	return gaugeCurve(s, r, f.volume), nil
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
			f.a.Duration = c.when(f.a.Target)
		}
		return sum, nil
	}
	const scan = 0.7
	for k := math.Log(narrowest / 2); k <= math.Log(2*widestShare); k += scan {
		if _, err := try(k); err != nil {
			return err
		}
	}
	return goldenSection(at-scan, at+scan, 15, try) // to 1.4 golden^15, 0.001 in the logarithm
}

// goldenSection narrows [low, high] around the least value of f in so many steps.
func goldenSection(low, high float64, steps int, f func(float64) (float64, error)) error {
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

// misfit is the least sum of squares over the clocks of the runs and the zero of
// the gauge, which is the same in all of them.
func (f *logFit) misfit(c *curve) (sum, zero float64) {
	offsets := make([]float64, len(f.runs))
	for range 3 {
		var residual float64
		for i, run := range f.runs {
			offsets[i] = f.clock(c, run, zero)
			for _, r := range run {
				residual += r.Gauge - c.at(r.Time-run[0].Time+offsets[i])
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
func (f *logFit) squares(c *curve, run []LogReading, offset, zero float64) (sum float64) {
	for _, r := range run {
		d := r.Gauge - max(zero+c.at(r.Time-run[0].Time+offset), f.floor)
		sum += d * d
	}
	return sum
}

// clock finds how late the stopwatch was started in one run [s].
func (f *logFit) clock(c *curve, run []LogReading, zero float64) float64 {
	guess := c.when(run[0].Gauge - zero)
	if math.IsInf(guess, 1) {
		guess = 0
	}
	width := max(0.1*f.length, 2*(c.t[1]-c.t[0]))
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
