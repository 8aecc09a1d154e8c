package fault

import (
	"slices"

	"puffproof/limits/benchmark"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Factors of the faults of a projectile (own rules of this project): a sticky
// one holds up to three times as firmly as the firmest of the design's band, and
// drags as before or up to three times as much, a wrong or wet one is up to twice
// as heavy.
const (
	stickiest = 3.0
	Heaviest  = 2.0
)

// projectileFaults are those of the projectile and of the muzzle.
func (st *stage) projectileFaults() []fault {
	// What is stuck at rest may slide as freely as ever: drag that grew with the hold would take back the energy that the
	// hold brings. Searches start a new coordinate at its ends, so that the second counts how freely it slides.
	stickier := func(c *pneumatics.Circuit, u []float64) {
		hold, drag := 1+u[0]*(stickiest-1), 1+(1-u[1])*(stickiest-1)
		c.Barrel.Breakaway *= hold
		c.Barrel.Restart *= hold
		c.Barrel.Sliding *= drag
	}
	heavier := func(c *pneumatics.Circuit, u []float64) { c.Barrel.Mass *= 1 + u[0]*(Heaviest-1) }
	two := func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 }
	wrong := "a wrong or wet projectile, up to twice the mass"
	if st.Launcher.MaySoak() {
		wrong = "a wrong projectile, up to twice the mass"
	}
	return slices.Concat([]fault{
		{part: "projectile", mode: StickyBall, anyState: true, changes: true, extra: []string{"stickiness", "free sliding"},
			adjust:      stickier,
			consequence: finding.Words("it lets go later and harder, up to three times as firmly held"),
			detected:    finding.Words("it does not slide in by its own weight as usual"),
			prevented:   finding.Words("dry store, a clean bore, fresh projectiles")},
	}, st.frozen(), st.looser(), []fault{
		{part: "projectile", mode: HeavyBall, anyState: true, changes: true, extra: []string{"heaviness"}, adjust: heavier,
			consequence: finding.Words(wrong),
			detected:    finding.Words("a kitchen scale"), prevented: finding.Words("one kind only, counted in and out")},
	}, st.soaked(), []fault{
		{part: "projectile", mode: TwoLoaded, anyState: true, changes: true, adjust: two, share: func(float64) float64 { return 0.5 },
			consequence: finding.Words("two leave together; the energy is that of one of them"),
			detected:    finding.Words("look in before each load"), prevented: finding.Words("one adult loads, counts aloud")},
		st.jammed(),
		{part: "muzzle", mode: MuzzlePlugged, anyState: true, whyNot: finding.Words("the projectile does not leave"),
			consequence: finding.Words("the barrel takes the pressure"),
			detected:    finding.Words("look in before each load"), prevented: finding.Words("a barrel rated for it; a cover while it stands")},
	}, st.hardened())
}

// frozen is a projectile that ice holds, in the frost or after it, until the air behind it breaks it loose: at any pressure up to all that
// there is, since ice is stronger than any air here (a few square centimetres of it hold some hundreds of newtons; common knowledge, no
// source) and gives way at no moment that is known. nil: no frost where it is used. StickyBall is what dirt and swelling hold: three times
// what is stated; and Jammed never moves.
func (st *stage) frozen() []fault {
	if !st.Launcher.MayFreeze() {
		return nil
	}
	return []fault{{part: "projectile", mode: FrozenIn, anyState: true, changes: true, letsGo: true, keptBy: NotFrozenItem(),
		consequence: finding.Words("ice holds it while the barrel fills, as firmly as all the air pushes; once it gives way the whole charge " +
			"drives it at once (no factor: the most that any hold can let loose)"),
		detected:  finding.Words("a push with a finger, with the launcher empty: it does not turn"),
		prevented: finding.Words("no use in frost (ambient.coldest above freezing); none left loaded; barrel and projectile dry")}}
}

