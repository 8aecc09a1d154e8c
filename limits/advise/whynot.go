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
	all, nearest := nearestOf(bad)
	switch {
	case len(all) == 0 && len(refused) > 0:
		return finding.Words("what would have to be built otherwise cannot be written into this design: ").And(refused)
	case len(all) == 0:
		return finding.Words("nothing of what may be changed is there to be changed")
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
		return finding.Say("nothing leaves this barrel within the limits%s", nearest.bar()).And(after)
	case f.hardest > 1:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, the hardest has %.2f times the energy allowed%s",
			f.hardest, nearest.bar()).And(widest(ctx, nearest.last.l)).And(after)
	case f.weakest < worst.Creep:
		return finding.Say("the nominal launcher shoots at %s, but the weakest of the tolerances does not leave within the limits: narrow "+
			"what is only assumed, or measure it", finding.Speed(f.speed)).And(widest(ctx, nearest.last.l)).And(after)
	case f.loud > nearlyQuiet:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, the burst behind the projectile is up to "+
			"%s too loud for the nearest ear", finding.Decibel(f.loud)).And(widest(ctx, nearest.last.l)).And(after)
	case f.freed > 1:
		return finding.Say("with so much air that the weakest launcher of the tolerances leaves, a projectile that gets stuck after a weaker "+
			"shot has %.1f times the energy allowed behind it: a looser fit, or friction and gap measured, leave less", f.freed).And(
			widest(ctx, nearest.last.l)).And(after)
	case len(stands) > 0:
		return finding.Say("of %d ways the nearest is still held back by: %s", len(all), stands)
	}
	return finding.Words("no way held when it was judged in full")
}

// kinkForbids tells that a hose that is kinked is the single fault that fails: the reason of that verdict names the worst fault.
func kinkForbids(troubles []finding.Verdict) bool {
	return slices.ContainsFunc(troubles, func(v finding.Verdict) bool {
		return v.ID == finding.EnergyFault && v.Status == finding.Fail && isOf(v, fault.HoseKinked)
	})
}

// short says what the nearest way has of a goal that none reaches, and what forbids to come nearer.
func (f *finder) short(ctx context.Context, refused finding.Text) finding.Text {
	g, best := f.in.Goal, f.found[0]
	for _, w := range f.found {
		if w.way.Missed < best.way.Missed {
			best = w
		}
	}
	beyond := g.reached(best.way.Declared.Launcher(), best.way.Nominal.Speed) > g.Value
	most := "most"
	if beyond {
		most = "least"
	}
	said := finding.Say("%s of the %s wanted is the "+most+" that was found", g.figure(&best.way), g.in(g.Value))
	if best.by.name != asItIs || f.in.Sketch {
		if len(f.stands) > 0 {
			said = said.Say(" (%s)", f.stands)
		}
		return said.And(finding.Words(". ")).And(forbids(&best, best.by, beyond))
	}
	said = said.And(finding.Words(", and that is the design as it is: nothing that holds comes nearer. "))
	if len(f.far) > 0 { // of what holds too, but is no nearer
		return said.And(forbids(&best, f.far[0], beyond))
	}
	return said.And(finding.Words("In the way of more: ")).And(whyNot(ctx, f.bad, refused))
}

// forbids says what an attempt has no more room to: beyond tells that less is wanted, else more. The way is the best one.
func forbids(best *foundWay, a *attempt, beyond bool) finding.Text {
	if beyond {
		return finding.Words("With less, the weakest launcher of the tolerances does not leave")
	}
	var why []finding.Text
	f := a.last.figures
	if f.hardest > 0.9*aimed {
		energy := finding.Words("the hardest launcher of the tolerances, at its worst single fault, has more energy than is allowed")
		if b := best.way.Report.Budget; b != nil && len(b.Shares) > 0 {
			energy = energy.And(finding.Words(" (the tolerance that costs most of it is that of " + b.Shares[0].Key + ")"))
		}
		why = append(why, energy)
	}
	if f.loud > -1 {
		why = append(why, finding.Words("the nearest ear gets more than is allowed"))
	}
	p := a.pressure()
	switch {
	case len(why) > 0:
		return finding.Words("With more, ").And(finding.Join(why, ", and "))
	case p != nil && p.at(a.last.l) > 0.95*p.high:
		return finding.Say("More would take more than %s, up to which a way is looked for", finding.Bar(p.high))
	}
	return finding.Words("More would take other parts than those that a way may change")
}

