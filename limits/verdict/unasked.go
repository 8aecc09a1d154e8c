package verdict

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// unaskedShots are the single faults that shoot where nobody asked.
type unaskedShots struct {
	worst    *fault.Result // the hardest; nil: none shoots
	loading  *fault.Result // one with hands at the muzzle; nil: none
	power    *fault.Result // the hardest by loss of power; nil: none
	shooting int           // how many shoot
	atHands  int           // how many of them with hands at the muzzle
	tried    int           // faults from charging, armed or loading
	wiring   []string      // those of the wiring that shoot, each once, in words
	alone    []string      // those among them that a hand moves: what sticks there one action does too
	failed   []string      // those that a part does which fails by itself: a relay, a contact, a wire, an output
	around   []string      // those of a load that somebody wired around the stop, which pressing it shows
	open     finding.Text  // of the first whose shot is unknown, what it is; nil: none
}

func unaskedOf(r *fault.Report) (u unaskedShots) {
	for _, f := range r.ByPart() {
		if f.Effect != fault.FiresUnasked && (f.Mode != fault.NoPower && f.State == "any" || f.Mode == fault.RunsOn) {
			continue
		}
		u.tried++
		if f.Effect != fault.FiresUnasked {
			continue
		}
		if f.Status == finding.Unknown && len(u.open) == 0 {
			u.open = finding.Say("%s, %s, while %s: %s", f.Part, f.Mode, f.State, f.Reason)
		}
		if f.Energy <= 0 || math.IsNaN(f.Energy) {
			continue // the air that gets in does not move it out
		}
		u.shooting++
		if name := strings.TrimPrefix(f.Name(), "control."); f.Wiring && !slices.Contains(u.wiring, name) {
			u.wiring = append(u.wiring, name)
			switch f.Mode {
			case fault.StuckOn, fault.StuckPressed, fault.StuckTurned, fault.StuckClosed:
				u.alone = append(u.alone, name)
			case fault.PastStop:
				u.around = append(u.around, name)
			default:
				u.failed = append(u.failed, name)
			}
		}
		if u.worst == nil || f.Judged > u.worst.Judged {
			u.worst = f
		}
		if f.State == pneumatics.Loading.String() {
			u.atHands++
			u.loading = f
		}
		if f.Mode == fault.NoPower && (u.power == nil || f.Judged > u.power.Judged) {
			u.power = f
		}
	}
	return u
}

// shotUnasked judges the shots that nobody asked for.
func shotUnasked(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project: never while hands are at the muzzle, else only behind two independent actions and a guard"
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	u := unaskedOf(a.Faults)
	most := a.Energy.Most()
	if u.worst != nil {
		most = max(most, u.worst.Judged)
	}
	switch opener := opensOnLoading(a.Launcher); {
	case opener != "":
		v.Judge(most, 0)
		v.Why = finding.Say("paths.%s opens into the barrel on entering state loading, with hands at the muzzle: no fault is needed", opener)
		v.Advice = finding.Words("Take loading out of its open_in.")
	case len(shuttleLetsGo(a.Launcher)) != 0:
		v.Judge(most, 0)
		v.Why = shuttleLetsGo(a.Launcher)
		v.Advice = finding.Words("Keep its inlet shut off and tight in every state but firing, and empty the launcher by another way.")
	case a.Energy.HardestEntered() != nil:
		shotByChange(a, v, &u)
	case u.worst == nil:
		v.Judge(0, a.Limits.Total.Value)
		v.Why = finding.Say("none of %d faults of valves, power and wiring from charging, armed or loading moves the projectile", u.tried)
	default:
		judgeUnasked(a, v, u)
	}
	if v.Status == finding.Fail { // what is certain goes first
		return
	}
	if w := a.Launcher.Control; w != nil && len(w.Unknown()) > 0 {
		v.Unknown(finding.Words("what a contact that welds does is not known without " + strings.Join(w.Unknown(), ", ")))
		v.Advice = toState(w.Unknown())
	}
	if len(u.open) != 0 {
		v.Unknown(u.open)
	}
	for i := range a.Energy.Entered {
		if why := a.Energy.Entered[i].Unknown; len(why) != 0 {
			v.Unknown(why)
		}
	}
	if u.shooting > 0 {
		unlessWetOrFrozen(a, v)
	}
	neverBySlowness(a, v)
	// What shoots with hands at the muzzle counts what the vent has left, and what is shut.
	if a.Loading != nil && v.Holds() && (restsOnAVent(a) || len(a.Loading.Slow) > 0) {
		afterTheWait(a, v)
	}
}

