package advise

import (
	"context"
	"slices"
	"strings"

	"puffproof/limits/budget"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// whyNot says what forbids every way that was looked at: of the attempt that came nearest the
// verdicts that failed to the end, or what screening found; refused is why others could not be looked at.
func whyNot(ctx context.Context, bad []*attempt, refused finding.Text) finding.Text {
	all := slices.DeleteFunc(slices.Clone(bad), func(a *attempt) bool { return a.name == asItIs || a.last.l == nil })
	switch {
	case len(all) == 0 && len(refused) > 0:
		return finding.Words("what would have to be built otherwise cannot be written into this design: ").And(refused)
	case len(all) == 0:
		return finding.Words("nothing of what may be changed is there to be changed")
	}
	nearest := all[0]
	for _, a := range all {
		if a.last.loss < nearest.last.loss {
			nearest = a
		}
	}
	f := nearest.last.figures
	stands := troubleWords(nearest)
	for i := 0; len(stands) == 0 && i < len(all); i++ {
		stands = all[i].held
	}
	after := finding.Text(nil)
	if len(nearest.asked) > 0 {
		after = finding.Words(". Before that it failed ").And(nearest.asked)
	}
	if nearest.kinked {
		after = after.And(finding.Words(". A kinked hose stands in the way: it fills, and goes off at once when somebody straightens it; a " +
			"shorter or narrower one holds less, and with the valve at the barrel there is none"))
	}
	switch {
	case !(f.speed > 0):
		return finding.Words("nothing leaves this barrel within the limits").And(after)
	case f.hardest > 1:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, the hardest has %.2f times the energy allowed",
			f.hardest).And(widest(ctx, nearest.last.l)).And(after)
	case f.weakest < worst.Creep:
		return finding.Say("the nominal launcher shoots at %s, but the weakest of the tolerances does not leave within the limits: narrow "+
			"what is only assumed, or measure it", finding.Speed(f.speed)).And(widest(ctx, nearest.last.l)).And(after)
	case f.loud > nearlyQuiet:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, the burst behind the projectile is up to "+
			"%s too loud for the nearest ear", finding.Decibel(f.loud)).And(widest(ctx, nearest.last.l)).And(after)
	case len(stands) > 0:
		return finding.Say("of %d ways the nearest is still held back by: %s", len(all), stands)
	}
	return finding.Words("no way held when it was judged in full")
}

// kinkForbids tells that a hose that is kinked is the single fault that fails: the reason of that verdict names the worst fault.
func kinkForbids(troubles []finding.Verdict) bool {
	return slices.ContainsFunc(troubles, func(v finding.Verdict) bool {
		return v.ID == finding.EnergyFault && v.Status == finding.Fail && strings.Contains(v.Why.String(), string(fault.HoseKinked))
	})
}

// short says why no way comes nearer a goal: what the nearest one has, and what it has no more room to.
func short(g Goal, found []foundWay) finding.Text {
	nearest := found[0]
	for _, w := range found {
		if w.way.Missed < nearest.way.Missed {
			nearest = w
		}
	}
	f, a := nearest.by.last.figures, nearest.by
	has := finding.Metre(g.reached(nearest.way.Declared.Launcher(), nearest.way.Nominal.Speed))
	if g.Aim == Speed {
		has = finding.Speed(nearest.way.Nominal.Speed)
	}
	p, why := a.pressure(), finding.Say("the nearest has %s. ", has)
	switch {
	case g.reached(nearest.way.Declared.Launcher(), nearest.way.Nominal.Speed) > g.Value:
		return why.And(finding.Words("With less, the weakest launcher of the tolerances does not leave"))
	case f.hardest > 0.9*aimed:
		why = why.And(finding.Words("With more, the hardest launcher of the tolerances, at its worst single fault, has more energy than " +
			"is allowed"))
		if b := nearest.way.Report.Budget; b != nil && len(b.Shares) > 0 {
			why = why.And(finding.Words("; the tolerance that costs most of it is that of " + b.Shares[0].Key))
		}
		return why
	case f.loud > -1:
		return why.And(finding.Words("With more, the nearest ear gets more than is allowed"))
	case p != nil && p.at(a.last.l) > 0.95*p.high:
		return why.Say("More would take more than %s, up to which a way is looked for", finding.Bar(p.high))
	}
	return why.And(finding.Words("More would take other parts than those that a way may change"))
}