// NotFrozenItem is the item of the checklist that keeps a projectile from being shot that ice holds.
func NotFrozenItem() finding.Item {
	return finding.Item{ID: finding.ItemNotFrozen, Title: finding.Words("In frost: each projectile moves freely before it is shot"),
		Verdict: finding.EnergyFault,
		Why: finding.Words("What is frozen in its seat lets go late, with the whole charge behind it. Looking does not tell it, and the " +
			"design does not say that it is never used in frost."),
		How: finding.Words("In air below 3 degC, or after such a night: barrel and projectile wiped dry and warm before loading; none waits " +
			"in the barrel. One that has waited is turned in its seat, with the launcher off and empty and nobody in line, before it is armed. " +
			"One that does not turn is never shot: it comes out by the jam drill."),
		Expect: finding.Words("wiped dry, and each turned freely"), Source: "own rule of this project"}
}

// soaked is a projectile of open cells that rain, wet grass or a puddle has filled. nil: its cells are closed. No part of it has failed, so
// that nothing but a scale tells it from a dry one.
func (st *stage) soaked() []fault {
	if !st.Launcher.MaySoak() {
		return nil
	}
	return []fault{{part: "projectile", mode: Soaked, anyState: true, changes: true, extra: []string{"water taken up"},
		adjust: func(c *pneumatics.Circuit, u []float64) { worst.Soak(&c.Barrel, u[0]) },
		keptBy: WeighedItem(st.Launcher),
		consequence: finding.Say("open cells take up water, up to %d times the mass of the projectile: rain into the muzzle, a ball out of wet "+
			"grass", benchmark.SoakedMass),
		detected:  finding.Words("a kitchen scale, before each use"),
		prevented: finding.Words("closed cells (projectile.open_cell = false); a scale in the kit; none fired in rain or out of wet grass")}}
}

// WeighedItem is the item of the checklist that keeps a soaked projectile from being shot: nothing heavier than what was judged dry.
func WeighedItem(l *launcher.Launcher) finding.Item {
	m := l.Projectile.Mass
	return finding.Item{ID: finding.ItemWeighed, Title: finding.Words("Weigh each projectile before each use: none that is wet"),
		Verdict: finding.EnergyFault,
		Why: finding.Words("Open foam takes up to ten times its mass in water, and what is heavier takes more out of the same air. Neither a " +
			"look nor supervised loading tells it."),
		How: finding.Words("A scale that shows a tenth of what the two ends are apart stays in the kit. Each projectile goes on it before each " +
			"use, and again after rain, wet grass or a puddle; a heavier one is put aside until it is dry. None is fired in rain; the muzzle is " +
			"covered while one waits in it."),
		Expect: finding.Say("each between %s and %s", finding.Grams.Of(m.Low, 3), finding.Grams.Of(m.High, 3)),
		Figure: finding.FigureBetween(finding.OnScale, m.Low, m.High), Source: "own rule of this project: dry is what was judged"}
}

// looser is a projectile that holds and drags less than the least of the design's bands, down to nothing: a new one, a wet or a worn one,
// one that was pushed in anew. Where the bands begin at nothing it is in normal operation.
func (st *stage) looser() []fault {
	if !doubt.Rubs(st.Launcher) {
		return nil
	}
	// What lets go at once may drag as before, and the other way round: either may be the harder.
	looser := func(c *pneumatics.Circuit, u []float64) {
		c.Barrel.Breakaway *= 1 - u[0]
		c.Barrel.Restart *= 1 - u[0]
		c.Barrel.Sliding *= 1 - u[1]
	}
	return []fault{{part: "projectile", mode: LooseBall, anyState: true, changes: true, extra: []string{"looseness", "free sliding"},
		adjust: looser, consequence: finding.Words("it lets go sooner and slides more freely, down to nothing that holds it"),
		detected:  finding.Words("it slides in more easily than usual"),
		prevented: finding.Words("one lot only, measured anew for each; projectiles retired when worn")}}
}
