package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/limits/search"
)

// ladderVerdicts judges the ladder of the design as it stands. It makes no
// search but for source.limited, and that a short one.
func (j *judge) ladderVerdicts() error {
	j.ladderOrder()
	j.reliefCapacity()
	j.reliefRating()
	j.switchBand()
	j.heatSoak()
	return j.sourceLimited()
}

// ladderOrder judges ladder.order: the smallest gap between rungs that must not
// touch.
func (j *judge) ladderOrder() {
	v := j.newVerdict("ladder.order", "The ladder of pressures is in order", InPascalGauge)
	v.Source, v.Basis = "own rule of this project; relief valve against rating: "+BenchmarkOf(ReliefFullFlowShare).Source(), OnRule
	defer func() { j.add(v) }()
	if j.Launcher.Switch == nil {
		v.notApplicable("no pressure switch: the supply's dead head is the working pressure")
		return
	}
	gaps, missing := j.gaps()
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
	case j.Launcher.benchClash("pressure_switch.") != "":
		v.unknown(j.Launcher.benchClash("pressure_switch."))
	}
}

// bar3 writes a pressure [Pa] so that neighbours of a ladder can be told apart.
func bar3(p float64) string { return fmt.Sprintf("%.3f bar", p/1e5) }

// reliefCapacity judges relief.capacity: where supply and relief flow balance.
func (j *judge) reliefCapacity() {
	v := j.newVerdict("relief.capacity", "The relief valve carries the supply", InPascalGauge)
	v.Source = "ASME BPVC VIII-1 UG-125(c) and ISO 4126-1: capacity at the relieving pressure (read in a secondary text)"
	defer func() { j.add(v) }()
	l := j.Launcher
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
}

// reliefRating judges relief.rating: the pressure that the relief valve lets
// through against the lowest rating it protects.
func (j *judge) reliefRating() {
	v := j.newVerdict("relief.rating", "The relief valve protects its vessels", InPascalGauge)
	v.Source, v.Basis = BenchmarkOf(ReliefFullFlowShare).Source(), OnData
	defer func() { j.add(v) }()
	l := j.Launcher
	switch {
	case l.Supply == nil:
		v.unknown("missing: " + l.Overcharge().Why)
		return
	case l.reliefOnSupply() < 0:
		v.notApplicable("no relief valve on the supplied volume")
		return
	}
	over := l.Overcharge()
	lowest, name, missing := math.Inf(1), "", ""
	joined := l.joinedToSupply()
	for i, p := range j.parts() {
		if i >= len(joined) || !joined[i] {
			continue
		}
		if !p.rated.Set {
			missing = p.name + ".rated_pressure"
			continue
		}
		if limit, _ := j.rating(p); limit < lowest {
			lowest, name = limit, p.name
		}
	}
	switch {
	case !over.Known:
		v.unknown("missing: " + over.Why)
		return
	case math.IsInf(lowest, 1):
		v.unknown("missing: " + missing)
		return
	}
	v.judge(over.Pressure, lowest)
	v.Why = "the lowest rating is that of " + name + "; " + over.Why
	switch {
	case v.Status == Fail:
		v.Advice = "A relief valve set lower or one that carries more, or parts with a higher rating."
	case missing != "":
		v.unknown("missing: " + missing)
	}
}

// switchBand judges switch.band: the room between cut-in and cut-out.
func (j *judge) switchBand() {
	v := j.newVerdict("switch.band", "Room between cut-in and cut-out", InPascalGauge)
	v.Source, v.Basis = "the switch's data as stated in the design", OnData
	defer func() { j.add(v) }()
	s := j.Launcher.Switch
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
}

// heatSoak judges heat.soak: filled cold, sealed, left in the heat.
func (j *judge) heatSoak() {
	v := j.newVerdict("heat.soak", "Filled and left in the heat", InPascalGauge)
	v.Source = "ideal gas at constant volume: p = (p0 + pa) T/T0 - pa"
	defer func() { j.add(v) }()
	l := j.Launcher
	soaked, ok := l.SoakedHigh()
	switch {
	case !l.Ambient.Hottest.Set:
		v.notApplicable("ambient.hottest is not stated")
		return
	case !ok:
		v.unknown("the highest working pressure is not known")
		return
	}
	limit, what := l.lowestRating(), "the lowest rating"
	if i := l.reliefOnSupply(); i >= 0 && l.Paths[i].SetPressure.Low < limit {
		limit, what = l.Paths[i].SetPressure.Low, "the low end of the relief valve"
	}
	if math.IsInf(limit, 1) {
		v.unknown("missing: a rated_pressure, or a relief valve to compare with")
		return
	}
	v.judge(soaked, limit)
	v.Why = "against " + what
	if v.Status == Fail {
		v.Advice = "A lower cut-out, shade, or empty it when it is not used. A relief valve that opens in the sun does no harm, but wastes air and hides a fault."
	}
}

// sourceLimited judges source.limited: a supply that cannot exceed the limit needs
// no switch. A supply that can is no failure: switch and relief valve then do the
// work.
func (j *judge) sourceLimited() error {
	v := j.newVerdict("source.limited", "The supply cannot exceed the limit", InJoule)
	v.Source, v.Basis = j.Limits.Total.Source, OnModel
	defer func() { j.add(v) }()
	l := j.Launcher
	switch {
	case l.Supply == nil:
		v.notApplicable("no supply in the design")
		return nil
	case !l.Supply.DeadHead.Set:
		v.notApplicable("supply.dead_head is not stated, so it counts as able to exceed every limit")
		return nil
	case j.Normal == nil || !j.Normal.result.Found:
		v.notApplicable("the energy is not known")
		return nil
	}
	high := l.soak(l.Supply.DeadHead.High)
	if rating := l.lowestRating(); high > rating {
		v.notApplicable(fmt.Sprintf("it can push to %s, above the lowest rating", bar(high)))
		return nil
	}
	allowed, _ := j.Limits.allowed(l.Projectile.ContactDiameter)
	energy, err := j.energyAtDeadHead(high)
	if err != nil {
		return err
	}
	if math.IsNaN(energy) || energy > allowed {
		v.notApplicable(fmt.Sprintf("it can push to %s, which is too much: switch and relief valve must do the work", bar(high)))
		return nil
	}
	v.judge(energy, allowed)
	v.Why = fmt.Sprintf("even at its dead head of %s, left in the heat: no switch and no relief valve is needed", bar(l.Supply.DeadHead.High))
	return nil
}

// energyAtDeadHead is the judged energy at a start pressure [J].
func (j *judge) energyAtDeadHead(high float64) (float64, error) {
	if high <= j.Energy.StartHigh {
		return j.Energy.Judged, nil
	}
	q := j.Launcher.energyQuestion(high)
	// One shot is often enough to tell that it can.
	b := newBox(j.Launcher, q)
	u := append([]float64(nil), j.Normal.result.Best.Point...)
	if len(u) == b.dim && b.start >= 0 {
		u[b.start] = 1
		if e := ModelFactor * b.evaluator().Value(u); e > j.Energy.Limit {
			return e, nil
		}
	}
	w, err := j.Launcher.maximise(j.ctx, q, search.Light(j.seeds(q)...))
	if err != nil || w.undetermined() {
		return math.NaN(), err
	}
	return w.value * ModelFactor, nil
}
