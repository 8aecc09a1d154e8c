package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/progress"
	"puffproof/limits/remedy"
)

// prove puts advice that was tried in the place of the advice of verdicts that fail: each change is applied to a copy of the design and
// judged again.
func (c *Call) prove(ctx context.Context, found *measure.Findings, verdicts []finding.Verdict) error {
	d, err := c.again()
	if err != nil {
		return err
	}
	proofs, err := remedy.Prove(ctx, d, found, c.today(), verdicts)
	if err == nil {
		remedy.Proven(verdicts, proofs)
	}
	return err
}

// inTurn is what to do first on the design that was read, each step tried after those before it.
func (c *Call) inTurn(ctx context.Context, found *measure.Findings, r *limits.Report) ([]limits.Cause, error) {
	if r.Holds {
		return nil, nil
	}
	d, err := c.again()
	if err != nil {
		return nil, err
	}
	return remedy.InTurn(progress.Looking(ctx, finding.Words("what to do first")), d, found, c.today(), r)
}

// again is the design that was read, as one that can be changed.
func (c *Call) again() (*design.Editable, error) {
	d, problems := design.Reader{Units: c.words(), Proof: proving.Beside(c.Args[0])}.Open(c.Args[0], c.designText)
	if len(problems) > 0 {
		return nil, &fileError{problems}
	}
	return d, nil
}
