package limits

import (
	"fmt"
	"math"
	"strings"
)

// ladderOrder judges the smallest gap between rungs that must not
// touch.
func ladderOrder(a *Assessment) Verdict {
	v := newVerdict(LadderOrder, "The ladder of pressures is in order", InPascalGauge)
	v.Source, v.Basis = "own rule of this project; relief valve against rating: "+BenchmarkOf(ReliefFullFlowShare).Source(), OnRule
	if a.Launcher.Switch == nil {
		v.notApplicable("no pressure switch: the supply's dead head is the working pressure")
		return v
	}
	gaps, missing := a.Launcher.gaps()
	smallest, at := math.Inf(1), gap{}
	for _, g := range gaps {
		if room := g.top - g.below; room < smallest { // one that is not known is among the missing
			smallest, at = room, g
		}
	}
	v.judgeLower(smallest, 0)
	margin := smallest / math.Max(at.top, 1)
	v.Margin = &margin
	v.Why = fmt.Sprintf("between %s: %s below, %s above", at.what, bar3(at.below), bar3(at.top))
	switch {
	case v.Status == Fail:
		v.Advice = "Move the two apart: puffproof setpoint gives cut-out, cut-in and the window of the relief valve."
	case len(missing) > 0:
		v.unknown("missing: " + strings.Join(missing, ", "))
	case a.Launcher.benchClash("pressure_switch.") != "":
		v.unknown(a.Launcher.benchClash("pressure_switch."))
	}
	return v
}

// reliefCapacity judges where supply and relief flow balance.
func reliefCapacity(a *Assessment) Verdict {
	v := newVerdict(ReliefCapacity, "The relief valve carries the supply", InPascalGauge)
	v.Source = "ASME BPVC VIII-1 UG-125(c) and ISO 4126-1: capacity at the relieving pressure (read in a secondary text)"
	l := a.Launcher
	over := l.Overcharge()
	switch {
	case l.Supply == nil:
		v.notApplicable("no supply in the design")
	case l.reliefOnSupply() < 0:
		v.notApplicable("no relief valve on the supplied volume: at a fault the pressure is the supply's dead head")
	case l.Supply.mostFreeAir() <= 0:
		v.unknown("missing: supply.free_air")
	case !over.Known:
		v.unknown("missing: " + over.Why)
	default:
		v.judge(over.Balance, over.FullFlow)
		v.Why = "supply at its strongest and relief valve at its weakest balance here; full flow at the top of its tolerance"
		if l.Paths[l.reliefOnSupply()].SteadyPressure.Set {
			v.Basis, v.Why = OnData, over.Why
		}
		if v.Status == Fail {
			v.Advice = "A relief valve with a larger bore, a second one, or a weaker supply."
		} else if clash := l.benchClash("paths.", "supply."); clash != "" {
			v.unknown(clash)
		}
	}
	return v
}

// reliefRating judges the pressure that the relief valve lets
// through against the lowest rating it protects.
func reliefRating(a *Assessment) Verdict {
	v := newVerdict(ReliefRating, "The relief valve protects its vessels", InPascalGauge)
	v.Source, v.Basis = BenchmarkOf(ReliefFullFlowShare).Source(), OnData
	l := a.Launcher
	switch {
	case l.Supply == nil:
		v.unknown("missing: " + l.Overcharge().Why)
		return v
	case l.reliefOnSupply() < 0:
		v.notApplicable("no relief valve on the supplied volume")
		return v
	}
	over := l.Overcharge()
	lowest, name, missing := math.Inf(1), "", ""
	joined := l.joinedToSupply()
	for i, p := range l.parts() {
		if i >= len(joined) || !joined[i] {
			continue
		}
		if !p.rated.Set {
			missing = p.name + ".rated_pressure"
			continue
		}
		if limit, _ := l.rating(p); limit < lowest {
			lowest, name = limit, p.name
		}
	}
	switch {
	case !over.Known:
		v.unknown("missing: " + over.Why)
		return v
	case math.IsInf(lowest, 1):
		v.unknown("missing: " + missing)
		return v
	}
	v.judge(over.Pressure, lowest)
	v.Why = "the lowest rating is that of " + name + "; " + over.Why
	switch {
	case v.Status == Fail:
		v.Advice = "A relief valve set lower or one that carries more, or parts with a higher rating."
	case missing != "":
		v.unknown("missing: " + missing)
	}
	return v
}

