package setpoint

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics/flow"
)

// answer writes the solved chain down.
func (s *solver) answer() {
	o, c := &s.out, &s.chain
	o.Works = !math.IsNaN(c.cutOut)
	o.Binding = c.binding
	if o.Binding == "energy.fault" && !c.lowered && !c.byShots && (c.relief == reliefNone || s.l.Supply == nil || c.fault < leastStart) {
		o.Binding = s.energyVerdict()
	}
	o.ReliefSet, o.ReliefSetMin, o.ReliefSetMax = finite(c.set), finite(c.setMin), finite(c.setMax)
	o.CutOut, o.CutIn, o.AnyCutOut = finite(c.cutOut), finite(c.cutIn), c.deadHead
	o.CutInWhy = s.cutInWhy()
	o.ReliefFullFlowMax = finite(c.fault)
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
	o.Relief, o.AsItIs = s.reliefWords(), s.asItIs()
	if c.source && o.Works && !c.lowered && !c.byShots {
		o.Binding = "source.limited"
		if s.l.Switch == nil {
			o.CutOut, o.CutIn = nil, nil // nothing to set
		}
	}
	if c.byShots {
		o.Basis = finding.OnMeasured
	}
	o.Why = s.why()
	s.next()
	s.notes()
}

// cutInWhy says what keeps the cut-in down, at the highest cut-out; "" there is none.
func (s *solver) cutInWhy() finding.Text {
	c := &s.chain
	switch {
	case math.IsNaN(c.cutIn) || s.noSwitchNeeded():
		return nil
	case c.byShot:
		return finding.Words("so that the supply does not start before one shot from that cut-out is over")
	}
	w := c.launcher.Switch
	return finding.Say("with its tolerance, %s, and the switch's differential, %s, below the low end of that cut-out, %s",
		finding.Bar3(w.CutIn.High-w.CutIn.Nominal), finding.Bar3(w.Differential.High), finding.Bar3(w.CutOut.Low))
}

// roundedDown is a limit in the step of the chain's figures.
func (s *solver) roundedDown(p *float64) *float64 {
	if p == nil || s.chain.step == 0 {
		return p
	}
	return finite(s.chain.step * math.Floor(*p/s.chain.step))
}

// energyVerdict is the energy verdict that decides.
func (s *solver) energyVerdict() string {
	if s.out.AllowedWhy == "energy.total" {
		return "energy.total"
	}
	return "energy.area"
}

// asItIs says what the design has otherwise than the answer rests on.
func (s *solver) asItIs() finding.Text {
	c := &s.chain
	if !s.out.Works {
		return nil
	}
	var parts []finding.Text
	switch c.relief {
	case reliefLowered:
		parts = append(parts, finding.Say("its relief valve is set too high, to %s where at most %s holds",
			finding.Bar3(s.l.Paths[s.l.ReliefOnSupply()].SetPressure.Nominal), setting(c.set)))
	case reliefRaised:
		parts = append(parts, finding.Say("its relief valve is set too low, to %s, which leaves room for no cut-out",
			finding.Bar3(s.l.Paths[s.l.ReliefOnSupply()].SetPressure.Nominal)))
	case reliefAdded:
		parts = append(parts, finding.Words("it has no relief valve on the supplied volume"))
	}
	if s.l.Switch == nil && !s.noSwitchNeeded() {
		parts = append(parts, finding.Words("it has no pressure switch"))
	}
	return finding.Join(parts, ", and ")
}

// fullFlowWords is the full flow that goes with a relief valve of the answer.
func fullFlowWords(p *launcher.PathSpec) finding.Text {
	return finding.Say("full flow at most %s, at the top of its tolerances at most %s", setting(p.FullFlowPressure.Nominal),
		setting(p.FullFlowHigh()))
}

