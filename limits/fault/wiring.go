package fault

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/limits/control"
	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// The faults of the wiring follow from it as those of the air follow from the circuit: what is wrong moves loads in some states,
// and each state is the design with its valves and its supply so. They come on top of the faults of the valves themselves: a
// short on a valve's own wire is one of those, whatever the wiring is.

// wiringFaults are the faults of [control]; none where it is not stated, or not known.
func (st *stage) wiringFaults() (out []fault) {
	w := st.Launcher.Control
	if w == nil || len(w.Unknown()) > 0 {
		return nil
	}
	for _, f := range slices.Concat(w.Welds(), w.Stuck(), w.Shorts(), st.dead(), w.Losses(), w.Bypasses()) {
		one := st.electric(f)
		out = append(append(out, st.whole(one)), st.inStates(one, pneumatics.States()...)...)
	}
	for _, f := range w.Flips(pneumatics.Loading, pneumatics.Off, pneumatics.Firing) {
		if p := &w.Parts[w.Index(f.Part)]; f.State != pneumatics.Firing && len(p.Moves) == 1 && p.Moves[0] == control.Supply {
			continue // a supply that runs on is a fault of its own
		}
		out = append(out, st.inStates(st.electric(f), f.State)...)
	}
	return append(append(out, st.startsAgain()...), st.fuseFaults()...)
}

// dead are contacts that do not close, and fuses that have blown. Of the pressure switch it is a fault of its own.
func (st *stage) dead() []control.Failure {
	w := st.Launcher.Control
	return slices.DeleteFunc(w.Opens(), func(f control.Failure) bool {
		i := w.Index(f.Part)
		return i < 0 || w.Parts[i].Kind == control.PressureSwitch
	})
}

// electric begins a fault of the wiring: its part, its mode, how it shows, what keeps it away.
func (st *stage) electric(wrong control.Failure) fault {
	w := st.Launcher.Control
	f := fault{part: "control." + w.Named(wrong), electric: []control.Failure{wrong}}
	kind := w.Parts[w.Index(wrong.Part)].Kind
	switch wrong.Mode {
	case control.Welded:
		f.mode, f.prevented = stuckAs(kind, wrong, w.Contacts(wrong.Part))
	case control.Shorted:
		f.mode = AtPlus
		f.detected = finding.Words("nothing before it happens")
		f.prevented = finding.Words("wires of different loads apart, sleeved; a contact of its own for each load, next to it")
	case control.Broken:
		f.mode, f.prevented = ContactDead, finding.Words("contacts made for small currents; dry, and moved now and then")
		if kind == control.Fuse {
			f.mode, f.prevented = FuseBlown, finding.Words("wires that nothing chafes; a fuse above what its loads draw as they start")
		}
		f.detected = finding.Words("what it moves does not, at the first try")
	case control.Lost:
		f.mode = NoCurrent
		f.detected = finding.Words("what it moves does not, at the first try")
		f.prevented = finding.Words("a supply that bears all coils at once; a battery that is charged")
	case control.Around:
		f.mode = PastStop
		f.prevented = finding.Words("wiring after the drawing; the stop pressed in every state")
	case control.Flipped:
		f.mode = WrongOutput
		f.detected = finding.Words("nothing before it happens")
		f.prevented = finding.Words("contacts, not a program, between key, stop and load")
	}
	return f
}

// stuckAs is how a contact that stays closed is told, or a part with all its contacts, and what keeps that away.
func stuckAs(kind control.Kind, wrong control.Failure, contacts int) (Mode, finding.Text) {
	second := finding.Words("a second contact in series that another part moves")
	weld := second.Say("; a fuse below what the contact makes and breaks")
	if wrong.Not || wrong.No > 0 && contacts > 1 {
		return ContactWelded, weld
	}
	switch kind {
	case control.Relay:
		return StuckIn, weld
	case control.Remote, control.Timer:
		return StuckOn, weld
	case control.Button, control.StartButton:
		return StuckPressed, second.Say("; one that springs back freely, tried before each event")
	case control.KeySwitch:
		return StuckTurned, second.Say("; a key that turns freely and comes out only when it is off")
	case control.Switch:
		return StuckClosed, second
	}
	return ContactWelded, weld
}

