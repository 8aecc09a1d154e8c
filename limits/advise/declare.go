package advise

import (
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/material"
	"puffproof/pneumatics"
)

// What only the builder can say. Nothing here is known: it is listed with the line that says
// it, and counts in what is judged as declared.

// declarations lists what a design does not say and only people can: without it verdicts are unknown, or fail whatever is built.
func declarations(b *draft) {
	b.parts()
	b.source()
	b.size()
	b.friction()
	b.people()
	b.begun()
}

// narrower lists what is known widely enough to be judged, and more closely once it was measured or is kept as a rule: a way rests
// on that only where there is none without.
func narrower(b *draft) {
	b.soft()
	b.shot()
	b.firing()
	b.stops()
	b.sealed()
	b.holes()
	b.weather()
}

// say lists a declaration, where the key does not stand.
func (b *draft) say(key string, to Value, buys string) {
	b.add(Change{Key: key, To: to.declared(), Why: buys, Sort: Declaration})
}

// begun takes the figures of the file to start from as such as are built or bought so: who has measured none, or builds first, goes on
// from them, and what rests on them is conditional.
func (b *draft) begun() {
	for _, key := range b.l.Template {
		of, is := strings.CutSuffix(strings.Trim(b.design.Stated(key), `"`), ", "+launcher.Template.String())
		if is {
			b.list = append(b.list, Change{Key: key, To: word(of + ", " + launcher.Declared.String()), Sort: Declaration, Begun: true,
				Why: "nobody's figure so far: build or buy it so, or put yours in its place"})
		}
	}
}

// parts says of vessels and barrel what their makers promise.
func (b *draft) parts() {
	of := func(table, made string, rating launcher.Band, forGas launcher.Answer) {
		if material.Of(made).Bars() || forGas == launcher.No {
			return // another part is needed: no word makes this one fit
		}
		if !rating.Set {
			b.say(table+".rated_pressure", stated(10e5, finding.Bars), "what it bears, from its plate or document")
		}
		if made == "" {
			b.say(table+".material", word("declared: a metal made for gas"), "that it is metal, no water pipe")
		}
		if forGas == launcher.Unanswered {
			b.say(table+".rated_for_gas", word("declared yes"), "that its rating holds for gas, by its maker's document")
		}
	}
	for i := range b.l.Volumes {
		v := &b.l.Volumes[i]
		of("volumes."+v.Name, v.Material, v.RatedPressure, v.RatedForGas)
	}
	of("barrel", b.l.Barrel.Material, b.l.Barrel.RatedPressure, b.l.Barrel.RatedForGas)
}

// wantedPrint is the contact print [m] on which the published energy for a soft tip keeps the
// energy per area: sqrt(4 E/(pi w)) with 0.5 J and 1600 J/m2, rounded up.
const wantedPrint = 20e-3

// printWidth is how far prints lie from their mean [m]: one that is stated without a width no measurement can bear out (own rule of
// this project, no source).
const printWidth = 2e-3

// soft says that the tip is soft, where it is not stated to be hard: unproved it counts as hard, which has its limit too.
func (b *draft) soft() {
	p := &b.l.Projectile
	if !p.TipStated {
		b.say("projectile.tip", word("declared resilient"), "0.5 J instead of 0.08 J, once the press test shows it")
	}
	if (!p.TipStated || p.Resilient) && finding.Proves(finding.ItemTip, p.TipProof) == "" {
		b.set(Change{Key: "projectile.tip_proof", To: word("declared"), Sort: Declaration,
			Why: "0.5 J instead of 0.08 J: the record of a press test on the tip, cold and wet too"})
	}
	if (!p.TipStated || p.Resilient) && !p.ContactDiameter.Set {
		d := wantedPrint
		if p.Diameter.Set {
			d = math.Min(d, downTo(0.6*p.Diameter.Low, 1e-3))
		}
		b.say("projectile.contact_diameter", number(d+printWidth, finding.Millimetres, printWidth),
			"that the print of the tip at the lowest working pressure lies within that")
	}
}