// nearestOf are the attempts that changed something, and that of them which came nearest; nil: none.
func nearestOf(bad []*attempt) (all []*attempt, nearest *attempt) {
	for _, a := range bad {
		if a.name == asItIs || a.last.l == nil {
			continue
		}
		if all = append(all, a); nearest == nil || a.last.loss < nearest.last.loss {
			nearest = a
		}
	}
	return all, nearest
}

// bar is the energy that an attempt was held to, and what its tip has to do with it.
func (a *attempt) bar() finding.Text {
	limits, err := a.last.l.EnergyLimits(a.day)
	if err != nil {
		return nil
	}
	allowed, _ := limits.Allowed(a.last.l.Projectile.ContactDiameter)
	of := "with a tip that is not proved soft"
	switch {
	case slices.Contains(a.narrows, "projectile.tip_proof") && limits.Tip == launcher.ResilientTip:
		of = "and that only with a tip that a press test has yet to show soft"
	case limits.Tip == launcher.ResilientTip:
		of = "with its soft tip"
	}
	return finding.Say(", %s %s", finding.Joule(allowed), of)
}

// widest says which tolerances make the weakest launcher so much weaker than the nominal one; "" none stands out.
func widest(ctx context.Context, l *launcher.Launcher) finding.Text {
	keys := slowing(ctx, l)
	if len(keys) == 0 {
		return nil
	}
	return finding.Words(". What holds the weakest back is above all the tolerance of " + strings.Join(keys, ", then that of "))
}

// slowing are the keys whose tolerances take most from the weakest launcher, the worst first.
func slowing(ctx context.Context, l *launcher.Launcher) (keys []string) {
	r, err := budget.Compute(ctx, budget.Input{Launcher: l})
	if err != nil {
		return nil
	}
	for _, s := range r.Slow[:min(told, len(r.Slow))] {
		keys = append(keys, s.Key)
	}
	return keys
}

// troubleWords are the verdicts that an attempt was judged to fail.
func troubleWords(a *attempt) finding.Text {
	if a.design == nil {
		return nil
	}
	var stands []finding.Text
	const most = 3
	for _, v := range a.judged.troubles() {
		if len(stands) < most {
			stands = append(stands, finding.Say("%s (%s): %s", v.Title, v.ID, v.Why))
		}
	}
	return finding.Join(stands, "; ")
}

// instead tries what giving way would buy: a proved tip, figures measured, a stand while it fires, ears further away, and what is kept.
func instead(ctx context.Context, in Input, bad []*attempt) (finding.Text, error) {
	var said []finding.Text
	for _, c := range concessions(ctx, in, bad) {
		speed, ok, err := probe(ctx, c.in)
		if err != nil {
			return nil, err
		}
		if ok {
			said = append(said, finding.Say("%s: then it shoots at about %s", c.what, finding.Speed(speed)))
		}
	}
	return finding.Join(said, "; "), nil
}

// concession is a way to give, and what is then asked.
type concession struct {
	what string
	in   Input
}

// probe looks for one way with all that may be turned.
func probe(ctx context.Context, in Input) (speed float64, found bool, err error) {
	a, err := newAttempt(in, probeLayout(in.Design.Launcher()), "all")
	if _, refused := err.(*refusal); a == nil || refused {
		return 0, false, nil
	}
	if err != nil {
		return 0, false, err
	}
	if ok, err := a.run(ctx); err != nil || !ok {
		return 0, false, err
	}
	w, ok, err := a.inFull(ctx, in)
	return w.Nominal.Speed, ok, err
}

