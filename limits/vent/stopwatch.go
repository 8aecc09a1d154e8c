package vent

import (
	"math"

	"puffproof/limits/dial"
	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// stopwatch adds the tests that a builder can do.
func (s stage) stopwatch() error {
	l, e := s.in.Launcher, s.report
	e.Filled, e.FromEmpty = l.HowFilled(""), l.HowFilled("from empty ")
	start := worst.NominalStart(l)
	high, ok := l.NormalHigh()
	if start <= 0 || !ok {
		return nil
	}
	v := newVenter(s.in, start, e.Target)
	v.e.stop, v.e.known = s.over, recall.Of(s.ctx)
	v.e.slowStart, v.e.fastStart = l.HighStart(max(start, high)), l.HighStart(LowestStart(l))
	if e.Rest = l.Resting(); e.Rest.Ends { // as a gauge shows it
		v.e.Start, v.e.slowStart, v.e.fastStart = e.Rest.Nominal, e.Rest.High, e.Rest.Low
	}
	plugPulled := Scenario{PowerLost, pneumatics.Armed}
	cases, err := v.cases(plugPulled, s.detail)
	if err != nil {
		return err
	}
	for i := range l.Volumes {
		c := &cases[i]
		e.Tests = append(e.Tests, StopwatchTest{Volume: c.Volume, Scenario: plugPulled.String(),
			Low: v.e.fastStart[i], Start: v.e.Start[i], High: v.e.slowStart[i],
			Trapped: c.Trapped, Slowest: c.Slowest, Rebound: c.Rebound, Sheet: c.Sheet,
			Unseen: dial.Showing(l, c.Volume, dial.PlugPulled) == nil})
	}
	if s.detail.Brief() {
		return nil
	}
	return s.lowTests(min(start, LowestStart(l)), plugPulled)
}

// The pressure at which the emptying is tried first: a share of the working pressure, but so many times the target that
// there is a fall to be timed (own rule of this project).
const (
	lowShare  = 0.25
	lowTarget = 3
)

// lowTests adds the first emptying of all, from a low pressure that a hand pump or a moment of the supply gives; at most
// from [Pa gauge].
func (s stage) lowTests(most float64, plugPulled Scenario) error {
	l, e := s.in.Launcher, s.report
	step := l.ReadingStep(l.Sensed(), most)
	low := min(most, step*math.Ceil(max(lowShare*most, lowTarget*e.Target)/step-1e-9))
	v := newVenter(s.in, low, e.Target)
	v.e.stop, v.e.known = s.over, recall.Of(s.ctx)
	v.e.slowStart, v.e.fastStart = l.HighStart(low), l.HighStart(low)
	cases, err := v.cases(plugPulled, SlowEndOnly)
	if err != nil {
		return err
	}
	for i := range l.Volumes {
		c := &cases[i]
		e.LowTests = append(e.LowTests, StopwatchTest{Volume: c.Volume, Scenario: plugPulled.String(),
			Low: v.e.Start[i], Start: v.e.Start[i], High: v.e.Start[i], Trapped: c.Trapped, Slowest: c.Slowest, Rebound: math.NaN()})
	}
	return nil
}

// LowestStart is the lowest pressure of the sensed volume at which its filling
// ends by itself, or at a person's mark [Pa gauge].
func LowestStart(l *launcher.Launcher) float64 { return l.Working().Low }

// LatestTest is the test that takes longest; nil: there is none.
func (e *Report) LatestTest() *StopwatchTest { return latest(e.Tests) }

// LatestLowTest is likewise of those from a low pressure.
func (e *Report) LatestLowTest() *StopwatchTest { return latest(e.LowTests) }

func latest(tests []StopwatchTest) *StopwatchTest {
	var worst *StopwatchTest
	for i := range tests {
		if t := &tests[i]; worst == nil || t.Slowest > worst.Slowest {
			worst = t
		}
	}
	return worst
}
