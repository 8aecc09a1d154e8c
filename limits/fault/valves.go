package fault

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// valveFaults are those of a valve moved by coil or hand.
func (st *stage) valveFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	out := []fault{{part: p.Name, mode: StuckShut, anyState: true, whyNot: finding.Words("no shot, or a weaker one"),
		apply:       func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		consequence: finding.Say("no air passes %s", p.Name), detected: finding.Words("no shot, or no charge, at the first try")}}
	if p.Diaphragm() {
		blocked := out[0]
		blocked.mode, blocked.consequence = PilotBlocked, finding.Say("its chamber does not empty: no air passes %s", p.Name)
		out = append(out, blocked)
	}
	switch {
	case p.Way.Exhausts() && p.To == "atmosphere":
		return append(out[:0], st.exhaustFaults(i)...)
	case p.To == "atmosphere" || p.From == "atmosphere":
		return append(out[:0], st.ventFaults(i)...)
	}
	if fires(p) {
		out = append(out, st.unaskedFaults(i)...)
		if p.Pulse.Set {
			out = append(out, fault{part: p.Name, mode: PulseRunsOn, anyState: true, changes: true,
				apply:       func(w *launcher.Launcher) { w.Paths[i].Pulse = launcher.Band{} },
				consequence: finding.Words("it stays open for as long as the trigger is held"),
				detected:    finding.Words("measured shots are faster than the model's"), latent: true, revealed: finding.ItemShots})
		}
		return append(out, st.fasterFault(i))
	}
	open := fault{part: p.Name, mode: StuckOpen, anyState: true, apply: func(w *launcher.Launcher) { stuckOpen(&w.Paths[i]); shutOther(w, i) },
		extra: []string{"opening of " + p.Name}, adjust: scalePath(i),
		consequence: finding.Say("%s stays joined to %s during the shot", p.From, p.To),
		detected:    finding.Words("the volume behind it keeps filling: the gauge there, or the supply starting after each shot")}
	if dial.Showing(st.Launcher, p.To, dial.Ready) == nil {
		open.detected = finding.Words("the volume behind it keeps filling: the supply starting after each shot")
	}
	st.bears(&open, i)
	leak := open
	leak.mode, leak.consequence = LeakingValve, finding.Say("air creeps from %s to %s", p.From, p.To)
	leak.detected = finding.Words("leak-down test: the reading behind it rises")
	out = append(append(out, open, leak), st.opensUnasked(i, StuckOpen, LeakingValve, Energised)...)
	return append(out, st.feedsLoading(i)...)
}

// feedsLoading is a valve that a short or a spike opens while hands are at the muzzle,
// where it opens no way into the barrel: what it feeds may no longer be empty.
func (st *stage) feedsLoading(i int) []fault {
	p := &st.Launcher.Paths[i]
	w := st.Launcher.Clone()
	firesFrom(w, pneumatics.Loading, i)
	if p.Kind != pneumatics.Valve || p.OpenIn.Has(pneumatics.Loading) || launcher.ReachOf(w).Paths[i] {
		return nil
	}
	w = st.Launcher.Clone()
	w.Paths[i].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	shutOther(w, i)
	before, after := st.Loading, vent.LoadingOf(w, st.Emptying.Target)
	f := fault{part: p.Name, mode: Energised, state: pneumatics.Loading, whyNot: finding.Words("the barrel stays shut off from it"),
		consequence: finding.Say("%s and %s are joined; what is empty while loading stays so, but later", p.From, p.To),
		detected:    finding.Words("hissing vents; the gauge"), prevented: finding.Words("a feed that has no power while loading")}
	for k := range w.Volumes {
		if before.Empty[k] && !after.Empty[k] {
			f.consequence = finding.Say("%s is no longer empty while loading: it can hold up to %s, "+
				"and only the next shut valve keeps that from the barrel", w.Volumes[k].Name, finding.WorstBar(after.Rest[k]))
		}
	}
	return []fault{f}
}

