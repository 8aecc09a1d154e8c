package advise

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Remedy is one change, of one part, that may mend a verdict which fails.
type Remedy struct {
	Verdict string
	Changes []Change
}

// holds tells that a verdict passes, or holds while people keep its condition.
func holds(v finding.Verdict) bool {
	return v.Holds()
}

// following is what follows from where a launcher's dials stand.
func following(l *launcher.Launcher) []follower {
	w := l.Clone()
	return (&sieve{}).follow(w, bandsOf(w))
}

// Remedies lists the changes that may mend a verdict of a design, that with the least work
// first; none where no single part does.
func Remedies(d Design, id string) []Remedy {
	l := d.Launcher()
	b := func(make func(*draft)) Remedy {
		one := newDraft(d, nil)
		make(one)
		return Remedy{id, one.list}
	}
	scaled := func(dl *dial, by float64) Remedy {
		if dl == nil || math.IsNaN(dl.at(l)) {
			return Remedy{}
		}
		v := dl.step(dl.at(l) * by)
		if v == dl.at(l) {
			return Remedy{}
		}
		w := l.Clone()
		b := bandsOf(w)
		dl.turn(b, v)
		return Remedy{id, merged(dl.changes(v), followed((&sieve{}).follow(w, b), l))}
	}
	var out []Remedy
	switch id {
	case finding.EnergyTotal, finding.EnergyArea, finding.EnergyFault:
		out = []Remedy{scaled(pressureDial(l), 0.6), scaled(travelDial(l), 0.5), scaled(volumeDial(l), 0.5), scaled(valveDial(l), 0.6)}
	case finding.SoundAtPeak:
		out = []Remedy{b(personAway), b(earAway), b(func(b *draft) { personAway(b); earAway(b) }), scaled(pressureDial(l), 0.6),
			scaled(travelDial(l), 1.5)}
	case finding.BarrelStalled:
		out = []Remedy{scaled(travelDial(l), 0.6), scaled(volumeDial(l), 1.6), scaled(volumeDial(l), 0.5), b(looserFit)}
	case finding.BarrelJammed:
		out = []Remedy{b(bleedBarrel)}
	case finding.VentTrapped, finding.LoadingEmpty:
		out = []Remedy{b((*draft).waysOut)}
	case finding.ShotUnasked:
		out = []Remedy{b(closesAlone), b((*draft).waysOut), b(guarded)}
	case finding.VentShutdown, finding.VentPowerLoss:
		out = []Remedy{b((*draft).waysOut), b(widerVents)}
	case finding.GaugeReadable:
		out = []Remedy{b((*draft).gauge)}
	case finding.LadderOrder, finding.HeatSoak, finding.SwitchBand:
		out = []Remedy{{id, followed(following(l), l)}, scaled(pressureDial(l), 0.7)}
	case finding.ReliefCapacity:
		out = []Remedy{b(widerRelief(1.05)), b(widerRelief(1.6))}
	case finding.VesselMaterial:
		out = []Remedy{b((*draft).goodParts)}
	case finding.ValveDifferential:
		out = []Remedy{b(directly)}
	case finding.VesselRating, finding.BarrelBlocked, finding.ReliefRating:
		out = []Remedy{b((*draft).relief), scaled(pressureDial(l), 0.6)}
	case finding.MuzzleSealed:
		out = []Remedy{b(guarded)}
	case finding.MisuseOfObjects:
		out = []Remedy{b(controlled)}
	}
	kept := out[:0]
	for _, r := range out {
		if len(r.Changes) > 0 {
			kept = append(kept, r)
		}
	}
	return kept
}

// Dose puts a chamber between the tank and the firing valve.
func Dose(d Design) []Remedy { return single(d, (*draft).dose) }

// SoftTip says that the tip is soft, whatever is stated of it, as a press test has yet to show.
func SoftTip(d Design) []Remedy {
	return single(d, func(b *draft) {
		b.soft()
		b.list = merged(b.list, []Change{{Key: "projectile.tip", To: word("declared resilient"), Sort: Declaration},
			{Key: "projectile.tip_proof", To: word("declared"), Sort: Declaration}})
	})
}

// WaysOut gives every volume a way into the open.
func WaysOut(d Design) []Remedy { return single(d, (*draft).waysOut) }

// single is one remedy of no verdict; none where there is nothing to change.
func single(d Design, make func(*draft)) []Remedy {
	b := newDraft(d, nil)
	if fires(b.l) != nil {
		make(b)
	}
	if len(b.list) == 0 {
		return nil
	}
	return []Remedy{{Changes: b.list}}
}