// reliefWords says what the answer asks of the relief valve.
func (s *solver) reliefWords() finding.Text {
	c := &s.chain
	if !s.out.Works && c.relief != reliefAdded {
		return finding.Words("set as it is, lower, or as high as the limits let it, it leaves room for no cut-out")
	}
	switch c.relief {
	case reliefLowered:
		i := s.l.ReliefOnSupply()
		return finding.Say("set it down from %s to at most %s, %s: with the switch welded shut it must hold the pressure at %s or less",
			finding.Bar3(s.l.Paths[i].SetPressure.Nominal), setting(c.set), fullFlowWords(&c.launcher.Paths[i]), setting(c.fault))
	case reliefRaised:
		i := s.l.ReliefOnSupply()
		return finding.Say("set it up from %s to %s, with a spring that allows it, %s: as it is set it leaves room for no cut-out",
			finding.Bar3(s.l.Paths[i].SetPressure.Nominal), setting(c.set), fullFlowWords(&c.launcher.Paths[i]))
	case reliefAdded:
		if math.IsNaN(c.set) {
			return finding.Words("none on the supplied volume, and none could be set so low")
		}
		return finding.Say("the design has none on the supplied volume: it needs one with a bore of %s or more, set to at most %s, %s",
			finding.Millimetre(c.bore), setting(c.set), fullFlowWords(&c.launcher.Paths[c.launcher.ReliefOnSupply()]))
	case reliefNone:
		return finding.Words("none needed: nothing can push the pressure beyond the limit")
	}
	words := finding.Words("as the design has it")
	if c.limited {
		return words.Say("; the supply cannot reach what it guards against")
	}
	if !math.IsNaN(c.setMax) && c.setMax > c.set {
		p := s.l.Paths[s.l.ReliefOnSupply()]
		MoveRelief(&p, c.setMax)
		words = words.Say("; it may be set to at most %s, with a full flow of at most %s and tolerances no wider than the design's in share: "+
			"set to at most %s, full flow at most %s at their top",
			setting(c.setMax), setting(p.FullFlowPressure.Nominal), setting(p.SetPressure.High), setting(p.FullFlowHigh()))
	}
	return words
}

// why says what binds in one sentence.
func (s *solver) why() finding.Text {
	c, o := &s.chain, &s.out
	switch {
	case o.Binding == "source.limited" && len(o.Unmet) != 0:
		return finding.Say("the supply cannot push beyond %s; normal running holds there, every single fault does not",
			finding.Bar(s.l.Supply.DeadHead.High))
	case o.Binding == "source.limited":
		return finding.Say("the supply cannot push beyond %s, and that holds: no switch and no relief valve is needed",
			finding.Bar(s.l.Supply.DeadHead.High))
	case !o.Works:
		return s.whyNone()
	}
	if c.lowered {
		who := "check asks for it"
		if o.Binding == finding.EnergyFault {
			who = "a single fault asks for it"
		}
		return finding.Words(who).Say(", at these settings it just holds: %s", s.loweredBy)
	}
	if c.byShots {
		g := s.measured.group
		return finding.Say("the bound of the measured shots, %s at %s, carried to a start above %s is more than %s",
			finding.MetresPerSecond.Of(g.UpperSpeed, 3), finding.Bars.Of(g.Gauge, 3), setting(s.caps.measured), finding.Joule(s.allowed))
	}
	switch o.Binding {
	case "ladder.order":
		return finding.Say("the tank, filled cold to the top of the switch's band and left in the heat, must stay below the low end of the "+
			"relief valve, %s", setting(c.launcher.Paths[c.launcher.ReliefOnSupply()].SetPressure.Low))
	case "energy.fault", "energy.total", "energy.area":
		if s.out.Witness == nil {
			return finding.Say("no shot exceeds the energy limit; the gas model was checked up to %s only", finding.Bar(flow.MaxGauge))
		}
	}
	switch o.Binding {
	case "energy.fault":
		return finding.Say("with the switch welded shut the relief valve lets the pressure rise to at most %s; above that some launcher "+
			"within the tolerances shoots harder than %s", setting(c.fault), finding.Joule(s.allowed))
	case "energy.total", "energy.area":
		return finding.Say("above a start pressure of %s some launcher within the tolerances shoots harder than %s", setting(c.fault),
			finding.Joule(s.allowed))
	case "vessel.rating":
		return finding.Say("the lowest rating of what is filled is %s, and a fault must not go beyond it", finding.Bar(c.fault))
	case "barrel.blocked":
		return finding.Say("from more than %s a projectile driven against a plugged muzzle exceeds the barrel's rating", setting(c.fault))
	}
	return nil
}

// whyNone says why no cut-out works.
func (s *solver) whyNone() finding.Text {
	c := &s.chain
	w := c.launcher
	limit := finding.Say("no start above %s holds", setting(c.fault))
	switch {
	case c.fault < leastStart && s.l.SupplyFires():
		return finding.Say("no start pressure holds %s: the supply may run while firing and push behind a projectile that sticks "+
			"(supply.runs_in says otherwise)", finding.Joule(s.allowed))
	case c.fault < leastStart:
		return finding.Say("no start pressure holds %s", finding.Joule(s.allowed))
	case c.byShots:
		return finding.Say("the measured shots leave no room: %s", s.onMeasured().What)
	case s.l.Switch != nil && math.IsNaN(c.set) && c.binding == "relief.capacity":
		return limit.Say(", and the relief valve cannot hold the pressure there: it passes less than the supply delivers, or its full flow " +
			"lies too far above its set pressure")
	case math.IsNaN(c.set) && c.binding == "relief.capacity":
		return limit.Say(", and no relief valve with usual tolerances holds the pressure there while the supply runs on")
	}
	what := limit
	if c.binding == "ladder.order" {
		what = finding.Say("the filled launcher must stay below the low end of the relief valve, %s",
			setting(w.Paths[w.ReliefOnSupply()].SetPressure.Low))
	}
	stack := w.Switch.CutOut.High - w.Switch.CutOut.Low + w.Switch.GaugeError.High + w.Overshoot()
	return finding.Say("%s. The switch's band, the gauge's error, the overshoot and the heat take %s and more; a cut-in below it leaves "+
		"nothing above zero", what, finding.Bar(stack))
}

