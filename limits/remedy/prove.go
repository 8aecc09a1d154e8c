package remedy

import (
	"context"
	"fmt"
	"math"

	"puffproof/limits/advise"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// Proof is what a remedy does, judged again.
type Proof struct {
	advise.Remedy
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
	return v.Holds()
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

// Prove applies every remedy of the verdicts that fail to a copy of the design and judges that
// verdict again, lightly: both ways at the same effort. A change that may mend several
// verdicts is computed once. The error is the context's.
func Prove(ctx context.Context, d advise.Design, found *measure.Findings, day string, failing []finding.Verdict) (out []Proof, err error) {
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
		for _, r := range advise.Remedies(d, v.ID) {
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
