package app

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"time"
)

// dossierCommand writes the safety file.
func dossierCommand() *Command {
	return &Command{
		Name:     "dossier",
		Summary:  "write the safety file: why it may be used, on paper",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Writes the safety file of the design DESIGN: what you hand to the other adults, the school, the organiser, the insurer. " +
				"One page that can be signed comes first, then what could hurt whom, the rules of use, the plan, the parts, the pressures, the tests, " +
				"the energies, the inspection plan, and an appendix with everything that is needed to repeat the numbers.",
			"The file judges nothing that check does not, but for the logs of --vent-log and --leak-log, which fail it where they are not good: failures and unknowns come first in it, and a design that does not hold says so on every page. " +
				"It begins with the words of check: with open items that it holds on the model, is NOT yet confirmed, and is not to be used yet.",
			"The HTML file needs no network and no script, and prints on A4 and Letter. It carries its own inputs: puffproof verify reads them back. " +
				"The same design, date and program make the same file, byte for byte. A screen reader is served best by the HTML file: " +
				"the PDF has language, title, bookmarks and its text in reading order, but no tags.",
			"The exit status is that of check on the date of the paper, and the holds of --json says the same: 0 and true where no verdict fails and none is unknown. " +
				"A date in the design that is past makes the verdict dates.past fail.",
			"Fill in by hand what only people know: names, serial numbers, photographs, readings, signatures.",
		},
		Options: paperOptions("safety-file"),
		Examples: []Example{
			{"puffproof dossier whale.toml", "writes safety-file.html in this folder"},
			{"puffproof dossier whale.toml --format pdf -o whale.pdf", "the same as PDF, the design file attached"},
			{"puffproof dossier whale.toml --date 2026-05-31 -o - > whale.html", "with a chosen date, to standard output"},
		},
		Run: runDossier,
	}
}

// paperOptions are the options of the commands that write papers.
func paperOptions(name string) []Option {
	return []Option{
		{Name: "o", Value: "FILE", Files: true, Help: "where to write; - is standard output; without it " + name + " with the ending of the format"},
		{Name: "format", Value: "FORMAT", Choices: document.Formats(), Help: "html, pdf or md; without it by the ending of FILE, html where there is none"},
		shotsOption("judge on the measured basis, and put the measured shots into the file as they were read"),
		{Name: "vent-log", Value: "FILE.csv", Files: true, Help: "judge a real emptying, and put its readings into the file as they were read"},
		{Name: "leak-log", Value: "FILE.csv", Files: true, Help: "judge a real leak-down, and put its readings into the file as they were read"},
		{Name: "date", Value: "DATE", Help: "the date of the paper, year-month-day; without it today"},
		{Name: "force", Help: "let the file replace one that exists"},
	}
}

func runDossier(ctx context.Context, call *Call) (status, error) {
	return call.paper(ctx, "safety-file", document.Build)
}

// paper reads, computes, builds and writes a paper.
func (c *Call) paper(ctx context.Context, name string, build func(document.Input) (*document.Document, error)) (status, error) {
	target, format, err := c.paperTarget(name)
	if err != nil {
		return statusInput, err
	}
	in, l, st, err := c.paperInput(ctx, c.Args[0])
	if err != nil {
		return st, err
	}
	if target != "-" { // better now than after the computing
		if err := c.target(target); err != nil {
			return statusInput, err
		}
	}
	if err := c.services.papers(ctx, l, &in); err != nil {
		return statusWithheld, err
	}
	doc, err := build(in)
	if err != nil {
		return statusWithheld, fmt.Errorf("a figure: %w", err)
	}
	data, err := document.Write(doc, format)
	if err != nil {
		return statusWithheld, err
	}
	return c.deliver(ctx, target, format, doc, data, in.Report)
}

// paperTarget is the file and the format that the flags ask for.
func (c *Call) paperTarget(name string) (target, format string, err error) {
	target = c.flags.String("o")
	format = c.flags.String("format")
	if c.flags.IsSet("o") && target == "" {
		return "", "", inputErrorf("-o: the file name is empty")
	}
	ending := filepath.Ext(target)
	if target == "-" {
		ending = ""
	}
	meant, known := document.FormatOf(ending)
	switch {
	case format == "" && !known:
		return "", "", inputErrorf("-o %s: the ending %s names no format; there are .html, .pdf and .md, or say --format", target, ending)
	case format == "":
		format = meant
	case known && ending != "" && meant != format:
		return "", "", inputErrorf("-o %s is the name of a file of format %s, and --format says %s; choose one", target, meant, format)
	}
	if target == "" {
		target = name + "." + format
	}
	if target == "-" && c.json {
		return "", "", inputErrorf("-o - and --json would both write to standard output; choose one")
	}
	return target, format, nil
}

