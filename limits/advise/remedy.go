package advise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Remedy is one change, of one part, that may mend a verdict which fails.
type Remedy struct {
	Verdict string
	Changes []Change
}

// Proof is what a remedy does, judged again.
type Proof struct {
	Remedy
	Before, After finding.Verdict
	Refused       string // why the reader refuses the design; "" it does not
}

// gain is by how much a figure must come nearer its limit to count as an effect [-].
const gain = 0.05

// Mends tells that the verdict then holds.
func (p *Proof) Mends() bool {
	return p.Refused == "" && (holds(p.After) || p.After.Status == finding.NotApplicable)
}

// holds tells that a verdict passes, or holds while people keep its condition.
func holds(v finding.Verdict) bool {
	return v.Status == finding.Pass || v.Status == finding.Conditional
}

// Helps tells that the verdict then holds, or comes nearer.
func (p *Proof) Helps() bool {
	if p.Mends() {
		return true
	}
	a, b := p.After, p.Before
	if p.Refused != "" || a.Status != finding.Fail || a.Value == nil || b.Value == nil || a.Limit == nil {
		return false
	}
	return math.Abs(*a.Value-*a.Limit) < (1-gain)*math.Abs(*b.Value-*a.Limit)
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
		out = []Remedy{scaled(pressureDial(l), 0.6), scaled(travelDial(l), 1.5)}
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

// Prove applies every remedy of the verdicts that fail to a copy of the design and judges that
// verdict again, lightly: both ways at the same effort. A change that may mend several
// verdicts is computed once. The error is the context's.
func Prove(ctx context.Context, d Design, found *measure.Findings, day string, failing []finding.Verdict) (out []Proof, err error) {
	if found != nil && found.Wrong != nil { // a change of the design would be tried on what measured shots disprove
		return nil, nil
	}
	ctx = search.WithStrength(ctx, trial*search.Strength(ctx))
	trials := []*tried{{design: d}} // the first as it is
	of := map[string]*tried{}
	for _, v := range failing {
		if v.Status != finding.Fail {
			continue
		}
		for _, r := range Remedies(d, v.ID) {
			key := fmt.Sprint(r.Changes)
			if of[key] == nil {
				t := &tried{}
				changed, refused := d.With(r.Changes)
				if t.design = changed; refused != nil {
					t.refused = refused.Error()
				}
				of[key] = t
				trials = append(trials, t)
			}
			of[key].ask(v.ID)
			trials[0].ask(v.ID)
			out = append(out, Proof{Remedy: r})
		}
	}
	if len(out) == 0 {
		return nil, nil
	}
	if err := trials[0].compute(ctx, found, day, nil); err != nil {
		return nil, err
	}
	rest := trials[1:]
	if err := worst.SideBySide(len(rest), func(i int) error { return rest[i].compute(ctx, found, day, trials[0].found) }); err != nil {
		return nil, err
	}
	for i := range out {
		p := &out[i]
		t := of[fmt.Sprint(p.Changes)]
		p.Before, p.After, p.Refused = trials[0].verdict(p.Verdict), t.verdict(p.Verdict), t.refused
	}
	return out, nil
}

// trial is the share of the usual effort that the searches of a proof make [-]: it tells what a
// change does, not whether the changed design may be built; check tells that.
const trial = 0.03

// tried is a changed design, computed for the verdicts asked of it.
type tried struct {
	design  Design
	refused string
	want    assessment.Stages // that the verdicts asked of it read
	every   bool              // a verdict reads every fault, not the worst alone
	worst   []string          // the verdicts that read the worst fault
	found   *assessment.Assessment
}

// ask takes a verdict up that is to be judged.
func (t *tried) ask(id string) {
	for _, q := range verdict.Table() {
		if q.ID == id {
			t.want |= q.Stage | assessment.NoStage
			if id == finding.EnergyFault || id == finding.ShotUnasked {
				t.worst = append(t.worst, id)
			} else {
				t.every = t.every || q.Stage&assessment.FaultStage != 0
			}
		}
	}
}

// compute makes what the verdicts asked read. before is the design as it was; nil: this is it. Where the worst fault alone
// counts, those that were among the worst before are run first, and the others where that leaves no failure.
func (t *tried) compute(ctx context.Context, found *measure.Findings, day string, before *assessment.Assessment) (err error) {
	if t.refused != "" {
		return nil
	}
	o := assessment.Options{Measured: found, Day: day, Sheets: vent.SlowEndOnly, Want: t.want}
	if o.Want&assessment.FaultStage != 0 {
		o.Want |= assessment.EnergyStage | assessment.EmptyingStage // faults read these, and the plugged muzzle
		if before != nil && before.Faults != nil && !t.every {
			less := lesser(before.Faults)
			o.OnlyFaults = func(id string) bool { return !less[id] }
		}
		if o.OnlyFaults == nil || o.OnlyFaults(fault.PluggedID) {
			o.Want |= assessment.StuckStage
		}
	}
	t.found, err = assessment.Make(ctx, t.design.Launcher(), o)
	if err == nil && o.OnlyFaults != nil && slices.ContainsFunc(t.worst, t.holds) {
		o.OnlyFaults = nil
		o.Want |= assessment.StuckStage
		t.found, err = assessment.Make(ctx, t.design.Launcher(), o)
	}
	return softened(err)
}

// holds tells that a verdict does not fail.
func (t *tried) holds(id string) bool { return t.verdict(id).Status != finding.Fail }

// lesser are the faults that are well below the worst of their kind, those that fire unasked or the others, by id.
func lesser(r *fault.Report) map[string]bool {
	const among = 0.7 // of the worst
	top := map[bool]float64{}
	for _, f := range r.Faults {
		unasked := f.Effect == fault.FiresUnasked
		top[unasked] = math.Max(top[unasked], f.Judged)
	}
	out := map[string]bool{}
	for _, f := range r.Faults {
		out[f.ID] = f.Status != finding.Unknown && f.Judged < among*top[f.Effect == fault.FiresUnasked]
	}
	return out
}

// verdict is one verdict on it; its zero value where it was not computed.
func (t *tried) verdict(id string) finding.Verdict {
	if t.found == nil {
		return finding.Verdict{}
	}
	return verdict.Of(t.found, id)
}

// typed is how many keys are told in full, as lines to be typed: a new part has five.
const typed = 5

// Say is a proof in words: the change, and what it does.
func (p *Proof) Say() finding.Text {
	var parts []finding.Text
	for _, c := range p.Changes {
		if said := finding.Say("%s = %s", c.Key, c.To.Said()); telling(c.Key) || len(p.Changes) <= typed {
			parts = append(parts, said)
		}
	}
	said := finding.Join(parts, ", ").Say(" (%s)", p.Changes[0].Why)
	if p.Mends() {
		return said.Say(": tried in brief, it then holds")
	}
	return said.Say(": tried in brief, it comes nearer but does not yet hold")
}

// briefly is the first proof that a verdict is told: its changes without reasons, keys of one table without the table again.
func briefly(id string, proofs []Proof) finding.Text {
	for _, mends := range []bool{true, false} {
		for i := range proofs {
			p := &proofs[i]
			if p.Verdict == id && p.Mends() == mends && p.Helps() {
				return p.brief()
			}
		}
	}
	return nil
}

// brief is a proof in a few words.
func (p *Proof) brief() finding.Text {
	var parts []finding.Text
	before := ""
	for _, c := range p.Changes {
		if !telling(c.Key) && len(p.Changes) > typed {
			continue
		}
		table, key := c.Key[:strings.LastIndexByte(c.Key, '.')+1], c.Key
		if table == before {
			key = key[len(table):]
		}
		before = table
		parts = append(parts, finding.Say("%s = %s", key, c.To.Said()))
	}
	said := finding.Join(parts, ", ")
	if !p.Mends() {
		said = said.Say(", which alone does not do")
	}
	return said
}

// telling tells that a key says what a new part is; its others go without saying.
func telling(key string) bool {
	return strings.HasSuffix(key, ".kind") || strings.HasSuffix(key, ".orifice") || strings.HasSuffix(key, ".open_in") ||
		strings.HasSuffix(key, ".rated_for_gas") || strings.HasSuffix(key, ".set_pressure")
}

// diagnoses are verdicts whose advice says what is missing, whatever mends it.
var diagnoses = [...]string{finding.VentTrapped, finding.VentShutdown, finding.VentPowerLoss, finding.ShotUnasked, finding.LoadingEmpty}

// Proven gives the verdicts with advice that was tried in the place of words that name no more
// than a guess: what has no effect is left out, what mends the verdict comes before what only
// helps. Verdicts without remedies keep their words.
func Proven(verdicts []finding.Verdict, proofs []Proof) {
	for i := range verdicts {
		v := &verdicts[i]
		var said, nearer []finding.Text
		tried := false
		for _, p := range proofs {
			if p.Verdict != v.ID {
				continue
			}
			tried = true
			switch {
			case p.Mends():
				said = append(said, p.Say())
			case p.Helps():
				nearer = append(nearer, p.Say())
			}
		}
		said = append(said, nearer...)
		v.Brief = briefly(v.ID, proofs)
		switch {
		case !tried, len(said) == 0 && slices.Contains(diagnoses[:], v.ID):
		case len(said) > 0 && slices.Contains(diagnoses[:], v.ID):
			v.Advice = v.Advice.Say(" Such as %s.", finding.Join(said, "; or "))
		case len(said) > 0:
			v.Advice = finding.Join(said, "; or ").Say(".")
		default:
			v.Advice = finding.Words("No single change of one part that was tried mends it: puffproof advise looks for several at once.")
		}
	}
}
