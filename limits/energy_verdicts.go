package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// energyTotal judges the energy of the projectile.
func energyTotal(a *Assessment) Verdict {
	total, _ := energyPair(a)
	return total
}

// energyArea judges the energy per contact area.
func energyArea(a *Assessment) Verdict {
	_, area := energyPair(a)
	return area
}

// energyPair judges both: measurements bear on them together.
func energyPair(a *Assessment) (total, area Verdict) {
	total = newVerdict(EnergyTotal, "Energy of the projectile, worst case", InJoule)
	area = newVerdict(EnergyArea, "Energy per contact area, worst case", InJoulePerArea)
	total.Source, total.Caveat = a.Limits.Total.Source, a.Limits.Total.Caveat
	area.Source, area.Caveat = a.Limits.Area.Source, a.Limits.Area.Caveat
	if why := a.energyUnknown(); why != "" {
		total.unknown(why)
		area.unknown(why)
		return total, area
	}
	e := a.Energy
	total.Basis, area.Basis = e.Basis, e.Basis
	total.judge(e.Judged, e.Limit)
	total.Why = worstWhy(e)
	if total.Status == Fail {
		total.Advice = energyAdvice(a, e.Limit/e.Judged)
	} else if e.Basis == OnModel {
		total.Advice = "On the model: confirm with at least 5 measured shots before anyone plays."
	}
	judgeArea(a, &area)
	measuredVerdict(a, &total, &area)
	return total, area
}

func judgeArea(a *Assessment, area *Verdict) {
	e := a.Energy
	switch {
	case !a.Limits.AreaApplies(e.Judged):
		area.notApplicable(fmt.Sprintf("the worst energy, %s, is at or below the floor of %s, where no energy per area is judged",
			joule(e.Judged), joule(a.Limits.Floor.Value)))
	case e.ContactArea == 0:
		area.unknown("projectile.contact_diameter is not stated: measure the print that the tip leaves (ink, paper over a board)")
	default:
		area.judge(e.AreaJudged, e.AreaLimit)
		area.Why = fmt.Sprintf("%s on the smallest contact print, %s across", joule(e.Judged), millimetre(a.Launcher.Projectile.ContactDiameter.Low))
		if area.Status == Fail {
			area.Advice = fmt.Sprintf("Less energy, or a larger contact print: at least %s across at this energy.",
				millimetre(math.Sqrt(4*e.Judged/(math.Pi*e.AreaLimit))))
		}
	}
}

// energyUnknown says why the energies cannot be judged; "" where they can.
func (a *Assessment) energyUnknown() string {
	switch {
	case a.NoStart != "":
		return a.NoStart
	case a.Normal == nil || !a.Normal.result.Found:
		return "no shot of the tolerance box could be computed"
	case a.Energy.Basis != OnCeiling && a.Normal.undetermined() &&
		a.Energy.Judged <= a.Energy.Limit: // a failure is one all the same
		return fmt.Sprintf("%d of %d shots in the tolerance box could not be computed", a.Normal.result.Undefined, a.Normal.result.Evaluations)
	case a.Energy.Basis == OnModel:
		return a.Launcher.beyondStudy()
	}
	return ""
}

func worstWhy(e *EnergyReport) string {
	if e.Basis == OnCeiling {
		return fmt.Sprintf("no valve or friction can make more of the air: at most %s", joule(e.Ceiling))
	}
	w := fmt.Sprintf("the hardest of %d shots over all tolerances gives %s; times the model factor %.3g", e.Runs, joule(e.WorstEnergy), e.Factor)
	if e.Worst.Outcome == pneumatics.TimeRanOut.String() {
		w += " (a shot that does not end: counted with all that its air can still give)"
	}
	return w
}

// energyAdvice names what to change when the energy is too high by 1/share.
func energyAdvice(a *Assessment, share float64) string {
	s := fmt.Sprintf("The energy must fall to %s of this: lower the cut-out, or use less travel, a smaller dose, a smaller valve or a restrictor.", percent(share))
	if more := assumedAdvice(a.Launcher); more != "" {
		s += " " + more
	}
	return s
}

// assumedAdvice names the assumed bands that bear on the shot.
func assumedAdvice(l *Launcher) string {
	var keys []string
	for _, b := range shotBands(l) {
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
