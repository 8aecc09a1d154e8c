// Package problem is one fault of a file that the program reads, as data and as
// text: where it is, what was found, what would be accepted, what was meant.
package problem

import (
	"fmt"
	"strings"
	"unicode"
)

// Problem is one fault of a file. As JSON it has every key, "" where a text does
// not apply.
type Problem struct {
	File    string `json:"file"`
	Line    int    `json:"line"`     // from 1
	Column  int    `json:"column"`   // from 1, in characters
	Key     string `json:"key"`      // dotted key of a design file, such as "projectile.mass"; "" elsewhere
	Message string `json:"message"`  // what is wrong, one sentence without its full stop
	Found   string `json:"found"`    // the offending text; "" where something is missing
	Want    string `json:"accepted"` // what would be accepted
	Hint    string `json:"hint"`     // what was probably meant
}

// String gives the problem in one to three short lines.
func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: ", printable(p.File), p.Line, p.Column)
	if p.Key != "" {
		fmt.Fprintf(&b, "%s: ", printable(p.Key))
	}
	b.WriteString(p.Message)
	if p.Found != "" {
		fmt.Fprintf(&b, ": %q", Clip(p.Found))
	}
	if p.Want != "" {
		b.WriteString("\n    accepted: " + p.Want)
	}
	if p.Hint != "" {
		b.WriteString("\n    " + p.Hint)
	}
	return b.String()
}

// mostQuoted is how many characters of a file are quoted at most.
const mostQuoted = 60

// Clip shortens text for a message without cutting a character. Text that is
// clipped already stays as it is.
func Clip(s string) string {
	if r := []rune(strings.TrimSuffix(s, "…")); len(r) > mostQuoted {
		return string(r[:mostQuoted]) + "…"
	}
	return s
}

// printable keeps control characters of a hostile file off the terminal.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, s)
}
