package verdict

import (
	"fmt"
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// energyTotal judges the energy of the projectile.
func energyTotal(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Caveat = a.Limits.Total.Source, a.Limits.Total.Caveat
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	e := a.Energy
	v.Basis = e.Basis
	v.Judge(e.Judged, e.Limit)
	v.Why = worstWhy(e)
	if one := e.DecidingEntered(); one != nil {
		v.Why = finding.Say("%s shoots harder than firing, without any fault: %s; %s, times the model factor %.3g (shot.unasked)",
			one.Does(), one.Opens(), finding.WorstJoule(one.Energy), one.Judged/one.Energy)
	}
	if v.Status == finding.Fail {
		v.Advice = energyAdvice(a, e.Limit/e.Judged)
	} else if e.Basis == finding.OnModel {
		v.Advice = finding.Words("On the model: confirm with at least 5 measured shots before anyone plays.")
	}
	totalMeasured(a, v)
	neverBySlowness(a, v)
	supplyContradicted(a.Launcher, v)
}

// supplyContradicted leaves open what a test of the supply contradicts, where neither the ladder nor the relief valve's capacity says so:
// there the supply is all that the pressure hangs on.
func supplyContradicted(l *launcher.Launcher, v *finding.Verdict) {
	if l.Switch != nil || l.ReliefOnSupply() >= 0 || v.Status == finding.Fail || v.Status == finding.Unknown {
		return
	}
	if clash := l.BenchClash("supply."); len(clash) > 0 {
		v.Unknown(clash)
		v.Advice = finding.Words("Repeat the bench test, then correct the design or the readings.")
	}
}

// neverBySlowness takes back what holds where no shot over the tolerances is faster than it creeps, whatever holds it: how hard the
// projectile is shot once that gives way is not known.
func neverBySlowness(a *assessment.Assessment, v *finding.Verdict) {
	e := a.Energy
	if e == nil || !e.ModelCounts() || !e.Slow() || v.Status == finding.Fail || v.Status == finding.Unknown {
		return
	}
	how := finding.Words("no shot over all tolerances leaves")
	if e.Worst.Outcome == pneumatics.Left.String() {
		how = finding.Say("the fastest of all shots over the tolerances creeps out at %s", finding.Speed(e.Worst.FinalSpeed))
	}
	v.Unknown(how.Say(", and nothing passes by being slow: the air that gets there could do up to %s", finding.WorstJoule(e.Ceiling)))
	v.Advice = finding.Words("Measure what holds it back by the design: friction, the flow of the firing valve, the mass. Or shoot: five " +
		"measured shots decide.")
}

// energyArea judges the energy per contact area.
func energyArea(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Caveat = a.Limits.Area.Source, a.Limits.Area.Caveat
	if v.UnknownFor(a.EnergyUnknown()) {
		return
	}
	e := a.Energy
	v.Basis = e.Basis
	switch {
	case !a.Limits.AreaApplies(e.Judged):
		v.NotApplicable(finding.Say("the worst energy, %s, is at or below the floor of %s, where no energy per area is judged",
			finding.WorstJoule(e.Judged), finding.Joule(a.Limits.Floor.Value)))
	case e.ContactArea == 0:
		v.Unknown(finding.Key("projectile.contact_diameter").Say(
			" is not stated: measure the print that the tip leaves (ink, paper over a board)"))
	default:
		v.Judge(e.AreaJudged, e.AreaLimit)
		v.Why = finding.Say("%s on the smallest contact print, %s across",
			finding.WorstJoule(e.Judged), finding.Millimetre(a.Launcher.Projectile.ContactDiameter.Low))
		if v.Status == finding.Fail {
			v.Advice = finding.Say("Less energy, or a larger contact print: at least %s across at this energy.",
				finding.Millimetre(math.Sqrt(4*e.Judged/(math.Pi*e.AreaLimit))))
		}
	}
	areaMeasured(a, v)
	neverBySlowness(a, v)
	if a.Limits.Tip != launcher.ResilientTip && v.Status != finding.Fail && v.Status != finding.Unknown {
		v.HoldsWhile(finding.Say("its tip, which counts as rigid, is rounded to at least %s everywhere, without a point or an edge: the area "+
			"of a point is none", finding.Millimetre(benchmark.BenchmarkOf(benchmark.TipRadius).Value)), finding.ItemTipRadius)
	}
}

// worstWhy says what the energy that is judged comes from.
func worstWhy(e *worst.EnergyReport) finding.Text {
	if e.Basis == finding.OnCeiling {
		return finding.Say("no valve or friction can make more of the air: at most %s", finding.WorstJoule(e.Ceiling))
	}
	why := finding.Say("the hardest of %d shots over all tolerances gives %s; times the model factor %.3g", e.Runs,
		finding.WorstJoule(e.WorstEnergy), e.Factor)
	if e.Worst.Outcome == pneumatics.TimeRanOut.String() {
		return why.Say(" (a shot that does not end: counted with all that its air can still give)")
	}
	return why
}

// energyAdvice names what to change when the energy is too high by 1/share.
func energyAdvice(a *assessment.Assessment, share float64) finding.Text {
	advice := finding.Say("The energy must fall to %s of this: lower the cut-out, or use less travel, a smaller dose, a smaller valve or a "+
		"restrictor.",
		finding.Percent(share))
	if more := assumedAdvice(a.Launcher); more != "" {
		return advice.Say(" %s", more)
	}
	return advice
}

// assumedAdvice names the assumed bands that bear on the shot.
func assumedAdvice(l *launcher.Launcher) string {
	var keys []string
	for _, q := range catalogue.ShotCoordinates(l) {
		if low, high := q.Stated(); q.Band.Assumed && high > low {
			keys = append(keys, q.Key)
		}
	}
	if len(keys) == 0 {
		return ""
	}
	if len(keys) > 4 {
		keys = append(keys[:4], fmt.Sprintf("%d more", len(keys)-4))
	}
	return "Or measure what is only assumed: " + strings.Join(keys, ", ") + "."
}
