package figure

import (
	"bytes"
)

// Inline gives the drawing as SVG does, without style attributes: a page whose policy forbids styles within its text shows it
// all the same, and its style sheet may give the inks other colours. The drawing fills the room that the page gives it.
func (d *Drawing) Inline() ([]byte, error) {
	out, err := d.SVG()
	if err != nil {
		return nil, err
	}
	return unstyled(out), nil
}

// unstyled is an SVG document with the rules of each style attribute as attributes of their own.
func unstyled(svg []byte) []byte {
	const begins = `style="`
	b := make([]byte, 0, len(svg))
	for {
		before, rest, is := bytes.Cut(svg, []byte(begins))
		if !is {
			return append(b, svg...)
		}
		rules, after, _ := bytes.Cut(rest, []byte(`"`))
		b = bytes.TrimRight(append(b, before...), " \t\r\n")
		for rule := range bytes.SplitSeq(rules, []byte(";")) {
			if name, value, is := bytes.Cut(rule, []byte(":")); is {
				b = append(append(b, ' '), bytes.TrimSpace(name)...)
				b = append(append(append(b, `="`...), bytes.TrimSpace(value)...), '"')
			}
		}
		svg = after
	}
}