// ventFaults are those of a valve between a volume and the atmosphere: it bears
// on what empties, never on what shoots.
func (st *stage) ventFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	stays := finding.Say("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
	out := []fault{
		{part: p.Name, mode: StuckShut, anyState: true, whyNot: finding.Words("it is shut during a shot anyway, and shut it lets nothing out"),
			consequence: stays, detected: finding.Words("the vent test"), prevented: wideEnough(), latent: true, revealed: finding.ItemVentTest},
		{part: p.Name, mode: StuckOpen, anyState: true, whyNot: finding.Words("it only lets air out"),
			consequence: finding.Say("%s loses air all the time and the supply runs on", p.From),
			detected:    finding.Words("hissing; it does not reach the cut-out")},
		{part: p.Name, mode: LeakingValve, anyState: true, whyNot: finding.Words("it only lets air out"),
			consequence: finding.Say("%s leaks down slowly", p.From), detected: finding.Words("leak-down test")},
	}
	if p.Diaphragm() {
		blocked := out[0]
		blocked.mode, blocked.consequence = PilotBlocked, finding.Words("its chamber does not empty: ").And(stays)
		out = append(out, blocked)
	}
	if p.Kind == pneumatics.HandValve && p.OpenIn.Has(pneumatics.Off) {
		out = append(out, fault{part: p.Name, mode: NotOpened, state: pneumatics.Off,
			whyNot:      finding.Words("it is shut during a shot anyway, and shut it lets nothing out"),
			consequence: finding.Words("nobody opens it: ").And(stays), detected: shownBy(st.Launcher, p.From, dial.SwitchedOff, notToZero),
			prevented: finding.Words("a valve that opens without power beside it; a tag at the switch")})
	}
	out = append(out, st.halfBlocked(i))
	if p.Unpowered != pneumatics.Closed && p.Kind == pneumatics.Valve {
		out = append(out, fault{part: p.Name, mode: Energised, anyState: true, whyNot: finding.Words("it is shut during a shot anyway"),
			consequence: stays.Say(", while its coil has current"), detected: finding.Words("the vent test"),
			latent: true, revealed: finding.ItemVentTest})
	}
	return out
}

// keepsWithout says what becomes of the air with a path blocked, from the highest
// pressures, armed and without power: which volumes are trapped, or how long the
// one behind it takes by the other ways out.
func (st *stage) keepsWithout(i int) finding.Text {
	names, times, err := st.keeps(vent.PowerLost, func(w *launcher.Launcher) { shut(&w.Paths[i]) })
	slowest, from := 0.0, st.Launcher.Node(st.Launcher.Paths[i].From)
	if from >= 0 && times != nil {
		slowest = times[from]
	}
	switch {
	case err != nil:
		return finding.Words("another way out stays open; how long it takes could not be computed")
	case len(names) > 0:
		return finding.Say("trapped: %s", strings.Join(names, ", "))
	case math.IsInf(slowest, 1):
		return finding.Words("another way out stays open, but takes more than an hour")
	case slowest == 0:
		return finding.Words("another way out stays open")
	}
	return finding.Say("another way out stays open and takes up to %s", vent.Minutes(slowest))
}

// keeps finds, armed and then switched off or without power, which volumes are trapped in a changed design, and where none is how
// long each takes at most [s]; nil where its highest pressure is not known.
func (st *stage) keeps(kind vent.Kind, change func(w *launcher.Launcher)) (trapped []string, times []float64, err error) {
	target := st.Emptying.Target
	e := vent.Emptier{Target: target}
	var ok bool
	if e.Start, ok = vent.StartPressures(st.Launcher); !ok {
		e.Start = make([]float64, len(st.Launcher.Volumes))
	}
	for _, w := range vent.AtEndInAnyAir(st.Launcher, vent.SlowEnd) {
		change(w)
		s := e.Setup(w, vent.Scenario{Kind: kind, From: pneumatics.Armed}, vent.SlowEnd)
		for k, p := range s.Residual()[:len(w.Volumes)] {
			if name := w.Volumes[k].Name; !(p < target) && !slices.Contains(trapped, name) {
				trapped = append(trapped, name)
			}
		}
		if len(trapped) > 0 || !ok {
			continue
		}
		each, err := e.Slowest(s, 3600)
		if err != nil {
			return nil, nil, err
		}
		for k := range each {
			if times == nil {
				times = make([]float64, len(each))
			}
			times[k] = max(times[k], each[k])
		}
	}
	return trapped, times, nil
}

