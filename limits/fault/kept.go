package fault

import (
	"slices"

	"puffproof/limits/finding"
)

// Of what no part does wrong, and what an item of the checklist alone keeps from being shot.

// keepers are the items of the checklist that keep a shot from being made.
var keepers = []string{finding.ItemWeighed, finding.ItemNotFrozen}

// Kept tells that its shot is above a limit, and that an item of the checklist alone keeps it from being made.
func (f *Result) Kept() bool {
	return slices.Contains(keepers, f.HeldBy) && f.Status != finding.Fail && f.Status != finding.Unknown
}

// AllKept are the hardest single faults whose shot an item of the checklist alone keeps from being made, one an item.
func (r *Report) AllKept() (out []*Result) {
	for _, item := range keepers {
		if f := r.KeptBy(item); f != nil {
			out = append(out, f)
		}
	}
	return out
}

// KeptBy is the hardest of the single faults that one item keeps from being made; nil: there is none.
func (r *Report) KeptBy(item string) *Result { return hardestKept(r.ByPart(), item) }

// UnaskedKeptBy is the hardest of Unasked that one item keeps from being made; nil: there is none.
func (r *Report) UnaskedKeptBy(item string) *Result {
	var all []*Result
	for i := range r.Unasked {
		all = append(all, &r.Unasked[i])
	}
	return hardestKept(all, item)
}

// RestsOn tells that an item keeps a shot from being made, one that somebody fires or one that nobody does.
func (r *Report) RestsOn(item string) bool {
	return r.KeptBy(item) != nil || r.UnaskedKeptBy(item) != nil
}

func hardestKept(all []*Result, item string) (worst *Result) {
	for _, f := range all {
		if f.Kept() && f.HeldBy == item && (worst == nil || f.Judged > worst.Judged) {
			worst = f
		}
	}
	return worst
}

// runUnasked shoots where nobody asks what is wet, or what ice holds. Neither is a failed part: it is how the projectile is that is loaded
// already when a part fails, as the first fault of a latent pair is; only the scale, or the finger, shows it. So the two are no two faults
// that one need not reckon with, and as of such a pair it is asked what they do together: one that is soaked may keep the limits when
// somebody fires it, and not when a wider way opens into the barrel. The item that keeps such a one out of the barrel holds both, as the
// test of a latent fault does; one that it has to keep from any shot needs no second figure.
func (st *stage) runUnasked(faults []fault, alone []Result) (err error) {
	var both []fault
	for i := range faults {
		is := &faults[i]
		if is.keptBy.ID == "" || alone[i].Kept() {
			continue
		}
		for k := range faults {
			if fires := &faults[k]; fires.unasked && alone[k].Effect == FiresUnasked && alone[k].Energy > 0 {
				both = append(both, st.both(is, fires))
				both[len(both)-1].id = fires.id + "+" + is.id
			}
		}
	}
	if len(both) == 0 {
		return nil
	}
	if st.report.Unasked, err = st.run(both); err != nil {
		return err
	}
	for i := range st.report.Unasked {
		r := &st.report.Unasked[i]
		r.With = both[i].parts[0].id
		st.report.Shots += r.Shots
	}
	return nil
}
