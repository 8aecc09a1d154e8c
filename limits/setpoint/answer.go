package setpoint

import (
	"fmt"
	"math"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"strings"
)

// answer writes the solved chain down.
func (s *solver) answer() {
	o, c := &s.out, &s.chain
	o.Works = !math.IsNaN(c.cutOut)
	o.Binding = c.binding
	if o.Binding == "energy.fault" && !c.lowered && !c.byShots && (c.relief == reliefNone || s.l.Supply == nil || c.fault < leastStart) {
		o.Binding = s.energyVerdict()
	}
	o.ReliefSet, o.ReliefSetMin, o.ReliefSetMax = known(c.set), known(c.setMin), known(c.setMax)
	o.CutOut, o.CutIn = known(c.cutOut), known(c.cutIn)
	o.ReliefFullFlowMax = known(c.fault)
	if math.IsInf(s.caps.energy, 1) { // beyond that no shot was looked at
		*o.ReliefFullFlowMax = min(c.fault, o.Top)
		if c.limited {
			o.ReliefSetMax = nil // nothing reaches it
		}
	}
	if c.fault < leastStart {
		o.ReliefFullFlowMax = nil // no pressure holds: no figure to set by
	}
	o.ReliefFullFlowMax = s.roundedDown(o.ReliefFullFlowMax)
	if s.l.Switch != nil {
		o.Stated = &s.l.Switch.CutOut.Nominal
	}
	o.Relief = finding.Words(s.reliefWords())
	o.AsItIs = finding.Words(s.asItIs())
	if c.source && o.Works && !c.lowered && !c.byShots {
		o.Binding = "source.limited"
		if top := s.l.Supply.DeadHead.High; s.l.Switch == nil {
			o.CutOut, o.CutIn = nil, nil // nothing to set
		} else if c.cutOut > top { // it never gets beyond
			in, out := max(0, top-(c.cutOut-c.cutIn)), top
			o.CutIn, o.CutOut = s.roundedDown(&in), s.roundedDown(&out)
		}
	}
	if c.byShots {
		o.Basis = finding.OnMeasured
	}
	o.Why = finding.Words(s.why())
	s.next()
	s.notes()
}

// roundedDown is a limit in the step of the chain's figures.
func (s *solver) roundedDown(p *float64) *float64 {
	if p == nil || s.chain.step == 0 {
		return p
	}
	return known(s.chain.step * math.Floor(*p/s.chain.step))
}

