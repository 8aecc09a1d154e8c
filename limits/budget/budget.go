package budget

import (
	"cmp"
	"context"
	"math"
	"slices"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// Report is the judged energy of a launcher taken apart.
type Report struct {
	Steps   []Step        // from the nominal shot to the energy that the model gives; none where no worst case is known
	Shares  []Share       // what each tolerance costs, the dearest first; those below a hundredth of the worst energy are left out
	Small   int           // quantities left out of Shares: they have a tolerance, and cost next to nothing
	Weakest worst.Weakest // the launcher of the box that does least when it is filled
	Slow    []Share       // what each tolerance takes from the weakest launcher, as Shares
}

// Step is one step on the way from the nominal shot to the energy that is judged.
type Step struct {
	What   finding.Text // what is taken at its worst in this step, all before it staying so
	Energy float64      // after it [J]
	Leaves bool         // the projectile leaves the muzzle
}

// Share is what the tolerance of one quantity costs.
type Share struct {
	Key     string  // of the design file, or "seating"
	Nominal float64 // [SI]
	At      float64 // where it counts [SI]
	Assumed bool    // the design does not state its tolerance: measuring it is worth most
	// Energy and Speed are what is gained by knowing it to be at its nominal value, at most: energy less at the worst launcher [J],
	// final speed more at the weakest [m/s].
	Energy, Speed float64
}

// Input is what a budget is made from.
type Input struct {
	Launcher *launcher.Launcher
	Energy   *worst.EnergyReport
	Normal   *worst.Case // of normal operation; nil: no worst case is known
}

// Compute takes the judged energy apart, in one shot for each quantity of the box and a short search for the weakest launcher.
// The error is the context's.
func Compute(ctx context.Context, in Input) (*Report, error) {
	ctx = progress.Looking(ctx, finding.Words("what the energy is made of"))
	r := &Report{}
	if c := in.Normal; c != nil && c.Shot != nil {
		t := newTaking(in)
		r.Steps = t.steps()
		r.Shares, r.Small = t.shares()
	}
	var err error
	o := search.Quick()
	o.Budget = 300 // it decides nothing
	if r.Weakest, err = worst.FindWeakest(ctx, in.Launcher, o); err != nil {
		return nil, err
	}
	if r.Weakest.Known {
		r.Slow = slowing(in.Launcher, r.Weakest)
	}
	return r, ctx.Err()
}

// least is the share of the whole below which a tolerance is not listed.
const least = 0.01

// dearest puts the shares in order and leaves out those that are worth next to nothing.
func dearest(all []Share, worth func(Share) float64, whole float64) (kept []Share, small int) {
	for _, s := range all {
		if worth(s) >= least*whole {
			kept = append(kept, s)
		}
	}
	slices.SortStableFunc(kept, func(a, b Share) int { return cmp.Compare(worth(b), worth(a)) })
	return kept, len(all) - len(kept)
}

// nominals are the fractions at which the quantities of a box have their nominal values, the projectile is where it is
// stated, the state before is the first; the start pressure is at start [Pa gauge].
func nominals(b *worst.Box, start float64) []float64 {
	u := make([]float64, b.Dim)
	for k := range b.Quantities {
		u[k] = b.Quantities[k].Fraction(b.Quantities[k].Nominal)
	}
	if b.Start >= 0 {
		u[b.Start] = min(max((start-b.Question.StartMin)/(b.Question.StartMax-b.Question.StartMin), 0), 1)
	}
	return u
}

// assumedKeys are the keys whose tolerance the design does not state.
func assumedKeys(l *launcher.Launcher) map[string]bool {
	out := map[string]bool{}
	for _, b := range catalogue.Assumed(l) {
		out[b.Key] = true
	}
	return out
}

// known is a figure, or nothing where it is not one.
func known(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