// whole is what a fault of the wiring does whatever the state: with the stop pressed, to what ends a filling, or nothing.
func (st *stage) whole(f fault) fault {
	w := st.Launcher.Control
	f.anyState, f.whyNot = true, finding.Words("alone it opens no way to the barrel")
	moved := st.moves(f.electric...)
	f.consequence = finding.Words("all that it moves stays as it was")
	if m := f.electric[0].Mode; m == control.Welded || m == control.Shorted {
		f.consequence = finding.Words("other contacts are in series with it, and in each state all stands as it should")
	}
	if m := f.electric[0].Mode; m == control.Broken {
		f.consequence = finding.Words("another one side by side takes its place, and in each state all stands as it should")
	}
	if len(moved) > 0 {
		f.consequence = finding.Words(strings.Join(moved, "; "))
	}
	if by := st.Launcher.Stops(); (by == launcher.StopSwitch || by == launcher.StopTimer) && w.Moves(control.Supply) &&
		w.Overfills(f.electric...) {
		f.overcharges, f.changes, f.whyNot = true, true, nil
		f.endsAt = "; nothing stops the supply: %s"
	}
	if still := st.stillOn(f.electric...); still != "" {
		f.consequence = f.consequence.Say("; the stop does not cut %s", still)
		switch f.electric[0].Mode {
		case control.Around:
			f.heldBy = finding.ItemKeyAndStop
		case control.Shorted: // no contact is behind the wire
			f.heldBy = finding.ItemSupplyOff
			f.consequence = f.consequence.Say(", only its plug does")
		default:
			f.failing = finding.Say("with it the stop, pressed, does not cut %s", still)
		}
	}
	if again := st.restarted(f.electric...); len(again) > 0 &&
		slices.Contains([]control.Mode{control.Welded, control.Broken}, f.electric[0].Mode) {
		f.consequence = f.consequence.Say("; current is back %s; nobody pressed anything", again)
		if f.heldBy == "" {
			f.heldBy = finding.ItemKeyAndStop
		}
	}
	if len(moved) == 0 && !f.changes {
		f.latent, f.revealed, f.detected = true, finding.ItemContacts, finding.Words("each contact by itself, with a meter")
	}
	if f.electric[0].Mode == control.Around {
		f.latent, f.revealed, f.detected = true, finding.ItemKeyAndStop, finding.Words("the stop, pressed in every state")
	}
	if len(f.detected) == 0 {
		f.detected = finding.Words("what it moves, at the next change of state")
	}
	return f
}

// stillOn names the loads that a pressed stop does not cut, in any state, of those that it cuts where nothing is wrong; "" none.
func (st *stage) stillOn(wrong ...control.Failure) string {
	var still, built []int
	for _, s := range pneumatics.States() {
		still, built = append(still, st.Launcher.Control.Stopped(s, wrong...)...), append(built, st.Launcher.Control.Stopped(s)...)
	}
	if len(wrong) == 0 {
		built = nil
	}
	slices.Sort(still)
	return st.names(slices.DeleteFunc(slices.Compact(still), func(i int) bool { return slices.Contains(built, i) }))
}

// restarted says which loads start again by themselves, of those that do not where nothing is wrong; nil: none.
func (st *stage) restarted(wrong ...control.Failure) finding.Text {
	released, returned := st.Launcher.Control.StartsAgain(wrong...)
	asBuilt, back := st.Launcher.Control.StartsAgain()
	var all []finding.Text
	for _, one := range []struct {
		what           string
		now, otherwise []int
	}{{"stop is released", released, asBuilt}, {"power is back", returned, back}} {
		more := slices.DeleteFunc(one.now, func(i int) bool { return slices.Contains(one.otherwise, i) })
		if len(more) > 0 {
			all = append(all, finding.Say("on %s once the %s", st.names(more), one.what))
		}
	}
	return finding.Join(all, "; ")
}

// names are the names of parts of the wiring.
func (st *stage) names(parts []int) string {
	var out []string
	for _, i := range parts {
		out = append(out, st.Launcher.Control.Parts[i].Name)
	}
	return strings.Join(out, ", ")
}