// known is a pointer to a figure; nil for NaN and infinity.
func known(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// energyVerdict is the energy verdict that decides.
func (s *solver) energyVerdict() string {
	if s.out.AllowedWhy == "energy.total" {
		return "energy.total"
	}
	return "energy.area"
}

// asItIs says what the design has otherwise than the answer rests on.
func (s *solver) asItIs() string {
	c := &s.chain
	if !s.out.Works {
		return ""
	}
	var parts []string
	switch c.relief {
	case reliefLowered:
		parts = append(parts, fmt.Sprintf("its relief valve is set too high, to %s where at most %s holds", finding.Bar3(s.l.Paths[s.l.ReliefOnSupply()].SetPressure.Nominal), milli(c.set)))
	case reliefAdded:
		parts = append(parts, "it has no relief valve on the supplied volume")
	}
	if s.l.Switch == nil && !s.noSwitchNeeded() {
		parts = append(parts, "it has no pressure switch")
	}
	return strings.Join(parts, ", and ")
}

// fullFlowWords is the full flow that goes with a relief valve of the answer.
func fullFlowWords(p *launcher.PathSpec) string {
	return fmt.Sprintf("full flow at most %s, at the top of its tolerances at most %s", milli(p.FullFlowPressure.Nominal), milli(p.FullFlowHigh()))
}

func (s *solver) reliefWords() string {
	c := &s.chain
	if !s.out.Works && c.relief != reliefAdded {
		return "no setting of it makes a cut-out work"
	}
	switch c.relief {
	case reliefLowered:
		i := s.l.ReliefOnSupply()
		return fmt.Sprintf("set it down from %s to at most %s, %s: with the switch welded shut it must hold the pressure at %s or less",
			finding.Bar3(s.l.Paths[i].SetPressure.Nominal), milli(c.set), fullFlowWords(&c.launcher.Paths[i]), milli(c.fault))
	case reliefAdded:
		if math.IsNaN(c.set) {
			return "none on the supplied volume, and none could be set so low"
		}
		return fmt.Sprintf("the design has none on the supplied volume: it needs one with a bore of %s or more, set to at most %s, %s",
			finding.Millimetre(c.bore), milli(c.set), fullFlowWords(&c.launcher.Paths[c.launcher.ReliefOnSupply()]))
	case reliefNone:
		return "none needed: nothing can push the pressure beyond the limit"
	}
	words := "as the design has it"
	if c.limited {
		return words + "; the supply cannot reach what it guards against"
	}
	if !math.IsNaN(c.setMax) && c.setMax > c.set {
		p := s.l.Paths[s.l.ReliefOnSupply()]
		MoveRelief(&p, c.setMax)
		words += fmt.Sprintf("; it may be set to at most %s, with a full flow of at most %s and tolerances no wider than the design's in share: set to at most %s, full flow at most %s at their top",
			milli(c.setMax), milli(p.FullFlowPressure.Nominal), milli(p.SetPressure.High), milli(p.FullFlowHigh()))
	}
	return words
}

// milli writes a pressure [Pa] to a millibar, rounded down: a figure to set by
// must not be above the one computed.
func milli(p float64) string { return fmt.Sprintf("%.3f bar", math.Floor(p/100+1e-6)/1000) }

// why says what binds in one sentence.
func (s *solver) why() string {
	c, o := &s.chain, &s.out
	switch {
	case o.Binding == "source.limited" && len(o.Unmet) != 0:
		return "the supply cannot push beyond " + finding.Bar(s.l.Supply.DeadHead.High).String() + "; normal running holds there, every single fault does not"
	case o.Binding == "source.limited":
		return "the supply cannot push beyond " + finding.Bar(s.l.Supply.DeadHead.High).String() + ", and that holds: no switch and no relief valve is needed"
	case !o.Works:
		return s.whyNone()
	}
	if c.lowered {
		return "a single fault asks for it, at these settings it just holds: " + s.loweredBy
	}
	if c.byShots {
		return fmt.Sprintf("the bound of the measured shots, %.3g m/s at %.3g bar, carried to a start above %s is more than %s",
			s.measured.group.UpperSpeed, s.measured.group.Gauge/measure.OneBar, milli(s.caps.measured), finding.Joule(s.allowed))
	}
	switch o.Binding {
	case "ladder.order":
		return fmt.Sprintf("the tank, filled cold to the top of the switch's band and left in the heat, must stay below the low end of the relief valve, %s",
			milli(c.launcher.Paths[c.launcher.ReliefOnSupply()].SetPressure.Low))
	case "energy.fault", "energy.total", "energy.area":
		if s.out.Witness == nil {
			return "no shot exceeds the energy limit; the gas model was checked up to " + finding.Bar(pneumatics.MaxGauge).String() + " only"
		}
	}
	switch o.Binding {
	case "energy.fault":
		return fmt.Sprintf("with the switch welded shut the relief valve lets the pressure rise to at most %s; above that some launcher within the tolerances shoots harder than %s",
			milli(c.fault), finding.Joule(s.allowed))
	case "energy.total", "energy.area":
		return fmt.Sprintf("above a start pressure of %s some launcher within the tolerances shoots harder than %s", milli(c.fault), finding.Joule(s.allowed))
	case "vessel.rating":
		return fmt.Sprintf("the lowest rating of what is filled is %s, and a fault must not go beyond it", finding.Bar(c.fault))
	case "barrel.blocked":
		return fmt.Sprintf("from more than %s a projectile driven against a plugged muzzle exceeds the barrel's rating", milli(c.fault))
	}
	return ""
}

// whyNone says why no cut-out works.
func (s *solver) whyNone() string {
	c := &s.chain
	w := c.launcher
	limit := fmt.Sprintf("no start above %s holds", milli(c.fault))
	switch {
	case c.fault < leastStart && s.l.SupplyFires():
		return fmt.Sprintf("no start pressure holds %s: the supply may run while firing and push behind a projectile that sticks (supply.runs_in says otherwise)", finding.Joule(s.allowed))
	case c.fault < leastStart:
		return "no start pressure holds " + finding.Joule(s.allowed).String()
	case c.lowered:
		return "a single fault leaves no room: " + s.loweredBy
	case c.byShots:
		return "the measured shots leave no room: " + s.onMeasured().What.String()
	case s.l.Switch != nil && math.IsNaN(c.set) && c.binding == "relief.capacity":
		return limit + ", and the relief valve cannot hold the pressure there: it passes less than the supply delivers, or its full flow lies too far above its set pressure"
	case math.IsNaN(c.set) && c.binding == "relief.capacity":
		return limit + ", and no relief valve with usual tolerances holds the pressure there while the supply runs on"
	}
	what := limit
	if c.binding == "ladder.order" {
		what = fmt.Sprintf("the filled launcher must stay below the low end of the relief valve, %s", milli(w.Paths[w.ReliefOnSupply()].SetPressure.Low))
	}
	stack := w.Switch.CutOut.High - w.Switch.CutOut.Low + w.Switch.GaugeError.High + w.Overshoot()
	return fmt.Sprintf("%s. The switch's band, the gauge's error, the overshoot and the heat take %s and more; a cut-in below it leaves nothing above zero",
		what, finding.Bar(stack))
}

// next says what would bind if the binding verdict did not.
func (s *solver) next() {
	c, o := &s.chain, &s.out
	if !o.Works || o.CutOut == nil {
		return
	}
	if o.Binding == "ladder.order" {
		top := s.l.Clone()
		MoveRelief(&top.Paths[top.ReliefOnSupply()], c.setMax)
		if n := solveChain(top, s.caps); n.cutOut > c.cutOut {
			o.Next = &NextVerdict{ID: n.faultID, CutOut: n.cutOut, What: finding.Say("with the relief valve set up to %s", milli(c.setMax))}
		}
		return
	}
	free := s.caps
	if c.byShots {
		free.measured = 0
		if n := solveChain(s.l, free); n.cutOut > c.cutOut {
			o.Next = &NextVerdict{ID: n.binding, CutOut: n.cutOut, What: finding.Words("on the model, if the measured shots did not ask for less")}
		}
		return
	}
	if c.lowered {
		free.normal = 0
		if n := solveChain(s.l, free); n.cutOut > c.cutOut {
			o.Next = &NextVerdict{ID: n.binding, CutOut: n.cutOut, What: finding.Words("if no other single fault asked for less")}
		}
		return
	}
	switch c.faultID {
	case "energy.fault":
		free.energy = math.Inf(1)
	case "vessel.rating":
		free.rating = math.Inf(1)
	case "barrel.blocked":
		free.blocked = math.Inf(1)
	}
	if cap, _ := free.lowest(); math.IsInf(cap, 1) {
		return
	}
	if n := solveChain(s.l, free); n.cutOut > c.cutOut {
		o.Next = &NextVerdict{ID: n.binding, CutOut: n.cutOut, What: finding.Words("if " + c.faultID + " did not bind")}
	}
}

// notes adds what the reader must know beside the figures.
func (s *solver) notes() {
	o, l := &s.out, s.l
	add := func(format string, args ...any) { o.Notes = append(o.Notes, finding.Say(format, args...)) }
	if o.CutOut != nil {
		add("Counted here are normal running, heat, the switch welded shut and every single fault that puffproof faults lists. Enter the settings in the design and run puffproof check: it also judges a stuck projectile, other objects and shots unasked for, and they may ask for less.")
	}
	if l.Switch == nil && o.CutOut != nil {
		add("%s.", assumedSwitch())
	}
	for _, p := range l.Parts() {
		if limit, note := l.Rating(p); note != "" && p.Rated.Set {
			add("%s counts with %s: %s.", p.Name, finding.Bar(limit), note)
		}
	}
	if g := s.chain.launcher.Switch.GaugeError; g.Set && g.Assumed {
		add("The gauge's error counts with %s: %s.", milli(g.High), g.Reason)
	}
	if s.byHand {
		add("The design has no supply: the answer rests on a relief valve that holds its full-flow pressure against whatever fills the launcher.")
	} else if l.Supply != nil && !l.Supply.DeadHead.Set {
		add("supply.dead_head is not stated: the relief valve is taken to hold its full-flow pressure, which only a stated delivery can show.")
	}
	if c := &s.chain; o.Works && c.relief != reliefNone && !math.IsNaN(c.set) {
		p := &c.launcher.Paths[c.launcher.ReliefOnSupply()]
		if p.ReseatLow() < c.launcher.Switch.CutOut.High {
			add("Once it has lifted, the relief valve may blow down to %s, below the cut-out: it then wastes air until the supply catches up. Nobody is hurt by that.", finding.Bar(p.ReseatLow()))
		}
	}
	if math.IsInf(s.energy.high, 1) {
		add("No shot from up to %s (%s) exceeds %s.", finding.Bar(o.Top), o.TopWhy, finding.Joule(s.allowed))
	}
	s.measuredNotes(add)
	add("The worst case is the largest of %d computed shots, not a proof: the model factor %.3g covers what a search may miss.", o.Runs, worst.ModelFactor)
}
