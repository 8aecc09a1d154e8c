package verdict

import (
	"math"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// ladderOrder judges the smallest gap between rungs that must not touch.
func ladderOrder(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = "own rule of this project; relief valve against rating: "+
		""+benchmark.BenchmarkOf(benchmark.ReliefFullFlowShare).Source(), finding.OnRule
	if a.Launcher.Switch == nil {
		v.NotApplicable(noSwitch(a.Launcher))
		return
	}
	gaps, missing := gapsOf(a.Launcher)
	smallest, highest, at := math.Inf(1), 0.0, gap{}
	for _, g := range gaps {
		highest = max(highest, g.below)
		if room := g.top - g.below; room < smallest { // one that is not known is among the missing
			smallest, at = room, g
		}
	}
	v.JudgeLower(smallest, 0)
	margin := smallest / math.Max(at.top, 1)
	v.Margin = &margin
	v.Why = finding.Say("the smallest gap is between %s: %s below, %s above", at.what, finding.Bar3(at.below), finding.Bar3(at.top))
	switch {
	case v.Status == finding.Fail:
		v.Advice = finding.Words("Move the two apart: puffproof setpoint gives cut-out, cut-in and the window of the relief valve.")
	case len(missing) > 0:
		v.Unknown(finding.Say("missing: %s", finding.Join(missing, ", ")))
	default:
		unlessUnrated(a, v, highest)
		unlessFilledCold(a.Launcher, v, func(w *launcher.Launcher) bool {
			gaps, _ := gapsOf(w)
			return slices.ContainsFunc(gaps, func(g gap) bool { return g.top <= g.below })
		})
		if clash := a.Launcher.BenchClash("pressure_switch.", "supply."); len(clash) != 0 {
			v.Unknown(clash)
		}
	}
}

// noSwitch says what is the working pressure of a launcher without a pressure switch.
func noSwitch(l *launcher.Launcher) finding.Text {
	why := finding.Words("no pressure switch: ")
	switch l.Stops() {
	case launcher.StopMark:
		return why.Say("a person's mark on the gauge is the working pressure")
	case launcher.StopTimer:
		return why.Say("a timer ends the filling")
	case launcher.StopPrefill:
		return why.Say("it comes filled")
	case launcher.StopRelief:
		return why.Say("the relief valve's full flow is the working pressure")
	}
	return why.Say("the supply's dead head is the highest working pressure")
}

// reliefCapacity judges where supply and relief flow balance.
func reliefCapacity(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "ASME BPVC VIII-1 UG-125(c) and ISO 4126-1: capacity at the relieving pressure (V2: read in a secondary text)"
	v.Caveat = belowScope(a.Launcher)
	l := a.Launcher
	over := l.Overcharge()
	switch {
	case l.Supply == nil:
		v.NotApplicable(finding.Words("no supply in the design"))
	case l.ReliefOnSupply() < 0:
		v.NotApplicable(finding.Words("no relief valve on the supplied volume: at a fault the pressure is the supply's dead head"))
	case l.Supply.MostFreeAir() <= 0:
		v.Unknown(finding.Say("missing: %s", finding.Key("supply.free_air")))
	case !over.Known:
		v.Unknown(finding.Say("missing: %s", over.Why))
	default:
		v.Judge(over.Balance, over.FullFlow)
		v.Why = finding.Words("supply at its strongest and relief valve at its weakest balance here; full flow at the top of its tolerance")
		if l.Paths[l.ReliefOnSupply()].SteadyPressure.Set {
			v.Basis, v.Why = finding.OnData, over.Why
		}
		if v.Status == finding.Fail {
			v.Advice = finding.Words("A relief valve with a larger bore, a second one, or a weaker supply.")
		} else if clash := l.BenchClash("paths.", "supply."); len(clash) != 0 {
			v.Unknown(clash)
		}
	}
}

// belowScope says which of the standards on relief valves begin above the set pressures of a launcher: their figures are
// marks here, not rules.
func belowScope(l *launcher.Launcher) finding.Text {
	const isoBegins = 0.1e5 // [Pa gauge] ISO 4126-1, scope (from memory)
	low := math.Inf(1)
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			low = min(low, p.SetPressure.Low)
		}
	}
	switch asme := benchmark.BenchmarkOf(benchmark.ASMEScopePressure).Value; {
	case low < isoBegins:
		return finding.Say("ASME VIII-1 and API 520 begin above %s, ISO 4126-1 at %s (M: from memory): below that their figures are marks, "+
			"not rules",
			finding.Bar(asme), finding.Bar(isoBegins))
	case low < asme:
		return finding.Say("ASME VIII-1 and API 520 begin above %s (V2 and M): below that their figures are marks, not rules", finding.Bar(asme))
	}
	return nil
}