// next says what would bind if the binding verdict did not.
func (s *solver) next() {
	c, o := &s.chain, &s.out
	if !o.Works || o.CutOut == nil {
		return
	}
	free := s.caps
	try := func(l *launcher.Launcher, caps pressureCaps, format string, args ...any) {
		n := solveChain(l, caps)
		if !(n.cutOut > c.cutOut) {
			return
		}
		o.Next = &NextVerdict{ID: n.binding, CutOut: n.cutOut, What: finding.Say(format, args...)}
		if o.Binding == "ladder.order" {
			o.Next.ID = n.faultID
		}
	}
	switch {
	case o.Binding == "ladder.order":
		top := s.l.Clone()
		MoveRelief(&top.Paths[top.ReliefOnSupply()], c.setMax)
		try(top, free, "with the relief valve set up to %s", setting(c.setMax))
		return
	case c.byShots:
		free.measured = 0
		try(s.l, free, "on the model, if the measured shots did not ask for less")
		return
	case c.lowered:
		free.normal, free.faults = askedFor{}, askedFor{}
		try(s.l, free, "if %s did not ask for less, nor any other verdict of check", c.binding)
		return
	case c.faultID == "energy.fault":
		free.energy = math.Inf(1)
	case c.faultID == "vessel.rating":
		free.rating = math.Inf(1)
	case c.faultID == "barrel.blocked":
		free.blocked = math.Inf(1)
	}
	if !math.IsInf(free.lowestCap(), 1) {
		try(s.l, free, "if %s did not bind", c.faultID)
	}
}

// notes adds what the reader must know beside the figures.
func (s *solver) notes() {
	o, l := &s.out, s.l
	add := func(format string, args ...any) { o.Notes = append(o.Notes, finding.Say(format, args...)) }
	if o.CutOut != nil {
		add("These settings were judged as puffproof check judges a design, in every verdict that hangs on the pressures: energies, faults, a " +
			"stuck projectile, a plugged barrel, other objects, ratings, the ladder, the times to empty. Enter them in the design and run it " +
			"for the rest.")
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
		add("The gauge's error counts with %s: %s.", setting(g.High), g.Reason)
	}
	if s.byHand {
		add("The design has no supply: the answer rests on a relief valve that holds its full-flow pressure against whatever fills the launcher.")
	} else if l.Supply != nil && !l.Supply.DeadHead.Set {
		add("supply.dead_head is not stated: the relief valve is taken to hold its full-flow pressure, which only a stated delivery can show.")
	}
	if c := &s.chain; o.Works && c.relief != reliefNone && !math.IsNaN(c.set) {
		p := &c.launcher.Paths[c.launcher.ReliefOnSupply()]
		if p.ReseatLow() < c.launcher.Switch.CutOut.High {
			add("Once it has lifted, the relief valve may blow down to %s, below the cut-out: it then wastes air until the supply catches up. "+
				"Nobody is hurt by that.", finding.Bar(p.ReseatLow()))
		}
	}
	if math.IsInf(s.energy.high, 1) {
		add("No shot from up to %s (%s) exceeds %s.", finding.Bar(o.Top), o.TopWhy, finding.Joule(s.allowed))
	}
	s.measuredNotes(add)
	add("The worst case is the largest of %d computed shots, not a proof: the model factor %.3g covers what a search may miss.", o.Runs,
		worst.ModelFactor)
}

// ladder is the ladder of the answer: the recommended pressures, or those of the
// design where no cut-out works.
func (s *solver) ladder() {
	w := s.chain.launcher
	if !s.out.Works || s.out.Binding == "source.limited" {
		w = s.l
	}
	limit := s.out.Pressure
	if math.IsInf(s.caps.energy, 1) || limit < leastStart { // no such pressure
		limit = math.NaN()
	}
	s.out.Ladder = w.Rungs(limit)
}

// bench tells what bench tests have moved.
func (s *solver) bench() {
	b := s.l.Bench
	if b == nil {
		return
	}
	s.out.Bench, s.out.BenchSilent = b.Replaced, b.Silent
	before := solveChain(pumped(b.Before), s.caps).cutOut
	if s.out.Works && !math.IsNaN(before) {
		s.out.BenchMoved = finite(solveChain(s.l, s.caps).cutOut - before)
	}
}
