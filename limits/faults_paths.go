package limits

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/pneumatics"
)

// singleFaults makes every single fault from the parts of the launcher.
func (st *faultStage) singleFaults() []fault {
	var out []fault
	for i := range st.Launcher.Paths {
		p := &st.Launcher.Paths[i]
		switch p.Kind {
		case pneumatics.Valve, pneumatics.HandValve:
			out = append(out, st.valveFaults(i)...)
		case pneumatics.Orifice, pneumatics.Hose:
			out = append(out, st.openPathFaults(i)...)
		case pneumatics.Check:
			out = append(out, st.checkFaults(i)...)
		case pneumatics.Relief:
			out = append(out, st.reliefFaults(i)...)
		case pneumatics.Regulator:
			out = append(out, st.regulatorFaults(i)...)
		}
		out = append(out, st.boreFault(i)...)
		out = append(out, st.hoseFaults(i)...)
	}
	out = append(out, st.controlFaults()...)
	out = append(out, st.powerFaults()...)
	out = append(out, st.projectileFaults()...)
	for i := range out {
		out[i].id = faultID(&out[i])
	}
	return out
}

// faultID is the stable name of a fault: part, mode, state.
func faultID(f *fault) string {
	slug := func(s string) string {
		s = strings.ToLower(strings.ReplaceAll(s, ":", ""))
		return strings.ReplaceAll(s, " ", "-")
	}
	id := slug(f.part) + "." + slug(strings.TrimSpace(strings.TrimPrefix(string(f.mode), f.part)))
	if !f.anyState {
		id += "." + f.state.String()
	}
	return id
}

// dangerStates are the states from which nobody expects a shot.
func dangerStates() []pneumatics.State {
	return []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading}
}

// fires tells whether a path lets air towards the barrel in a shot.
func (p *PathSpec) fires() bool { return p.OpenIn.Has(pneumatics.Firing) }

// valveFaults are those of a valve moved by coil or hand.
func (st *faultStage) valveFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	out := []fault{{part: p.Name, mode: StuckShut, anyState: true, whyNot: "it lets no air through", apply: func(w *Launcher) { shut(&w.Paths[i]) },
		consequence: "no air passes " + p.Name, detected: "no shot, or no charge, at the first try"}}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		return append(out[:0], st.ventFaults(i)...)
	}
	if p.fires() {
		out = append(out, st.unaskedFaults(i)...)
		return append(out, st.fasterFault(i))
	}
	open := fault{part: p.Name, mode: StuckOpen, anyState: true, apply: func(w *Launcher) { stuckOpen(&w.Paths[i]) },
		extra: []string{"opening of " + p.Name}, adjust: scalePath(i),
		consequence: fmt.Sprintf("%s stays joined to %s during the shot", p.From, p.To),
		detected:    "the volume behind it keeps filling: the gauge there, or the supply starting after each shot"}
	st.bears(&open, i)
	leak := open
	leak.mode, leak.consequence = LeakingValve, fmt.Sprintf("air creeps from %s to %s", p.From, p.To)
	leak.detected = "leak-down test: the reading behind it rises"
	out = append(append(out, open, leak), st.opensUnasked(i, StuckOpen, LeakingValve, Energised)...)
	return append(out, st.feedsLoading(i)...)
}

// feedsLoading is a valve that a short or a spike opens while hands are at the muzzle,
// where it opens no way into the barrel: what it feeds may no longer be empty.
func (st *faultStage) feedsLoading(i int) []fault {
	p := &st.Launcher.Paths[i]
	w := st.Launcher.Clone()
	firesFrom(w, pneumatics.Loading, i)
	if p.Kind != pneumatics.Valve || p.OpenIn.Has(pneumatics.Loading) || reachOf(w).paths[i] {
		return nil
	}
	w = st.Launcher.Clone()
	w.Paths[i].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	before, after := st.Loading, w.loadingAir(st.Emptying.Target)
	f := fault{part: p.Name, mode: Energised, state: pneumatics.Loading, whyNot: "the barrel stays shut off from it",
		consequence: fmt.Sprintf("%s and %s are joined; what is empty while loading stays so, but later", p.From, p.To), detected: "hissing vents; the gauge", prevented: "a feed that has no power while loading"}
	for k := range w.Volumes {
		if before.empty[k] && !after.empty[k] {
			f.consequence = fmt.Sprintf("%s is no longer empty while loading: it can hold up to %s, and only the next shut valve keeps that from the barrel", w.Volumes[k].Name, worstBar(after.rest[k]))
		}
	}
	return []fault{f}
}

