package limits

import (
	"fmt"
	"math"
)

// meeting is what becomes of a stated band when a measured one meets it.
type meeting uint8

const (
	tellsNothing meeting = iota // the stated band stays
	narrows                     // the measured band lies inside and takes its place
	clashes                     // it does not: the union of both is used
)

// meet joins the stated band of a key with a measured one. A measurement narrows
// what the design states only inside of it. Where a part of it lies outside, one
// of the two is wrong, nobody can say which, and both count. A band that the
// design does not state at all, or a default without a stated value, is replaced.
func meet(was, now Band) (Band, meeting) {
	if !was.Set || (was.Assumed && was.Line == 0) {
		return now, narrows
	}
	const hair = 1e-9 // of rounding
	slack := hair * math.Max(math.Abs(was.High), math.Abs(now.High))
	switch {
	case now.Low <= was.Low+slack && now.High >= was.High-slack:
		return was, tellsNothing
	case now.Low >= was.Low-slack && now.High <= was.High+slack:
		return now, narrows
	}
	out := was
	out.Low, out.High = math.Min(was.Low, now.Low), math.Max(was.High, now.High)
	out.Reason = "the design and " + now.Reason + " together"
	return out, clashes
}

// popEnd keeps of a click-to-pop reading what it can tell. The time from click
// to pop holds the coil's dead time as well as the opening, so the valve opens at
// least as fast as read: the reading bounds the slow end only, and never lifts
// the fast end, unless the design states that as measured.
func popEnd(was, now Band) Band {
	if !was.Set || was.Origin == Measured {
		return now
	}
	now.Low = math.Min(now.Low, was.Low)
	if now.High > was.High && now.Nominal <= was.High {
		now.High = was.High // the excess may be dead time
	}
	now.Nominal = math.Min(now.Nominal, now.High)
	now.Reason += "; the click holds dead time, so the fast end stays as stated"
	return now
}

// takeBench lets the value of a bench test meet the launcher's band.
func (e *Findings) takeBench(l *Launcher, v *BenchValue) {
	was, now := l.standing(v.Band.Key), v.Band
	read := now
	if v.Kind == ClickToPop {
		now = popEnd(was, now)
	}
	out, m := meet(was, now)
	how := v.How
	if v.Kind == ClickToPop && was.Set && was.Origin != Measured {
		how += "; slow end only, since the click holds dead time"
	}
	if m == tellsNothing && v.Kind == ClickToPop && read.Low > was.High {
		out, m = meet(was, read)
	}
	if m == clashes {
		how += "; it contradicts the design, so both count"
		e.Clashes = append(e.Clashes, Clash{Key: was.Key, Line: v.Lines[0], Stated: was, Read: read, Test: v.Kind.String()})
	}
	if m != tellsNothing {
		e.narrow(l, out, how, m)
	}
}

// takeFit lets a fitted value meet the band that the fit began with. A fit whose
// interval lies wholly outside is not credible and does not get here; one that
// lies partly outside widens.
func (e *Findings) takeFit(l *Launcher, p *Parameter) {
	out, m := meet(e.Narrow(l).standing(p.Key), p.Band())
	if m != tellsNothing {
		e.narrow(l, out, p.How, m)
	}
}

// standing is the band of a key as it stands before a measurement.
func (l *Launcher) standing(key string) Band {
	b := *l.bandOf(key)
	if key == keyClearance && !b.Set {
		b = l.gap()
	}
	return b
}

// Clash is a bench test that contradicts the design.
type Clash struct {
	Key          string
	Line         int
	Test         string
	Stated, Read Band
}

// String says that one of the two is wrong.
func (c Clash) String() string {
	of := func(v float64) string { return valueOf(c.Key, v) }
	return fmt.Sprintf("%s: the test (%s) reads %s to %s where the design states %s to %s; one of the two is wrong, and until that is settled the widest of both is used",
		c.Key, c.Test, of(c.Read.Low), of(c.Read.High), of(c.Stated.Low), of(c.Stated.High))
}
