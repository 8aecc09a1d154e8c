package app

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/build"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/memory"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/search"
)

// paperTarget is one file that a paper is written to.
type paperTarget struct {
	file, format string
	data         []byte
}

// paperTargets are the files and formats that the flags ask for: each -o with the format
// that stands in its place among those of --format, else that of its ending; without -o
// one file of each format.
func (c *Call) paperTargets(name string) ([]paperTarget, error) {
	files, formats := c.flags.StringSlice("o"), c.flags.StringSlice("format")
	switch {
	case len(files) == 0 && len(formats) == 0:
		formats = document.Formats()[:1]
	case len(files) > 0 && len(formats) > 0 && len(files) != len(formats):
		return nil, inputErrorf("there are %s and %s; give one -o a format, or the files alone",
			show.Plural(len(files), "-o", "-o"), show.Plural(len(formats), "format", "formats"))
	}
	var out []paperTarget
	for i := range max(len(files), len(formats)) {
		t := paperTarget{}
		if i < len(formats) {
			t.format = formats[i]
		}
		if t.file = name + "." + t.format; len(files) > 0 {
			t.file = files[i]
		}
		if err := t.agree(); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(out, func(o paperTarget) bool { return filepath.Clean(o.file) == filepath.Clean(t.file) }) {
			return nil, inputErrorf("%s would be written twice", t.file)
		}
		out = append(out, t)
	}
	if slices.ContainsFunc(out, func(t paperTarget) bool { return t.file == "-" }) {
		switch {
		case c.json:
			return nil, inputErrorf("-o - and --json would both write to standard output; choose one")
		case len(out) > 1:
			return nil, inputErrorf("-o - goes alone: write the other formats in a second run")
		}
	}
	return out, nil
}

// agree finds the format of a file without one, and holds the ending against it.
func (t *paperTarget) agree() error {
	if t.file == "" {
		return inputErrorf("-o: the file name is empty")
	}
	ending := filepath.Ext(t.file)
	if t.file == "-" {
		ending = ""
	}
	meant, known := document.FormatOf(ending)
	switch {
	case t.format == "" && !known:
		return inputErrorf("-o %s: the ending %s names no format; there are .html, .pdf and .md, or say --format", t.file, ending)
	case t.format == "":
		t.format = meant
	case known && ending != "" && meant != t.format:
		return inputErrorf("-o %s is the name of a file of format %s, and --format says %s; choose one", t.file, meant, t.format)
	}
	return nil
}

// deliver writes the paper to its places, all or none, and says what became of it.
func (c *Call) deliver(ctx context.Context, targets []paperTarget, doc *document.Document, in paper.Input) (status, error) {
	r, st := in.Report, heldStatus(in.Report.Holds)
	if targets[0].file == "-" {
		c.Out.Write(targets[0].data)
		return st, nil
	}
	if err := c.placeAll(ctx, targets); err != nil {
		return 0, err
	}
	known := c.memory(ctx)
	for _, t := range targets {
		known.Keep(ctx, t.data, memory.AnswersOf(in))
	}
	if c.json {
		var files []map[string]any
		for _, t := range targets {
			files = append(files, map[string]any{"written": t.file, "format": t.format})
		}
		return st, c.writeJSON(map[string]any{"files": files, "written": targets[0].file, "format": targets[0].format,
			"date": in.Date, "finding": doc.Running, "holds": r.Holds, "open_items": r.OpenItems})
	}
	fmt.Fprintln(c.Out, show.Clean(doc.Running))
	if c.quiet {
		return st, nil
	}
	for _, t := range targets {
		as := ""
		if filepath.Ext(t.file) != "."+t.format { // the name alone does not tell
			as = " (" + t.format + ")"
		}
		dated := ""
		if in.Date != c.today() && c.flags.String("date") == "" {
			dated = ", dated " + in.Date + " as " + sourceDate + " says"
		}
		fmt.Fprintf(c.Out, "Wrote %s%s%s.\n", show.Clean(t.file), as, dated)
	}
	return st, nil
}

// placeAll writes the files of a paper, all or none.
func (c *Call) placeAll(ctx context.Context, targets []paperTarget) error {
	var files []atomicfile.File
	for _, t := range targets {
		if err := c.target(t.file); err != nil {
			return err
		}
		files = append(files, atomicfile.File{Path: t.file, Data: t.data})
	}
	if at, err := atomicfile.WriteAll(ctx, files, c.existing()); err != nil {
		return writeError(ctx, at, err)
	}
	for _, f := range files {
		c.wrote = append(c.wrote, f.Path)
	}
	return nil
}

// memory is what this program has computed of papers for the user whose environment this is.
func (c *Call) memory(ctx context.Context) *memory.Papers {
	return memory.Of(func(key string) string { return lookup(c.Environ, key) }, program(), build.Version(), search.Strength(ctx))
}
