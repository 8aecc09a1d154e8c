package setpoint

import (
	"math"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// Cycles of the switch: so many while its screw is turned, and so many for the record.
const (
	cyclesToSet    = 3
	cyclesToRecord = launcher.LeastCycles
)

// procedure is how to set the switch to the design's own cut-out. There is none for a design that fails or is not
// known: a switch is not set by what does not hold. What the seal of the screw is to mend does not speak against it.
func (s *solver) procedure() {
	if !s.out.Holds() || s.out.CutOut == nil || s.out.Stated == nil || s.failsElsewhere() {
		return
	}
	steps := []finding.Text{finding.Words("Only for a design of which puffproof check says that it holds. No projectile loaded, nobody " +
		"in front of the muzzle, eye protection on.")}
	relief := s.reliefMatters()
	if relief {
		steps = append(steps, s.onTheBench())
	}
	steps = append(steps,
		finding.Words("An independent gauge on the sensed volume. The screw turned down as far as it goes. Charge up to the stop, and "+
			"raise it in small steps from below, letting the air out each time."),
		finding.Say("Read the highest that the pointer reaches as the supply stops, not where it settles: the air cools then, and the "+
			"reading falls by about %s (from the cut-in; the gas law at constant volume, filled without heat loss).", finding.Bar(s.cooling())),
		s.aim(),
		finding.Say("Three cycles from cut-in to cut-out to set it: turn the screw until all %d lie within that. Then %d cycles that "+
			"nobody corrects, each reading written down with date and two initials.", cyclesToSet, cyclesToRecord),
		finding.Words("Seal the screw with paint, and write the reading on the launcher."),
		finding.Words("After test shots at a higher pressure: turn it back, by all of these steps, and seal it again."))
	if relief {
		steps = append(steps, s.inPlace())
	}
	s.out.Procedure = steps
}

// failsElsewhere tells that the design as it is has a verdict that fails or is not known: any, where it was assessed;
// else one of those for which nothing has to be searched.
func (s *solver) failsElsewhere() bool {
	bad := func(v finding.Verdict) bool { return v.Status == finding.Fail || v.Status == finding.Unknown }
	if s.o.Assessed != nil {
		return slices.ContainsFunc(verdict.Judge(s.o.Assessed, 0), bad)
	}
	a := &assessment.Assessment{Day: s.o.Day, Launcher: s.l, Stated: s.l, Limits: s.limits, Computed: assessment.EnergyStage}
	ids := []string{finding.VesselMaterial, finding.StoredEnergy, finding.GaugeRange, finding.ReliefCapacity, finding.ReliefRating,
		finding.LadderOrder}
	if s.o.Day != "" {
		ids = append(ids, finding.DatesPast)
	}
	return slices.ContainsFunc(ids, func(id string) bool { v := verdict.Of(a, id); return v.ID != "" && bad(v) })
}

// reliefMatters tells that the design has a relief valve on the supplied volume which its supply can reach.
func (s *solver) reliefMatters() bool {
	return s.l.ReliefOnSupply() >= 0 && s.chain.relief != reliefNone && !s.chain.limited
}

// onTheBench is the test of the relief valve before any air enters the launcher.
func (s *solver) onTheBench() finding.Text {
	p := &s.l.Paths[s.l.ReliefOnSupply()]
	return finding.Say("First the relief valve, on a bench: screwed to a hand pump with a gauge between, nothing of the launcher joined. "+
		"Pumped slowly, three times, it must begin to hiss between %s and %s each time. Then fit it, with nothing that can be shut before it. "+
		"No air enters the launcher before a relief valve that passed this is on "+
		"it.", finding.Bar(p.SetPressure.Low), finding.Bar(p.SetPressure.High))
}

// cooling is how far the reading falls when the air has cooled to the ambient temperature after a fill from the cut-in
// to the cut-out [Pa]: a rigid volume filled without heat loss by air at ambient temperature warms to
// T2/T0 = p2/(p1 + (p2 - p1)/gamma), the uniform-flow balance of any textbook of thermodynamics, so that of p2 - p1
// the share 1 - 1/gamma goes again.
func (s *solver) cooling() float64 {
	w := s.l.Switch
	return (w.CutOut.Nominal - w.CutIn.Nominal) * (1 - 1/s.l.GasModel().Gamma)
}

// aim is what the gauge must show, in steps that it can show.
func (s *solver) aim() finding.Text {
	w := s.l.Switch
	step := s.l.ReadingStep(s.l.Sensed(), w.CutOut.High)
	low, high := step*math.Ceil(w.CutOut.Low/step-1e-6), step*math.Floor(w.CutOut.High/step+1e-6)
	if high < low+step/2 { // a single mark at most lies within the band
		return finding.Say("Every reading must lie between %s and %s. The divisions of the design's gauge, %s, are too coarse for that: "+
			"take one with divisions of %s or less.", finding.Bar3(w.CutOut.Low), finding.Bar3(w.CutOut.High), finding.Bar3(step),
			finding.Bar3((w.CutOut.High-w.CutOut.Low)/2))
	}
	aim := min(high, max(low, step*math.Floor((w.CutOut.Nominal-w.GaugeError.High)/step+1e-6)))
	return finding.Say("Aim at %s, the design's cut-out less the gauge's error; every reading must lie between %s and %s, the design's "+
		"band in steps of %s that the gauge can show.", finding.Bar3(aim), finding.Bar3(low), finding.Bar3(high), finding.Bar3(step))
}

// inPlace is the test of the relief valve on the launcher, with the switch bridged, or why it is not done there.
func (s *solver) inPlace() finding.Text {
	if why := drill.NoBridging(s.l); len(why) != 0 {
		return finding.Say("Do NOT bridge the switch: %s. The test on the bench stands in its place; that the valve carries the whole "+
			"supply rests on its stated flow.", why)
	}
	low, high := drill.ReliefRest(s.l)
	over, near := s.l.Overcharge(), finding.Text(nil)
	if over.Known {
		near = finding.Say(", near %s where supply and relief flow balance", setting(over.Balance))
	}
	return finding.Say("Last, with every fitting marked for more than %s: bridge the switch, an adult at a distance, no projectile: the "+
		"gauge must "+
		"come to rest between %s and %s%s. Cut the supply at once if it goes on rising beyond. Write the steady reading down; the design "+
		"takes it as [bench] relief_steady.", finding.WorstBar(s.l.FailedSource().Supply.DeadHead.High), setting(low), setting(high), near)
}
