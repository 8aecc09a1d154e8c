package verdict

import (
	"fmt"
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// loadingEmpty judges the barriers while hands are at the muzzle: the barrel is
// vented, and two shut barriers, or one and a vent, stand between them and every
// volume that holds air.
func loadingEmpty(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project"
	v.Caveat = finding.Words("a barrier is a shut valve, or a check valve against its direction; a vent counts as one where at least one " +
		"valve is shut")
	const wanted = 2.0
	g := vent.NewLoadingGraph(a.Launcher, a.Loading)
	volume, barriers, shut, vented := g.Weakest()
	switch {
	case !math.IsInf(barriers, 1):
		v.JudgeLower(min(barriers, 9), wanted)
		v.Why = finding.Say("from %s to the barrel: %s", volume, barrierWords(shut, vented))
		if v.Status == finding.Fail {
			v.Why = v.Why.And(restWords(a, volume))
			v.Advice = finding.Words("A vent that is open in state loading on the volume before the firing valve (open_in with \"loading\"), " +
				"and a shut valve before it.")
			if len(a.Loading.Late) > 0 {
				v.Advice = finding.Say("A wider vent on %s: puffproof vent --size says which empties it in time.", strings.Join(a.Loading.Late, ", "))
			}
		}
	case g.LeastShut() < 1:
		v.JudgeLower(1, wanted)
		v.Why = finding.Words("every volume has an open way out, but no shut valve stands between them and the barrel")
		v.Advice = finding.Words("A firing valve that is shut while loading.")
	default:
		v.JudgeLower(wanted, wanted)
		v.Why = finding.Words("no volume holds air while loading: each has an open way out")
		if full := g.Full(); len(full) > 0 {
			v.Why = finding.Say("no way leads to the barrel from %s, where air is held while loading", strings.Join(full, ", "))
		}
	}
	v.Why = v.Why.And(waitWords(a.Loading))
	if v.Holds() && (restsOnAVent(a) || len(a.Loading.Slow) > 0) {
		afterTheWait(a, v)
	}
	if names := turnedToLoad(a.Launcher); len(names) > 0 && v.Holds() {
		alsoWhile(v, finding.Say("who loads first turns by hand what has to stand otherwise while loading (%s)%s", strings.Join(names, ", "),
			readsGauge(a.Launcher, a.Loading)), []string{finding.ItemLoadingWait})
	}
}

// restsOnAVent tells that less than two shut valves stand between some volume and the barrel while loading, were none of them empty: then
// it is a vent that keeps its air from the hands at the muzzle.
func restsOnAVent(a *assessment.Assessment) bool {
	_, barriers, _, _ := vent.NewLoadingGraph(a.Launcher, &vent.Loading{Empty: make([]bool, len(a.Loading.Empty))}).Weakest()
	return barriers < 2
}

// afterTheWait makes what holds by a vent that is open while loading hold only while people wait for it; where nobody knows how long that
// is, or how long they would, it is unknown. What is over in a moment needs no wait, unless no gauge shows that it is over.
func afterTheWait(a *assessment.Assessment, v *finding.Verdict) {
	switch air := a.Loading; {
	case !air.Known:
		v.Unknown(finding.Words("how high it may be filled is not known, and so not how long its vent takes before a hand may go to the muzzle"))
	case !(air.Until() > vent.Moment) && len(air.Unseen(a.Launcher)) == 0:
	case air.Until() > vent.Moment && math.IsNaN(vent.TimeAllowed(a.Launcher)):
		v.Unknown(finding.Say("missing: %s: how long does whoever loads wait for the vent", finding.KeyAs("venting.within", "[venting] within")))
	default:
		after := "charge"
		if len(air.Slow) > 0 {
			after = "charge or shot"
		}
		alsoWhile(v, finding.Say("no hand goes to the muzzle within %s of the last "+after+"%s",
			finding.Second(math.Ceil(air.Until())).In(finding.Shortest, 4), byTheClock(a.Launcher, air)), []string{finding.ItemLoadingWait})
	}
}

// byTheClock says that a clock alone tells the wait, for no gauge shows what empties; nil: one does.
func byTheClock(l *launcher.Launcher, air *vent.Loading) finding.Text {
	if names := air.Unseen(l); len(names) > 0 {
		return finding.Say(", by a clock: no gauge shows %s", strings.Join(names, ", "))
	}
	return nil
}

// readsGauge is what shows that the volumes which empty while loading have; nil: they have no gauge.
func readsGauge(l *launcher.Launcher, air *vent.Loading) finding.Text {
	if len(air.Unseen(l)) > 0 {
		return nil
	}
	return finding.Words(", and reads the gauge")
}

// turnedToLoad names the hand valves that have another position while loading than while it is charged or armed.
func turnedToLoad(l *launcher.Launcher) (names []string) {
	for i := range l.Paths {
		p := &l.Paths[i]
		open := p.OpenIn.Has(pneumatics.Loading)
		if p.Kind == pneumatics.HandValve && (open != p.OpenIn.Has(pneumatics.Charging) || open != p.OpenIn.Has(pneumatics.Armed)) {
			names = append(names, p.Name)
		}
	}
	return names
}

// restWords says what a volume holds while loading.
func restWords(a *assessment.Assessment, volume string) finding.Text {
	i, air := int(a.Launcher.Node(volume)), a.Loading
	if air.Empty[i] || !air.Known {
		return nil
	}
	return finding.Say("; it holds up to %s while loading", finding.WorstBar(air.Rest[i]))
}

// barrierWords counts the barriers on a way.
func barrierWords(shut float64, vented bool) string {
	s := fmt.Sprintf("%.0f shut", shut)
	if vented {
		s += " and a vent between"
	}
	return s
}

// waitWords says how long the vents of state loading take, and which take too long to count.
func waitWords(air *vent.Loading) (out finding.Text) {
	if names := strings.Join(air.Names, ", "); names != "" {
		out = finding.Say("; wait %s after the last charge: %s empties that long",
			finding.Second(math.Ceil(air.Wait)).In(finding.Shortest, 4), names)
	}
	if len(air.Slow) > 0 {
		out = out.Say("; shut only after %s: %s", finding.Second(air.Shuts), strings.Join(air.Slow, ", "))
	}
	late := strings.Join(air.Late, ", ")
	switch {
	case late == "":
	case len(air.Fine) > 0:
		out = out.Say("; %s counts as full: it would empty by %s alone, which is finer than %s and a grain blocks, and no gauge shows that", late,
			strings.Join(air.Fine, ", "), finding.Millimetre(vent.FinestWayOut))
	case math.IsInf(air.LateBy, 1):
		out = out.Say("; %s does not get to the target", late)
	default:
		out = out.Say("; %s counts as full: it takes %s to empty, longer than anybody waits (venting.within)", late,
			finding.Second(math.Ceil(air.LateBy)).In(finding.Shortest, 4))
	}
	return out
}
