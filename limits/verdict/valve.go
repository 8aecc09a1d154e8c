package verdict

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// valveDifferential judges whether the firing valve opens at the lowest working
// pressure.
func valveDifferential(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = "the valve's data sheet as stated in the design", finding.OnData
	var need launcher.Band
	for i := range a.Launcher.Paths {
		p := &a.Launcher.Paths[i]
		fires := p.OpenIn.Has(pneumatics.Firing) || p.Kind == pneumatics.QuickExhaust && p.To == "barrel"
		if fires && p.MinDifferential.Set && (!need.Set || p.MinDifferential.High > need.High) {
			need = p.MinDifferential
		}
	}
	if fires := unsaidDrives(a.Launcher, firesOrFeeds); !need.Set && len(fires) > 0 {
		v.JudgeLower(0, 0)
		v.Why = finding.Words("none is said to need a pressure across it")
		directWhile(v, fires, finding.ItemShotsWeak)
		return
	}
	if !need.Set {
		v.NotApplicable(finding.Words("no firing valve is declared as piloted and none states a least differential"))
		return
	}
	low := 0.0
	if a.Launcher.Switch != nil && a.Launcher.Switch.CutIn.Set {
		low = a.Launcher.Switch.CutIn.Low
	}
	v.JudgeLower(low, need.High)
	if v.Status == finding.Pass {
		return
	}
	why := finding.Say("below %s the valve may stay shut or open slowly; the launcher can be fired from %s",
		finding.Bar(need.High), finding.Bar(low))
	if need.Assumed && need.Line == 0 {
		v.Unknown(why.Say("; the figure is assumed: read it off the data sheet (min_differential)"))
		return
	}
	v.Why = why
	v.Advice = finding.Words("A direct-acting valve, or a higher cut-in.")
}

// firesOrFeeds tells that a valve opens to fire.
func firesOrFeeds(p *launcher.PathSpec) bool { return p.OpenIn.Has(pneumatics.Firing) }

// letsOut tells that a valve leads into the open.
func letsOut(p *launcher.PathSpec) bool { return p.To == "atmosphere" || p.From == "atmosphere" }

// unsaidDrives names the valves of a kind that current moves, and of which nobody says whether a pilot does: they open as slowly as piloted
// ones, and may need a pressure across them as those do.
func unsaidDrives(l *launcher.Launcher, of func(*launcher.PathSpec) bool) (names []string) {
	const direct = 0.04 // s, the longest usual opening of one that is said to be direct
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind == pneumatics.Valve && p.Usual > direct && !p.Piloted && !p.MinDifferential.Set && of(p) {
			names = append(names, "paths."+p.Name)
		}
	}
	return names
}

// directWhile lets a verdict hold only while valves of which no drive is stated open without a pressure across them.
func directWhile(v *finding.Verdict, names []string, item string) {
	alsoWhile(v, finding.Say("each of these opens without a pressure across it, as its label says or this item shows; a piloted valve may "+
		"stay shut, and drive is not stated: %s", strings.Join(names, ", ")), []string{item})
	if len(v.Advice) == 0 {
		v.Advice = finding.Words(`State drive = "direct" or "piloted", off the valve's label or data sheet.`)
	}
}

// onVents are the verdicts that rest on vents which open at any pressure.
var onVents = []string{finding.VentShutdown, finding.VentPowerLoss, finding.VentTrapped, finding.LoadingEmpty}

// holdsIfDirect lets a verdict on the emptying hold only while the vents of which no drive is stated need no pressure to open: those that
// are said to be piloted are followed to where they shut.
func holdsIfDirect(l *launcher.Launcher, v *finding.Verdict) {
	if !v.Holds() || l == nil || !slices.Contains(onVents, v.ID) {
		return
	}
	if vents := unsaidDrives(l, letsOut); len(vents) > 0 {
		directWhile(v, vents, finding.ItemVentTest)
	}
}