// powered is what has current in a state with something wrong, or nothing, switched through once.
func (st *stage) powered(s pneumatics.State, wrong ...control.Failure) control.On {
	key := fmt.Sprint(s, wrong)
	on, known := st.currents[key]
	if !known {
		if on = st.Launcher.Control.WrongIn(s, wrong...); st.currents == nil {
			st.currents = map[string]control.On{}
		}
		st.currents[key] = on
	}
	return on
}

// moves says which loads have current and which have none, against what is meant, and in which states.
func (st *stage) moves(wrong ...control.Failure) (out []string) {
	w := st.Launcher.Control
	var now, meant []control.On
	for _, s := range pneumatics.States() {
		now, meant = append(now, st.powered(s, wrong...)), append(meant, st.powered(s))
	}
	for _, i := range w.Loads() {
		var on, off []string
		for k, s := range pneumatics.States() {
			switch now, meant := now[k][i], meant[k][i]; {
			case now && !meant:
				on = append(on, s.String())
			case meant && !now:
				off = append(off, s.String())
			}
		}
		if len(on) > 0 {
			out = append(out, w.Parts[i].Name+" has current while "+strings.Join(on, ", "))
		}
		if len(off) > 0 {
			out = append(out, w.Parts[i].Name+" has no current while "+strings.Join(off, ", "))
		}
	}
	return out
}

// moved is what is wrong of valves and supply in a state.
type moved struct {
	state  pneumatics.State
	wrong  []int // paths that stand the other way, exhausts of their bodies with them
	opened []int // those of them that are open and should not be
	runs   bool  // the supply does and should not
	stops  bool  // it does not and should
}

// movedIn is what a fault of the wiring moves in a state.
func (st *stage) movedIn(s pneumatics.State, failures []control.Failure) (m moved) {
	l, w := st.Launcher, st.Launcher.Control
	m.state = s
	on, meant := st.powered(s, failures...), st.powered(s)
	for _, i := range w.Loads() {
		if on[i] == meant[i] {
			continue
		}
		for _, name := range w.Parts[i].Moves {
			if name == control.Supply {
				m.runs, m.stops = on[i], !on[i]
				continue
			}
			k := slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == name })
			if k < 0 || l.Paths[k].OpensFirst && s == pneumatics.Armed { // it counts as open by then (launcher.InTurn)
				continue // a name of no path the reader of designs refuses
			}
			m.wrong = append(m.wrong, k)
			if other := l.OtherWay(k); other >= 0 && l.Paths[k].Way == launcher.ThreeWay {
				m.wrong = append(m.wrong, other)
			}
		}
	}
	for _, k := range m.wrong {
		if !l.Paths[k].OpenIn.Has(s) {
			m.opened = append(m.opened, k)
		}
	}
	return m
}

// apply puts a design's valves and supply as they are in the state, and those that are wrong the other way.
func (m *moved) apply(w *launcher.Launcher) {
	in := pneumatics.SetOf(m.state)
	for _, k := range m.wrong {
		w.Paths[k].OpenIn ^= in
		w.Paths[k].Pulse = launcher.Band{}
	}
	if s := w.Supply; s != nil && m.runs {
		s.RunsIn, s.RunsInStated = s.RunsIn|in, true
	} else if s != nil && m.stops {
		s.RunsIn, s.RunsInStated = s.RunsIn&^in, true
	}
}

// key names what is moved: equal ones are one question.
func (m *moved) key() string { return fmt.Sprint("wiring|", m.state, m.wrong, m.runs, m.stops) }

// inStates are the faults that a failure of the wiring is in some states.
func (st *stage) inStates(f fault, states ...pneumatics.State) (out []fault) {
	for _, s := range states {
		m := st.movedIn(s, f.electric)
		if len(m.wrong) == 0 && !m.runs {
			continue
		}
		f.state = s
		switch s {
		case pneumatics.Off:
			out = append(out, st.wrongWhenOff(f, m)...)
		case pneumatics.Firing:
			out = append(out, st.wrongInShot(f, m)...)
		case pneumatics.Loading:
			one, after := st.wrongWhileLoading(f, m)
			if shoots := st.shootsUnasked(f, m, after); shoots != nil {
				one = shoots
			}
			out = append(out, one...)
		default:
			out = append(out, st.shootsUnasked(f, m, st.Loading)...)
		}
	}
	return out
}

