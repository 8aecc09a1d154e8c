package fault

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// dangerStates are the states from which nobody expects a shot.
func dangerStates() []pneumatics.State {
	return []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading}
}

// fires tells whether a path lets air towards the barrel in a shot.
func fires(p *launcher.PathSpec) bool { return p.OpenIn.Has(pneumatics.Firing) }

// unaskedFaults open the firing valve where nobody asked: by its own failure or
// through its coil, fully or in part.
func (st *stage) unaskedFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	var out []fault
	for _, s := range dangerStates() {
		if p.OpenIn.Has(s) {
			continue
		}
		base := st.unaskedFault(i, s)
		st.movesFrom(&base, s)
		out = append(out, base.modes(p, StuckOpen, LeakingValve, Energised)...)
		if p.Diaphragm() {
			out = append(out, base.modes(p, PilotOpen, BleedBlocked, DiaphragmTorn)...)
		}
	}
	return out
}

// opensUnasked are the faults of any other part that, in a state from which nobody
// expects a shot, open a way from a volume that holds air into the barrel. Which
// part does is decided by the circuit: nothing but its place makes a firing valve.
func (st *stage) opensUnasked(i int, modes ...Mode) []fault {
	p := &st.Launcher.Paths[i]
	moved := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
	var out []fault
	for _, s := range dangerStates() {
		if moved && p.OpenIn.Has(s) {
			continue
		}
		base := st.unaskedFault(i, s)
		st.movesFrom(&base, s)
		w := st.Launcher.Clone()
		base.apply(w)
		if base.changes && launcher.ReachOf(w).Paths[i] {
			out = append(out, base.modes(p, modes...)...)
		}
	}
	return out
}

// unaskedFault opens path i in state s.
func (st *stage) unaskedFault(i int, s pneumatics.State) fault {
	p := &st.Launcher.Paths[i]
	apply := func(w *launcher.Launcher) { firesFrom(w, s, i); shutOther(w, i) }
	if p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve {
		apply = func(w *launcher.Launcher) { firesFrom(w, s, i); stuckOpen(&w.Paths[i]) }
	}
	return fault{part: p.Name, state: s, unasked: true, apply: apply, extra: []string{"opening of " + p.Name}, adjust: scalePath(i),
		prevented: finding.Words("two independent actions before air can reach the valve; a guard that keeps faces and fingers off the muzzle")}
}

// modes are the ways in which the fault of a path comes about, one fault each.
func (f fault) modes(p *launcher.PathSpec, modes ...Mode) (out []fault) {
	goesOff := finding.Say("the shot goes off while %s", f.state)
	leaks := finding.Say("the barrel fills slowly while %s and the projectile creeps or pops out", f.state)
	if !f.changes { // there is no air that could get there
		goesOff, leaks = finding.Say("%s is open while %s", p.Name, f.state), finding.Say("%s leaks while %s", p.Name, f.state)
	}
	if p.Way == launcher.ThreeWay {
		goesOff = goesOff.Say(", and its exhaust stays shut")
	}
	for _, m := range modes {
		one := f
		one.mode, one.consequence, one.detected = m, goesOff, finding.Words("leak-down test with the barrel empty")
		switch m {
		case LeakingValve:
			one.consequence = leaks
			one.detected = finding.Words("leak-down test; a finger's breadth of movement of the projectile")
		case PilotOpen:
			one.consequence = one.consequence.Say(": its chamber empties, and the diaphragm lifts")
			one.detected = finding.Words("hissing at the pilot's outlet")
		case BleedBlocked:
			one.consequence = one.consequence.Say(": nothing fills the chamber behind the diaphragm, and what fills its inlet lifts it")
			one.detected = finding.Words("it blows through while it is filled, or does not shut after a shot")
		case DiaphragmTorn:
			one.consequence = one.consequence.Say(": the air passes the tear")
		case Energised:
			if p.Kind != pneumatics.Valve {
				continue // it has no coil
			}
			one.consequence = one.consequence.Say(": a short, a spike, a radio, a finger")
			one.detected = finding.Words("nothing before it happens")
		}
		out = append(out, one)
	}
	return out
}

