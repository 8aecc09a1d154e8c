package app

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"time"
)

// verifyCommand holds a safety file against its design.
func verifyCommand() *Command {
	return &Command{
		Name:     "verify",
		Summary:  "does a safety file or a card still describe the design?",
		Operands: "FILE [DESIGN]",
		Min:      1, Max: 2,
		Files: true,
		Help: []string{
			"Reads the inputs that FILE, a safety file or a card, carries and holds them against the design file DESIGN: which keys changed, which answers changed, " +
				"which signatures and tests that voids.",
			"FILE's own inputs are run again: it says whether they still give the answers in it, and whether its words were altered after it was made, where, and what stood there. " +
				"Without DESIGN that is all.",
			"Another version of the program, or another kind of processor, may make other words of the same inputs. Then it is not known whether the words were altered, " +
				"and it is said so.",
			"A date in the file that is past, or a file dated after today, is reported too. Exit status 0 means that nothing changed, no word was altered and it holds; " +
				"1 anything else, also what is not known.",
			"A paper that still fits approves nothing: the first line, and finding, holds and open_items of --json, say what the design itself is worth. " +
				"The good of --json says only that the paper fits its inputs, and that they hold.",
			"FILE has any format that dossier and card write: HTML, PDF or Markdown.",
		},
		Options: []Option{
			{Name: "date", Value: "DATE", Help: "the day of the question, year-month-day; without it today"},
		},
		Examples: []Example{
			{"puffproof verify safety-file.html whale.toml", "what changed since it was signed"},
			{"puffproof verify safety-file.html", "run the file's own inputs again"},
		},
		Run: runVerify,
	}
}

func runVerify(ctx context.Context, call *Call) (status, error) {
	v, data, st, err := call.openArchive(call.Args[0])
	if err != nil {
		return st, err
	}
	st, err = call.verifyAgain(ctx, v, data)
	if len(call.Args) == 2 {
		// Of the paper's own run only the words count here: were they altered. A design
		// in it that today's reader refuses leaves that open.
		if err != nil && v.NotKnown == "" {
			v.NotKnown = "this program does not run its inputs"
		}
		st, err = call.verifyDesign(ctx, v, call.Args[1])
	}
	if err != nil {
		return st, err
	}
	if call.json {
		err = call.writeJSON(v.JSON())
	} else {
		detail := render.Everything
		if call.quiet {
			detail = render.FindingOnly
		}
		err = v.Screen(call.Out, call.style, detail)
	}
	if err != nil {
		return statusWithheld, err
	}
	if !v.Good() {
		return statusNotHeld, nil
	}
	return statusOK, nil
}

// mostPaper bounds a safety file in bytes.
const mostPaper = 32 << 20

// openArchive reads a safety file.
func (c *Call) openArchive(name string) (*document.Verification, []byte, status, error) {
	date := c.flags.String("date")
	if date == "" {
		date = time.Now().Format(time.DateOnly)
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		return nil, nil, statusInput, inputErrorf("--date is a date, year-month-day, such as 2026-05-31; found %q", date)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, statusInput, inputErrorf("%s: %s", name, cause(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostPaper+1))
	switch {
	case err != nil:
		return nil, nil, statusInput, inputErrorf("%s: %s", name, cause(err))
	case len(data) > mostPaper:
		return nil, nil, statusInput, inputErrorf("%s: is larger than 32 MiB and so no safety file", name)
	}
	a, err := document.ReadArchive(data)
	if err != nil && document.CutOff(data) {
		return nil, nil, statusInput, inputErrorf("%s: is cut off: its end is missing, and with it its inputs; nothing can be verified", name)
	}
	if err != nil {
		return nil, nil, statusInput, inputErrorf("%s: %v", name, err)
	}
	return &document.Verification{File: name, Archive: a, Date: date}, data, statusOK, nil
}

// verifyDesign holds the archive against a design of today.
func (c *Call) verifyDesign(ctx context.Context, v *document.Verification, name string) (status, error) {
	text, err := c.readFile(name)
	if err != nil {
		return statusInput, err
	}
	again := v.Again
	v.Again = nil
	if again != nil && string(text) == v.Archive.Design { // it has just been run
		v.Against = again
		return statusOK, nil
	}
	l, err := c.services.read(name, text)
	if err != nil {
		return statusInput, &listedError{err}
	}
	// The file's measurements still count: the design is judged as it was for it.
	in := document.Input{Design: render.DesignID{Name: l.Name, Revision: l.Revision}, Text: string(text), Launcher: l,
		Attached: v.Archive.Attached, Date: v.Archive.Date, Version: program(), Units: unit.System(v.Archive.Units), DimensionOf: c.dimensionOf}
	if st, err := c.takeIn(ctx, l, &in); err != nil {
		return st, err
	}
	if err := c.services.papers(ctx, l, &in); err != nil {
		return statusWithheld, err
	}
	if v.Against, err = document.Compare(v.Archive, string(text), program(), in.Report); err != nil {
		return statusInput, inputErrorf("%s: %v", name, err)
	}
	v.Against.Finding = in.Finding()
	v.Expired = firstPast(l, v)
	return statusOK, nil
}

// firstPast is the first due date before the day of the question; "" none.
func firstPast(l *launcher.Launcher, v *document.Verification) string {
	for _, d := range l.DueDates(v.Archive.Date) {
		if d.Date < v.Date {
			return d.Date
		}
	}
	return ""
}

// verifyAgain runs the archive's own inputs and makes the file again.
func (c *Call) verifyAgain(ctx context.Context, v *document.Verification, data []byte) (status, error) {
	a := v.Archive
	l, err := c.services.read(v.File+" (the design in it)", []byte(a.Design))
	if err != nil {
		return statusInput, &listedError{err}
	}
	in := document.Input{
		Design: render.DesignID{Name: l.Name, Revision: l.Revision, SHA256: a.SHA256}, Text: a.Design, Launcher: l, Attached: a.Attached,
		Date: a.Date, Version: program(), Units: unit.System(a.Units), DimensionOf: c.dimensionOf,
	}
	if st, err := c.takeIn(ctx, l, &in); err != nil {
		return st, err
	}
	if err := c.services.papers(ctx, l, &in); err != nil {
		return statusWithheld, err
	}
	if v.Again, err = document.Compare(a, a.Design, program(), in.Report); err != nil {
		return statusInput, inputErrorf("%s: %v", v.File, err)
	}
	v.Again.Finding = in.Finding()
	v.Expired = firstPast(l, v)
	return c.compareWords(v, in, data)
}

// compareWords makes the paper again under the name of the program that made it
// and says whether its words are the same. Where another program made it a
// difference says nothing.
func (c *Call) compareWords(v *document.Verification, in document.Input, data []byte) (status, error) {
	in.Version = v.Archive.Version
	doc, err := v.Archive.Paper.Make(in)
	if err != nil {
		return statusWithheld, fmt.Errorf("a figure: %w", err)
	}
	again, err := document.Write(doc, document.FormatOfFile(data))
	if err != nil {
		return statusWithheld, err
	}
	v.Own = doc.Running
	altered := !bytes.Equal(again, data)
	v.Cut = document.CutOff(data) || altered && bytes.HasPrefix(again, data)
	if altered && v.Again.OtherWork != "" {
		v.NotKnown = fmt.Sprintf("puffproof %s made it, this is %s and makes other words of its inputs", v.Archive.Version, program())
		return statusOK, nil
	}
	v.Altered = &altered
	if !v.Cut {
		v.Differs = document.Differences(data, again)
	}
	return statusOK, nil
}
