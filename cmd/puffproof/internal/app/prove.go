package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/remedy"
)

// prove puts advice that was tried in the place of the advice of verdicts that fail, of those whose advice
// is shown: each change is applied to a copy of the design and judged again.
func (c *Call) prove(ctx context.Context, found *measure.Findings, verdicts, shown []finding.Verdict) error {
	d, problems := design.Reader{Units: c.words(), Proof: proving.Beside(c.Args[0])}.Open(c.Args[0], c.designText)
	if len(problems) > 0 {
		return &fileError{problems}
	}
	proofs, err := remedy.Prove(ctx, d, found, c.today(), shown)
	if err != nil {
		return err
	}
	remedy.Proven(verdicts, proofs)
	return nil
}