// unlessWetOrFrozen lets the verdict hold only while the items are kept up that keep a projectile which is wet, or which ice holds, from
// being loaded when nobody asks for a shot: it is so already when the part fails, and no part of its own has failed. Where such a one is
// too hard even for a shot that somebody fires, it is so here too, whatever its figure.
func unlessWetOrFrozen(a *assessment.Assessment, v *finding.Verdict) {
	for i := range a.Faults.Unasked {
		if r := &a.Faults.Unasked[i]; r.Status == finding.Unknown && v.Status != finding.Unknown {
			v.Unknown(finding.Say("%s, while %s, and the projectile is wet or frozen in: %s", r.Name(), r.State, r.Reason))
		}
	}
	if !v.Holds() {
		return
	}
	for i, item := range []string{finding.ItemWeighed, finding.ItemNotFrozen} {
		is := string([]fault.Mode{fault.Soaked, fault.FrozenIn}[i])
		alone, both := a.Faults.KeptBy(item), a.Faults.UnaskedKeptBy(item)
		switch {
		case alone != nil:
			v.Why = v.Why.Say("; a projectile %s is shot too hard whatever fires it (%s)", is, finding.EnergyFault)
		case both != nil:
			v.Why = v.Why.Say("; a projectile %s has up to %s by %s while %s", is, finding.WorstJoule(both.Judged), both.Name(), both.State)
		default:
			continue
		}
		keepUp(a, v, item)
	}
}

// shotByChange fails where an ordinary change of state shoots: one action, or none, is enough.
func shotByChange(a *assessment.Assessment, v *finding.Verdict, u *unaskedShots) {
	hardest := a.Energy.HardestEntered()
	most := hardest.Judged
	if u.worst != nil {
		most = max(most, u.worst.Judged)
	}
	v.Judge(most, 0)
	v.Why = finding.Say("%s is the shot, with %s: %s; no fault is needed, and no second action", hardest.Does(),
		finding.WorstJoule(hardest.Judged), hardest.Opens())
	var others []string
	for i := range a.Energy.Entered {
		if one := &a.Energy.Entered[i]; one.Shoots() && one != hardest {
			others = append(others, one.Does())
		}
	}
	if len(others) > 0 {
		v.Why = v.Why.Say("; so does %s", strings.Join(others, " and "))
	}
	v.Advice = finding.Words("What lets air into the barrel open in state firing alone (open_in), and empty the launcher by a vent that " +
		"does not lead through the barrel.")
}

// judgeUnasked judges where a fault shoots.
func judgeUnasked(a *assessment.Assessment, v *finding.Verdict, u unaskedShots) {
	v.Judge(u.worst.Judged, a.Limits.Total.Value)
	v.Why = finding.Say("%d of %d faults from charging, armed or loading shoot; the hardest: %s while %s",
		u.shooting, u.tried, u.worst.Name(), u.worst.State)
	if len(u.wiring) > 0 {
		v.Why = v.Why.Say("; by [control] one thing wrong in the wiring is enough: %s", strings.Join(u.wiring, ", "))
		defer func() {
			v.Advice = v.Advice.Say(" In the wiring: two contacts in series before the firing valve, that different parts and different actions " +
				"move, and that switch nothing else.")
		}()
	}
	switch {
	case u.power != nil:
		v.Judge(u.power.Judged, 0) // two actions and a guard are no help against a pulled plug
		v.Why = v.Why.Say("; losing power while %s fires it, which takes no action at all", u.power.State)
		if u.loading != nil {
			v.Why = v.Why.Say(", and some while hands are at the muzzle")
		}
		v.Advice = finding.Words("A firing valve that closes without power (unpowered = \"closed\"), and vents that do not lead through the " +
			"barrel.")
	case u.loading != nil:
		v.Judge(u.worst.Judged, 0) // with hands at the muzzle no energy is small enough
		v.Why = v.Why.Say("; %s while hands are at the muzzle (%s)", someOf(u.atHands), u.loading.Name())
		v.Advice = finding.Words("Vent what feeds the barrel in state loading, or a second shut valve before it.")
	case v.Status == finding.Fail:
		v.Advice = finding.Words("Less energy, or a second valve in series that opens only to fire.")
	case len(u.alone) > 0:
		v.Judge(u.worst.Judged, 0) // no two actions keep what the wiring gives to one
		v.Why = v.Why.Say("; so one action fires it, as what is stuck there does")
		v.Advice = finding.Words("In [control], a second button, pedal or switch in series before the firing valve, that another action " +
			"moves and that switches nothing else.")
	case len(u.failed) > 0:
		v.Judge(u.worst.Judged, 0) // no action stands before a part that fails by itself, and no test tells in time
		v.Why = v.Why.Say("; so it fires without any action as soon as that fails: %s", strings.Join(u.failed, ", "))
		v.Advice = finding.Words("In [control], a contact of another part in series before the firing valve, such as a button's own.")
	case len(byOneAction(a.Launcher)) > 0:
		v.Judge(u.worst.Judged, 0) // a timer is no second action
		v.Why = v.Why.Say("; by [control] a timer is in series with %s before the firing valve: nobody moves a timer, so one action fires it",
			strings.Join(byOneAction(a.Launcher), ", "))
		v.Advice = finding.Words("In [control], a second button, pedal or switch in series before the firing valve, that another action " +
			"moves and that switches nothing else; the timer beside them, not in their place.")
	case finding.Proves(finding.ItemSealGuard, a.Launcher.Barrel.SealGuard) == "":
		v.Judge(u.worst.Judged, 0) // without a guard none is either
		v.Advice = finding.Words("A guard that keeps faces and fingers off the muzzle (declare it as barrel.seal_guard), and two independent " +
			"actions before air can reach the firing valve; or a second valve in series.")
	default:
		v.HoldsWhile(finding.Words("a shot takes two independent actions, and a guard keeps faces and fingers off the muzzle"),
			finding.ItemTwoActions, finding.ItemGuard)
		v.Why = v.Why.Say("; it holds only with two independent actions before a shot (item %s) and a guard that keeps faces and fingers off "+
			"the muzzle (item %s)", itemState(a, finding.ItemTwoActions), itemState(a, finding.ItemGuard))
		v.Advice = finding.Say("Confirm both items. barrel.seal_guard (%s) is declared against lips and ears that seal the muzzle: whether it "+
			"keeps a finger and a face off as well, the probe of %s tells.", a.Launcher.Barrel.SealGuard, finding.ItemGuard)
		if len(u.around) > 0 {
			alsoWhile(v, finding.Words("the stop, pressed, shows that nothing is wired around it"), []string{finding.ItemKeyAndStop})
		}
	}
}

