package screen

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
)

// Frame is what every screen has: how it is written, of which design, how much of it.
type Frame struct {
	Style
	Design show.DesignID
	Detail Detail
	// DimensionOf tells what a key of the design file measures; nil shows no values of
	// keys.
	DimensionOf func(key string) (unit.Dimension, bool)

	page strings.Builder
}

// part writes one part of a screen.
type part func()

// write prints a screen: its finding and, where everything is wanted, its parts.
func (f *Frame) write(w io.Writer, finding string, parts ...part) error {
	f.println(finding)
	if f.Detail == Everything {
		for _, p := range parts {
			p()
		}
	}
	return f.flush(w)
}

// flush hands over what was printed.
func (f *Frame) flush(w io.Writer) error {
	_, err := io.WriteString(w, f.page.String())
	f.page.Reset()
	return err
}

// println prints lines as they are.
func (f *Frame) println(t string) { f.page.WriteString(t + "\n") }

// gap prints an empty line.
func (f *Frame) gap() { f.println("") }

// say prints a text in as many lines as it takes.
func (f *Frame) say(first, indent, text string) { f.println(show.Wrap(text, f.Width, first, indent)) }

// sayf is say with figures and words put in.
func (f *Frame) sayf(first, indent, format string, args ...any) {
	f.say(first, indent, fmt.Sprintf(format, args...))
}

// heading begins a part of a screen.
func (f *Frame) heading(t string) {
	f.gap()
	f.println(f.paint(bold, t))
}

// keys shows values of keys of the design file.
func (f *Frame) keys() show.Keys { return show.Keys{Units: f.Units, DimensionOf: f.DimensionOf} }

// value shows a value of a key of the design file.
func (f *Frame) value(key string, si float64) string { return f.keys().ValueOrNumber(key, si) }

// design names the design and its file, in as many lines as the name takes.
func (f *Frame) design() {
	title, file := show.Wrap(show.Clean(f.Design.Title()), f.Width, "", "  "), fingerprint(f.Design)
	if last := title[strings.LastIndexByte(title, '\n')+1:]; show.Columns(last)+show.Columns(file) > f.Width {
		title += "\n "
	}
	f.println(title + f.paint(faint, file))
}

func fingerprint(id show.DesignID) string {
	if id.SHA256 == "" {
		return ""
	}
	return " [file " + id.Fingerprint() + "]"
}

// notes are what stands beside the figures and judges nothing.
func (f *Frame) notes(notes []finding.Text) part {
	return func() {
		for _, n := range notes {
			f.say("", "  ", "Note: "+f.text(n))
		}
	}
}

// closing is the program's own last word.
func (f *Frame) closing(t string) part { return func() { f.say("", "  ", t) } }

// grid is a table of blanks only, without the colours that the library would put into a
// pipe.
type grid struct{ table.Writer }

// grid begins a table, with a row of headings where there are some.
func (s Style) grid(heads ...string) grid {
	g := grid{table.NewWriter()}
	style := table.StyleDefault
	style.Options = table.OptionsNoBordersAndSeparators
	style.Box.PaddingLeft, style.Box.PaddingRight = "", " "
	g.SetStyle(style)
	row := table.Row{}
	for _, h := range heads {
		row = append(row, s.paint(bold, h))
	}
	if len(heads) > 0 {
		g.AppendRow(row)
	}
	return g
}

// add adds a row.
func (g grid) add(cells ...any) { g.AppendRow(cells) }

// right sets columns to the right; the first is 1.
func (g grid) right(columns ...int) {
	var all []table.ColumnConfig
	for _, n := range columns {
		all = append(all, table.ColumnConfig{Number: n, Align: text.AlignRight})
	}
	g.SetColumnConfigs(all)
}

// printTable prints a table below an empty line.
func (f *Frame) printTable(t grid) {
	f.gap()
	f.printRows(t)
}

// printRows prints a table without the blanks that it leaves at the ends of its lines.
func (f *Frame) printRows(t grid) { f.println(show.TrimLines(t.Render())) }

// cautions prints what every screen that somebody may act on ends with, as check does.
func (s *Frame) cautions() {
	var all []string
	for _, c := range benchmark.Cautions() {
		all = append(all, show.Clean(c.Text))
	}
	s.gap()
	s.say("", "", strings.Join(all, " "))
}
