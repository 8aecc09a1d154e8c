package verdict

import (
	"fmt"
	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"strings"
)

// EnergyTotal judges the energy of the projectile.
func EnergyTotal(a *assessment.Assessment) finding.Verdict {
	total, _ := energyPair(a)
	return total
}

// EnergyArea judges the energy per contact area.
func EnergyArea(a *assessment.Assessment) finding.Verdict {
	_, area := energyPair(a)
	return area
}

// energyPair judges both: measurements bear on them together.
func energyPair(a *assessment.Assessment) (total, area finding.Verdict) {
	total = finding.NewVerdict(finding.EnergyTotal, "Energy of the projectile, worst case", finding.InJoule)
	area = finding.NewVerdict(finding.EnergyArea, "Energy per contact area, worst case", finding.InJoulePerArea)
	total.Source, total.Caveat = a.Limits.Total.Source, a.Limits.Total.Caveat
	area.Source, area.Caveat = a.Limits.Area.Source, a.Limits.Area.Caveat
	if why := a.EnergyUnknown(); why != "" {
		total.Unknown(finding.Words(why))
		area.Unknown(finding.Words(why))
		return total, area
	}
	e := a.Energy
	total.Basis, area.Basis = e.Basis, e.Basis
	total.Judge(e.Judged, e.Limit)
	total.Why = finding.Words(worstWhy(e))
	if total.Status == finding.Fail {
		total.Advice = finding.Words(energyAdvice(a, e.Limit/e.Judged))
	} else if e.Basis == finding.OnModel {
		total.Advice = finding.Words("On the model: confirm with at least 5 measured shots before anyone plays.")
	}
	judgeArea(a, &area)
	measuredVerdict(a, &total, &area)
	return total, area
}

func judgeArea(a *assessment.Assessment, area *finding.Verdict) {
	e := a.Energy
	switch {
	case !a.Limits.AreaApplies(e.Judged):
		area.NotApplicable(finding.Say("the worst energy, %s, is at or below the floor of %s, where no energy per area is judged",
			finding.Joule(e.Judged), finding.Joule(a.Limits.Floor.Value)))
	case e.ContactArea == 0:
		area.Unknown(finding.Words("projectile.contact_diameter is not stated: measure the print that the tip leaves (ink, paper over a board)"))
	default:
		area.Judge(e.AreaJudged, e.AreaLimit)
		area.Why = finding.Say("%s on the smallest contact print, %s across", finding.Joule(e.Judged), finding.Millimetre(a.Launcher.Projectile.ContactDiameter.Low))
		if area.Status == finding.Fail {
			area.Advice = finding.Say("Less energy, or a larger contact print: at least %s across at this energy.",
				finding.Millimetre(math.Sqrt(4*e.Judged/(math.Pi*e.AreaLimit))))
		}
	}
}

func worstWhy(e *worst.EnergyReport) string {
	if e.Basis == finding.OnCeiling {
		return fmt.Sprintf("no valve or friction can make more of the air: at most %s", finding.Joule(e.Ceiling))
	}
	w := fmt.Sprintf("the hardest of %d shots over all tolerances gives %s; times the model factor %.3g", e.Runs, finding.Joule(e.WorstEnergy), e.Factor)
	if e.Worst.Outcome == pneumatics.TimeRanOut.String() {
		w += " (a shot that does not end: counted with all that its air can still give)"
	}
	return w
}

// energyAdvice names what to change when the energy is too high by 1/share.
func energyAdvice(a *assessment.Assessment, share float64) string {
	s := fmt.Sprintf("The energy must fall to %s of this: lower the cut-out, or use less travel, a smaller dose, a smaller valve or a restrictor.", finding.Percent(share))
	if more := assumedAdvice(a.Launcher); more != "" {
		s += " " + more
	}
	return s
}

// assumedAdvice names the assumed bands that bear on the shot.
func assumedAdvice(l *launcher.Launcher) string {
	var keys []string
	for _, b := range worst.ShotBands(l) {
		if b != nil && b.Set && b.Assumed && b.Width() > 0 {
			keys = append(keys, b.Key)
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