// bears decides by the circuit whether a failed path can bear on a shot: it
// reaches the barrel while firing once it has failed.
func (st *faultStage) bears(f *fault, i int) {
	w := st.Launcher.Clone()
	f.apply(w)
	f.changes = reachOf(w).paths[i]
	if !f.changes {
		f.whyNot = "no way from it to the barrel is open during a shot"
	}
}

// ventFaults are those of a valve between a volume and the atmosphere: it bears
// on what empties, never on what shoots.
func (st *faultStage) ventFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	stays := fmt.Sprintf("%s does not empty through %s", p.From, p.Name)
	if left := st.keepsWithout(i); left != "" {
		stays += ": " + left
	}
	out := []fault{
		{part: p.Name, mode: StuckShut, anyState: true, whyNot: "it is shut during a shot anyway, and shut it lets nothing out",
			consequence: stays, detected: "the vent test", prevented: "clean, drained air; a vent of 0.8 mm or more", latent: true, revealed: itemVentTest},
		{part: p.Name, mode: StuckOpen, anyState: true, whyNot: "it only lets air out",
			consequence: fmt.Sprintf("%s loses air all the time and the supply runs on", p.From), detected: "hissing; it does not reach the cut-out"},
		{part: p.Name, mode: LeakingValve, anyState: true, whyNot: "it only lets air out", consequence: fmt.Sprintf("%s leaks down slowly", p.From), detected: "leak-down test"},
	}
	if p.Unpowered != pneumatics.Closed && p.Kind == pneumatics.Valve {
		out = append(out, fault{part: p.Name, mode: Energised, anyState: true, whyNot: "it is shut during a shot anyway",
			consequence: stays + ", while its coil has current", detected: "the vent test", latent: true, revealed: itemVentTest})
	}
	return out
}

// keepsWithout says what becomes of the air with a path blocked, from the highest
// pressures, armed and without power: which volumes are trapped, or how long the
// one behind it takes by the other ways out.
func (st *faultStage) keepsWithout(i int) string {
	target := st.Emptying.Target
	e := emptier{target: target}
	var ok bool
	if e.start, ok = st.Launcher.ventPressures(); !ok {
		e.start = make([]float64, len(st.Launcher.Volumes))
	}
	var names []string
	slowest := 0.0
	for _, w := range st.Launcher.ventLaunchers(slowEnd) {
		shut(&w.Paths[i])
		s := e.setup(w, ventScenario{PowerLost, pneumatics.Armed}, slowEnd)
		for k, p := range pneumatics.Residual(&s.c, &s.sc)[:len(w.Volumes)] {
			if name := w.Volumes[k].Name; !(p < target) && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		from := st.Launcher.Node(st.Launcher.Paths[i].From)
		if len(names) > 0 || from < 0 || !ok {
			continue
		}
		r, err := e.run(s, pneumatics.Isothermal, 3600, 0)
		if err != nil {
			return "another way out stays open; how long it takes could not be computed"
		}
		slowest = max(slowest, orInf(r.WatchTimes[from]))
	}
	switch {
	case len(names) > 0:
		return "trapped: " + strings.Join(names, ", ")
	case math.IsInf(slowest, 1):
		return "another way out stays open, but takes more than an hour"
	case slowest == 0:
		return "another way out stays open"
	}
	return fmt.Sprintf("another way out stays open and takes up to %s", minutes(slowest))
}

// unaskedFaults open the firing valve where nobody asked: by its own failure or
// through its coil, fully or in part.
func (st *faultStage) unaskedFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	var out []fault
	for _, s := range dangerStates() {
		if p.OpenIn.Has(s) {
			continue
		}
		base := st.unaskedFault(i, s)
		st.movesFrom(&base, s)
		out = append(out, base.modes(p, StuckOpen, LeakingValve, Energised)...)
	}
	return out
}

// opensUnasked are the faults of any other part that, in a state from which nobody
// expects a shot, open a way from a volume that holds air into the barrel. Which
// part does is decided by the circuit: nothing but its place makes a firing valve.
func (st *faultStage) opensUnasked(i int, modes ...FaultMode) []fault {
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
		if base.changes && reachOf(w).paths[i] {
			out = append(out, base.modes(p, modes...)...)
		}
	}
	return out
}

