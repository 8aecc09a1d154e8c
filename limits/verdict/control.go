package verdict

import (
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// anyControl tells whether the wiring is stated.
func anyControl(a *assessment.Assessment) bool { return a.Launcher.Control != nil }

// notWired lists what is not known of the wiring: keys without a value, and what has a coil and stands nowhere in it.
func notWired(l *launcher.Launcher) []string {
	out := l.Control.Unknown()
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Valve && !p.Way.Exhausts() && !l.Control.Moves(p.Name) {
			out = append(out, "which load of [control] moves paths."+p.Name)
		}
		if p := &l.Paths[i]; p.Unpowered == pneumatics.Stays && l.Control.Moves(p.Name) {
			out = append(out, "which coil drives paths."+p.Name+` which way, for without current it stays (unpowered = "stays")`)
		}
	}
	if s := l.Supply; s != nil && s.Kind == launcher.Compressor && !l.Control.Moves(control.Supply) {
		out = append(out, "which load of [control] moves the supply")
	}
	return out
}

// wiringKnown makes a verdict unknown where the wiring is not known.
func wiringKnown(a *assessment.Assessment, v *finding.Verdict) bool {
	v.Basis = finding.OnCircuit
	if open := notWired(a.Launcher); len(open) > 0 {
		v.Unknown(finding.Words("not known: " + strings.Join(open, ", ")))
		v.Advice = toState(open)
		return false
	}
	return true
}

// toState says how what is not known of a wiring is found and stated.
func toState(open []string) finding.Text {
	var each []finding.Text
	for _, way := range []struct{ of, do string }{
		{".through", "through: from the part's terminal follow the wire back to the fuse, and list each contact that it passes, the fuse first"},
		{".closed_in", "closed_in: with a meter across a contact, the states in which it is closed"},
		{"which load of ", `for what no load moves: [control.NAME] with kind = "load", its name in moves, and its through`},
		{"which coil ", "a valve that stays where it is without current cannot be followed: take one that springs back, and state unpowered"},
	} {
		if slices.ContainsFunc(open, func(what string) bool { return strings.Contains(what, way.of) }) {
			each = append(each, finding.Words(way.do))
		}
	}
	return finding.Say("To state it: %s. puffproof keys control explains each key.", finding.Join(each, "; "))
}

// inUse are the states in which something may have current.
func inUse() []pneumatics.State {
	return []pneumatics.State{pneumatics.Off, pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing}
}

// controlStop counts the loads that have current with the stop pressed, whichever contact is welded, and whichever contact, coil or fuse
// gives no current: a stop that pulls a relay in needs it. Where a wire that several hang on would take the stop away at plus, it holds
// only while that does not happen.
func controlStop(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project, after ISO 13850 and ISO 13849-1, category 3: one fault does not take the stop away (from memory)"
	if !wiringKnown(a, v) {
		return
	}
	w := a.Launcher.Control
	var still, by []string
	note := func(loads []int, cause string) {
		for _, i := range loads {
			if name := w.Parts[i].Name; !slices.Contains(still, name) {
				still, by = append(still, name), append(by, cause)
			}
		}
	}
	welds, dead := slices.Concat(w.Welds(), w.Stuck()), slices.Concat(w.Opens(), w.Losses())
	for _, s := range inUse() {
		note(w.Stopped(s), "whatever is welded")
	}
	for _, f := range slices.Concat(welds, dead) {
		how := " welded"
		switch {
		case f.Mode == control.Lost:
			how = " without current"
		case f.Mode == control.Broken && f.No == 0:
			how = " blown"
		case f.Mode == control.Broken:
			how = " not closing"
		case f.No == 0:
			how = " stuck"
		}
		for _, s := range inUse() {
			note(w.Stopped(s, f), "with "+w.Named(f)+how)
		}
	}
	v.Judge(float64(len(still)), 0)
	v.Why = finding.Say("pressed in any state, each stop takes the current from all %d loads, with any one of %d contacts, "+
		"relays and parts moved by hand stuck closed too, and with any one of %d contacts, coils and fuses that gives no current",
		len(w.Loads()), len(welds), len(dead))
	if len(still) > 0 {
		each := make([]string, len(still))
		for i := range still {
			each[i] = still[i] + " keeps its current " + by[i]
		}
		v.Why = finding.Words("the stop pressed: " + strings.Join(each, "; "))
		v.Advice = finding.Words("Two contacts of the stop, each in the way of a relay of its own, and a contact of both relays in the way of " +
			"every load.")
		return
	}
	if wires := sharedWires(w); len(wires) > 0 {
		v.HoldsWhile(finding.Words("the wire behind "+strings.Join(wires, ", ")+", on which several parts hang, touches no wire at plus"),
			finding.ItemKeyAndStop)
		v.Advice = finding.Words("A contact of both relays for each load, so that no wire carries several; wires sleeved and apart.")
	}
}

