package fault

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A part with two ways is two paths of one body: it can stick with either open, or
// with both. What opens one of them by a fault is judged with the other one shut, so
// that none of the air gets out there.

// shutOther shuts the other way of path i's body; a path of its own has none.
func shutOther(w *launcher.Launcher, i int) {
	if k := w.OtherWay(i); k >= 0 {
		shut(&w.Paths[k])
	}
}

// exhaustFaults are those of an exhaust to the atmosphere. That the body sticks with
// the exhaust open is a fault of its other way, which is shut then.
func (st *stage) exhaustFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	blocked := fault{part: p.Name, mode: Blocked, anyState: true, apply: func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		consequence: finding.Say("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i)),
		detected:    finding.Words("the vent test"), latent: true, revealed: finding.ItemVentTest,
		prevented: finding.Words("a silencer that is dry and clean, or none")}
	if p.Way == launcher.QuickOutlet {
		blocked.detected = finding.Words("the vent test: the outlet empties slowly or not at all")
	}
	if p.From == "barrel" {
		blocked.consequence = finding.Words("air that leaks past the valve, and what a shot leaves, stays behind a loaded projectile")
		blocked.detected, blocked.revealed = finding.Words("air blown into the muzzle does not come out of it"), finding.ItemExhaust
	}
	blocked.changes = launcher.ReachOf(st.Launcher).Paths[i] // it no longer lets air out as a shot begins
	if !blocked.changes {
		blocked.whyNot = finding.Words("it is shut during a shot anyway")
	}
	leak := fault{part: p.Name, mode: LeakingValve, anyState: true, whyNot: finding.Words("it only lets air out"),
		consequence: finding.Say("%s loses air while it is charged", p.From), detected: finding.Words("hissing; leak-down test")}
	return []fault{blocked, leak}
}

// quickExhaustFaults are those of the exhaust of a shuttle valve. Into the barrel it is the
// firing valve: whatever takes the pressure from its inlet shoots.
func (st *stage) quickExhaustFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.To != "barrel" {
		return st.exhaustFaults(i)
	}
	out := []fault{{part: p.Name, mode: StuckShut, anyState: true, whyNot: finding.Words("it lets no air through"),
		apply:       func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		consequence: finding.Say("no air passes %s", p.Name), detected: finding.Words("no shot at the first try")}}
	out = append(out, st.opensUnasked(i, StuckOpen, LeakingValve, InletLost)...)
	inlet := st.Launcher.Paths[st.Launcher.OtherWay(i)].From
	for k := range st.Launcher.Paths {
		if q := &st.Launcher.Paths[k]; (q.From == inlet || q.To == inlet) && q.Other != p.Name && q.Name != p.Other {
			out = append(out, st.inletLost(i, k)...)
		}
	}
	return out
}

// inletLost are the faults of path k that take the pressure from the inlet of the shuttle
// valve whose exhaust is i: the same shots as of an exhaust that opens by itself.
func (st *stage) inletLost(i, k int) []fault {
	q := &st.Launcher.Paths[k]
	var modes []Mode
	switch q.Kind {
	case pneumatics.Valve, pneumatics.HandValve:
		modes = []Mode{StuckOpen, LeakingValve, Energised}
	case pneumatics.Relief, pneumatics.Check, pneumatics.Regulator:
		modes = []Mode{LeakingValve}
	}
	if q.Hose != nil && !q.Hose.Shared {
		modes = append(modes, HoseOff)
	}
	var out []fault
	for _, s := range dangerStates() {
		base := st.unaskedFault(i, s)
		st.movesFrom(&base, s)
		if !base.changes || st.moved(k) && q.OpenIn.Has(s) && q.Hose == nil {
			continue
		}
		base.part, base.asks = q.Name, st.Launcher.Paths[i].Name
		for _, f := range base.modes(q, modes...) {
			f.consequence = finding.Say("%s takes the pressure from the inlet of %s: the shot goes off while %s", q.Name,
				st.Launcher.Paths[i].Other, s)
			out = append(out, f)
		}
	}
	return out
}

// moved tells that the states move a path.
func (st *stage) moved(i int) bool {
	k := st.Launcher.Paths[i].Kind
	return k == pneumatics.Valve || k == pneumatics.HandValve
}

// betweenFaults are those of a body whose slide or poppet stops between its positions,
// with both ways open by any part: of the first of them, for both.
func (st *stage) betweenFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	k := st.Launcher.OtherWay(i)
	if k < 0 || p.Way.Exhausts() {
		return nil
	}
	exhaust := &st.Launcher.Paths[k]
	base := fault{part: p.Name, mode: StuckBetween, anyState: true,
		apply: func(w *launcher.Launcher) { sticksOpen(w, i); sticksOpen(w, k) },
		extra: []string{"opening of " + p.Name, "opening of " + exhaust.Name}, adjust: scaleBoth(i, k),
		consequence: finding.Say("%s, %s and %s are joined", p.From, p.To, exhaust.To),
		detected:    finding.Words("hissing at the exhaust; the supply runs on"), prevented: finding.Words("clean, dry air; a spring return")}
	st.bears(&base, i)
	if reach := launcher.ReachOf(st.failed(&base)); !base.changes && reach.Paths[k] {
		base.changes, base.whyNot = true, nil
	}
	out := []fault{base}
	for _, s := range dangerStates() {
		one := base
		one.state, one.anyState, one.unasked, one.changes = s, false, true, false
		one.apply = func(w *launcher.Launcher) {
			firesFrom(w, s, i)
			w.Paths[k].OpenIn |= pneumatics.SetOf(pneumatics.Firing)
			w.Paths[k].Pulse = launcher.Band{}
		}
		st.movesFrom(&one, s)
		if reach := launcher.ReachOf(st.failed(&one)); one.changes && (reach.Paths[i] || reach.Paths[k]) {
			one.consequence = finding.Say("the shot goes off while %s", s)
			out = append(out, one)
		}
	}
	return out
}

// sticksOpen leaves a way open in every state. One that opens for a shot does that by
// itself: before, it would have let the charge go already.
func sticksOpen(w *launcher.Launcher, i int) {
	if p := &w.Paths[i]; !fires(p) {
		stuckOpen(p)
	}
}

// scaleBoth lets the openings of two paths run: the first from a leak to full, the
// second from shut to full.
func scaleBoth(i, k int) func(c *pneumatics.Circuit, u []float64) {
	first, second := scalePath(i), k
	return func(c *pneumatics.Circuit, u []float64) {
		first(c, u[:1])
		c.Paths[second].Flow = c.Paths[second].Flow.Scaled(u[1])
	}
}
