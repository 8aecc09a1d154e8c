package fault

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// latentPairs lists the pairs of a fault that nobody notices with every other
// single fault. Where a periodic test of the checklist reveals it, its pairs rest on
// that test. Others are unknown until they are computed (every pair).
func (st *stage) latentPairs(faults []fault) {
	for i := range faults {
		if !faults[i].latent {
			continue
		}
		for k := range faults {
			if i == k || faults[i].part == faults[k].part && (!faults[k].latent || exclude(faults[i].mode, faults[k].mode)) {
				continue
			}
			r := pairOf(&st.report.Faults[i], &st.report.Faults[k])
			if r.RevealedBy != "" {
				r.Status, r.Basis = finding.Pass, finding.Basis("test: "+r.RevealedBy)
				r.Reason = finding.Words("not computed: it rests on the test that is to find the first fault before a second one happens")
			}
			st.report.Pairs = append(st.report.Pairs, r)
		}
	}
}

// exclude tells that one part cannot fail in both ways at once: it is open or shut, or both say the same.
func exclude(a, b Mode) bool {
	opening := func(m Mode) int {
		switch m {
		case StuckOpen, FailedOpen, LeakingValve, PassesBack, Creeps, BoreMissing, BoreDrilled, ReseatsLate:
			return 1
		case StuckShut, ReliefStuckShut, SetTooHigh, Blocked, HalfBlocked:
			return -1
		}
		return 0
	}
	return a == b || opening(a)*opening(b) != 0
}

// pairOf starts the result of a pair: the first fault is there already when the
// second happens.
func pairOf(first, second *Result) Result {
	r := *second
	r.ID, r.With = second.ID, first.ID
	r.Latent, r.RevealedBy = first.Latent, first.RevealedBy
	r.Consequence = finding.Say("%s; then %s", first.Consequence, second.Consequence)
	r.SameAs, r.Shots = "", 0
	// No figure of one fault alone is one of the two together.
	r.WorstGauge, r.Where, r.Energy, r.Judged, r.Freed = math.NaN(), "", math.NaN(), math.NaN(), math.NaN()
	r.Status, r.Basis, r.Effect = finding.Unknown, finding.OnCircuit, NotComputed
	r.Reason = finding.Words("not computed: --pairs does")
	return r
}

// everyTwo lists every pair of faults of different parts, the latent one first: it is
// there already when the other happens.
func everyTwo(faults []fault) [][2]*fault {
	var pairs [][2]*fault
	for i := range faults {
		for k := i + 1; k < len(faults); k++ {
			a, b := &faults[i], &faults[k]
			if a.part == b.part && !(a.latent && b.latent && !exclude(a.mode, b.mode)) || (a.unasked && b.unasked) {
				continue
			}
			if b.latent && !a.latent {
				a, b = b, a
			}
			pairs = append(pairs, [2]*fault{a, b})
		}
	}
	return pairs
}

// runPairs joins the two faults of each pair and runs them as one. Where one of the two
// does not bear on the other's shot, the pair's shot is the other's.
func (st *stage) runPairs(pairs [][2]*fault) error {
	both := make([]fault, len(pairs))
	for i, p := range pairs {
		both[i] = st.both(p[0], p[1])
	}
	results, err := st.run(both)
	if err != nil {
		return err
	}
	for i := range results {
		r, first := &results[i], pairs[i][0]
		r.ID, r.With = pairs[i][1].id, first.id
		r.Latent, r.RevealedBy = first.latent, first.revealed
		if first.latent && first.revealed != "" && (r.Status == finding.Fail || r.Status == finding.Unknown) {
			r.Status, r.Basis = finding.Pass, finding.Basis("test: "+first.revealed)
			r.Reason = finding.Notes(r.Reason, finding.Words("it rests on the test that is to find the first fault before a second one happens"))
		}
		st.report.Pairs = append(st.report.Pairs, *r)
		st.report.Shots += r.Shots
	}
	return nil
}

// both is the fault that two faults are at once.
func (st *stage) both(a, b *fault) (f fault) {
	if a.electric != nil && b.electric != nil {
		f = st.bothElectric(a, b)
	} else {
		f = joined(a, b)
		if f.changes = st.pairChanges(a, b); !f.changes {
			f.whyNot = finding.Words("neither alone nor together do they bear on the shot")
		}
	}
	f.parts = [2]*fault{a, b}
	return f
}

// pairSeeds carries what was found of the two faults of a pair over to its box, beside the hardest shot of normal operation; nil:
// it is no pair, or neither of them was searched.
func (st *stage) pairSeeds(f *fault, b *worst.Box) (out [][]float64) {
	const most = 3 // maxima of each
	for _, part := range f.parts {
		if part == nil {
			continue
		}
		one := st.found[part.asked]
		if one == nil || !one.Result.Found {
			continue
		}
		for _, m := range one.Result.Maxima[:min(most, len(one.Result.Maxima))] {
			for _, fresh := range []float64{1, 0} {
				out = append(out, b.Carry(one.Box.Labels, m.Point, fresh))
			}
		}
	}
	if len(out) == 0 {
		return nil
	}
	for i, m := range st.Normal.Result.Maxima[:min(most, len(st.Normal.Result.Maxima))] {
		for _, fresh := range []float64{1, 0.5, 0} {
			u := b.Carry(st.Normal.Box.Labels, m.Point, fresh)
			if out = append(out, u); i == 0 {
				out = append(out, b.OtherHills(u)...)
			}
		}
	}
	return out
}