// reliefRating judges the pressure that the relief valve lets through against the
// lowest rating it protects.
func reliefRating(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = benchmark.BenchmarkOf(benchmark.ReliefFullFlowShare).Source(), finding.OnData
	l := a.Launcher
	switch {
	case l.Supply == nil && l.Prefilled() >= 0:
		v.NotApplicable(finding.Words("no supply in the design: it comes filled"))
		return
	case l.Supply == nil:
		v.Unknown(finding.Say("missing: %s", l.Overcharge().Why))
		return
	case l.ReliefOnSupply() < 0:
		v.NotApplicable(finding.Words("no relief valve on the supplied volume"))
		return
	}
	over := l.Overcharge()
	lowest, name, missing := math.Inf(1), "", ""
	joined := l.JoinedToSupply()
	for i, p := range l.Parts() {
		if i >= len(joined) || !joined[i] {
			continue
		}
		if !p.Rated.Set {
			missing = p.Name + ".rated_pressure"
			continue
		}
		if limit, _ := l.Rating(p); limit < lowest {
			lowest, name = limit, p.Name
		}
	}
	switch {
	case !over.Known:
		v.Unknown(finding.Say("missing: %s", over.Why))
		return
	case math.IsInf(lowest, 1):
		v.Unknown(finding.Say("missing: %s", finding.Key(missing)))
		return
	}
	v.Judge(over.Pressure, lowest)
	v.Why = finding.Say("the lowest rating is that of %s; %s", name, over.Why)
	switch {
	case v.Status == finding.Fail:
		v.Advice = finding.Words("A relief valve set lower or one that carries more, or parts with a higher rating.")
	case missing != "":
		v.Unknown(finding.Say("missing: %s", finding.Key(missing)))
	}
}

// switchBand judges the room between cut-in and cut-out.
func switchBand(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = "the switch's data as stated in the design", finding.OnData
	s := a.Launcher.Switch
	switch {
	case s == nil:
		v.NotApplicable(finding.Words("no pressure switch"))
	case !s.Differential.Set:
		v.Unknown(finding.Say("missing: %s, the smallest gap that it can be set to", finding.Key("pressure_switch.differential")))
	default:
		v.JudgeLower(s.CutOut.Low-s.CutIn.High, s.Differential.High)
		v.Why = finding.Say("cut-out at least %s, cut-in at most %s", finding.Bar3(s.CutOut.Low), finding.Bar3(s.CutIn.High))
		v.Mend("A lower cut-in, narrower tolerances (measure ten cycles), or a switch with a smaller differential: " +
			"it may never start, or chatter.")
	}
}

// heatSoak judges filled cold, sealed, left in the heat.
func heatSoak(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "ideal gas at constant volume: p = (p0 + pa) T/T0 - pa"
	l := a.Launcher
	soaked, ok := l.ReadyHigh()
	switch {
	case !l.Ambient.Hottest.Set:
		v.NotApplicable(finding.Words("ambient.hottest is not stated"))
		return
	case !ok:
		v.Unknown(finding.KeyAs("supply.dead_head", "the highest working pressure is not known"))
		return
	}
	limit, what := l.LowestRating(), "the lowest rating"
	if i := l.ReliefOnSupply(); i >= 0 && l.Paths[i].SetPressure.Low < limit && l.Stops() != launcher.StopRelief {
		limit, what = l.Paths[i].SetPressure.Low, "the low end of the relief valve"
	}
	if math.IsInf(limit, 1) {
		v.Unknown(finding.Words("missing: a rated_pressure, or a relief valve to compare with"))
		return
	}
	v.Judge(soaked, limit)
	v.Why = finding.Words("against " + what)
	if high, _ := l.NormalHigh(); soaked < l.SealedSoak(high) {
		v.Why = v.Why.Say("; a bleed that is always open lets out what heat adds")
	}
	unlessUnrated(a, v, soaked)
	unlessFilledCold(l, v, func(w *launcher.Launcher) bool {
		soaked, _ := w.ReadyHigh()
		return soaked > limit
	})
	v.Mend("A lower cut-out, shade, or empty it when it is not used. A relief valve that opens in the sun wastes air, " +
		"and nobody sees then that something else made it open.")
}

