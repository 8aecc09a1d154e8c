// Package render shows results: on a terminal, as JSON, as data for figures. It
// gets plain data and computes nothing but the digits shown. Start reading at
// CheckScreen, ShotScreen and CheckJSON.
//
// Every text that came from a file goes through Clean before it is shown.
package render

import "puffproof/limits/finding"

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
	Units  Units
}

// Detail is how much of a result is shown.
type Detail uint8

// The amounts of detail.
const (
	Everything Detail = iota
	FindingOnly
)

// Listing is how a long list is shown.
type Listing uint8

// The ways to show a list.
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
)

// paint wraps s in a colour where colours are wanted.
func (s Style) paint(code, t string) string {
	if !s.Colour || t == "" {
		return t
	}
	return "\x1b[" + code + "m" + t + "\x1b[0m"
}

// statusWord is the word of a status: the meaning never rests on its colour.
func statusWord(st finding.Status) string {
	switch st {
	case finding.Pass:
		return "PASS"
	case finding.Fail:
		return "FAIL"
	case finding.NotApplicable:
		return "n.a."
	case finding.OpenItem:
		return "OPEN"
	}
	return "UNKNOWN"
}

// statusColour is the colour that goes with the word.
func statusColour(st finding.Status) string {
	switch st {
	case finding.Pass:
		return green
	case finding.Fail:
		return red
	case finding.NotApplicable:
		return faint
	}
	return yellow
}
