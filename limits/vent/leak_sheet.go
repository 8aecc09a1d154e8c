package vent

import (
	"math"
	"slices"

	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// leakTests adds the leak-down tests: of every volume that holds air, or of the
// one that is read first where the checklist asks for no more.
func (s stage) leakTests() error {
	l, e := s.in.Launcher, s.report
	start := worst.NominalStart(l)
	high, ok := l.NormalHigh()
	if start <= 0 || !ok || s.detail.Brief() {
		return nil
	}
	first := LogVolume(l, Log{})
	for i := range l.Volumes {
		name := l.Volumes[i].Name
		if s.detail == ForItems && name != first {
			continue
		}
		t := LeakTest{Volume: name, Needed: math.NaN(), May: math.NaN()}
		m := NewLeakModel(l, name, start)
		share := m.start[m.volume] / start
		t.Low, t.Start, t.High = share*LowestStart(l), m.start[m.volume], share*max(start, high)
		t.Opens, t.Fill, t.Loses = m.opens, m.filling, tightLoss*t.Start
		if t.Start <= e.Target {
			continue
		}
		if t.Opens == "" {
			if err := m.sheet(&t, s.detail); err != nil {
				return err
			}
		}
		e.Leaks = append(e.Leaks, t)
	}
	return nil
}

// Starts are the pressures at which a volume stands as its two tests begin [Pa gauge]: armed as soon as the supply stops after a fill from
// empty (of the leak-down), and once all that is joined while it charges has come level (of the stopwatch test). False: they are one, or
// one of the tests is not known.
func (e *Report) Starts(volume string) (atOnce, level float64, differ bool) {
	const alike = 0.01 // what nobody reads off a gauge, relative
	i := slices.IndexFunc(e.Leaks, func(t LeakTest) bool { return t.Volume == volume })
	k := slices.IndexFunc(e.Tests, func(t StopwatchTest) bool { return t.Volume == volume })
	if i < 0 || k < 0 {
		return math.NaN(), math.NaN(), false
	}
	atOnce, level = e.Leaks[i].Start, e.Tests[k].Start
	return atOnce, level, math.Abs(level-atOnce) > alike*max(level, atOnce)
}

// sheet adds how it cools, how long to read and the readings to expect.
func (m *LeakModel) sheet(t *LeakTest, detail SheetDetail) (err error) {
	rest := 0.05 * m.hot[m.volume] / m.c.Ambient.Temperature * t.Start // a twentieth, where no gauge says what it tells
	size, _, gauge := readingError(m.l, t.Volume)
	if gauge {
		rest = size
	}
	if t.Settled, t.FallsMost, err = m.cooling(t.Start, rest); err != nil {
		return err
	}
	warmth := m.expectedWarmth()
	cooled, pa, err := m.run(0, t.Start, warmth, pneumatics.Options{}, longestRead)
	if err != nil {
		return err
	}
	t.Falls = pa + t.Start - cooled.Volumes[m.volume].Pressure
	drift := (m.c.Ambient.Pressure + t.Start) * RoomDrift / m.c.Ambient.Temperature
	end := 600.0
	if gauge {
		t.Needed, t.May = leakNeeded(t.Settled, size, drift, t.Start), mayFall(size, drift)
		if !math.IsInf(t.Needed, 1) {
			end = max(end, t.Needed)
		}
	}
	if detail == ForItems {
		return nil
	}
	return m.readings(t, warmth, drift, end)
}

// readings fills the sheet of a launcher that does not leak: the lowest after the
// hottest fill with the fastest cooling in a room that cools, the highest without
// any cooling in one that warms.
func (m *LeakModel) readings(t *LeakTest, warmth, drift, end float64) error {
	var course [4]*LeakCourse
	for i, one := range []struct{ start, warmth float64 }{{t.Low, 1}, {t.Low, 0}, {t.Start, warmth}, {t.Start, 0}} {
		c, err := m.Course(0, one.start, one.warmth, end)
		if err != nil {
			return err
		}
		course[i] = c
	}
	hot, cold, expected := course[0], course[1], course[2]
	for _, at := range leakTimes(end) {
		room := drift * at / end
		fast := at / slowestHeat
		t.Sheet = append(t.Sheet, Reading{Time: at, Low: cold.At(at) + hot.At(fast) - cold.At(fast) - room, Gauge: expected.At(at),
			High: t.High + room})
	}
	return nil
}

// leakTimes are times to read at: often at first, while the gas cools [s].
func leakTimes(end float64) []float64 {
	out := []float64{0}
	for _, t := range []float64{10, 20, 30, 60, 120, 180, 300, 420, 600, 900, 1200, 1800, 2400, 3000} {
		if t < end {
			out = append(out, t)
		}
	}
	return append(out, end)
}