// movesFrom decides by the circuit whether air under pressure gets into the
// barrel at all from a state.
func (st *stage) movesFrom(f *fault, s pneumatics.State) {
	supply := st.Launcher.Supply
	f.whyNot = finding.Say("nothing that holds air while %s reaches the barrel", s)
	if st.holdsAirFor(f, s, st.Loading, supply != nil && supply.RunsIn.Has(s)) {
		f.changes, f.whyNot = true, nil
	}
}

// holdsAirFor tells whether something that holds air in a state, or a supply that runs then, has an open way into the barrel with
// a fault. air is what the volumes hold while loading.
func (st *stage) holdsAirFor(f *fault, s pneumatics.State, air *vent.Loading, runs bool) bool {
	w := st.Launcher.Clone()
	f.apply(w)
	for k := range w.Paths { // what was open before the state does not count
		w.Paths[k].OpenIn &= pneumatics.SetOf(pneumatics.Firing)
	}
	flows := worst.FlowsToBarrel(w)
	high, ok := vent.StartPressures(st.Launcher)
	for k := range w.Volumes {
		rest, empty := air.RestIn(s, k)
		if holds := rest > 0 || !empty && (!ok || high[k] > 0); flows[k] && holds {
			return true
		}
	}
	supply := st.Launcher.Supply
	return runs && supply != nil && flows[st.Launcher.Node(supply.Feeds)]
}

// bears decides by the circuit whether a failed path can bear on a shot: it
// reaches the barrel while firing once it has failed.
func (st *stage) bears(f *fault, i int) {
	w := st.Launcher.Clone()
	f.apply(w)
	f.changes = launcher.ReachOf(w).Paths[i]
	if !f.changes {
		f.whyNot = finding.Words("no way from it to the barrel is open during a shot")
	}
}

// shut takes a path's flow away; its hose stays as volume.
func shut(p *launcher.PathSpec) {
	p.Flow = launcher.FlowSpec{}
	if p.Kind == pneumatics.Hose {
		p.Hose.Conductance = launcher.Exact(p.Hose.Conductance.Key, 0)
	}
}

// stuckOpen makes a path a fixed opening.
func stuckOpen(p *launcher.PathSpec) { p.Kind = pneumatics.Orifice }

// leastLeak is the least opening of a failed valve that is computed, as a part
// of fully open: less than that takes minutes to do anything (own rule of this
// project).
const leastLeak = 0.05

// scalePath lets a path's opening run from a leak to full.
func scalePath(i int) func(c *pneumatics.Circuit, u []float64) {
	return func(c *pneumatics.Circuit, u []float64) {
		open := leastLeak + u[0]*(1-leastLeak)
		c.Paths[i].Flow = c.Paths[i].Flow.Scaled(open)
		if !c.Paths[i].Hose.IsZero() {
			c.Paths[i].Hose = c.Paths[i].Hose.Scaled(open)
		}
	}
}

// firesFrom makes the design's shot one from a state in which the valves stay
// where they are but path i opens.
func firesFrom(w *launcher.Launcher, s pneumatics.State, i int) {
	for k := range w.Paths {
		p := &w.Paths[k]
		if p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve {
			p.OpenIn = inFiring(p.OpenIn, k == i || p.OpenIn.Has(s))
		}
	}
	w.Paths[i].Pulse = launcher.Band{}
	if sp := w.Supply; sp != nil { // it goes on as it does in that state
		sp.RunsIn, sp.RunsInStated = inFiring(sp.RunsIn, sp.RunsIn.Has(s)), true
	}
}

// inFiring is a set of states with firing in it or not.
func inFiring(set pneumatics.StateSet, open bool) pneumatics.StateSet {
	firing := pneumatics.SetOf(pneumatics.Firing)
	if open {
		return set | firing
	}
	return set &^ firing
}