// shootsUnasked is the shot that what is moved lets off; nil: no air gets to the barrel. air is what the volumes hold then.
func (st *stage) shootsUnasked(f fault, m moved, air *vent.Loading) []fault {
	if let := st.letsGo(f, m, air); let != nil {
		return let
	}
	f.unasked = true
	f.apply = func(w *launcher.Launcher) {
		m.apply(w)
		worst.Stays(w, m.state)
		for _, k := range m.opened {
			if w.Paths[k].Way == launcher.ThreeWay {
				shutOther(w, k)
			}
		}
	}
	supply := st.Launcher.Supply
	f.changes = st.holdsAirFor(&f, m.state, air, m.runs || supply != nil && supply.RunsIn.Has(m.state) && !m.stops)
	if !f.changes {
		return nil
	}
	reach := launcher.ReachOf(st.failed(&f))
	var opens []int
	for _, k := range m.opened {
		if reach.Paths[k] {
			opens = append(opens, k)
		}
	}
	if len(opens) == 0 && !m.runs {
		return nil
	}
	f.consequence = finding.Say("the shot goes off while %s: %s", m.state, strings.Join(st.moves(f.electric...), "; "))
	f.prevented = finding.Notes(f.prevented, finding.Words("a guard that keeps faces and fingers off the muzzle"))
	for _, k := range opens {
		f.extra = append(f.extra, "opening of "+st.Launcher.Paths[k].Name)
	}
	f.adjust = func(c *pneumatics.Circuit, u []float64) {
		for i, k := range opens {
			scalePath(k)(c, u[i:i+1])
		}
	}
	if air != st.Loading {
		f.stands = &standing{rest: air.Rest}
	}
	if len(opens) == 1 && air == st.Loading && !m.runs && !m.stops && st.onlyBody(m, opens[0]) { // as if the valve had done it itself
		f.asks = st.Launcher.Paths[opens[0]].Name
	} else {
		f.pairOf = m.key()
	}
	return []fault{f}
}

// letsGo is the shot of a shuttle valve whose inlet a valve that is moved empties; nil: none.
func (st *stage) letsGo(f fault, m moved, air *vent.Loading) []fault {
	l := st.Launcher
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind != pneumatics.QuickExhaust || p.To != "barrel" {
			continue
		}
		inlet := l.Paths[l.OtherWay(i)].From
		for _, k := range m.opened {
			shot := st.unaskedFault(i, m.state)
			if l.Paths[k].From != inlet && l.Paths[k].To != inlet || !st.holdsAirFor(&shot, m.state, air, m.runs) {
				continue
			}
			f.unasked, f.changes, f.apply, f.extra, f.adjust, f.asks = true, true, shot.apply, shot.extra, shot.adjust, p.Name
			if air != st.Loading {
				f.stands, f.asks, f.pairOf = &standing{rest: air.Rest}, "", m.key()
			}
			f.consequence = finding.Say("%s takes the pressure from the inlet of %s: the shot goes off while %s", l.Paths[k].Name, p.Other, m.state)
			return []fault{f}
		}
	}
	return nil
}

// onlyBody tells that nothing but one valve is moved, its exhaust with it.
func (st *stage) onlyBody(m moved, k int) bool {
	return !slices.ContainsFunc(m.wrong, func(i int) bool { return i != k && i != st.Launcher.OtherWay(k) })
}

// wrongInShot is a shot with valves the other way; nil: they do not bear on it.
func (st *stage) wrongInShot(f fault, m moved) []fault {
	before := launcher.ReachOf(st.Launcher)
	f.apply = m.apply
	after := launcher.ReachOf(st.failed(&f))
	shoots := slices.Contains(worst.FlowsToBarrel(st.failed(&f)), true)
	for i := range after.Paths {
		f.changes = f.changes || slices.Contains(m.wrong, i) && (after.Paths[i] || before.Paths[i])
	}
	f.changes = (f.changes || m.runs) && shoots
	if !f.changes {
		return nil // no shot, or the same one
	}
	f.consequence = finding.Words("another shot: " + strings.Join(st.moves(f.electric...), "; "))
	f.pairOf = m.key()
	return []fault{f}
}

