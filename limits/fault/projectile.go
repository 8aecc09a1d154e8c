package fault

import (
	"slices"

	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Factors of the faults of a projectile (own rules of this project): a sticky
// one holds up to three times as firmly as the firmest of the design's band, and
// drags as before or up to three times as much, a wrong or wet one is up to twice
// as heavy.
const (
	stickiest = 3.0
	heaviest  = 2.0
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
	heavier := func(c *pneumatics.Circuit, u []float64) { c.Barrel.Mass *= 1 + u[0]*(heaviest-1) }
	two := func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 }
	return slices.Concat([]fault{
		{part: "projectile", mode: StickyBall, anyState: true, changes: true, extra: []string{"stickiness", "free sliding"},
			adjust:      stickier,
			consequence: finding.Words("it lets go later and harder, up to three times as firmly held"),
			detected:    finding.Words("it does not slide in by its own weight as usual"),
			prevented:   finding.Words("dry store, a clean bore, fresh projectiles")},
	}, st.looser(), []fault{
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
	}, st.hardened())
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