// pairChanges tells whether two faults together bear on the shot: one does, or
// together they open what neither opens alone.
func (st *stage) pairChanges(a, b *fault) bool {
	if a.changes || b.changes {
		return true
	}
	w := st.Launcher.Clone()
	before := launcher.ReachOf(w)
	for _, f := range []*fault{a, b} {
		if f.apply != nil {
			f.apply(w)
		}
	}
	after := launcher.ReachOf(w)
	for i := range after.Paths {
		if after.Paths[i] && !before.Paths[i] {
			return true
		}
	}
	return false
}

// joined is two faults at once. The second decides the state and names it.
func joined(a, b *fault) fault {
	f := *b
	if a.unasked && !b.unasked { // the one that fires decides the state
		f = *a
		f.id, f.part, f.mode = b.id, b.part, b.mode
		f.state, f.anyState, f.unasked = a.state, false, true
	}
	f.pairOf = a.questionKey() + "+" + b.questionKey()
	f.apply = func(w *launcher.Launcher) {
		// What rewrites the states comes last.
		order := []*fault{a, b}
		if a.unasked {
			order = []*fault{b, a}
		}
		for _, one := range order {
			if one.apply != nil {
				one.apply(w)
			}
		}
	}
	f.overcharges = a.overcharges || b.overcharges
	f.noRelief = a.noRelief || b.noRelief
	f.raises = a.raises + b.raises
	f.letsGo = a.letsGo || b.letsGo
	f.extra = append(append([]string{}, a.extra...), b.extra...)
	f.adjust = func(c *pneumatics.Circuit, u []float64) {
		if a.adjust != nil {
			a.adjust(c, u[:len(a.extra)])
		}
		if b.adjust != nil {
			b.adjust(c, u[len(a.extra):])
		}
	}
	f.share = a.share
	if f.share == nil {
		f.share = b.share
	}
	f.consequence = finding.Say("%s; then %s", a.consequence, b.consequence)
	if f.keptBy = b.keptBy; f.keptBy.ID == "" {
		f.keptBy = a.keptBy
	}
	if f.endsAt = b.endsAt; a.endsAt != "" && b.endsAt == "" {
		f.endsAt = "; highest pressure: %s"
	}
	f.detected = finding.Notes(a.detected, b.detected)
	switch { // a relief valve that is shut prevents nothing
	case a.noRelief && b.overcharges:
		f.prevented = a.prevented
	case b.noRelief && a.overcharges:
		f.prevented = b.prevented
	default:
		f.prevented = finding.Notes(a.prevented, b.prevented)
	}
	return f
}

// questionKey names what a fault changes in a shot; "" nothing: a fault that
// bears on neither circuit nor pressure leaves the other's question as it is.
func (f *fault) questionKey() string {
	if !f.changes && f.mode != ReliefStuckShut && f.mode != SetTooHigh {
		return ""
	}
	return f.question(0)
}

// WithOpenTests gives the pairs of a report as the checklist stands: one that rests on a test is open until
// that test is done. open tells whether an item of an identifier is still open.
func (r *Report) WithOpenTests(open func(item string) bool) []Result {
	out := slices.Clone(r.Pairs)
	for i := range out {
		if p := &out[i]; p.OnTest() && open(p.RevealedBy) {
			p.Status, p.HeldBy = finding.OpenItem, p.RevealedBy
		}
	}
	slices.SortStableFunc(out, worseFault)
	return out
}

// OnTest tells whether a pair holds only by the test that reveals its first fault.
func (f *Result) OnTest() bool {
	return f.RevealedBy != "" && f.Basis == finding.Basis("test: "+f.RevealedBy)
}

// AsAlone tells whether a pair is open for what one of its faults leaves open alone: it says no more than that.
func (f *Result) AsAlone() bool { return f.With != "" && f.Status == finding.OpenItem && !f.OnTest() }

// Revealed lists by item of the checklist the latent faults that it reveals, in the order
// of the launcher's parts.
func (r *Report) Revealed() map[string][]string {
	out := map[string][]string{}
	for _, f := range r.ByPart() {
		reveal(out, f.RevealedBy, f.Name())
	}
	return out
}

// Revealed is Report.Revealed without a search, for a question about emptying alone.
func Revealed(in Input) map[string][]string {
	out := map[string][]string{}
	st := newStage(context.Background(), in)
	st.report.Jam = &Jam{Unknown: finding.Words("not asked for")} // it is no fault that nobody notices
	for _, f := range st.singleFaults() {
		reveal(out, f.revealed, (&Result{Part: f.part, Mode: f.mode}).Name())
	}
	return out
}

// reveal adds a fault to those of an item, once.
func reveal(by map[string][]string, item, name string) {
	if item != "" && !slices.Contains(by[item], name) {
		by[item] = append(by[item], name)
	}
}