// wrongWhileLoading is what holds air while hands are at the muzzle because of what is moved, and what all volumes hold then.
func (st *stage) wrongWhileLoading(f fault, m moved) ([]fault, *vent.Loading) {
	w := st.Launcher.Clone()
	m.apply(w)
	after := st.loadingOf(w, m.key())
	full := &standing{rest: after.Rest, empty: true}
	for i := range w.Volumes {
		rest := after.Rest[i]
		if top, known := w.OverchargedHigh(); m.runs && known && pneumatics.Node(i) == w.Node(w.Sensed()) { // its relief valve lifts then too
			rest = min(rest, top)
		}
		if st.Loading.Empty[i] && !after.Empty[i] && !(rest < full.most) {
			full.empty, full.most, full.volume = false, rest, w.Volumes[i].Name
		}
	}
	if slices.Equal(after.Rest, st.Loading.Rest) && slices.Equal(after.Empty, st.Loading.Empty) {
		return nil, st.Loading
	}
	if full.empty {
		return nil, after
	}
	holds := finding.Say("it can hold up to %s", finding.WorstBar(full.most))
	if !after.Known || m.runs && !w.Supply.DeadHead.Set {
		full.most, holds = math.Inf(1), finding.Words("how far it is filled is not known")
	}
	f.whyNot = finding.Words("no way from what holds air to the barrel is open then")
	f.consequence = finding.Say("%s; %s is no longer empty while loading: %s, and only the next shut valve keeps that from the barrel",
		strings.Join(st.moves(f.electric...), "; "), full.volume, holds)
	full.unseen = dial.Showing(w, full.volume, dial.HandsNear) == nil
	f.detected = finding.Words(notToZero)
	if full.unseen {
		f.detected = finding.Say("no hiss of its vent while the clock runs; no gauge shows %s", full.volume)
	}
	f.heldBy = finding.ItemLoadingWait
	if m.runs {
		full.shut = st.heldShut(m)
		f.stands, f.heldBy = full, ""
	}
	return []fault{f}, after
}

// loadingOf is what loading leaves in a design in which the same is moved, computed once.
func (st *stage) loadingOf(w *launcher.Launcher, key string) *vent.Loading {
	if st.loadings == nil {
		st.loadings = map[string]*vent.Loading{}
	}
	if st.loadings[key] == nil {
		st.loadings[key] = vent.LoadingOf(w, st.Emptying.Target)
	}
	return st.loadings[key]
}

// heldShut names the paths that are shut by what is moved and should be open; "" none.
func (st *stage) heldShut(m moved) string {
	var out []string
	for _, k := range m.wrong {
		if !slices.Contains(m.opened, k) {
			out = append(out, st.Launcher.Paths[k].Name)
		}
	}
	return strings.Join(out, ", ")
}

