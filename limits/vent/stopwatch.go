package vent

import (
	"puffproof/limits/launcher"
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
	v.e.stop = s.over
	v.e.slowStart, v.e.fastStart = l.HighStart(max(start, high)), l.HighStart(LowestStart(l))
	rest, ok, err := FilledOf(l)
	switch {
	case err != nil:
		return err
	case ok: // what the supply comes to with its bleeds open, as a gauge shows it
		e.Rest = &rest
		v.e.Start, v.e.slowStart, v.e.fastStart = rest.Nominal, rest.High, rest.Low
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
			Trapped: c.Trapped, Slowest: c.Slowest, Rebound: c.Rebound, Sheet: c.Sheet})
	}
	return nil
}

// LowestStart is the lowest pressure of the sensed volume at which its filling
// ends by itself, or at a person's mark [Pa gauge].
func LowestStart(l *launcher.Launcher) float64 { return l.Working().Low }

// LatestTest is the test that takes longest; nil: there is none.
func (e *Report) LatestTest() *StopwatchTest {
	var worst *StopwatchTest
	for i := range e.Tests {
		if t := &e.Tests[i]; worst == nil || t.Slowest > worst.Slowest {
			worst = t
		}
	}
	return worst
}
