package remedy

import (
	"context"

	"puffproof/limits"
	"puffproof/limits/advise"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// turn is a design on which step after step is taken.
type turn struct {
	design  advise.Design
	found   *measure.Findings
	day     string
	begin   map[string]finding.Verdict // as it was
	now     map[string]finding.Verdict // with the steps so far
	last    *assessment.Assessment     // of now
	changed bool                       // some step was taken
}

// InTurn gives what to do first on a design that does not hold: the causes of its report in their order, each tried on the design
// with the steps before it. What those have mended already is left out, and no step is taken that spoils what holds without it. Of
// a cause that no change of a key takes away the words stay. nil: it holds, or measured shots disprove what it would be tried on.
// The error is the context's.
func InTurn(ctx context.Context, d advise.Design, found *measure.Findings, day string, r *limits.Report) ([]limits.Cause, error) {
	if r.Holds || found != nil && found.Wrong != nil {
		return nil, nil
	}
	ctx = search.WithStrength(ctx, trial*search.Strength(ctx))
	t := turn{design: d, found: found, day: day}
	if ok, err := t.judge(ctx, d, nil); err != nil || !ok {
		return nil, err
	}
	t.begin = t.now
	var steps []limits.Cause
	for _, c := range r.Causes {
		if len(steps) == limits.MostSteps {
			break
		}
		if !t.needs(&c) {
			continue
		}
		if err := t.take(ctx, &c); err != nil {
			return nil, err
		}
		steps = append(steps, c)
	}
	return steps, nil
}

// open tells that a verdict fails or is unknown.
func open(v finding.Verdict) bool { return v.Status == finding.Fail || v.Status == finding.Unknown }

// needs tells that a cause still blocks something. What a light search lets pass from the beginning is no less needed.
func (t *turn) needs(c *limits.Cause) bool {
	for _, id := range c.Verdicts {
		if was, is := t.begin[id], t.now[id]; !open(was) || open(is) {
			return true
		}
	}
	return false
}

// take takes the step against a cause, where one is known that helps and spoils nothing, and words it.
func (t *turn) take(ctx context.Context, c *limits.Cause) error {
	var list []advise.Remedy
	switch c.Lies {
	case limits.OfVerdict:
		return t.mend(ctx, c)
	case limits.NoDose:
		list = advise.Dose(t.design)
	case limits.TipUnknown:
		list = advise.SoftTip(t.design)
	case limits.NoWayOut:
		list = advise.WaysOut(t.design)
	}
	for _, r := range list { // what is built otherwise is needed whatever comes of it
		if d, err := t.design.With(r.Changes); err == nil {
			if _, err := t.judge(ctx, d, nil); err != nil {
				return err
			}
		}
	}
	return nil
}

// mend takes the first change that mends a verdict, or else that helps.
func (t *turn) mend(ctx context.Context, c *limits.Cause) error {
	id := c.Verdicts[0]
	var trials []*tried
	var proofs []Proof
	for _, r := range advise.Remedies(t.design, id) {
		one := &tried{}
		changed, refused := t.design.With(r.Changes)
		if one.design = changed; refused != nil {
			continue
		}
		one.ask(id)
		trials, proofs = append(trials, one), append(proofs, Proof{Remedy: r, Before: t.now[id]})
	}
	if len(proofs) == 0 {
		return nil
	}
	if err := worst.SideBySide(len(trials), func(i int) error { return trials[i].compute(ctx, t.found, t.day, t.last) }); err != nil {
		return err
	}
	for i := range proofs {
		proofs[i].After = trials[i].verdict(id)
	}
	title := c.What
	for _, mends := range []bool{true, false} {
		for i := range proofs {
			p := &proofs[i]
			if p.Mends() != mends || !p.Helps() {
				continue
			}
			if ok, err := t.judge(ctx, trials[i].design, t.now); err != nil {
				return err
			} else if ok {
				c.Step, c.Do = finding.Say("%s: %s", title, p.brief()), p.Say().Say(".")
				return nil
			}
		}
	}
	if none := finding.Words(noneMends); t.changed {
		c.Do = finding.Words("With the steps above: ").And(none)
		c.Step = finding.Say("%s: %s", title, c.Do)
	} else if len(trials) > 0 && !isDiagnosis(id) {
		c.Do, c.Step = none, finding.Say("%s: %s", title, none)
	}
	return nil
}

// judge judges a design lightly and goes on from it, unless something that holds in before does no more; before may be nil.
func (t *turn) judge(ctx context.Context, d advise.Design, before map[string]finding.Verdict) (bool, error) {
	a, err := assessment.Make(ctx, d.Launcher(), assessment.Options{Measured: t.found, Day: t.day, Sheets: vent.SlowEndOnly})
	if err != nil {
		return false, advise.Softened(err)
	}
	now := map[string]finding.Verdict{}
	for _, v := range verdict.Judge(a, 0) {
		now[v.ID] = v
		if was, asked := before[v.ID]; asked && !open(was) && open(v) {
			return false, nil
		}
	}
	t.changed = t.now != nil
	t.design, t.now, t.last = d, now, a
	return true, nil
}
