package shots

import (
	"fmt"
	"strings"
	"unicode"
)

// Problem is one fault of a shots file.
type Problem struct {
	File    string
	Line    int // from 1
	Column  int // from 1, in characters
	Message string
	Found   string // the offending text; "" where something is missing
	Want    string // what would be accepted
	Hint    string // what was probably meant
}

// String gives the problem in one to three short lines.
func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: %s", printable(p.File), p.Line, p.Column, p.Message)
	if p.Found != "" {
		fmt.Fprintf(&b, ": %q", clip(p.Found))
	}
	if p.Want != "" {
		b.WriteString("\n    accepted: " + p.Want)
	}
	if p.Hint != "" {
		b.WriteString("\n    " + p.Hint)
	}
	return b.String()
}

func clip(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
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