// holdsIfStopped lets a verdict on the working pressure hold only while the supply stops with its switch, where how much it delivers is not
// stated: how far it fills on until it stands still is then not counted.
func holdsIfStopped(l *launcher.Launcher, v *finding.Verdict) {
	passes := v.Holds()
	if l == nil || l.Switch == nil || l.Supply == nil || l.Supply.DeliveryKnown() || !passes ||
		!slices.Contains(onWorking[:], v.ID) && v.ID != finding.LadderOrder && v.ID != finding.EnergyFault {
		return
	}
	alsoWhile(v, finding.Say("the gauge comes to rest at no more than %s once the switch has stopped the supply (%s is not stated, so nobody "+
		"knows how far it fills on)", finding.WorstBar(l.Switch.CutOut.High), finding.Key("supply.free_air")), []string{finding.ItemSwitchTest})
	if len(v.Advice) == 0 {
		v.Advice = finding.Words("State supply.free_air, off the label or timed.")
	}
}

// storedEnergy judges what a burst of all vessels would let loose, by a named formula, against the mark of high stored
// energy. Apart from it, a vessel whose rated pressure times volume is beyond sound engineering practice holds on its
// marking and its document: a home-made one has neither.
func storedEnergy(a *assessment.Assessment, v *finding.Verdict) {
	limit, pv := benchmark.BenchmarkOf(benchmark.HighStoredEnergy), benchmark.BenchmarkOf(benchmark.SoundPracticePV)
	v.Source = limit.Source() + "; " + pv.Source()
	v.Caveat = finding.Words("isentropic expansion (Baker); a burst can do less or, by Brode's figure, more")
	l := a.Launcher
	var total float64
	var marked, homeMade, unrated []finding.Text
	var silent []string
	for i, p := range l.VesselPressures() {
		if math.IsNaN(p.Fault) {
			v.Unknown(finding.Say("missing: %s", p.Why))
			return
		}
		vessel := &l.Volumes[i]
		volume := vessel.Volume.High
		total += benchmark.StoredEnergy(volume, p.Fault, l.Ambient.Pressure.Low, l.GasModel().Gamma)
		rated := vessel.RatedPressure.High
		switch {
		case !vessel.RatedPressure.Set && p.Fault*volume > pv.Value:
			unrated = append(unrated, finding.Say("%s, %s at its highest pressure", vessel.Name, barLitres(p.Fault*volume)))
		case !vessel.RatedPressure.Set:
			silent = append(silent, vessel.Name)
		case rated*volume <= pv.Value:
		case vessel.HomeMade():
			homeMade = append(homeMade, finding.Say("%s, %s", vessel.Name, barLitres(rated*volume)))
		default:
			marked = append(marked, finding.Say("%s, %s", vessel.Name, barLitres(rated*volume)))
		}
	}
	rule := finding.Say("rated pressure times volume above %s", barLitres(pv.Value))
	v.Judge(total, limit.Value)
	v.Why = finding.Words("of all vessels at their highest pressure, by Baker's formula")
	switch {
	case len(homeMade) > 0:
		v.Status = finding.Fail
		v.Why = v.Why.Say("; %s in a home-made vessel: %s", rule, finding.Join(homeMade, "; "))
		v.Advice = finding.Words("A vessel with a maker's marking and document for that pressure and volume, or a smaller one.")
		return
	case v.Status == finding.Fail:
	case len(unrated) > 0:
		v.Unknown(finding.Say("missing: the rated pressure of %s", finding.Join(unrated, "; ")))
	case len(marked) > 0:
		v.Why = v.Why.Say("; %s: %s", rule, finding.Join(marked, "; "))
		v.HoldsWhile(finding.Words("each of these vessels bears the marking that its law asks for, and its document lies beside this file"),
			finding.ItemLabels)
	}
	if len(silent) > 0 && v.Holds() {
		alsoWhile(v, finding.Say("what is printed on those whose rating is not stated shows no %s, or the marking for it: %s", rule,
			strings.Join(silent, ", ")), []string{finding.ItemLabels})
	}
	v.Mend("Beyond home practice: smaller vessels or less pressure, or a licensed engineer.")
}

// barLitres is a pressure times a volume [J], in the unit in which pressure equipment
// law states its limit.
func barLitres(pv float64) finding.Shown {
	return finding.Shown{Value: pv, Unit: finding.BarLitres, Digits: 2}
}
