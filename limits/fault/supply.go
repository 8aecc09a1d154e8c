package fault

import (
	"math"

	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// supplyFaults are a supply that goes on in the states in which it should stand still and
// hands come near: a welded relay, a stop that cuts the valves only. A pump that is worked
// by hand does not; while it is fired somebody may stroke it.
func (st *stage) supplyFaults() []fault {
	s := st.Launcher.Supply
	if s == nil {
		return nil
	}
	out := st.pushesOn()
	if s.Kind == launcher.HandPump {
		return out
	}
	out = append(out, st.runsOn(pneumatics.Off))
	if !s.RunsIn.Has(pneumatics.Loading) {
		out = append(out, st.runsOn(pneumatics.Loading))
	}
	return out
}

// pushesOn is a supply that is said to stand still while it is fired, has an open way into the barrel then, and runs all the same: its
// shot is judged.
func (st *stage) pushesOn() []fault {
	f := fault{part: "supply", mode: RunsOn, state: pneumatics.Firing, changes: true,
		apply:       func(w *launcher.Launcher) { w.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Firing) },
		consequence: finding.Words("it goes on while it is fired, and pushes the projectile on"), detected: finding.Words("its noise"),
		prevented: finding.Words("a contact of the trigger that cuts the supply; nobody at the pump")}
	if st.Launcher.SupplyFires() || !launcher.ReachOf(st.failed(&f)).Supply {
		return nil
	}
	return []fault{f}
}

// runsOn is the supply that goes on in a state. It shoots where the circuit has an open way
// from it into the barrel then; else it keeps up what should be empty, which only its own
// plug ends.
func (st *stage) runsOn(s pneumatics.State) fault {
	f := fault{part: "supply", mode: RunsOn, state: s, apply: func(w *launcher.Launcher) { w.Supply.RunsIn |= pneumatics.SetOf(s) },
		prevented: finding.Words("a stop that cuts the supply itself, by two contacts in series; its plug within reach")}
	w := st.failed(&f)
	if s == pneumatics.Off {
		f.stands = st.standsOff()
	} else {
		f.stands = st.standsLoading(w)
	}
	f.detected = finding.Words("its noise")
	if at := (dial.Moment{From: pneumatics.Armed, To: s}); !f.stands.empty {
		f.stands.unseen = dial.Showing(w, f.stands.volume, at) == nil
		f.detected = finding.Words("its noise; ").And(shownBy(w, f.stands.volume, at, notToZero))
	}
	f.consequence = f.stands.words(s)
	worst.Stays(w, s)
	for k := range w.Paths { // what was open before the state does not count
		w.Paths[k].OpenIn &= pneumatics.SetOf(pneumatics.Firing)
	}
	if worst.FlowsToBarrel(w)[w.Node(w.Supply.Feeds)] {
		f.unasked, f.changes = true, true
		runs := f.apply
		f.apply = func(w *launcher.Launcher) { runs(w); worst.Stays(w, s) }
		f.consequence = f.consequence.Say("; its air gets into the barrel while %s", s)
		return f
	}
	f.whyNot = finding.Words("no way from it into the barrel is open then; shots from the pressure of a supply that " +
		"never stops are judged by themselves")
	return f
}

// standsOff is where everything stands that should be empty when it is switched off.
func (st *stage) standsOff() *standing {
	r := st.Emptying.RunsOn
	if r == nil || !r.Known {
		return &standing{most: math.Inf(1), volume: st.Launcher.Supply.Feeds}
	}
	return &standing{rest: r.Rest, most: r.Most, volume: r.Volume, empty: r.Empty}
}

// standsLoading is where that stands which is empty while loading as long as the supply
// stands still. w has it running.
func (st *stage) standsLoading(w *launcher.Launcher) *standing {
	before, after := st.Loading, vent.LoadingOf(w, st.Emptying.Target)
	out := &standing{rest: after.Rest, empty: true}
	for i := range w.Volumes {
		if before.Empty[i] && !after.Empty[i] && !(after.Rest[i] < out.most) {
			out.empty, out.most, out.volume = false, after.Rest[i], w.Volumes[i].Name
		}
	}
	if !out.empty && (!after.Known || !w.Supply.DeadHead.Set) {
		out.most = math.Inf(1)
	}
	return out
}

// words say what a supply that runs on in a state comes to.
func (s *standing) words(state pneumatics.State) finding.Text {
	off := state == pneumatics.Off
	switch {
	case s.empty && off:
		return finding.Say("switched off, the supply goes on: nothing stands above %s, which counts as empty", finding.WorstBar(max(s.most, 0)))
	case s.empty:
		return finding.Words("the supply goes on while loading; what is empty while loading stays empty")
	case math.IsInf(s.most, 1):
		return finding.Say("the supply goes on while %s: %s is never empty, and how far it is filled is not known", state, s.volume)
	case off:
		return finding.Say("switched off, the supply goes on: %s stands at up to %s for good and is never empty", s.volume,
			finding.WorstBar(s.most))
	}
	return finding.Say("the supply goes on while loading: %s is no longer empty, it can hold up to %s, and only the next shut valve keeps "+
		"that from the barrel", s.volume, finding.WorstBar(s.most))
}

// keptUp judges a supply that runs on: what it keeps up is held by its plug alone, and where what keeps it running holds vents shut
// as well, by the stop or by all plugs.
func (st *stage) keptUp(r *Result, f *fault) {
	r.Energy, r.Judged = st.normalEnergy()
	if f.state == pneumatics.Off || !f.stands.empty {
		r.WorstGauge, r.Where = f.stands.most, f.stands.volume
		if math.IsInf(f.stands.most, 1) {
			r.WorstGauge = math.NaN()
		}
	}
	if f.stands.empty {
		return
	}
	r.HeldBy, r.Basis = finding.ItemSupplyOff, finding.OnProcedure
	if f.stands.shut != "" {
		ends := "the stop, pressed, or all plugs and batteries off, empty it"
		if st.stillOn(f.electric...) != "" {
			ends = "only all plugs and batteries off empty it"
		}
		st.heldBy(r, finding.Item{ID: finding.ItemKeyAndStop})
		if r.Status == finding.OpenItem {
			r.Reason = finding.Say("OPEN: its own plug, pulled, leaves %s shut; %s (item %s); %s%s", f.stands.shut, ends,
				r.HeldBy, f.stands.shown(), why(st.answerOf(finding.Item{ID: r.HeldBy})))
		}
		return
	}
	if plug := st.answerOf(finding.SupplyOff(st.Emptying.Target, st.Emptying.Wait(st.Launcher))); plug.Done == nil {
		r.Status = finding.OpenItem
		r.Reason = finding.Say("OPEN: only its own plug, pulled, ends that (item %s); %s%s", finding.ItemSupplyOff, f.stands.shown(), why(plug))
	}
}

// notToZero is what a gauge shows of what should be empty.
const notToZero = "the gauge, which does not come to zero"

// shownBy says that a gauge shows something of a volume of a launcher, in the words of it; else that none shows that volume then.
func shownBy(l *launcher.Launcher, volume string, m dial.Moment, words string) finding.Text {
	if dial.Showing(l, volume, m) == nil {
		return finding.Say("no gauge shows %s then", volume)
	}
	return finding.Words(words)
}

// shown says what shows that something stands under pressure which should be empty.
func (s *standing) shown() finding.Text {
	if s.unseen {
		return finding.Say("no gauge shows %s then, only the noise of the supply tells", s.volume)
	}
	return finding.Words("the gauge shows it")
}
