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
	if names := turnedToLoad(a.Launcher); len(names) > 0 && v.Status == finding.Pass {
		v.HoldsWhile(finding.Say("who loads first turns by hand what has to stand otherwise while loading (%s), and reads the gauge",
			strings.Join(names, ", ")),
			finding.ItemLoadingWait)
	}
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

// waitWords says how long the vents of state loading take.
func waitWords(air *vent.Loading) finding.Text {
	names := strings.Join(air.Names, ", ")
	switch {
	case names == "":
		return nil
	case math.IsInf(air.Wait, 1):
		return finding.Say("; %s does not get to the target", names)
	}
	return finding.Say("; wait %s after the last charge: %s empties that long",
		finding.Second(math.Ceil(air.Wait)).In(finding.Shortest, 4), names)
}
