package fault

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Compute runs every single fault and the pairs asked for. The error is the
// context's.
func Compute(ctx context.Context, in Input, pairs PairChoice) (*Report, error) {
	st := newStage(ctx, in)
	r := st.report
	r.AllPairs = pairs == EveryPair
	faults := st.singleFaults()
	if st.err != nil {
		return nil, st.err
	}
	if in.Only != nil {
		faults = slices.DeleteFunc(faults, func(f fault) bool { return !in.Only(f.id) })
	}
	var err error
	if r.Faults, err = st.run(faults); err != nil {
		return nil, err
	}
	if err := st.runUnasked(faults, r.Faults); err != nil {
		return nil, err
	}
	if pairs == EveryPair {
		if err := st.runPairs(everyTwo(faults)); err != nil {
			return nil, err
		}
	} else {
		st.latentPairs(faults)
	}
	for i := range r.Faults {
		f := &r.Faults[i]
		f.Place = i
		r.Shots += f.Shots
		if f.Effect == NoEffect {
			r.Unsearched++
		} else {
			r.Searched++
		}
	}
	slices.SortStableFunc(r.Faults, worseFault)
	slices.SortStableFunc(r.Pairs, worseFault)
	return r, nil
}

// singleFaults makes every single fault from the parts of the launcher.
func (st *stage) singleFaults() []fault {
	var out []fault
	for i := range st.Launcher.Paths {
		p := &st.Launcher.Paths[i]
		switch p.Kind {
		case pneumatics.Valve, pneumatics.HandValve:
			out = append(out, st.valveFaults(i)...)
			out = append(out, st.betweenFaults(i)...)
		case pneumatics.Orifice, pneumatics.Hose:
			out = append(out, st.openPathFaults(i)...)
		case pneumatics.Check:
			out = append(out, st.checkFaults(i)...)
		case pneumatics.Relief:
			out = append(out, st.reliefFaults(i)...)
		case pneumatics.Regulator:
			out = append(out, st.regulatorFaults(i)...)
		case pneumatics.QuickExhaust:
			out = append(out, st.quickExhaustFaults(i)...)
		}
		out = append(out, st.boreFault(i)...)
		out = append(out, st.hoseFaults(i)...)
	}
	out = append(out, st.controlFaults()...)
	out = append(out, st.wiringFaults()...)
	out = append(out, st.supplyFaults()...)
	out = append(out, st.powerFaults()...)
	out = append(out, st.projectileFaults()...)
	out = append(out, st.takenOff()...)
	for i := range out {
		out[i].id = faultID(&out[i])
	}
	return out
}

// faultID is the stable name of a fault: part, mode, state.
func faultID(f *fault) string {
	slug := func(s string) string {
		s = strings.ToLower(strings.NewReplacer(":", "", ",", "").Replace(s))
		return strings.ReplaceAll(s, " ", "-")
	}
	id := slug(f.part) + "." + slug(strings.TrimSpace(strings.TrimPrefix(string(f.mode), f.part)))
	if !f.anyState {
		id += "." + f.state.String()
	}
	return id
}

// worseFault orders faults: failures, unknowns, then by energy, then by pressure.
func worseFault(a, b Result) int {
	rank := map[finding.Status]int{finding.Fail: 0, finding.Unknown: 1, finding.OpenItem: 2, finding.Pass: 3, finding.NotApplicable: 4}
	if c := cmp.Compare(rank[a.Status], rank[b.Status]); c != 0 {
		return c
	}
	changes := func(r Result) int {
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

// ByPart gives the single faults in the order of the launcher's parts.
func (r *Report) ByPart() []*Result {
	out := make([]*Result, len(r.Faults))
	for i := range r.Faults {
		out[i] = &r.Faults[i]
	}
	slices.SortStableFunc(out, func(a, b *Result) int { return cmp.Compare(a.Place, b.Place) })
	return out
}
