package fault

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Jam is a projectile that never moved, with the whole charge behind it.
type Jam struct {
	Unknown finding.Text // why the pressures are not known; nil: they are
	Top     float64      // highest pressure behind it at first [Pa gauge]
	AtOnce  float64      // what a hand could free at once, with all that is joined to it [J]
	Drill   float64      // of the smallest hole that brings it down in time [m]; NaN: none is asked for, or none does
	After   vent.Jam     // what is left once it has been off for the time that the design asks for
}

// jamOf computes what a jam holds, once. The error is a WithheldError.
func (st *stage) jamOf() (*Jam, error) {
	if st.report.Jam != nil {
		return st.report.Jam, nil
	}
	j := &Jam{Top: math.NaN(), AtOnce: math.NaN(), Drill: math.NaN()}
	st.report.Jam = j
	high, ok := vent.StartPressures(st.Launcher)
	if !ok {
		j.Unknown = finding.Words("the pressure behind it is not known")
		return j, nil
	}
	top := 0.0
	reach := launcher.ReachOf(st.Launcher)
	for i, g := range high {
		if reach.Volumes[i] {
			top = max(top, g)
		}
	}
	if top <= 0 && len(st.NormalUnknown) != 0 { // nothing that feeds it is filled
		j.Unknown = st.NormalUnknown
		return j, nil
	}
	if st.Plugged != nil && st.Plugged.Behind > 0 {
		top = max(top, st.Plugged.Behind)
	} else if st.Launcher.Rushes() {
		top *= launcher.Rush
	}
	// The valve shut, all of the barrel's air; the valve still open, what feeds it pushes on.
	energy := st.Launcher.SpaceBehindProjectile() / pneumatics.CeilingDose(1, top, st.Launcher.Ambient.Pressure.Low)
	j.Top, j.AtOnce = top, max(energy, worst.ModelFactor*st.freedOpen(high, top))
	in, limit := vent.Input{Launcher: st.Launcher, Limits: st.Limits}, st.Limits.Total.Value
	var err error
	if j.After, err = vent.AfterJam(in, top); err == nil && j.AtOnce > limit && j.After.Energy > limit {
		j.Drill, err = vent.BleedDrill(in, top, limit)
	}
	return j, err
}

// jammed is a projectile that does not move at all: the barrel takes the whole
// pressure and keeps it where nothing bleeds it.
func (st *stage) jammed() fault {
	f := fault{part: "projectile", mode: Jammed, anyState: true, whyNot: finding.Words("it does not leave"),
		detected:  finding.Words("no shot at the command"),
		prevented: finding.Words("a hole from the barrel to the atmosphere, always open; then the wait of the jam drill")}
	j, err := st.jamOf()
	if err != nil {
		st.err = err
	}
	f.freed, f.behind = j.AtOnce, j.Top
	switch {
	case len(j.Unknown) != 0:
		f.consequence, f.freed, f.behind = j.Unknown, math.NaN(), 0
		return f
	case !(j.After.Stays > st.Emptying.Target):
		f.consequence = finding.Say("up to %s behind it, which bleeds off once it is switched off; freed by hand before, it could gain %s",
			finding.WorstBar(j.Top), finding.WorstJoule(j.AtOnce))
	default:
		f.consequence = finding.Say("switched off, up to %s stays behind it, which could give it %s when a hand frees it",
			finding.WorstBar(j.Top), finding.WorstJoule(j.AtOnce))
	}
	f.consequence = f.consequence.Say(" (the whole charge behind a projectile that does not move at all, the firing valve shut again or "+
		"still open; %s judges one that a shot has moved part of the way)", finding.BarrelStalled)
	return f
}

// jam judges a jammed projectile: it does not leave, and what a hand could free counts. What is within the limit only
// after the wait is held by the drill; what is not within it even then, by nothing.
func (st *stage) jam(r *Result, f *fault) {
	r.Energy, r.Judged, r.Freed, r.Basis = math.NaN(), math.NaN(), f.freed, finding.OnProcedure
	j, limit := st.report.Jam, st.Limits.Total.Value
	wait := 0.0
	if j.AtOnce > 0 {
		wait = j.After.Wait
	}
	drill := st.answerOf(finding.JamDrill(wait))
	switch {
	case math.IsNaN(f.freed):
		r.Status, r.Reason = finding.Unknown, f.consequence
	case f.freed <= limit:
	case j.After.Energy > limit:
		r.Status = finding.Fail
		r.Reason = j.Left()
	case math.IsNaN(j.After.Energy):
		r.Status, r.Reason = finding.Unknown, finding.Say("missing: %s, the time after which it is to be empty",
			finding.Key("venting.within"))
	case drill.Done == nil:
		r.Status, r.HeldBy = finding.OpenItem, finding.ItemJamDrill
		r.Reason = finding.Say("OPEN: only after it has been off for %s is it within the limit, and only the jam drill (item %s) keeps "+
			"hands off until then%s", finding.Second(j.After.Wait), finding.ItemJamDrill, why(drill))
	}
}

// Left says what is behind it after the wait, or for good; only where Energy of After is known.
func (j *Jam) Left() finding.Text {
	if math.IsInf(j.After.Stays, 1) {
		return finding.Say("nothing lets the air out of the barrel: switched off, up to %s stays behind it and could give it %s",
			finding.WorstBar(j.After.Behind), finding.WorstJoule(j.After.Energy))
	}
	return finding.Say("after %s switched off up to %s is still behind it and could give it %s", finding.Second(j.After.Wait),
		finding.WorstBar(j.After.Behind), finding.WorstJoule(j.After.Energy))
}

// freedOpen is the energy [J] of a projectile that a hand frees at its rearmost while the
// firing valve is still open: the volumes at their gauge pressures high [Pa], the barrel at
// top, every path at its wide end, nothing holds it any more.
func (st *stage) freedOpen(high []float64, top float64) float64 {
	w := vent.AtEnd(st.Launcher, vent.FastEnd)
	for i := range w.Volumes {
		w.Volumes[i].Volume.Nominal = w.Volumes[i].Volume.High
	}
	b, p := &w.Barrel, &w.Projectile
	for _, wide := range []*launcher.Band{&b.Bore, &b.Travel, &b.TubeInnerDiameter, &b.Engagement, &b.DeadVolume, &p.InsideDiameter} {
		wide.Nominal = wide.High
	}
	p.Clearance = launcher.Exact(p.Clearance.Key, 0)
	for _, none := range []*launcher.Band{&p.Breakaway, &p.Restart, &p.Sliding} {
		none.Nominal = 0
	}
	c := new(pneumatics.Circuit)
	w.FillShot(c)
	at := func(gauge float64) pneumatics.Condition {
		return pneumatics.Condition{Pressure: c.Ambient.Pressure + gauge, Temperature: c.Ambient.Temperature}
	}
	sc := pneumatics.Scenario{From: pneumatics.Firing, To: pneumatics.Firing, Barrel: at(top),
		SupplyRuns: w.SupplyFires(), Parts: w.Model.Parts}
	for _, g := range high {
		sc.Volumes = append(sc.Volumes, at(g))
	}
	var sim pneumatics.Sim
	switch r := sim.Run(c, &sc, pneumatics.Options{NoPeak: true}); {
	case r.Reason == "" && r.Outcome == pneumatics.Left:
		return r.FinalEnergy
	case r.Reason == "":
		return r.Freed
	}
	return sim.Ceiling(c, &sc, 0).Final
}