// switchBand judges the room between cut-in and cut-out.
func switchBand(a *Assessment) Verdict {
	v := newVerdict(SwitchBand, "Room between cut-in and cut-out", InPascalGauge)
	v.Source, v.Basis = "the switch's data as stated in the design", OnData
	s := a.Launcher.Switch
	switch {
	case s == nil:
		v.notApplicable("no pressure switch")
	case !s.Differential.Set:
		v.unknown("missing: pressure_switch.differential, the smallest gap that it can be set to")
	default:
		v.judgeLower(s.CutOut.Low-s.CutIn.High, s.Differential.High)
		v.Why = fmt.Sprintf("cut-out at least %s, cut-in at most %s", bar3(s.CutOut.Low), bar3(s.CutIn.High))
		if v.Status == Fail {
			v.Advice = "A lower cut-in, narrower tolerances (measure ten cycles), or a switch with a smaller differential: it may never start, or chatter."
		}
	}
	return v
}

// heatSoak judges filled cold, sealed, left in the heat.
func heatSoak(a *Assessment) Verdict {
	v := newVerdict(HeatSoak, "Filled and left in the heat", InPascalGauge)
	v.Source = "ideal gas at constant volume: p = (p0 + pa) T/T0 - pa"
	l := a.Launcher
	soaked, ok := l.SoakedHigh()
	switch {
	case !l.Ambient.Hottest.Set:
		v.notApplicable("ambient.hottest is not stated")
		return v
	case !ok:
		v.unknown("the highest working pressure is not known")
		return v
	}
	limit, what := l.lowestRating(), "the lowest rating"
	if i := l.reliefOnSupply(); i >= 0 && l.Paths[i].SetPressure.Low < limit {
		limit, what = l.Paths[i].SetPressure.Low, "the low end of the relief valve"
	}
	if math.IsInf(limit, 1) {
		v.unknown("missing: a rated_pressure, or a relief valve to compare with")
		return v
	}
	v.judge(soaked, limit)
	v.Why = "against " + what
	if v.Status == Fail {
		v.Advice = "A lower cut-out, shade, or empty it when it is not used. A relief valve that opens in the sun does no harm, but wastes air and hides a fault."
	}
	return v
}

// sourceLimited judges a supply that cannot exceed the limit needs
// no switch. A supply that can is no failure: switch and relief valve then do the
// work.
func sourceLimited(a *Assessment) Verdict {
	v := newVerdict(SourceLimited, "The supply cannot exceed the limit", InJoule)
	v.Source, v.Basis = a.Limits.Total.Source, OnModel
	l := a.Launcher
	switch {
	case l.Supply == nil:
		v.notApplicable("no supply in the design")
		return v
	case !l.Supply.DeadHead.Set:
		v.notApplicable("supply.dead_head is not stated, so it counts as able to exceed every limit")
		return v
	case a.Normal == nil || !a.Normal.result.Found:
		v.notApplicable("the energy is not known")
		return v
	}
	high := l.soak(l.Supply.DeadHead.High)
	if rating := l.lowestRating(); high > rating {
		v.notApplicable(fmt.Sprintf("it can push to %s, above the lowest rating", bar(high)))
		return v
	}
	allowed, _ := a.Limits.allowed(l.Projectile.ContactDiameter)
	energy := a.DeadHead
	if math.IsNaN(energy) || energy > allowed {
		v.notApplicable(fmt.Sprintf("it can push to %s, which is too much: switch and relief valve must do the work", bar(high)))
		return v
	}
	v.judge(energy, allowed)
	v.Why = fmt.Sprintf("even at its dead head of %s, left in the heat: no switch and no relief valve is needed", bar(l.Supply.DeadHead.High))
	return v
}
