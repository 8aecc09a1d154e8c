package launcher

import (
	"math"

	"puffproof/limits/finding"
)

// Resolution is how far apart readings of the sensed volume's gauge may be and still be the same pressure [Pa].
func (l *Launcher) Resolution() float64 {
	for _, g := range l.Gauges {
		if g.On != l.Sensed() {
			continue
		}
		switch {
		case g.Graduation.Set:
			return g.Graduation.Nominal
		case g.Range.Set:
			return 0.02 * g.Range.Nominal // gauges have 50 marks or so (common practice, no source)
		}
	}
	return 2000 // a mark of a 1 bar gauge
}

// Meeting is what becomes of a stated band when a measured one meets it.
type Meeting uint8

// What can become of it.
const (
	TellsNothing Meeting = iota // the stated band stays
	Narrows                     // the measured band lies inside and takes its place
	Clashes                     // it does not: the union of both is used
)

// Meet joins the stated band of a key with a measured one. A measurement narrows
// what the design states only inside of it. Where a part of it lies outside, one
// of the two is wrong, nobody can say which, and both count. A band that the
// design does not state at all, or a default without a stated value, is replaced.
func Meet(was, now Band) (Band, Meeting) {
	if !was.Set || (was.Assumed && was.Line == 0) {
		return now, Narrows
	}
	const hair = 1e-9 // of rounding
	slack := hair * math.Max(math.Abs(was.High), math.Abs(now.High))
	switch {
	case now.Low <= was.Low+slack && now.High >= was.High-slack:
		return was, TellsNothing
	case now.Low >= was.Low-slack && now.High <= was.High+slack:
		return now, Narrows
	}
	out := was
	out.Low, out.High = math.Min(was.Low, now.Low), math.Max(was.High, now.High)
	out.Reason = finding.Say("the design and %s together", now.Reason)
	return out, Clashes
}