// friction says what starts the projectile, where that is not stated: no energy is known without it.
func (b *draft) friction() {
	if !b.l.Projectile.Breakaway.Set {
		b.say("projectile.breakaway_force", number(0.3, finding.Newtons, 0.3), "it starts at 0.6 N at most: loose enough to leave")
	}
}

// shot says of the projectile what is only assumed of what it weighs, wet too, and what gets past it.
func (b *draft) shot() {
	p := &b.l.Projectile
	if b.l.MaySoak() {
		b.set(Change{Key: "projectile.open_cell", To: word("declared no"), Sort: Declaration,
			Why: "that its foam is of closed cells: it soaks no water and so gets no heavier"})
	}
	if m := p.Mass; m.Set && m.Assumed {
		b.set(Change{Key: m.Key, To: number(m.Nominal, finding.Grams, 0.5e-3).declared(), Sort: Declaration, Why: "weighed to half a gram"})
	}
	if gap, wide := b.gap(); wide {
		b.say("projectile.clearance", number(gap, finding.Millimetres, math.Min(gap, 0.2e-3)),
			"the difference of the two diameters: what is wider lets the air past")
	}
}

// gap is the difference of the two diameters [m] that is asked for, and whether what is assumed of them leaves it open.
func (b *draft) gap() (gap float64, wide bool) {
	outer, inner := b.l.Barrel.Bore, b.l.Projectile.Diameter
	if b.l.Barrel.Fit == pneumatics.OverTube {
		outer, inner = b.l.Projectile.InsideDiameter, b.l.Barrel.TubeOuterDiameter
	}
	return upTo(math.Max(0.2e-3, outer.Nominal-inner.Nominal), drill), outer.Assumed || inner.Assumed
}

// firing says of the firing valve what is only assumed, as a measurement would narrow it.
func (b *draft) firing() {
	p := fires(b.l)
	if p == nil {
		return
	}
	switch o := p.OpeningTime; {
	case !o.Set || !o.Assumed:
	case p.Kind == pneumatics.HandValve:
		b.say(o.Key, number(60e-3, finding.Milliseconds, 30e-3), "how long a hand takes to open it, between stops: film it")
	default:
		b.say(o.Key, number(30e-3, finding.Milliseconds, 10e-3), "how long it takes to open: click to hiss, by a recording, ten times")
	}
	if c := p.Flow.DischargeCoefficient; c.Set && c.Assumed {
		known := "0.5 ± 0.15, declared"
		if p.Flow.Form == launcher.OrificeBore { // the bore itself says most
			known = "0.75 ± 0.08, declared"
		}
		b.say(c.Key, word(known), "what it lets through: how soon a vessel with a gauge empties through it, by a recording")
	}
}

// size says how wide a rocket is whose outside is not stated: without that nobody knows whether it chokes. Foam walls from thin to thick
// are meant by it (own rule of this project, no source).
func (b *draft) size() {
	p := &b.l.Projectile
	if b.l.Barrel.Fit == pneumatics.OverTube && !p.Diameter.Set && p.InsideDiameter.Set {
		const walls, within = 12e-3, 8e-3 // both walls together
		b.say("projectile.diameter", number(upTo(p.InsideDiameter.Nominal+walls, 1e-3), finding.Millimetres, within), "how wide it is outside")
	}
}

// source says what the supply does.
func (b *draft) source() {
	s := b.l.Supply
	if s == nil {
		return
	}
	if !s.FreeAir.Set && len(s.Curve) == 0 {
		b.say("supply.free_air", number(15e-3/60, finding.LitresPerMinute, 0), "it delivers no more")
	}
	if !s.DeadHead.Set {
		b.say("supply.dead_head", number(10e5, finding.Bars, 0), "it pushes no further, whatever fails")
	}
}

// leastOvershoot is how far [Pa] a pump has to run past the cut-out for it to be worth knowing how soon it stops.
const leastOvershoot = 0.05e5

