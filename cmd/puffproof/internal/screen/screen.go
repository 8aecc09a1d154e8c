package screen

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// part writes one part of a screen.
type part func(b *strings.Builder)

// write prints a screen: its finding and, where everything is wanted, its parts.
func (s Style) write(w io.Writer, d Detail, finding string, parts ...part) error {
	var b strings.Builder
	fmt.Fprintln(&b, finding)
	if d == Everything {
		for _, p := range parts {
			p(&b)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// design names the design and its file.
func (s Style) design(id show.DesignID) part {
	const room = 22 // for the fingerprint
	return func(b *strings.Builder) {
		fmt.Fprintln(b, shorten(show.Clean(id.Title()), s.Width-room)+s.paint(faint, fingerprint(id)))
	}
}

func fingerprint(id show.DesignID) string {
	if id.SHA256 == "" {
		return ""
	}
	return " [file " + id.Fingerprint() + "]"
}

// notes are what stands beside the figures and judges nothing.
func (s Style) notes(notes []finding.Text) part {
	return func(b *strings.Builder) {
		for _, n := range notes {
			s.say(b, "", "  ", "Note: "+s.text(n))
		}
	}
}

// closing is the program's own last word.
func (s Style) closing(t string) part {
	return func(b *strings.Builder) { fmt.Fprintln(b, Wrap(t, s.Width, "", "  ")) }
}

// say prints a text in as many lines as it takes.
func (s Style) say(b *strings.Builder, first, indent, text string) {
	fmt.Fprintln(b, Wrap(text, s.Width, first, indent))
}

// sayf is say with figures and words put in.
func (s Style) sayf(b *strings.Builder, first, indent, format string, args ...any) {
	s.say(b, first, indent, fmt.Sprintf(format, args...))
}

// heads is a row of headings.
func (s Style) heads(names ...string) table.Row {
	row := table.Row{}
	for _, n := range names {
		row = append(row, s.paint(bold, n))
	}
	return row
}

// printTable prints a table below an empty line, without the blanks that it leaves at
// the ends of its lines.
func printTable(b *strings.Builder, t table.Writer) {
	fmt.Fprintln(b, "\n"+trimLines(t.Render()))
}