// unaskedFault opens path i in state s.
func (st *faultStage) unaskedFault(i int, s pneumatics.State) fault {
	p := &st.Launcher.Paths[i]
	apply := func(w *Launcher) { firesFrom(w, s, i) }
	if p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve {
		apply = func(w *Launcher) { firesFrom(w, s, i); stuckOpen(&w.Paths[i]) }
	}
	return fault{part: p.Name, state: s, unasked: true, apply: apply, extra: []string{"opening of " + p.Name}, adjust: scalePath(i),
		prevented: "two independent actions before air can reach the valve; a guard that keeps faces and fingers off the muzzle"}
}

// modes are the ways in which the fault of a path comes about, one fault each.
func (f fault) modes(p *PathSpec, modes ...FaultMode) (out []fault) {
	goesOff := fmt.Sprintf("the shot goes off while %s", f.state)
	for _, m := range modes {
		one := f
		one.mode, one.consequence, one.detected = m, goesOff, "leak-down test with the barrel empty"
		switch m {
		case LeakingValve:
			one.consequence = fmt.Sprintf("the barrel fills slowly while %s and the projectile creeps or pops out", f.state)
			one.detected = "leak-down test; a finger's breadth of movement of the projectile"
		case Energised:
			if p.Kind != pneumatics.Valve {
				continue // it has no coil
			}
			one.consequence += ": a short, a spike, a radio, a finger"
			one.detected = "nothing before it happens"
		}
		out = append(out, one)
	}
	return out
}

// movesFrom decides by the circuit whether air under pressure gets into the
// barrel at all from a state.
func (st *faultStage) movesFrom(f *fault, s pneumatics.State) {
	w := st.Launcher.Clone()
	f.apply(w)
	for k := range w.Paths { // what was open before the state does not count
		w.Paths[k].OpenIn &= pneumatics.SetOf(pneumatics.Firing)
	}
	f.whyNot = fmt.Sprintf("nothing that holds air while %s reaches the barrel", s)
	flows := w.flowsToBarrel()
	high, ok := st.Launcher.ventPressures()
	for k := range w.Volumes {
		rest, empty := st.Loading.restIn(s, k)
		if holds := rest > 0 || !empty && (!ok || high[k] > 0); flows[k] && holds {
			f.changes, f.whyNot = true, ""
		}
	}
	if supply := st.Launcher.Supply; supply != nil && supply.RunsIn.Has(s) && flows[st.Launcher.Node(supply.Feeds)] {
		f.changes, f.whyNot = true, ""
	}
}

// flowsToBarrel tells of every volume whether its air can flow to the barrel in a
// shot, in the direction that check valves and regulators let it.
func (l *Launcher) flowsToBarrel() []bool {
	reach := reachOf(l)
	flows := make([]bool, len(l.Volumes))
	at := func(name string) bool { return name == "barrel" || name != "atmosphere" && flows[l.Node(name)] }
	for changed := true; changed; {
		changed = false
		join := func(from, to string) {
			if from == "barrel" || from == "atmosphere" || !at(to) {
				return
			}
			if k := l.Node(from); !flows[k] {
				flows[k], changed = true, true
			}
		}
		for i := range l.Paths {
			p := &l.Paths[i]
			if !reach.paths[i] {
				continue
			}
			join(p.From, p.To)
			if p.Kind != pneumatics.Check && p.Kind != pneumatics.Regulator {
				join(p.To, p.From)
			}
		}
	}
	return flows
}

// ventPressures are the highest pressures of the volumes [Pa gauge].
func (l *Launcher) ventPressures() ([]float64, bool) {
	start, _, ok := l.ventStart()
	if !ok {
		return nil, false
	}
	return l.highStart(start), true
}

// fastest is the share of its shortest opening time in which a firing valve may
// open when its coil gets too much voltage or its spring is weak (own rule of
// this project).
const fastest = 0.5

// fasterFault is a firing valve that opens faster than its tolerances say.
func (st *faultStage) fasterFault(i int) fault {
	p := &st.Launcher.Paths[i]
	f := fault{part: p.Name, mode: OpensFaster, anyState: true, apply: func(w *Launcher) { w.Paths[i].OpeningTime.Low *= fastest },
		consequence: fmt.Sprintf("it opens in as little as %s ms", significant(1e3*fastest*p.OpeningTime.Low, 2)), detected: "click-to-pop times", latent: true, revealed: "confirm.shots"}
	f.changes = p.OpeningTime.Set && p.OpeningTime.Low > 0
	if !f.changes {
		f.consequence = "it opens at once"
		f.whyNot = "its tolerances contain an opening time of zero already"
	}
	return f
}