// unlessFilledCold lets a verdict on the heat hold only while it is not filled in the cold, where the design does not state how cold it may
// be, and filled at the cold that is assumed then it would not hold: the heat is counted from what is stated.
func unlessFilledCold(l *launcher.Launcher, v *finding.Verdict, fails func(*launcher.Launcher) bool) {
	c := l.Ambient.Coldest
	if !c.Set || !c.Assumed || !v.Holds() {
		return
	}
	w := l.Clone()
	if w.Ambient.Coldest.Assumed = false; !fails(w) {
		return
	}
	alsoWhile(v, finding.Say("it is never filled in air below %s and left in the heat: from the %s that is assumed, %s not being stated, "+
		"it would not hold", finding.Celsius.Of(l.Ambient.Temperature.Low, 3), finding.Celsius.Of(c.Low, 3), finding.Key("ambient.coldest")),
		[]string{finding.ItemColdDrain})
	v.Advice = finding.Words("State ambient.coldest, the coldest that it is used at.")
}

// sourceLimited judges whether the supply can exceed the limit at all: one that cannot
// needs no switch. One that can is no failure: switch and relief valve then do the work.
func sourceLimited(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = a.Limits.Total.Source, finding.OnModel
	l := a.Launcher
	switch {
	case l.Supply == nil:
		v.NotApplicable(finding.Words("no supply in the design"))
		return
	case !l.Supply.DeadHead.Set:
		v.NotApplicable(finding.Words("supply.dead_head is not stated, so it counts as able to exceed every limit"))
		return
	case l.Supply.Regulated():
		v.NotApplicable(finding.Say("the regulator can fail, and up to %s stand before it: other verdicts judge what holds it",
			finding.Bar(l.Supply.SourcePressure.High)))
		return
	case a.Normal == nil || !a.Normal.Result.Found:
		v.NotApplicable(finding.Words("the energy is not known"))
		return
	}
	high := l.Soak(l.Supply.DeadHead.High)
	if rating := l.LowestRating(); high > rating {
		v.NotApplicable(finding.Say("%s, above the lowest rating", pushesTo(l)))
		return
	}
	allowed, _ := a.Limits.Allowed(l.Projectile.ContactDiameter)
	energy := a.DeadHead
	if math.IsNaN(energy) || energy > allowed {
		v.NotApplicable(finding.Say("%s, which is too much: other verdicts judge what stops it", pushesTo(l)))
		return
	}
	v.Judge(energy, allowed)
	v.Why = finding.Say("even at its dead head of %s, left in the heat, as long as every other part does its work: what a fault adds is "+
		"energy.fault's question, and keeps switch and relief valve needed", finding.Bar(l.Supply.DeadHead.High))
	if v.Status == finding.Pass && l.Supply.Kind == launcher.HandPump {
		v.HoldsWhile(finding.Say("nobody pumps harder than to %s: what stops a pump by hand is a person's force, unless a relief valve does",
			finding.Bar(l.Supply.DeadHead.High)), finding.ItemPumpMark)
	}
}

// pushesTo says how far a supply can push, and what heat adds where it adds anything.
func pushesTo(l *launcher.Launcher) finding.Text {
	top := l.Supply.DeadHead.High
	if soaked := l.Soak(top); soaked > top {
		return finding.Say("it can push to %s, left in the heat to %s", finding.WorstBar(top), finding.WorstBar(soaked))
	}
	return finding.Say("it can push to %s", finding.WorstBar(top))
}
