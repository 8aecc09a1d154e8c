package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// shootFault searches the worst shot with the fault, or takes it from an equal
// question.
func (j *judge) shootFault(f *fault, r *FaultResult, w *Launcher, start float64, known map[string]*FaultResult) error {
	key := f.question(start)
	if same := known[key]; same != nil {
		r.SameAs, r.Energy, r.Judged = same.ID, same.Energy, same.Judged
		r.Status, r.Basis, r.Reason = same.Status, same.Basis, same.Reason
		return nil
	}
	q := j.faultQuestion(f, w, start)
	res, err := w.maximise(j.ctx, q, brief(j.faultSeeds(w, q)...))
	if err != nil {
		return err
	}
	r.Shots = res.result.Evaluations
	r.Basis = OnModel
	if res.undetermined() {
		if err := j.unsettled(r, w, q, res); err != nil {
			return err
		}
	} else {
		r.Energy = res.value
		if normal, _ := j.normalEnergy(); !f.unasked && f.share == nil && normal > r.Energy {
			r.Energy = normal // the part may also work as it should
		}
		r.Judged = r.Energy * ModelFactor
		r.Status = Pass
		if r.Judged > j.limits.Total.Value {
			r.Status, r.Reason = Fail, "above the limit of "+joule(j.limits.Total.Value)
			if res.shot != nil && res.shot.Outcome == pneumatics.TimeRanOut {
				r.Basis = OnCeiling
				r.Reason += "; a bound: the projectile neither left nor came to rest for good, and this is what the air could still do"
			}
		}
	}
	copied := *r
	known[key] = &copied
	return nil
}

// question is what a fault asks: equal ones have equal answers.
func (f *fault) question(start float64) string {
	if f.pairOf != "" {
		return fmt.Sprint(f.pairOf, "|", start)
	}
	if f.apply == nil && f.adjust == nil { // only the pressure differs
		return fmt.Sprint("pressure ", start)
	}
	mode := f.mode
	switch mode {
	case LeakingValve, Energised: // part of the same search: the opening runs from shut to full
		mode = StuckOpen
	case Creeps:
		mode = FailedOpen
	}
	return fmt.Sprint(f.part, "|", mode, "|", f.unasked, "|", f.state, "|", start)
}

// faultQuestion is the question of the energy verdicts on the failed design.
func (j *judge) faultQuestion(f *fault, w *Launcher, start float64) question {
	q := w.energyQuestion(start)
	q.name, q.extra = f.id, f.extra
	if f.unasked {
		q.fromAll = []pneumatics.State{f.state}
	}
	empty := j.l.emptyIn(f.state)
	stopped := f.noRelief && !f.overcharges && j.l.Switch != nil
	runs := j.l.Supply != nil && j.l.Supply.RunsIn.Has(f.state)
	q.adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u []float64) {
		if f.adjust != nil {
			f.adjust(c, u)
		}
		if stopped {
			// With the relief valve shut the switch is what limits the pressure: it has
			// stopped the supply. Start pressures reach up to the highest it allows.
			sc.SupplyRuns = false
		}
		if !f.unasked {
			return
		}
		sc.SupplyRuns = runs
		for i := range sc.Volumes {
			if empty[i] {
				sc.Volumes[i].Pressure = c.Ambient.Pressure
			}
		}
	}
	if f.share != nil {
		q.measure = j.share(f.share)
	}
	return q
}

// faultSeeds carries the worst point of normal operation over to the box of a
// failed design, coordinate by coordinate; new coordinates start at their far
// end and in the middle.
func (j *judge) faultSeeds(w *Launcher, q question) [][]float64 {
	if j.normal == nil || !j.normal.result.Found {
		return nil
	}
	at := map[string]float64{}
	for i, label := range j.normal.box.labels {
		at[label] = j.normal.result.Best.Point[i]
	}
	b := newBox(w, q)
	var out [][]float64
	for _, fresh := range []float64{1, 0.5} {
		for _, full := range []float64{math.NaN(), 1} {
			seed := make([]float64, b.dim)
			for i, label := range b.labels {
				v, ok := at[label]
				switch {
				case !ok:
					v = fresh
				case i == b.start && full == 1:
					v = 1
				}
				seed[i] = v
			}
			out = append(out, seed)
		}
	}
	return out
}