// concessions lists what the builder could give, by what stands in the way: what no figure mends together and first, on top of that
// each of the others.
func concessions(ctx context.Context, in Input, bad []*attempt) (out []concession) {
	l := in.Design.Launcher()
	must, before := needed(in.Design, bad)
	offer := func(what string, d Design) {
		other := in
		other.Design = d
		out = append(out, concession{what, other})
	}
	if before != "" {
		offer("with "+before, must)
		before += ", and "
	}
	give := func(what string, list ...Change) {
		if d, err := must.With(list); err == nil {
			offer("with "+before+what, d)
		}
	}
	if l.Projectile.TipStated && !l.Projectile.Resilient {
		give("a tip that a press test shows to be resilient, which may have 0.5 J instead of 0.08 J",
			Change{Key: "projectile.tip", To: word("declared resilient")}, Change{Key: "projectile.tip_proof", To: word("declared")})
	}
	if list, far := further(in.Design, bad); list != nil {
		give("no ear nearer than "+far+" while it may fire", list...)
	}
	if _, nearest := nearestOf(bad); nearest != nil && nearest.design == nil {
		if keys := slowing(ctx, nearest.last.l); len(keys) > 0 {
			offer("with "+before+strings.Join(keys, " and ")+" measured, four times as closely as now", suppose(must, knownCloser(keys)))
		}
	}
	if len(in.Keep) > 0 {
		offer("without keeping "+strings.Join(in.Keep, ", "), must)
		out[len(out)-1].in.Keep = nil
	}
	return out
}

// needed is a design without what no figure mends, and what that is in words; "" nothing of that kind stands in the way.
func needed(d Design, bad []*attempt) (Design, string) {
	var words []string
	if slices.ContainsFunc(bad, func(a *attempt) bool { return a.kinked }) {
		d = suppose(d, atTheBarrel)
		words = append(words, "the firing valve at the barrel, no hose between that can be kinked")
	}
	wheels := slices.ContainsFunc(bad, func(a *attempt) bool { return a.blocked[finding.PeopleWheels] })
	if wheels && d.Launcher().Mount.MovingAt.High > 0 {
		if still, err := d.With([]Change{{Key: "mount.moving_at", To: stated(0, finding.MetresPerSecond)}}); err == nil {
			d, words = still, append(words, "a lock that lets it fire only where it stands (mount.moving_at = \"0 m/s\")")
		}
	}
	return d, strings.Join(words, " and ")
}

// failed tells that a verdict stood in the way of one of some attempts.
func failed(bad []*attempt, id string) bool {
	return slices.ContainsFunc(bad, func(a *attempt) bool {
		return slices.ContainsFunc(a.judged.troubles(), func(v finding.Verdict) bool { return v.ID == id })
	})
}

// further puts the nearest ear twice as far away, and says how far that is; nil: no shot was too loud, or a rider sits where the ear is.
func further(d Design, bad []*attempt) ([]Change, string) {
	l := d.Launcher()
	loud := failed(bad, finding.SoundAtPeak) ||
		slices.ContainsFunc(bad, func(a *attempt) bool { return a.last.l != nil && a.last.figures.loud > 0 })
	if l.Event == nil || !l.Event.EarToMuzzle.Set || l.Mount.RideOn || !loud {
		return nil, ""
	}
	to := stated(2*l.Event.EarToMuzzle.Nominal, finding.Metres)
	list := []Change{{Key: "event.ear_to_muzzle", To: to}}
	if n := l.Event.NearestPerson; n.Set && n.Nominal < to.Number.Value {
		list = append(list, Change{Key: "event.nearest_person", To: to})
	}
	return list, to.Text()
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
