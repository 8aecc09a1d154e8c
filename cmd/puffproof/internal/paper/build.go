package paper

import "puffproof/cmd/puffproof/internal/document"

// Build makes the safety file. The order is that of a reader who has two
// minutes: what may be done, what can hurt, the rules; then what looks at the
// thing itself, then the tests, then the numbers. What is in the body fits on
// twelve pages for the examples; all that is needed to repeat the numbers, and the
// sheets to take to the launcher, are the appendix. The error is that of a figure
// that cannot be drawn.
func Build(in Input) (*document.Document, error) {
	b := &builder{in: &in, paper: "file"}
	d := b.frame("Safety file")
	for _, part := range []func(){b.pageOne, b.troubles, b.risks, b.rules, b.place, b.photographs, b.launcher, b.pressures, b.tests,
		b.emptying,
		b.energy, b.inspection, b.signatures, b.appendix} {
		part()
	}
	d.Blocks = b.blocks
	d.Archive = archiveOf(document.SafetyFile, in, d.Running)
	return d, b.err
}

// Make builds the paper of that kind. The errors are those of Build and Card.
func Make(p document.Paper, in Input) (*document.Document, error) {
	if p == document.CardPaper {
		return Card(in)
	}
	return Build(in)
}
