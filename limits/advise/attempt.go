package advise

import (
	"context"
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// attempt is one way in the making: a layout and the dials that may be turned.
type attempt struct {
	name    string
	layout  layout
	base    *draft   // the layout applied
	laid    []Change // the changes of the layout
	dials   []*dial
	sieve   sieve
	day     string
	last    turned
	found   []Change // all changes of the last round
	design  Design
	judged  judged
	tried   int
	fine    int                     // which class of gauges
	bled    bool                    // it was in need of a hole in the barrel
	held    finding.Text            // what held it back when it was judged in full
	asked   finding.Text            // the verdicts for which it was made stricter
	wide    bool                    // some of its tolerances could be declared narrower
	narrows []string                // the keys of these
	needs   map[string]finding.Text // of those that were looked at in full what is lost without them
	missed  finding.Text            // what was lost when it was last judged with less declared
	blocked map[string]bool         // verdicts for which it was made stricter
	kinked  bool                    // one of them was for a hose that is kinked
	stuck   int                     // how often one of them was for a stuck projectile
}

// rounds is how often an attempt is tuned, judged and mended.
const rounds = 6

// run tunes, judges lightly and mends until it holds; false where it does not.
func (a *attempt) run(ctx context.Context) (bool, error) {
	for range rounds {
		if err := a.round(ctx); err != nil {
			return false, err
		}
		if a.design == nil {
			return false, nil
		}
		if a.judged.good() {
			return true, nil
		}
		if a.name == asItIs || !a.mend(&a.judged) {
			return false, nil
		}
		a.last.values = nil // from everywhere again: the old place is none now
	}
	return false, nil
}

// round tunes the dials once and judges what comes out.
func (a *attempt) round(ctx context.Context) error {
	a.tried++
	l := a.base.l
	if len(a.sieve.hard) == 0 {
		if err := a.sieve.sharpen(ctx, a.sieve.turn(l, nil, nil).l); err != nil {
			return err
		}
	}
	if s := &a.sieve; a.last.l != nil && (s.jams && len(s.stuck) == 0 || s.snaps && len(s.fast) == 0) { // asked for since the last round
		if err := s.sharpenAsked(ctx, a.last.l); err != nil {
			return err
		}
	}
	if s := &a.sieve; s.freed > 0 && a.last.l != nil {
		s.free(s.figures(a.last.l, 0, math.Inf(1)).freed)
	}
	if a.name == asItIs {
		a.last = a.sieve.turn(l, nil, nil)
		a.found, a.design = a.laid, a.base.design
		if f := a.last.figures; f.weakest < worst.Creep || !(f.speed > 0) || f.hardest > 1 {
			a.design = nil // one of its own shots shows it: judging it would say no more
			return nil
		}
		var err error
		a.judged, err = judge(search.WithStrength(ctx, light*search.Strength(ctx)), a.design.Launcher(), a.day)
		return Softened(err)
	}
	from := a.last.values
	for range 10 { // until the corners stay
		t, err := a.sieve.tune(ctx, l, a.dials, from)
		if err != nil {
			return err
		}
		if err := a.sieve.sharpen(ctx, t.l); err != nil {
			return err
		}
		a.last = a.sieve.turn(l, a.dials, t.values)
		if !carried(a.last.l) && a.widerRelief() {
			l, from = a.base.l, nil
			continue
		}
		if from = t.values; t.figures.good() && a.last.loss >= t.loss+0.1 { // what was not good before is none with more corners
			continue
		}
		if a.last.figures.eased() && a.reaches(a.sieve.goal) || a.sieve.fine || !hasRelief(l) {
			break
		}
		a.sieve.fine, from = true, nil // what a relief valve leaves open may be what is in the way
	}
	a.reach()
	a.found = a.laid
	for i, d := range a.dials {
		if v := a.last.values[i]; v != d.at(l) {
			a.found = merged(a.found, d.changes(v))
		}
	}
	a.found = merged(a.found, followed(a.last.follows, l))
	a.gauges()
	if !a.last.figures.good() {
		a.design = nil // judging it would say no more
		return nil
	}
	d, err := a.base.design.With(a.found)
	if err != nil {
		a.design, a.held = nil, finding.Words("the changed design would be refused: "+err.Error())
		return nil
	}
	a.design = d
	a.judged, err = judge(search.WithStrength(ctx, light*search.Strength(ctx)), d.Launcher(), a.day)
	a.withheld(err)
	return Softened(err)
}

// withheld keeps in mind that a computation failed its own checks.
func (a *attempt) withheld(err error) {
	if err != nil {
		a.held = finding.Words(err.Error())
	}
}

// Softened lets a way that cannot be computed be no way, and not the end of the search.
func Softened(err error) error {
	switch err.(type) {
	case *worst.WithheldError, *worst.RangeError:
		return nil
	}
	return err
}

// dialOf is the dial of a key that ends so; nil: none.
func (a *attempt) dialOf(ends ...string) *dial {
	for _, d := range a.dials {
		for _, e := range ends {
			if strings.HasSuffix(d.keys[0], e) {
				return d
			}
		}
	}
	return nil
}

// sooner lets the projectile leave from lower pressures: what stops before the muzzle has air behind it that a hand frees. A
// shorter way, no more air than there is, and a valve that lets more in than leaks past; without a way to be cut more air.
func (a *attempt) sooner(times float64) (done bool) {
	valve, dose, way := a.dialOf(".Cv", ".Kv", ".orifice", ".seat_bore"), a.dialOf(".volume"), a.dialOf("travel", "engagement")
	if valve != nil {
		if at := valve.at(a.last.l); at < 0.95*valve.high {
			valve.low, done = math.Min(valve.high, 1.25*at), true
		}
	}
	if way != nil {
		if at := way.at(a.last.l); at > 1.05*way.low {
			way.high, done = math.Max(way.low, at/math.Sqrt(1+0.5*times)), true
		}
		if done && dose != nil {
			dose.high = math.Max(dose.low, dose.at(a.last.l))
		}
	}
	if done || dose == nil {
		return done
	}
	at := dose.at(a.last.l)
	if at > 0.95*dose.high {
		return false
	}
	dose.low = math.Min(dose.high, 1.2*times*at)
	return true
}

// pressure is the dial of the working pressure.
func (a *attempt) pressure() *dial {
	return a.dialOf("cut_out", "set_pressure", "filled_to", "pumped_to")
}

// lower and raise move the ends of the pressures that are looked at.
func (a *attempt) lower(share float64) bool {
	d := a.pressure()
	if d == nil || d.high <= d.low*1.01 {
		return false
	}
	d.high = math.Max(d.low, share*d.at(a.last.l))
	return true
}

func (a *attempt) raise(times float64) bool {
	d := a.pressure()
	if d == nil || d.low >= d.high*0.99 {
		return false
	}
	d.low = math.Min(d.high, times*math.Max(d.low, d.at(a.last.l)))
	return true
}

// looser asks for more of the weakest launcher.
func (a *attempt) looser() bool {
	a.sieve.weak = append(a.sieve.weak, a.sieve.weak...) // keeps the search from ending before new corners are in
	return a.tried < 4
}

// lay adds a change to the layout and applies it.
func (a *attempt) lay(list ...Change) bool {
	b := newDraft(a.base.design, a.base.keep)
	b.l = a.base.l
	for _, c := range list {
		b.set(c)
	}
	if len(b.list) == 0 || b.apply(&a.laid) != nil {
		return false
	}
	a.base = b
	return true
}

// widen drills the holes wider that empty a volume into the open.
func (a *attempt) widen(v finding.Verdict) bool {
	times := math.Min(2, math.Sqrt(excess(v))*1.1)
	var list []Change
	for i := range a.base.l.Paths {
		p := &a.base.l.Paths[i]
		f := p.Flow
		if p.To != "atmosphere" || f.Form != launcher.OrificeBore || p.Kind == pneumatics.Relief || f.Value.Nominal > 6e-3 {
			continue
		}
		at := upTo(math.Max(f.Value.Nominal*times, f.Value.Nominal+drill), drill)
		list = append(list, Change{Key: f.Value.Key, To: number(at, finding.Millimetres, drill), Why: "the least drill that empties it in time"})
	}
	return a.lay(list...)
}

// bleed drills a hole into the barrel's rear end, that nothing shuts: what a stuck projectile
// keeps behind it gets out. One that is there is drilled wider.
func (a *attempt) bleed() bool {
	const why = "lets the air out from behind a projectile that sticks; drilled near the rear end, and nothing shuts it"
	if p := a.bleedHole(); p != nil {
		f := p.Flow.Value
		if f.Nominal > 3e-3 {
			return false
		}
		return a.lay(Change{Key: f.Key, To: number(stepped(drill)(1.5*f.Nominal), finding.Millimetres, drill), Why: why})
	}
	at := "paths." + free(a.base.l, "bleed_barrel") + "."
	return a.lay(Change{Key: at + "from", To: word("barrel"), Why: why}, Change{Key: at + "to", To: word("atmosphere"), Why: why},
		Change{Key: at + "kind", To: word("orifice"), Why: why},
		Change{Key: at + "orifice", To: number(1e-3, finding.Millimetres, drill), Why: why},
		Change{Key: at + "points", To: word("away"), Why: "away from people and barrel"})
}

// bleedHole is a hole in the barrel that nothing shuts; nil: none.
func (a *attempt) bleedHole() *launcher.PathSpec {
	for i := range a.base.l.Paths {
		p := &a.base.l.Paths[i]
		if p.From == "barrel" && p.Kind == pneumatics.Orifice && p.Flow.Form == launcher.OrificeBore {
			return p
		}
	}
	return nil
}

// carried tells that the relief valve passes at its full flow what the supply delivers.
func carried(l *launcher.Launcher) bool {
	o := l.Overcharge()
	return !o.Known || o.FullFlow == 0 || o.Balance <= o.FullFlow
}

// widerRelief takes the next larger relief valve.
func (a *attempt) widerRelief() bool {
	var list []Change
	for i := range a.base.l.Paths {
		p := &a.base.l.Paths[i]
		if p.Kind != pneumatics.Relief || p.Flow.Form != launcher.OrificeBore {
			continue
		}
		if next := atLeast(bores, p.Flow.Value.Nominal*1.05); next > p.Flow.Value.Nominal {
			list = append(list, Change{Key: p.Flow.Value.Key, To: number(next, finding.Millimetres, 0.2e-3), Sort: Bought, Part: "relief valve",
				Why: "wide enough for the supply"})
		}
	}
	return a.lay(list...)
}

// directValve takes a firing valve that needs no pressure to open.
func (a *attempt) directValve() bool {
	p := fires(a.base.l)
	if p == nil || p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve {
		return false
	}
	const why = "it opens whatever the pressure; a piloted one may stay shut"
	return a.lay(Change{Key: "paths." + p.Name + ".drive", To: word("direct"), Why: why, Sort: Bought, Part: "firing valve, direct-acting"},
		Change{Key: "paths." + p.Name + ".min_differential", To: number(0, finding.Bars, 0), Why: why, Sort: Bought})
}
