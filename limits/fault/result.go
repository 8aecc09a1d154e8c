package fault

import (
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// readyFault fills what is known of a result without a search, and gives the
// search that is still needed; nil: none.
func (st *stage) readyFault(f *fault, r *Result) *faultSearch {
	*r = Result{ID: f.id, Part: f.part, Mode: f.mode, State: "any", Wiring: len(f.electric) > 0,
		Effect: NoEffect, Freed: math.NaN(), Status: finding.Pass, Basis: finding.OnCircuit, Reason: f.whyNot,
		Consequence: f.consequence, DetectedBy: f.detected, PreventedBy: f.prevented, Latent: f.latent, RevealedBy: f.revealed}
	if !f.anyState {
		r.State = f.state.String()
	}
	w := st.failed(f)
	if f.overcharges && f.endsAt != "" {
		r.Consequence = f.consequence.Say(f.endsAt, w.Overcharge().Why)
	}
	start, ok := st.faultStart(w, f)
	st.faultPressure(r, w, f, start, ok)
	switch {
	case f.mode == MuzzlePlugged:
		st.pluggedMuzzle(r)
		return nil
	case f.mode == Jammed:
		st.jam(r, f)
		if f.behind > 0 && !(f.behind <= r.WorstGauge) {
			r.WorstGauge, r.Where = f.behind, "barrel"
		}
		return nil
	case f.mode == NotOpened:
		r.Energy, r.Judged = st.normalEnergy()
		st.leftShut(r)
		return nil
	case f.mode == TipHardened:
		st.hardTip(r)
		return nil
	case f.failing != nil && !f.changes:
		r.Energy, r.Judged = st.normalEnergy()
		r.Status, r.Reason = finding.Fail, f.failing
		return nil
	case f.heldBy != "" && !f.changes:
		r.Energy, r.Judged = st.normalEnergy()
		st.heldBy(r, finding.Item{ID: f.heldBy})
		return nil
	case !f.changes && f.stands != nil:
		st.keptUp(r, f)
		return nil
	case !f.changes:
		r.Energy, r.Judged = st.normalEnergy()
		return nil
	case !ok:
		r.Effect, r.Energy, r.Judged = ChangesShot, math.NaN(), math.NaN()
		r.Status, r.Reason = finding.Unknown, w.Overcharge().Why
		return nil
	case f.mode == RunsOn && f.state == pneumatics.Firing && w.Supply.MostFreeAir() <= 0:
		r.Effect, r.Energy, r.Judged = ChangesShot, math.NaN(), math.NaN()
		r.Status, r.Reason = finding.Unknown, finding.Say("missing: %s, what it pushes with", finding.Key("supply.free_air"))
		return nil
	}
	r.Effect, r.Reason = ChangesShot, nil
	if f.unasked {
		r.Effect = FiresUnasked
	}
	return &faultSearch{st: st, f: f, w: w, start: start, result: r}
}

// why says why the answer of an item does not count; nil: there is none.
func why(it finding.Item) finding.Text {
	if len(it.OpenWhy) == 0 {
		return nil
	}
	return finding.Say("; %s", it.OpenWhy)
}

// faultStart is the highest start pressure of a shot with the fault [Pa gauge];
// not ok where it is unknown.
func (st *stage) faultStart(w *launcher.Launcher, f *fault) (float64, bool) {
	high, ok := st.Launcher.SoakedHigh()
	if f.overcharges {
		top, known := w.OverchargedHigh()
		if ok {
			top = max(top, st.newlyJoined(w, high))
		}
		return top, known
	}
	if !ok {
		return 0, false
	}
	if f.raises > 0 { // dead head and relief valve may hold it lower
		high = w.Soak(st.normalHigh() + f.raises)
	}
	// With its bleed blocked it is sealed in the heat.
	return max(high, st.newlyJoined(w, high), w.Soak(st.normalHigh())), true
}

// newlyJoined is the highest normal pressure among the volumes that the fault joins to the sensed one: they
// were filled before the part failed [Pa gauge].
func (st *stage) newlyJoined(w *launcher.Launcher, high float64) float64 {
	sensed := w.Node(w.Sensed())
	before, after := st.Launcher.JoinedTo(sensed), w.JoinedTo(sensed)
	top := 0.0
	for i, p := range st.Launcher.HighStart(high) {
		if after[i] && !before[i] {
			top = max(top, p)
		}
	}
	return top
}

// faultPressure finds the highest pressure anywhere with the fault.
func (st *stage) faultPressure(r *Result, w *launcher.Launcher, f *fault, start float64, ok bool) {
	r.WorstGauge, r.Where = math.NaN(), ""
	if !ok {
		return
	}
	for i, g := range w.HighStart(start) {
		if !(g <= r.WorstGauge) {
			r.WorstGauge, r.Where = g, w.Volumes[i].Name
		}
	}
}

// pluggedMuzzle judges what the barrel takes with its muzzle plugged: the projectile
// does not leave.
func (st *stage) pluggedMuzzle(r *Result) {
	r.Energy, r.Judged = 0, 0
	r.Where = "barrel"
	p := st.Plugged
	if p == nil {
		r.Status, r.Reason = finding.Unknown, finding.Words("not computed: what the barrel takes with its muzzle closed")
		return
	}
	if len(p.Unknown) != 0 {
		r.Status, r.Reason = finding.Unknown, p.Unknown
		return
	}
	r.Status, r.Reason = finding.Pass, p.Why
	if p.Exceeds() {
		r.Status = finding.Fail
	}
	r.WorstGauge = max(r.WorstGauge, p.Value)
}

// heldBy judges a fault that an item of the checklist alone holds.
func (st *stage) heldBy(r *Result, item finding.Item) {
	r.HeldBy, r.Basis = item.ID, finding.OnProcedure
	if item = st.answerOf(item); item.Done == nil {
		r.Status = finding.OpenItem
		r.Reason = finding.Say("OPEN: people alone hold it (item %s)%s", item.ID, why(item))
	}
}

// kept judges a shot that an item of the checklist keeps from being made: above what a dry projectile may have, in all or on its contact
// print, it holds by that item alone.
func (st *stage) kept(r *Result, f *fault) {
	allowed, why := st.Limits.Allowed(st.Launcher.Projectile.ContactDiameter)
	if r.Judged <= allowed {
		return
	}
	over := finding.Say("above the limit of %s", finding.Joule(st.Limits.Total.Value))
	if r.Judged <= st.Limits.Total.Value {
		over = finding.Say("above the %s that %s allows", finding.Joule(allowed), why)
	}
	r.Status, r.Reason = finding.Pass, over
	if st.heldBy(r, f.keptBy); r.Status == finding.OpenItem {
		r.Reason = over.Say("; ").And(r.Reason)
	}
}

// leftShut judges a hand valve that nobody opens: where it is needed to empty the launcher, people alone hold it.
func (st *stage) leftShut(r *Result) {
	item := st.answerOf(finding.VentByHand(st.Emptying.Target))
	if !slices.Contains(st.Emptying.ByHand, r.Part) {
		return
	}
	if r.Basis = finding.OnProcedure; item.Done == nil {
		r.Status, r.HeldBy = finding.OpenItem, finding.ItemVentByHand
		r.Reason = finding.Say("OPEN: nothing but a hand empties it (item %s)%s", finding.ItemVentByHand, why(item))
	}
}