// away is how far off [m] somebody is asked to be who is nearer: at a muzzle a few steps cost nothing (own rule of this project).
const away = 2.0

// personAway keeps the nearest person further off.
func personAway(b *draft) {
	if e := b.l.Event; e != nil && e.NearestPerson.Set {
		b.further(e.NearestPerson)
	}
}

// earAway keeps the nearest ear further off; a rider's goes with the launcher.
func earAway(b *draft) {
	if e := b.l.Event; e != nil && e.EarToMuzzle.Set && !b.l.Mount.RideOn {
		b.further(e.EarToMuzzle)
	}
}

// further puts a distance up to what somebody is asked to keep, or to twice what it is.
func (b *draft) further(is launcher.Band) {
	b.set(Change{Key: is.Key, To: stated(math.Max(away, upTo(2*is.Nominal, 0.5)), finding.Metres), Sort: Wish,
		Why: "a rule of use: nobody comes nearer while it may fire"})
}

// widerRelief takes relief valves of a bore so many times as wide, or more.
func widerRelief(times float64) func(*draft) {
	return func(b *draft) {
		for i := range b.l.Paths {
			p := &b.l.Paths[i]
			if f := p.Flow; p.Kind == pneumatics.Relief && f.Form == launcher.OrificeBore {
				b.set(Change{Key: f.Value.Key, To: number(atLeast(bores, times*f.Value.Nominal), finding.Millimetres, 0.2e-3), Sort: Bought,
					Part: "relief valve", Why: "a relief valve wide enough for the supply"})
			}
		}
	}
}

// looserFit asks for half the friction.
func looserFit(b *draft) {
	p := b.l.Projectile.Breakaway
	if p.Set && p.High > 0 {
		b.set(Change{Key: p.Key, To: number(p.High/4, finding.Newtons, p.High/4), Why: "a looser fit, so that it never sticks"})
	}
}

// bleedBarrel drills a hole into the barrel that nothing shuts.
func bleedBarrel(b *draft) {
	at := "paths." + free(b.l, "bleed_barrel") + "."
	const why = "a hole near the barrel's rear end that nothing shuts"
	b.list = append(b.list, Change{Key: at + "from", To: word("barrel"), Why: why}, Change{Key: at + "to", To: word("atmosphere"), Why: why},
		Change{Key: at + "kind", To: word("orifice"), Why: why},
		Change{Key: at + "orifice", To: number(1e-3, finding.Millimetres, drill), Why: why},
		Change{Key: at + "points", To: word("away"), Why: why})
}

// closesAlone takes firing valves that shut without current.
func closesAlone(b *draft) {
	for i := range b.l.Paths {
		p := &b.l.Paths[i]
		if p.To == "barrel" && p.Kind == pneumatics.Valve && p.Unpowered != pneumatics.Closed && p.Way == launcher.OnlyWay {
			b.set(Change{Key: "paths." + p.Name + ".unpowered", To: word("closed"), Why: "a firing valve that shuts without current", Sort: Bought,
				Part: "firing valve"})
		}
	}
}

// guarded declares a guard, controlled how other objects are kept out.
func guarded(b *draft) {
	if finding.Proves(finding.ItemSealGuard, b.l.Barrel.SealGuard) == "" {
		b.set(Change{Key: "barrel.seal_guard", To: word("declared: a guard that keeps lips, faces and fingers off"), Sort: Declaration,
			Why: "a guard to be built and shown"})
	}
}

func controlled(b *draft) {
	if len(b.l.Barrel.ObjectControl) == 0 {
		b.set(Change{Key: "barrel.object_control", To: list("declared: supervised loading by the adult in charge"), Sort: Declaration,
			Why: "to be kept at each shot"})
	}
}

// widerVents drills the holes wider that lead into the open.
func widerVents(b *draft) {
	for i := range b.l.Paths {
		p := &b.l.Paths[i]
		if f := p.Flow; p.To == "atmosphere" && f.Form == launcher.OrificeBore && p.Kind != pneumatics.Relief {
			b.set(Change{Key: f.Value.Key, To: number(stepped(drill)(1.5*f.Value.Nominal), finding.Millimetres, drill), Why: "a wider vent"})
		}
	}
}

// directly takes a firing valve that needs no pressure to open.
func directly(b *draft) {
	if p := fires(b.l); p != nil && (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.Way == launcher.OnlyWay {
		const why = "a direct-acting firing valve"
		b.set(Change{Key: "paths." + p.Name + ".drive", To: word("direct"), Why: why, Sort: Bought, Part: "firing valve"})
		b.set(Change{Key: "paths." + p.Name + ".min_differential", To: number(0, finding.Bars, 0), Why: why, Sort: Bought})
	}
}