// paperInput reads the design and what is laid beside it.
func (c *Call) paperInput(ctx context.Context, name string) (document.Input, *launcher.Launcher, status, error) {
	var in document.Input
	text, err := c.readFile(name)
	if err != nil {
		return in, nil, statusInput, err
	}
	shown := name
	if name == "-" {
		shown = "standard input"
	}
	l, err := c.services.read(shown, text)
	if err != nil {
		return in, nil, statusInput, &listedError{err}
	}
	in, err = c.paperOf(l, text)
	if err != nil {
		return in, nil, statusInput, err
	}
	for _, role := range []string{document.ShotsRole, document.VentLogRole, document.LeakLogRole} {
		if !c.flags.IsSet(role) {
			continue
		}
		name := c.flags.String(role)
		data, err := c.readFile(name)
		if err != nil {
			return in, nil, statusInput, err
		}
		in.Attached = append(in.Attached, document.Attached{Role: role, Name: filepath.Base(name), SHA256: fingerprintOf(data), Text: string(data)})
	}
	st, err := c.takeIn(ctx, l, &in)
	return in, l, st, err
}

// takeIn understands the measurements that are laid beside a design.
func (c *Call) takeIn(ctx context.Context, l *launcher.Launcher, in *document.Input) (status, error) {
	for _, a := range in.Attached {
		var err error
		switch a.Role {
		case document.ShotsRole:
			if c.services.measure == nil {
				return statusInput, inputErrorf("measured shots cannot be read here")
			}
			in.Found, err = c.measuredFrom(ctx, l, a.Name, []byte(a.Text))
		case document.VentLogRole:
			var log vent.Log
			if log, err = logFrom(l, a.Name, []byte(a.Text)); err == nil {
				in.VentLog, err = vent.JudgeLog(l, log)
			}
		case document.LeakLogRole:
			var log vent.Log
			if log, err = logFrom(l, a.Name, []byte(a.Text)); err == nil {
				in.LeakLog, err = vent.JudgeLeakDown(l, log)
			}
		default:
			err = inputErrorf("a file of the unknown kind %q is attached", a.Role)
		}
		if err != nil {
			return statusInput, err
		}
	}
	return statusOK, nil
}

// paperOf is the frame of an input: design, date, units, program.
func (c *Call) paperOf(l *launcher.Launcher, text []byte) (document.Input, error) {
	date := c.flags.String("date")
	if date == "" {
		date = time.Now().Format(time.DateOnly)
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		return document.Input{}, inputErrorf("--date is a date, year-month-day, such as 2026-05-31; found %q", date)
	}
	return document.Input{
		Design: render.DesignID{Name: l.Name, Revision: l.Revision, SHA256: fingerprintOf(text)},
		Text:   string(text), Launcher: l, Date: date, Version: program(), Units: c.style.Units, DimensionOf: c.dimensionOf,
	}, nil
}

// dimensionOf tells what a key measures, where that is known.
func (c *Call) dimensionOf(key string) (unit.Dimension, bool) {
	if c.services.dimensionOf == nil {
		return 0, false
	}
	return c.services.dimensionOf(key)
}

func fingerprintOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// deliver writes the paper to its place and says what became of it.
func (c *Call) deliver(ctx context.Context, target, format string, doc *document.Document, data []byte, r limits.Report) (status, error) {
	st := statusOK
	if !r.Holds {
		st = statusNotHeld
	}
	if target == "-" {
		c.Out.Write(data)
		return st, nil
	}
	if err := c.place(ctx, target, data); err != nil {
		return statusInput, err
	}
	if c.json {
		return st, c.writeJSON(map[string]any{"written": target, "format": format, "finding": doc.Running, "holds": r.Holds, "open_items": r.OpenItems})
	}
	fmt.Fprintln(c.Out, render.Clean(doc.Running))
	if !c.quiet {
		as := ""
		if filepath.Ext(target) != "."+format { // the name alone does not tell
			as = " (" + format + ")"
		}
		fmt.Fprintf(c.Out, "Wrote %s%s.\n", render.Clean(target), as)
	}
	return st, nil
}
