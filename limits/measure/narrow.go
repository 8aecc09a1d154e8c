package measure

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// popEnd keeps of a click-to-pop reading what it can tell. The time from click
// to pop holds the coil's dead time as well as the opening, so the valve opens at
// least as fast as read: the reading bounds the slow end only, and never lifts
// the fast end, unless the design states that as measured.
func popEnd(was, now launcher.Band) launcher.Band {
	if !was.Set || was.Origin == launcher.Measured {
		return now
	}
	now.Low = math.Min(now.Low, was.Low)
	if now.High > was.High && now.Nominal <= was.High {
		now.High = was.High // the excess may be dead time
	}
	now.Nominal = math.Min(now.Nominal, now.High)
	now.Reason = now.Reason.Say("; the click holds dead time, so the fast end stays as stated")
	return now
}

// UseBench lets the value of a bench test meet the launcher's band.
func (e *Findings) UseBench(l *launcher.Launcher, v *BenchValue) {
	was, now := standing(l, v.Band.Key), v.Band
	read := now
	if v.Kind == ClickToPop {
		now = popEnd(was, now)
	}
	if v.Kind == Emptying {
		if read.Nominal < was.Low || read.Nominal > was.High {
			was.Assumed = false // what such parts have: a reading outside of it is as likely to be wrong
		}
		now = emptyEnd(was, now, v.Bounds)
	}
	out, m := launcher.Meet(was, now)
	how := v.How
	if v.Kind == ClickToPop && was.Set && was.Origin != launcher.Measured {
		how = how.Say("; slow end only, since the click holds dead time")
	}
	if m == launcher.TellsNothing && v.Kind == ClickToPop && read.Low > was.High {
		out, m = launcher.Meet(was, read)
	}
	if m == launcher.Clashes {
		how = how.Say("; it contradicts the design, so both count")
		e.Clashes = append(e.Clashes, launcher.Clash{Key: was.Key, Line: v.Lines[0], Stated: was, Read: read, Test: v.Kind.String()})
	}
	if m != launcher.TellsNothing {
		e.narrow(l, out, how, m, v.Bounds != 0)
	}
}

// useFit lets a fitted value meet the band that the fit began with. A fit whose
// interval lies wholly outside is not credible and does not get here; one that
// lies partly outside widens.
func (e *Findings) useFit(l *launcher.Launcher, p *Parameter) {
	out, m := launcher.Meet(standing(e.Narrow(l), p.Key), p.Band())
	if m != launcher.TellsNothing {
		e.narrow(l, out, finding.Words(p.How), m, false)
	}
}

// narrow enters a band that replaces the launcher's, once per key: a fit, which has used
// the bench value, goes before it. oneSided: an end of the band is still the one that stood there.
func (e *Findings) narrow(l *launcher.Launcher, now launcher.Band, how finding.Text, m launcher.Meeting, oneSided bool) {
	n := Narrowing{Was: standing(l, now.Key), Now: now, How: how, Widened: m == launcher.Clashes || oneSided}
	for i := range e.Narrowed {
		if e.Narrowed[i].Now.Key == now.Key {
			e.Narrowed[i] = n
			return
		}
	}
	e.Narrowed = append(e.Narrowed, n)
}