// stops says how soon the switch stops the supply, where what is assumed of it lets the pressure run on.
func (b *draft) stops() {
	if s := b.l.Switch; s != nil && s.ReactionTime.Assumed && b.l.Overshoot() > leastOvershoot {
		b.say("pressure_switch.reaction_time", number(0.1, finding.Seconds, 0.05),
			"how soon the pump stops: the click and its last stroke on a recording, ten times")
	}
}

// sealed says that nobody turns the switch up.
func (b *draft) sealed() {
	if s := b.l.Switch; s != nil && s.Adjustable != launcher.No && !s.AdjustableTo.Set {
		b.set(Change{Key: "pressure_switch.adjustable", To: word("declared no"), Sort: Declaration,
			Why: "its screw is sealed, so that nobody turns it up"})
	}
}

// holes says that the holes on the way of a shot are drilled through their parts: where one may be missing, a whole fitting passes.
func (b *draft) holes() {
	reach := launcher.ReachOf(b.l)
	for i := range b.l.Paths {
		if p := &b.l.Paths[i]; p.Restrictor() && p.Flow.Removable == launcher.Unanswered && reach.Paths[i] && p.Name != "" {
			b.say("paths."+p.Name+".orifice_removable", word("declared no"), "that its hole is drilled through the part itself, or is a "+
				"valve's own seat: nobody leaves it out")
		}
	}
}

// weather states rules of use where the design leaves them to the widest weather: a launcher that is
// filled in the cold and left in the sun shoots harder by half.
func (b *draft) weather() {
	a := &b.l.Ambient
	const why = "a rule of use: it is not used outside, and not left filled in the sun"
	rule := func(band launcher.Band, key, to string) {
		if band.Assumed {
			b.say("ambient."+key, word(to+", declared"), why)
		}
	}
	rule(a.Temperature, "temperature", "20 degC ± 10 K")
	rule(a.Hottest, "hottest", "35 degC")
	rule(a.Coldest, "coldest", "10 degC")
	if b.l.Event == nil || !b.l.Event.MuzzleHeight.Set {
		b.say("event.muzzle_height", word("1 m, declared"), "how far, and how hard, it comes down")
	}
}

// people says who is near and what keeps them.
func (b *draft) people() {
	bar := &b.l.Barrel
	if len(bar.ObjectControl) == 0 {
		b.add(Change{Key: "barrel.object_control", To: list("declared: supervised loading by the adult in charge"), Sort: Declaration,
			Why: "that nothing but the projectile gets into the barrel"})
	}
	if finding.Proves(finding.ItemSealGuard, bar.SealGuard) == "" {
		b.set(Change{Key: "barrel.seal_guard", Sort: Declaration,
			To:  word("declared: slots or a bar that no lips can seal and no finger reaches past"),
			Why: "that no mouth, ear, face or finger closes the muzzle"})
	}
	if b.l.Event == nil || !b.l.Event.NearestPerson.Set {
		b.add(Change{Key: "event.nearest_person", To: word("3 m, declared"), Sort: Declaration, Why: "nobody else comes nearer"})
	}
	if b.l.Event == nil || !b.l.Event.EarToMuzzle.Set {
		b.add(Change{Key: "event.ear_to_muzzle", To: word("2 m, declared"), Sort: Declaration, Why: "no ear comes nearer while it may fire"})
	}
	if e := b.l.Event; (e == nil || !e.Wheels.Set) && (b.l.Mount.RideOn || b.l.Mount.MovingAt.Set && !b.l.Mount.MovingAt.Assumed ||
		e != nil && e.VehicleSpeed.Set) {
		b.add(Change{Key: "event.wheels", To: word("2 m, declared"), Sort: Declaration,
			Why: "no wheel of its own vehicle is nearer to the muzzle"})
	}
	if b.l.Event == nil || !b.l.Event.Youngest.Set {
		b.add(Change{Key: "event.youngest", To: word("4 years, declared"), Sort: Declaration, Why: "no younger child comes near"})
	}
}