// openPathFaults are those of a fixed opening or a bare hose.
func (st *faultStage) openPathFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	f := fault{part: p.Name, mode: Blocked, anyState: true, apply: func(w *Launcher) { shut(&w.Paths[i]) },
		consequence: "no air passes " + p.Name, detected: "no charge, or no shot, at the first try"}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		f.consequence = fmt.Sprintf("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
		f.detected, f.prevented, f.latent, f.revealed = "the vent test", "clean, drained air; a vent of 0.8 mm or more", true, itemVentTest
		f.changes = reachOf(st.Launcher).paths[i] // it no longer lets air out during the shot
	}
	if !f.changes {
		f.whyNot = "blocked it lets less air to the barrel, not more"
	}
	return []fault{f}
}

// checkFaults are those of a check valve.
func (st *faultStage) checkFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	back := fault{part: p.Name, mode: PassesBack, anyState: true, apply: func(w *Launcher) { stuckOpen(&w.Paths[i]) },
		consequence: fmt.Sprintf("air flows back from %s to %s", p.To, p.From), detected: "leak-down test", latent: true, revealed: itemLeakDown}
	st.bears(&back, i)
	shutFault := fault{part: p.Name, mode: StuckShut, anyState: true, apply: func(w *Launcher) { shut(&w.Paths[i]) }, whyNot: "it lets no air through",
		consequence: "no air passes " + p.Name, detected: "no charge at the first try"}
	if p.To == "atmosphere" {
		shutFault.consequence = fmt.Sprintf("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
		shutFault.latent, shutFault.revealed, shutFault.detected = true, itemVentTest, "the vent test"
	}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		return []fault{back, shutFault}
	}
	return append([]fault{back, shutFault}, st.opensUnasked(i, PassesBack)...)
}

// reliefFaults are those of a relief valve.
func (st *faultStage) reliefFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	out := []fault{
		{part: p.Name, mode: ReliefStuckShut, anyState: true, noRelief: true, apply: func(w *Launcher) { shut(&w.Paths[i]) },
			whyNot:      st.reliefAlone(),
			consequence: "nothing limits the pressure if the switch fails too", detected: "the relief test",
			prevented: "lift it by hand before each use, dry store", latent: true, revealed: itemReliefTest},
		{part: p.Name, mode: SetTooHigh, anyState: true, noRelief: true, apply: func(w *Launcher) { shut(&w.Paths[i]) }, whyNot: st.reliefAlone(),
			consequence: "it lifts later than stated, or not at all: with the switch failed too the pressure goes on to the supply's dead head", detected: "the relief test",
			prevented: "a sealed setting; the relief test after each repair", latent: true, revealed: itemReliefTest},
		{part: p.Name, mode: ReseatsLate, anyState: true, whyNot: "it only lets air out",
			consequence: fmt.Sprintf("after one lift it blows %s down to %s or lower before it shuts, and the supply starts again", p.From, bar(p.reseatLow())), detected: "hissing; the gauge falls"},
		{part: p.Name, mode: LeakingValve, anyState: true, whyNot: "it only lets air out", consequence: p.From + " leaks down slowly", detected: "leak-down test"},
	}
	if p.To == "atmosphere" {
		return out
	}
	return append(out, st.opensUnasked(i, LeakingValve)...)
}

// reliefAlone says why a relief valve that lifts late or never is no fault by itself.
func (st *faultStage) reliefAlone() string {
	if st.Launcher.Switch == nil {
		return "alone it changes nothing: every shot is judged up to the supply's dead head"
	}
	return "alone it changes nothing: the switch still stops the supply"
}

// regulatorFaults: it lets its inlet pressure through, at once or by creeping.
func (st *faultStage) regulatorFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	open := fault{part: p.Name, mode: FailedOpen, anyState: true, apply: func(w *Launcher) { stuckOpen(&w.Paths[i]) }, overcharges: true, changes: true,
		consequence: fmt.Sprintf("%s reaches the pressure of %s", p.To, p.From), detected: "the gauge behind it", prevented: "a relief valve behind it"}
	creep := open
	creep.mode, creep.consequence = Creeps, fmt.Sprintf("%s slowly reaches the pressure of %s while nothing is fired", p.To, p.From)
	creep.detected = "the gauge behind it, ten minutes after charging"
	stuck := fault{part: p.Name, mode: StuckShut, anyState: true, apply: func(w *Launcher) { shut(&w.Paths[i]) },
		whyNot: "it lets no air through", consequence: "no air passes " + p.Name, detected: "no charge at the first try"}
	return append([]fault{open, creep, stuck}, st.opensUnasked(i, FailedOpen)...)
}

