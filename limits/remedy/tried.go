package remedy

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/advise"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
)

// trial is the share of the usual effort that the searches of a proof make [-]: it tells what a
// change does, not whether the changed design may be built; check tells that.
const trial = 0.03

// tried is a changed design, computed for the verdicts asked of it.
type tried struct {
	design  advise.Design
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
	return advise.Softened(err)
}

// holds tells that a verdict does not fail.
func (t *tried) holds(id string) bool { return t.verdict(id).Status != finding.Fail }

// lesser are the faults that are well below the worst of their kind, those that fire unasked or the others, by id.
func lesser(r *fault.Report) map[string]bool {
	const among = 0.7 // of the worst
	top := map[bool]float64{}
	for _, f := range r.Faults {
		if f.Kept() { // however hard it is, it fails nothing
			continue
		}
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