// wrongWhenOff is what does not empty when it is switched off.
func (st *stage) wrongWhenOff(f fault, m moved) []fault {
	w := st.Launcher.Clone()
	m.apply(w)
	said := strings.Join(st.moves(f.electric...), "; ")
	f.whyNot = finding.Words("shots from the pressure of a supply that never stops are judged by themselves")
	f.detected = finding.Words(notToZero)
	if m.runs {
		r := st.offs[m.key()].runs
		if r == nil {
			r = vent.RunsOnOf(w, st.Emptying.Target)
			st.keepOff(m.key(), offState{runs: r})
		}
		f.stands = &standing{rest: r.Rest, most: r.Most, volume: r.Volume, empty: r.Empty, shut: st.heldShut(m),
			unseen: dial.Showing(w, r.Volume, dial.SwitchedOff) == nil}
		f.consequence = finding.Say("%s; %s", said, f.stands.words(pneumatics.Off))
		f.detected = finding.Words("its noise; ").And(shownBy(w, r.Volume, dial.SwitchedOff, notToZero))
		return []fault{f}
	}
	o, known := st.offs[m.key()]
	if !known {
		o.trapped, o.times, o.err = st.keeps(vent.Shutdown, m.apply)
		st.keepOff(m.key(), o)
	}
	trapped, times, err := o.trapped, o.times, o.err
	slowest := 0.0
	for i, t := range times {
		slowest = max(slowest, t)
		if i < len(w.Volumes) && (trapped == nil || slices.Contains(trapped, w.Volumes[i].Name)) && !(t <= vent.TimeAllowed(w)) {
			f.detected = shownBy(w, w.Volumes[i].Name, dial.SwitchedOff, notToZero)
		}
	}
	switch {
	case len(trapped) > 0:
		f.consequence = finding.Say("%s: trapped: %s", said, strings.Join(trapped, ", "))
	case err != nil || times == nil:
		f.consequence = finding.Say("%s: how long it takes to empty is not known", said)
	case math.IsInf(slowest, 1):
		f.consequence = finding.Say("%s: it takes more than an hour to empty", said)
	case !(slowest <= vent.TimeAllowed(st.Launcher)):
		f.consequence = finding.Say("%s: it takes up to %s to empty", said, vent.Minutes(slowest))
	default:
		return nil
	}
	f.heldBy = finding.ItemKeyAndStop
	return []fault{f}
}

// offState is what stays in the volumes when it is switched off with something moved.
type offState struct {
	runs    *vent.RunsOn // of a supply that runs on; nil: it does not
	trapped []string
	times   []float64
	err     error
}

// keepOff keeps what was computed of a state off, by what is moved.
func (st *stage) keepOff(key string, o offState) {
	if st.offs == nil {
		st.offs = map[string]offState{}
	}
	st.offs[key] = o
}

// startsAgain is the wiring as built whose stop does not stop all, or that starts by itself after a stop or a failure of the power.
func (st *stage) startsAgain() (out []fault) {
	released, returned := st.Launcher.Control.StartsAgain()
	add := func(mode Mode, loads []int) {
		if len(loads) == 0 {
			return
		}
		out = append(out, fault{part: "control", mode: mode, anyState: true, whyNot: finding.Words("no shot is harder for it"),
			consequence: finding.Say("%s has current again, and nobody pressed anything", st.names(loads)),
			failing:     finding.Say("%s starts again by itself", st.names(loads)),
			detected:    finding.Words("the stop, pressed and released; the plug, pulled and put back"),
			prevented:   finding.Words("a relay that holds itself, with the stop in its way and a start button beside its own contact")})
	}
	if still := st.stillOn(); still != "" {
		out = append(out, fault{part: "control", mode: StopMisses, anyState: true, whyNot: finding.Words("no shot is harder for it"),
			consequence: finding.Say("the stop, pressed, leaves the current on %s", still), failing: finding.Say("as built the stop does not "+
				"cut %s", still),
			detected: finding.Words("the stop, pressed in every state"), prevented: finding.Words("a contact of the stop, or of a relay behind " +
				"it, in every way")})
	}
	add(StartsOnRelease, released)
	add(StartsOnPower, returned)
	return out
}

// bothElectric is the fault that two faults of the wiring are at once: the worst that comes of them together.
func (st *stage) bothElectric(a, b *fault) fault {
	base := *b
	base.electric = slices.Concat(a.electric, b.electric)
	base.apply, base.adjust, base.extra, base.unasked, base.stands, base.changes = nil, nil, nil, false, nil, false
	base.heldBy, base.failing, base.pairOf, base.asks = "", nil, "", ""
	rank := func(f *fault) int {
		switch {
		case f.unasked && f.state == pneumatics.Loading:
			return 4
		case f.unasked:
			return 3
		case f.changes:
			return 2
		case f.stands != nil || f.heldBy != "":
			return 1
		}
		return 0
	}
	worst := st.whole(base)
	for _, f := range st.inStates(base, pneumatics.States()...) {
		if rank(&f) > rank(&worst) {
			worst = f
		}
	}
	worst.id, worst.part, worst.mode = b.id, b.part, b.mode
	return worst
}
