// Package screen shows results on a terminal. It gets plain data and computes nothing; figures
// and the words of statuses are those of package show. Start reading at CheckScreen and
// ShotScreen.
//
// Every text that came from a file goes through show.Clean before it is shown.
package screen

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// Widths of the output in columns.
const (
	DefaultWidth = 80  // in a pipe
	MinWidth     = 50  // narrower windows wrap by themselves
	MaxWidth     = 100 // longer lines are hard to read
)

// Style is how a terminal is written to.
type Style struct {
	Width  int // columns
	Colour bool
	Units  quantity.System
}

// Detail is how much of a result is shown.
type Detail uint8

const (
	Everything Detail = iota
	FindingOnly
	OneScreen // of a check: in 24 lines
)

// Listing is how a long list is shown.
type Listing uint8

const (
	Counted Listing = iota // only how many
	Listed
)

// The colours of the house, as ANSI codes of the 16-colour set so that the
// user's own palette applies.
const (
	bold   = "1"
	red    = "1;31"
	green  = "32"
	yellow = "1;33"
	faint  = "2"
	blue   = "1;34"
)

// paint wraps s in a colour where colours are wanted.
func (s Style) paint(code, t string) string {
	if !s.Colour || t == "" {
		return t
	}
	return "\x1b[" + code + "m" + t + "\x1b[0m"
}

// lines paints a text in as many lines as it takes.
func (s Style) lines(code, first, indent, text string) string {
	return s.paint(code, show.Wrap(text, s.Width, first, indent))
}

// paintTone is paint by what the text means; its words say the same.
func (s Style) paintTone(t show.Tone, text string) string {
	code, ok := map[show.Tone]string{show.Good: green, show.Bad: red, show.Faint: faint, show.Open: yellow, show.Kept: blue}[t]
	if !ok {
		return text
	}
	return s.paint(code, text)
}

// statusHead is the word of a status as wide as the indent of what stands under it, a
// longer word with the blank behind it.
func (s Style) statusHead(st finding.Status) string {
	return s.paintTone(show.ToneOf(st), fmt.Sprintf("%-*s ", len(statusIndent)-1, show.Word(st)))
}

// text writes a text of the results in the reader's units, harmless for a terminal.
func (s Style) text(t finding.Text) string { return show.Clean(s.Units.Text(t)) }

const statusIndent = "         "
