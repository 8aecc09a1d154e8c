package fault

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Factors of the faults of a projectile (own rules of this project): a sticky
// one holds up to three times as firmly as the firmest of the design's band, a
// wrong or wet one is up to twice as heavy.
const (
	stickiest = 3.0
	heaviest  = 2.0
)

// projectileFaults are those of the projectile and of the muzzle.
func (st *stage) projectileFaults() []fault {
	stickier := func(c *pneumatics.Circuit, u []float64) {
		k := 1 + u[0]*(stickiest-1)
		c.Barrel.Breakaway *= k
		c.Barrel.Restart *= k
		c.Barrel.Sliding *= k
	}
	heavier := func(c *pneumatics.Circuit, u []float64) { c.Barrel.Mass *= 1 + u[0]*(heaviest-1) }
	two := func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 }
	return []fault{
		{part: "projectile", mode: StickyBall, anyState: true, changes: true, extra: []string{"stickiness"}, adjust: stickier,
			consequence: finding.Words("it lets go later and harder, up to three times as firmly held"),
			detected:    finding.Words("it does not slide in by its own weight as usual"),
			prevented:   finding.Words("dry store, a clean bore, fresh projectiles")},
		{part: "projectile", mode: HeavyBall, anyState: true, changes: true, extra: []string{"heaviness"}, adjust: heavier,
			consequence: finding.Words("a wrong or wet projectile, up to twice the mass"),
			detected:    finding.Words("a kitchen scale"), prevented: finding.Words("one kind only, counted in and out")},
		{part: "projectile", mode: TwoLoaded, anyState: true, changes: true, adjust: two, share: func(float64) float64 { return 0.5 },
			consequence: finding.Words("two leave together; the energy is that of one of them"),
			detected:    finding.Words("look in before each load"), prevented: finding.Words("one adult loads, counts aloud")},
		st.jammed(),
		{part: "muzzle", mode: MuzzlePlugged, anyState: true, whyNot: finding.Words("the projectile does not leave"),
			consequence: finding.Words("the barrel takes the pressure"),
			detected:    finding.Words("look in before each load"), prevented: finding.Words("a barrel rated for it; a cover while it stands")},
	}
}

// jammed is a projectile that does not move at all: the barrel takes the whole
// pressure and keeps it where nothing bleeds it.
func (st *stage) jammed() fault {
	f := fault{part: "projectile", mode: Jammed, anyState: true, whyNot: finding.Words("it does not leave"),
		detected: finding.Words("no shot at the command"), prevented: finding.Words("a bleed from the barrel; the jam drill")}
	high, ok := vent.StartPressures(st.Launcher)
	if !ok {
		f.consequence, f.freed = finding.Words("the pressure behind it is not known"), math.NaN()
		return f
	}
	tight := vent.AtEnd(st.Launcher, vent.NarrowStuck)
	c := new(pneumatics.Circuit)
	tight.Fill(c)
	keeps := pneumatics.Residual(c, &pneumatics.Scenario{From: pneumatics.Firing, To: pneumatics.Off})
	top := 0.0
	reach := launcher.ReachOf(st.Launcher)
	for i, g := range high {
		if reach.Volumes[i] {
			top = max(top, g)
		}
	}
	if st.Plugged != nil && st.Plugged.Behind > 0 {
		top = max(top, st.Plugged.Behind)
	} else if st.Launcher.Rushes() {
		top *= launcher.Rush
	}
	// The valve shut, all of the barrel's air; the valve still open, what feeds it pushes on.
	energy := st.Launcher.SpaceBehindProjectile() / pneumatics.CeilingDose(1, top, st.Launcher.Ambient.Pressure.Low)
	energy = max(energy, worst.ModelFactor*st.freedOpen(high, top))
	f.freed, f.behind = energy, top
	if keeps[len(keeps)-1] > st.Emptying.Target {
		f.consequence = finding.Say("switched off, up to %s stays behind it, which could give it %s when a hand frees it: "+
			"only the jam drill (item %s) keeps that harmless", finding.WorstBar(top), finding.WorstJoule(energy), finding.ItemJamDrill)
	} else {
		f.consequence = finding.Say("up to %s behind it, which bleeds off once it is switched off; freed by hand before, it could gain %s",
			finding.WorstBar(top), finding.WorstJoule(energy))
	}
	f.consequence = f.consequence.Say(" (the whole charge behind a projectile that does not move at all, the firing valve shut again or "+
		"still open; %s is about one that stops by itself after a shot, with what that leaves)", finding.BarrelStalled)
	return f
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