// widest says which tolerances make the weakest launcher so much weaker than the nominal one; "" none stands out.
func widest(ctx context.Context, l *launcher.Launcher) finding.Text {
	const told = 2
	r, err := budget.Compute(ctx, budget.Input{Launcher: l})
	if err != nil || len(r.Slow) == 0 {
		return nil
	}
	var keys []string
	for _, s := range r.Slow[:min(told, len(r.Slow))] {
		keys = append(keys, s.Key)
	}
	return finding.Words(". What holds the weakest back is above all the tolerance of " + strings.Join(keys, ", then that of "))
}

// troubleWords are the verdicts that an attempt was judged to fail.
func troubleWords(a *attempt) finding.Text {
	if a.design == nil {
		return nil
	}
	var stands []finding.Text
	const told = 3
	for _, v := range a.judged.troubles() {
		if len(stands) < told {
			stands = append(stands, finding.Say("%s (%s): %s", v.Title, v.ID, v.Why))
		}
	}
	return finding.Join(stands, "; ")
}

// instead tries what giving way would buy: a proved tip, ears further away, and what is kept.
func instead(ctx context.Context, in Input, bad []*attempt) (finding.Text, error) {
	l := in.Design.Launcher()
	var said []finding.Text
	probe := func(what string, in Input) error {
		a, err := newAttempt(in, probeLayout(in.Design.Launcher()), "all")
		if _, refused := err.(*refusal); a == nil || refused {
			return nil
		}
		if err != nil {
			return err
		}
		if ok, err := a.run(ctx); err != nil || !ok {
			return err
		}
		w, ok, err := a.inFull(ctx, in)
		if ok {
			said = append(said, finding.Say("%s: then it shoots at about %s", what, finding.Speed(w.Nominal.Speed)))
		}
		return err
	}
	if l.Projectile.TipStated && !l.Projectile.Resilient {
		d, err := in.Design.With([]Change{{Key: "projectile.tip", To: word("resilient")}, {Key: "projectile.tip_proof", To: word("declared")}})
		if err == nil {
			soft := in
			soft.Design = d
			if err := probe("a tip that a press test shows to be resilient may have 0.5 J instead of 0.08 J", soft); err != nil {
				return nil, err
			}
		}
	}
	if d, far := further(in.Design, bad); d != nil {
		quiet := in
		quiet.Design = d
		if err := probe("with no ear nearer than "+far+" while it may fire", quiet); err != nil {
			return nil, err
		}
	}
	if len(in.Keep) > 0 {
		free := in
		free.Keep = nil
		if err := probe("without keeping "+strings.Join(in.Keep, ", "), free); err != nil {
			return nil, err
		}
	}
	return finding.Join(said, "; "), nil
}

// further is a design with the nearest ear twice as far away, and how far that is; nil: no shot was too loud, or a rider sits
// where the ear is.
func further(d Design, bad []*attempt) (Design, string) {
	l := d.Launcher()
	loud := func(a *attempt) bool {
		return a.last.l != nil && a.last.figures.loud > 0 ||
			slices.ContainsFunc(a.judged.troubles(), func(v finding.Verdict) bool { return v.ID == finding.SoundAtPeak })
	}
	if l.Event == nil || !l.Event.EarToMuzzle.Set || l.Mount.RideOn || !slices.ContainsFunc(bad, loud) {
		return nil, ""
	}
	to := stated(2*l.Event.EarToMuzzle.Nominal, finding.Metres)
	list := []Change{{Key: "event.ear_to_muzzle", To: to}}
	if n := l.Event.NearestPerson; n.Set && n.Nominal < to.Number.Value {
		list = append(list, Change{Key: "event.nearest_person", To: to})
	}
	out, err := d.With(list)
	if err != nil {
		return nil, ""
	}
	return out, to.Text()
}

// probeLayout is the layout that giving way is tried with.
func probeLayout(l *launcher.Launcher) layout {
	switch {
	case deadHeadStops(l):
		return weakly
	case wholeTank(l) && electric(l):
		return withDose
	}
	return asBuilt
}