// drilledOut is how much wider a restrictor's bore can be found, where no hose
// says how wide the fittings are (own rule of this project).
const drilledOut = 2.0

// boreFault is a restrictor that is missing, so that the bore of its hose
// remains, or that was drilled out.
func (st *faultStage) boreFault(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Flow.Form != OrificeBore || p.Kind == pneumatics.Relief {
		return nil
	}
	wide := drilledOut * p.Flow.Value.High
	what := "twice its bore"
	if p.Hose != nil && p.Hose.Bore.High > p.Flow.Value.High {
		wide, what = p.Hose.Bore.High, "the bore of its hose"
	}
	f := fault{part: p.Name, mode: BoreMissing, anyState: true, apply: func(w *Launcher) { w.Paths[i].Flow.Value.High = max(wide, w.Paths[i].Flow.Value.High) },
		consequence: fmt.Sprintf("%s passes as much as %s, %s", p.Name, what, millimetre(wide)), detected: "a drill shank as a gauge",
		latent: true, revealed: itemBore}
	switch {
	case p.To == "atmosphere" || p.From == "atmosphere":
		f.whyNot, f.latent, f.revealed = "it only lets air out", false, ""
	case !reachOf(st.Launcher).paths[i]:
		f.whyNot = "it is shut before air can pass it during a shot"
	default:
		f.changes = true
	}
	return []fault{f}
}

// hoseFaults are those of a hose.
func (st *faultStage) hoseFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Hose == nil {
		return nil
	}
	off := fault{part: p.Name, mode: HoseOff, anyState: true, whyNot: "the air goes into the room",
		detected: "a bang and a whipping hose", prevented: "clips every 200 mm, a sleeve, a restraint"}
	if high, ok := st.Launcher.ventPressures(); ok {
		top := 0.0
		for _, g := range high {
			top = max(top, g)
		}
		pa := st.Launcher.Ambient.Pressure.Nominal
		off.consequence = fmt.Sprintf("the loose end pushes with up to %s N at %s", significant(Thrust(circle(p.Hose.Bore.High), top, pa, st.Launcher.gas().Gamma), 2), bar(top))
	}
	wider := fault{part: p.Name, mode: HoseWider, anyState: true, consequence: "the hose no longer holds the flow back", latent: true, revealed: itemBore,
		detected: "the hose's print against the parts list", changes: reachOf(st.Launcher).paths[i], apply: func(w *Launcher) {
			h := w.Paths[i].Hose
			if w.Paths[i].Kind == pneumatics.Hose {
				h.Bore.High *= drilledOut
				return
			}
			h.Conductance = Band{Set: true, Nominal: noHose, Low: h.Conductance.Low, High: noHose, Key: "paths." + p.Name + ".hose"}
			if !st.Launcher.Paths[i].Hose.Conductance.Set {
				h.Conductance.Low = 1
			}
		}}
	if !wider.changes {
		wider.whyNot = "no air passes it during a shot"
	}
	return []fault{off, wider}
}

// noHose is a conductance so many times a hose's that it no longer matters [-].
const noHose = 100

// shut takes a path's flow away; its hose stays as volume.
func shut(p *PathSpec) {
	p.Flow = FlowSpec{}
	if p.Kind == pneumatics.Hose {
		p.Hose.Conductance = Exact(p.Hose.Conductance.Key, 0)
	}
}

// stuckOpen makes a path a fixed opening.
func stuckOpen(p *PathSpec) { p.Kind = pneumatics.Orifice }

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
func firesFrom(w *Launcher, s pneumatics.State, i int) {
	for k := range w.Paths {
		p := &w.Paths[k]
		if p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve {
			p.OpenIn = inFiring(p.OpenIn, k == i || p.OpenIn.Has(s))
		}
	}
	w.Paths[i].Pulse = Band{}
}

// inFiring is a set of states with firing in it or not.
func inFiring(set pneumatics.StateSet, open bool) pneumatics.StateSet {
	firing := pneumatics.SetOf(pneumatics.Firing)
	if open {
		return set | firing
	}
	return set &^ firing
}