// fastest is the share of its shortest opening time in which a firing valve may
// open when its coil gets too much voltage or its spring is weak (own rule of
// this project).
const fastest = 0.5

// Fastest is in which share of its shortest opening time a firing valve opens that fails so [-].
func Fastest(p *launcher.PathSpec) float64 {
	if p.Kind == pneumatics.HandValve || p.Usual > 0 && p.OpeningTime.Low > p.Usual {
		return 0
	}
	return fastest
}

// fasterFault is a firing valve that opens faster than its tolerances say: one that a hand moves at once, slapped by somebody else, and
// one that is stated slower than its drive makes it as a rule, for a slip there is no tolerance.
func (st *stage) fasterFault(i int) fault {
	p := &st.Launcher.Paths[i]
	share := Fastest(p)
	f := fault{part: p.Name, mode: OpensFaster, anyState: true,
		apply:       func(w *launcher.Launcher) { w.Paths[i].OpeningTime.Low *= share },
		consequence: finding.Say("it opens in as little as %s", finding.Millisecond(share*p.OpeningTime.Low)),
		detected:    finding.Words("click-to-pop times"), latent: true, revealed: finding.ItemShots}
	f.changes = p.OpeningTime.Set && p.OpeningTime.Low > 0
	if !f.changes {
		f.consequence = finding.Words("it opens at once")
		f.whyNot = finding.Words("its tolerances contain an opening time of zero already")
	}
	return f
}

// checkFaults are those of a check valve.
func (st *stage) checkFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	back := fault{part: p.Name, mode: PassesBack, anyState: true, apply: func(w *launcher.Launcher) { stuckOpen(&w.Paths[i]) },
		consequence: finding.Say("air flows back from %s to %s", p.To, p.From), detected: finding.Words("leak-down test"),
		latent: true, revealed: finding.ItemLeakDown}
	st.bears(&back, i)
	shutFault := fault{part: p.Name, mode: StuckShut, anyState: true, whyNot: finding.Words("it lets no air through"),
		apply:       func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		consequence: finding.Say("no air passes %s", p.Name), detected: finding.Words("no charge at the first try")}
	if p.To == "atmosphere" {
		shutFault.consequence = finding.Say("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
		shutFault.latent, shutFault.revealed, shutFault.detected = true, finding.ItemVentTest, finding.Words("the vent test")
	}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		return []fault{back, shutFault}
	}
	return append([]fault{back, shutFault}, st.opensUnasked(i, PassesBack)...)
}