// byOneAction names the parts of [control] of which one, moved while charging or armed, opens a way from a volume into the barrel, as
// only a timer stands beside it.
func byOneAction(l *launcher.Launcher) (names []string) {
	if l.Control == nil {
		return nil
	}
	for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed} {
		for _, one := range l.Control.AloneIn(s) {
			w := l.Clone()
			for _, k := range one.Changed {
				for i := range w.Paths {
					if slices.Contains(l.Control.Parts[k].Moves, w.Paths[i].Name) {
						w.Paths[i].OpenIn ^= pneumatics.SetOf(s) // the other way than the state has it
					}
				}
			}
			worst.Stays(w, s)
			if slices.Contains(worst.FlowsToBarrel(w), true) && !slices.Contains(names, one.Part) {
				names = append(names, one.Part)
			}
		}
	}
	return names
}

// someOf counts in words that begin a clause.
func someOf(n int) string {
	if n == 1 {
		return "one of them"
	}
	return fmt.Sprintf("%d of them", n)
}

// GuardItem is the bare item of the guard at the muzzle. Where whoever wants to goes through whole only a finer guard keeps off.
func GuardItem(l *launcher.Launcher) finding.Item {
	const widest = 100e-3 // [m], of the table of reaches
	return finding.Guard(launcher.ReachDistance(min(max(l.Admits(), finding.FinestGuard), widest)),
		launcher.ReachDistance(finding.FinestGuard))
}

// itemState is an item with what the design's checklist says of it.
func itemState(a *assessment.Assessment, id string) finding.Text {
	bare := finding.Item{ID: id}
	if id == finding.ItemGuard {
		bare = GuardItem(a.Launcher)
	}
	switch it := a.Launcher.AnswerOf(bare, a.Day); {
	case it.Done != nil:
		return finding.Words(id + ", confirmed")
	case len(it.OpenWhy) != 0:
		return finding.Say("%s, open: %s", id, it.OpenWhy)
	}
	return finding.Words(id + ", open")
}

// opensOnLoading names a valve between a volume and the barrel that is open in
// state loading; "" where there is none.
func opensOnLoading(l *launcher.Launcher) string {
	for i := range l.Paths {
		p := &l.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		toBarrel := p.To == "barrel" && p.From != "atmosphere" || p.From == "barrel" && p.To != "atmosphere"
		if valve && toBarrel && p.OpenIn.Has(pneumatics.Loading) {
			return p.Name
		}
	}
	return ""
}

// shuttleLetsGo says that a quick-exhaust valve empties into the barrel without any fault,
// because its inlet has an open way out in a state that is not firing; nil: none does.
func shuttleLetsGo(l *launcher.Launcher) finding.Text {
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind != pneumatics.QuickExhaust || p.To != "barrel" {
			continue
		}
		var c pneumatics.Circuit
		l.Fill(&c)
		for _, s := range []pneumatics.State{pneumatics.Loading, pneumatics.Armed, pneumatics.Charging} {
			left := pneumatics.Residual(&c, &pneumatics.Scenario{From: s, To: s})
			if inlet := c.Paths[i].Balance.Pilot; inlet >= 0 && !math.IsInf(left[inlet], 1) {
				return finding.Say("the inlet of paths.%s, %s, has an open way out while %s: it lets go, and %s is shot through paths.%s without "+
					"any fault", p.Other, l.NodeName(inlet), s, p.From, p.Name)
			}
		}
	}
	return nil
}
