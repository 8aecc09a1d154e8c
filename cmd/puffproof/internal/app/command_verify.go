package app

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/memory"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
)

// verifyCommand holds a safety file against its design.
func verifyCommand() *Command {
	return &Command{Name: "verify", Operands: "FILE [DESIGN]", Min: 1, Max: 2, Files: true, Run: runVerify,
		Summary: "does a safety file or a card still describe the design?",
		Help: []string{
			"Reads the inputs that FILE, a safety file or a card, carries and holds them against the design file DESIGN: which keys changed, " +
				"which answers changed, which signatures and tests that voids.",
			"FILE's own inputs are run again: it says whether they still give the answers in it, and whether its words were altered after it " +
				"was made, where, and what stood there. Without DESIGN that is all. Where a verdict fails now that did not fail in FILE, the " +
				"first line says so: withdraw it.",
			"What this very program has made or verified before on this machine, letter for letter, is not run again; --recompute does it all " +
				"the same. It knows such files by fingerprints in your cache folder (puffproof/papers), which may be deleted at any time.",
			"Another version of the program, or another kind of processor, may make other words of the same inputs. Then it is not known " +
				"whether the words were altered, and it is said so.",
			"An answer of the checklist that was written down since is listed and makes no paper due; an item that FILE has as done and that " +
				"is open again does.",
			"A date in the file that is past, or a file dated after today, is reported too. Exit status 0 means that nothing but such answers " +
				"changed, no word was altered and it holds; 1 anything else, also what is not known.",
			"A paper that still fits approves nothing: the first line, and finding, holds and open_items of --json, say what the design itself " +
				"is worth. The good of --json says only that the paper fits its inputs, and that they hold.",
			"FILE has any format that dossier and card write: HTML, PDF or Markdown.",
		},
		Options: []Option{
			{Name: "date", Value: "DATE", Help: "the day of the question, year-month-day; without it today"},
			{Name: "recompute", Help: "run the inputs again also where this program knows what they give"},
		},
		Examples: []Example{
			{"puffproof verify safety-file.html whale.toml", "what changed since it was signed"},
			{"puffproof verify safety-file.html", "run the file's own inputs again"},
		},
	}
}

