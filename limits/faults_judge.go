package limits

import (
	"cmp"
	"math"
	"slices"
)

// faultVerdicts runs every single fault, the pairs asked for, and judges
// energy.fault and shot.unasked.
func (j *judge) faultVerdicts(pairs PairChoice) error {
	r := &FaultReport{Limit: j.Limits.Total.Value, AllPairs: pairs == EveryPair}
	j.Faults = r
	faults := j.singleFaults()
	known := map[string]*FaultResult{}
	results, err := j.runFaults(faults, known)
	if err != nil {
		return err
	}
	r.Faults = results
	if pairs == EveryPair {
		if err := j.everyPair(faults, known); err != nil {
			return err
		}
	} else {
		j.latentPairs(faults, results)
	}
	for i := range results {
		r.Shots += results[i].Shots
		if results[i].Effect == NoEffect {
			r.Unsearched++
		} else {
			r.Searched++
		}
	}
	j.energyFaultVerdict()
	j.unaskedVerdict()
	slices.SortStableFunc(r.Faults, worseFault)
	slices.SortStableFunc(r.Pairs, worseFault)
	return nil
}

// worseFault orders faults: failures, unknowns, then by energy, then by pressure.
func worseFault(a, b FaultResult) int {
	rank := map[Status]int{Fail: 0, Unknown: 1, OpenItem: 2, Pass: 3, NotApplicable: 4}
	if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
		return c
	}
	changes := func(r FaultResult) int {
		if r.Effect == NoEffect {
			return 1
		}
		return 0
	}
	if c := cmp.Compare(changes(a), changes(b)); c != 0 {
		return c
	}
	if c := cmp.Compare(b.Judged, a.Judged); c != 0 && a.Judged == a.Judged && b.Judged == b.Judged {
		return c
	}
	return cmp.Compare(b.WorstGauge, a.WorstGauge)
}

// readyFault fills what is known of a result without a search, and gives the
// search that is still needed; nil: none.
func (j *judge) readyFault(f *fault, r *FaultResult) *faultSearch {
	*r = FaultResult{Freed: math.NaN(), ID: f.id, Part: f.part, Mode: f.mode, State: "any", Effect: NoEffect, Status: Pass, Basis: OnCircuit, Reason: f.whyNot,
		Consequence: f.consequence, DetectedBy: f.detected, PreventedBy: f.prevented, Latent: f.latent, RevealedBy: f.revealed}
	if !f.anyState {
		r.State = f.state.String()
	}
	w := j.failed(f)
	start, ok := j.faultStart(w, f)
	j.faultPressure(r, w, f, start, ok)
	switch {
	case f.mode == MuzzlePlugged:
		plugged(r, j.blockedVerdict)
		return nil
	case f.mode == Jammed:
		j.jam(r, f)
		if f.behind > 0 && !(f.behind <= r.WorstGauge) {
			r.WorstGauge, r.Where = f.behind, "barrel"
		}
		return nil
	case !f.changes:
		r.Energy, r.Judged = j.normalEnergy()
		return nil
	case !ok:
		r.Effect, r.Energy, r.Judged = ChangesShot, math.NaN(), math.NaN()
		r.Status, r.Reason = Unknown, j.Launcher.Overcharge().Why
		return nil
	}
	r.Effect, r.Reason = ChangesShot, ""
	if f.unasked {
		r.Effect = FiresUnasked
	}
	return &faultSearch{j, f, w, start, r}
}

// jam judges a jammed projectile: it does not leave, but what a hand could free is
// held back by the drill alone.
func (j *judge) jam(r *FaultResult, f *fault) {
	r.Energy, r.Judged, r.Freed, r.Basis = math.NaN(), math.NaN(), f.freed, OnProcedure
	switch {
	case math.IsNaN(f.freed):
		r.Status, r.Reason = Unknown, f.consequence
	case f.freed > j.Limits.Total.Value && !j.confirmed(itemJamDrill):
		r.Status, r.Reason = OpenItem, "OPEN: jam drill (item "+itemJamDrill+"): nothing else keeps a face or a hand from what the air could do"
	}
}

// failed is the design with the fault.
func (j *judge) failed(f *fault) *Launcher {
	w := j.Launcher.Clone()
	if f.apply != nil {
		f.apply(w)
	}
	return w
}

// faultStart is the highest start pressure of a shot with the fault [Pa gauge];
// not ok where it is unknown.
func (j *judge) faultStart(w *Launcher, f *fault) (float64, bool) {
	if f.overcharges {
		return w.faultHigh()
	}
	high, ok := j.Launcher.SoakedHigh()
	if !ok {
		return 0, false
	}
	if f.raises > 0 {
		high = w.soak(min(j.normalHigh()+f.raises, w.deadHead(math.Inf(1))))
	}
	return high, true
}

// normalHigh is the highest normal pressure before any heat [Pa gauge].
func (j *judge) normalHigh() float64 {
	high, _ := j.Launcher.NormalHigh()
	return high
}

// faultPressure finds the highest pressure anywhere with the fault.
func (j *judge) faultPressure(r *FaultResult, w *Launcher, f *fault, start float64, ok bool) {
	r.WorstGauge, r.Where = math.NaN(), ""
	if !ok {
		return
	}
	for i, g := range w.highStart(start) {
		if !(g <= r.WorstGauge) {
			r.WorstGauge, r.Where = g, w.Volumes[i].Name
		}
	}
}

// normalEnergy is the worst energy of normal operation, raw and judged.
func (j *judge) normalEnergy() (raw, judged float64) {
	if j.energyUnknown() != "" {
		return math.NaN(), math.NaN()
	}
	return j.Normal.value, j.Normal.value * ModelFactor
}

// plugged takes over the verdict on the plugged barrel.
func plugged(r *FaultResult, blocked *Verdict) {
	r.Energy, r.Judged = 0, 0
	r.Where = "barrel"
	if blocked == nil {
		r.Status, r.Reason = Unknown, "barrel.blocked was not judged"
		return
	}
	r.Status, r.Reason = blocked.Status, blocked.Why
	if blocked.Value != nil {
		r.WorstGauge = max(r.WorstGauge, *blocked.Value)
	}
}