// sharedWires names the contacts behind which a wire, once at plus, keeps current on what the stop cuts otherwise.
func sharedWires(w *control.Wiring) (out []string) {
	for _, f := range w.SharedWires() {
		if slices.ContainsFunc(inUse(), func(s pneumatics.State) bool { return len(w.Stopped(s, f)) > 0 }) {
			out = append(out, w.Named(f))
		}
	}
	return out
}

// controlRestart counts the loads that start again by themselves.
func controlRestart(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project, after ISO 13850 4.1.4 and IEC 60204-1 7.5: neither a released stop nor the power that returns " +
		"starts " +
		"anything (from memory)"
	if !wiringKnown(a, v) {
		return
	}
	w := a.Launcher.Control
	var again []string
	released, returned := w.StartsAgain()
	for _, i := range slices.Concat(released, returned) {
		if name := w.Parts[i].Name; !slices.Contains(again, name) {
			again = append(again, name)
		}
	}
	v.Judge(float64(len(again)), 0)
	v.Why = finding.Words("the stop released, or the power back, nothing has current until the start button is pressed")
	if len(again) > 0 {
		v.Why = finding.Words("the stop released, or the power back, without anybody pressing anything: " + strings.Join(again, ", "))
		v.Advice = finding.Words("A relay that holds itself: its own contact beside the start button, the stop in its way.")
	}
}

// controlFuses counts what is not protected by a fuse below its wire's rating.
func controlFuses(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "common practice, after IEC 60364-4-43, 433.1 (from memory): the fuse not above what the thinnest wire behind it bears"
	v.Basis = finding.OnData
	if !wiringKnown(a, v) {
		return
	}
	var bad []finding.Text
	var open []string
	for _, t := range a.Launcher.Control.Fuses() {
		switch t.Trouble {
		case control.RatingUnknown:
			open = append(open, t.Part)
		case control.NoFuse:
			bad = append(bad, finding.Say("no fuse stands first in the way of %s", t.Part))
		case control.AboveAny:
			bad = append(bad, finding.Say("%s has %s, and what the wire behind it bears is not known: none bears more than %s (10 mm2 of copper, "+
				"from memory)", t.Part, finding.Ampere(t.Rating), finding.Ampere(t.Wire)))
		default:
			bad = append(bad, finding.Say("%s has %s, and the thinnest wire behind it bears %s", t.Part, finding.Ampere(t.Rating),
				finding.Ampere(t.Wire)))
		}
	}
	if len(bad) == 0 && len(open) > 0 {
		v.Unknown(finding.Words("not known: rating or wire_rating of " + strings.Join(open, ", ")))
		v.Advice = finding.Words("To state it: as rating what is printed on the fuse, as wire_rating what the thinnest wire behind it bears " +
			"for good. puffproof keys control lists what usual wires bear.")
		return
	}
	v.Judge(float64(len(bad)), 0)
	v.Why = finding.Words("every relay and load has a fuse first in its way, none above what the wire behind it bears")
	if len(bad) > 0 {
		v.Why = finding.Join(bad, "; ")
		v.Advice = finding.Words("A fuse next to the source for each wire that leaves it, not above the rating of the thinnest wire behind it.")
	}
}