func runVerify(ctx context.Context, call *Call) (status, error) {
	v, data, err := call.openPaper(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	err = call.verifyOwn(ctx, v, data)
	if len(call.Args) == 2 {
		// Of the paper's own run only the words count here: were they altered. A design
		// in it that today's reader refuses leaves that open.
		if err != nil && v.NotKnown == "" {
			v.NotKnown = "this program does not run its inputs"
		}
		err = call.verifyDesign(ctx, v, call.Args[1])
	}
	if err != nil {
		return 0, err
	}
	doc, err := export.Verify(v)
	err = call.show(doc, err, &screen.VerifyScreen{Frame: call.frame(show.DesignID{}), Verification: v})
	return heldStatus(v.Good()), err
}

// verifyOwn says what the paper's own inputs give, and whether its words are what they
// give: by what this program knows of the very same file, else by computing it again.
func (c *Call) verifyOwn(ctx context.Context, v *paper.Verification, data []byte) error {
	known := c.memory(ctx)
	if a, ok := known.Recall(data); ok && !c.flags.Bool("recompute") {
		l, _, err := c.understand(v.File+" (the design in it)", []byte(v.Archive.Design), proofIn(v.Archive.Attached))
		if err != nil {
			return err
		}
		as, unaltered := v.Archive, false
		v.Known, v.Altered, v.Own = true, &unaltered, as.Finding
		v.Again = &paper.Comparison{Describes: true, SameBytes: true, Holds: a.Holds, Confirmed: a.Confirmed, OpenItems: a.OpenItems,
			Finding: a.Finding}
		v.Expired = l.FirstPast(as.Date, v.Date)
		return nil
	}
	if err := c.verifyAgain(ctx, v, data); err != nil {
		return err
	}
	if v.Unchanged() {
		c := v.Again
		known.Keep(ctx, data, memory.Answers{Holds: c.Holds, Confirmed: c.Confirmed, OpenItems: c.OpenItems, Finding: c.Finding})
	}
	return nil
}

// openPaper reads a safety file or a card and the archive in it.
func (c *Call) openPaper(ctx context.Context, name string) (*paper.Verification, []byte, error) {
	date, err := c.day()
	if err != nil {
		return nil, nil, err
	}
	data, err := c.readUpTo(ctx, name, mostPaper, "safety file")
	if err != nil {
		return nil, nil, err
	}
	a, err := document.ReadArchive(data)
	if err != nil && document.CutOff(data) {
		return nil, nil, inputErrorf("%s: is cut off: its end is missing, and with it its inputs; nothing can be verified", name)
	}
	if err != nil {
		return nil, nil, inputErrorf("%s: %v", name, err)
	}
	return &paper.Verification{File: name, Archive: a, Date: date}, data, nil
}

// verifyDesign holds the archive against a design of today.
func (c *Call) verifyDesign(ctx context.Context, v *paper.Verification, name string) error {
	text, err := c.readFile(ctx, name)
	if err != nil {
		return err
	}
	attached, err := c.attachedNow(ctx, v, name)
	if err != nil {
		return err
	}
	again := v.Again
	v.Again = nil
	if again != nil && string(text) == v.Archive.Design && slices.Equal(attached, v.Archive.Attached) { // it has just been run
		v.Against = again
		return nil
	}
	if v.Against, _, err = c.rerun(ctx, v, name, string(text), attached); err != nil {
		return err
	}
	own := again != nil && len(again.Verdicts) == 0 // the program gives the paper's answers of its own inputs
	v.Against.ByAnswers = own && v.Against.Describes && len(v.Against.Changed) > 0
	return nil
}

// attachedNow is what the paper carries beside its design, with the record of today's design in the place of its own.
func (c *Call) attachedNow(ctx context.Context, v *paper.Verification, name string) ([]document.Attached, error) {
	now, err := c.recordBeside(ctx, name)
	return append(slices.DeleteFunc(slices.Clone(v.Archive.Attached), func(a document.Attached) bool { return a.Role == paper.RecordRole }),
		now...), err
}

// verifyAgain runs the archive's own inputs and makes the file again.
func (c *Call) verifyAgain(ctx context.Context, v *paper.Verification, data []byte) error {
	again, in, err := c.rerun(ctx, v, v.File+" (the design in it)", v.Archive.Design, v.Archive.Attached)
	if err != nil {
		return err
	}
	v.Again = again
	v.Withdraw = again.FailNow()
	return compareWords(v, in, data)
}

// rerun judges a design as it was judged for the archive, whose measurements and
// date still count, and holds the archive against it.
func (c *Call) rerun(ctx context.Context, v *paper.Verification, name, text string, attached []document.Attached) (*paper.Comparison,
	paper.Input, error) {
	in, err := c.framePaper(name, text, attached)
	if err != nil {
		return nil, in, err
	}
	in.Attached, in.Date, in.Units = attached, v.Archive.Date, quantity.System(v.Archive.Units)
	if err := readAttached(ctx, &in); err != nil {
		return nil, in, err
	}
	a, err := assess(ctx, &in, pairsIn(v.Archive.Paper))
	if err != nil {
		return nil, in, err
	}
	now := in.Report // what was written down since the paper was made counts on the day of the question
	now.Items = limits.ItemsOn(a, v.Date)
	held, err := paper.Compare(v.Archive, text, program(), now)
	if err != nil {
		return nil, in, inputErrorf("%s: %v", name, err)
	}
	held.Finding = in.Finding()
	v.Expired = in.Launcher.FirstPast(v.Archive.Date, v.Date)
	return held, in, nil
}

// compareWords makes the paper again under the name of the program that made it
// and says whether its words are the same. Where another program made it a
// difference says nothing.
func compareWords(v *paper.Verification, in paper.Input, data []byte) error {
	in.Version = v.Archive.Version
	doc, err := paper.Make(v.Archive.Paper, in)
	if err != nil {
		return fmt.Errorf("a figure: %w", err)
	}
	again, err := document.Write(doc, document.FormatOfFile(data))
	if err != nil {
		return err
	}
	v.Own = doc.Running
	altered := !bytes.Equal(again, data)
	v.Cut = document.CutOff(data) || altered && bytes.HasPrefix(again, data)
	more, longer := bytes.CutPrefix(data, bytes.TrimSpace(again))
	v.After = altered && (document.Followed(data) || longer && len(bytes.TrimSpace(more)) > 0)
	if v.After { // whatever made it
		v.Altered = &altered
	}
	if altered && v.Again.OtherWork != "" {
		v.NotKnown = fmt.Sprintf("puffproof %s made it, this is %s and makes other words of its inputs", v.Archive.Version, program())
		return nil
	}
	v.Altered = &altered
	if !v.Cut {
		v.Differs = document.Differences(data, again)
	}
	return nil
}