// reliefFaults are those of a relief valve.
func (st *stage) reliefFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	stuck := fault{part: p.Name, mode: ReliefStuckShut, anyState: true, noRelief: true,
		apply:       func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		whyNot:      finding.Words(st.reliefAlone()),
		consequence: finding.Say("nothing limits the pressure if %s fails too", st.endsFilling()), detected: finding.Words("the relief test"),
		prevented: finding.Words("lift it by hand before each use, dry store"), latent: true, revealed: finding.ItemReliefTest}
	if name := st.regulated(i); name != "" {
		stuck.whyNot = finding.Say("alone it changes nothing: %s still holds the pressure", name)
		stuck.consequence = finding.Say("nothing limits the pressure of %s if %s fails too", p.From, name)
	}
	before, _ := st.Launcher.NormalHigh()
	if high, _ := st.failed(&stuck).NormalHigh(); high > before { // it is what ends the filling
		stuck.overcharges, stuck.changes, stuck.whyNot = true, true, nil
		stuck.consequence, stuck.endsAt = finding.Words("nothing else ends the filling"), ": %s"
		stuck.prevented = stuck.prevented.And(finding.Words("; a second relief valve, or a pressure switch"))
	}
	late := stuck
	late.mode = SetTooHigh
	late.consequence = finding.Say("it lifts later than stated, or not at all: with %s failed too the pressure goes on to what "+
		"the supply can push", st.endsFilling())
	if name := st.regulated(i); name != "" {
		late.consequence = finding.Say("it lifts later than stated, or not at all: with %s failed too the pressure goes on to that before it",
			name)
	}
	if stuck.changes {
		late.consequence = stuck.consequence
	}
	late.prevented = finding.Words("a sealed setting; the relief test after each repair")
	out := []fault{stuck, late,
		{part: p.Name, mode: ReseatsLate, anyState: true, whyNot: finding.Words("it only lets air out"),
			consequence: finding.Say("after one lift it blows %s down to %s or lower before it shuts, and the supply goes on",
				p.From, finding.Bar(p.ReseatLow())), detected: finding.Words("hissing; the gauge falls")},
		{part: p.Name, mode: LeakingValve, anyState: true, whyNot: finding.Words("it only lets air out"),
			consequence: finding.Say("%s leaks down slowly", p.From), detected: finding.Words("leak-down test")},
	}
	if p.To == "atmosphere" {
		return out
	}
	return append(out, st.opensUnasked(i, LeakingValve)...)
}

// endsFilling is what ends the filling before a relief valve has to.
func (st *stage) endsFilling() string {
	switch st.Launcher.Stops() {
	case launcher.StopSwitch:
		return "the switch"
	case launcher.StopMark:
		return "the person who pumps"
	case launcher.StopTimer:
		return "the timer"
	}
	if s := st.Launcher.Supply; s != nil && s.Regulated() {
		return "the regulator"
	}
	return "what ends the filling"
}

// reliefAlone says why a relief valve that lifts late or never is no fault by itself.
func (st *stage) reliefAlone() string {
	switch st.Launcher.Stops() {
	case launcher.StopSwitch:
		return "alone it changes nothing: the switch still stops the supply"
	case launcher.StopMark:
		return "alone it changes nothing: whoever pumps still stops at the mark"
	case launcher.StopTimer:
		return "alone it changes nothing: the timer still stops the supply"
	case launcher.StopPrefill:
		return "alone it changes nothing: nothing fills it here"
	case launcher.StopRelief:
		return "alone it changes nothing: another relief valve carries the supply"
	}
	return "alone it changes nothing: every shot is judged up to the supply's dead head"
}

// regulatorFaults: it lets its inlet pressure through, at once or by creeping.
func (st *stage) regulatorFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	open := fault{part: p.Name, mode: FailedOpen, anyState: true, overcharges: true, changes: true,
		apply:       func(w *launcher.Launcher) { stuckOpen(&w.Paths[i]) },
		consequence: finding.Say("%s reaches the pressure of %s", p.To, p.From),
		detected:    shownBy(st.Launcher, p.To, dial.Filling, "the gauge behind it"), prevented: finding.Words("a relief valve behind it")}
	creep := open
	creep.mode, creep.consequence = Creeps, finding.Say("%s slowly reaches the pressure of %s while nothing is fired", p.To, p.From)
	creep.detected = shownBy(st.Launcher, p.To, dial.Ready, "the gauge behind it, ten minutes after charging")
	stuck := fault{part: p.Name, mode: StuckShut, anyState: true, apply: func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		whyNot: finding.Words("it lets no air through"), consequence: finding.Say("no air passes %s", p.Name),
		detected: finding.Words("no charge at the first try")}
	return append([]fault{open, creep, stuck}, st.opensUnasked(i, FailedOpen)...)
}
