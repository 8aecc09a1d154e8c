package main

import (
	"regexp"
	"strings"

	"github.com/rogpeppe/go-internal/diff"
)

// longestKind bounds the text by which lines are grouped, in characters.
const longestKind = 60

// mostLines bounds the lines told of one text; more are counted as one.
const mostLines = 200

var figures = regexp.MustCompile(`[0-9][0-9.]*`)

// text compares two texts line by line; those of a page tag by tag.
func (w *differ) text(prefix, was, now string) {
	if strings.Contains(was, "<html") || strings.Contains(was, "<svg") {
		was, now = strings.ReplaceAll(was, "<", "\n<"), strings.ReplaceAll(now, "<", "\n<")
	}
	var gone, come []string
	told := 0
	flush := func() {
		for i := range max(len(gone), len(come)) {
			old, new := "(no line)", "(no line)"
			if i < len(gone) {
				old = gone[i]
			}
			if i < len(come) {
				new = come[i]
			}
			if told++; told <= mostLines {
				w.add(prefix+"line", prefix+"line "+lineKind(old, new), old, new)
			}
		}
		gone, come = nil, nil
	}
	for line := range strings.Lines(string(diff.Diff("old", []byte(was+"\n"), "new", []byte(now+"\n")))) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "--- ") || strings.HasPrefix(line, "+++ ") || strings.HasPrefix(line, "diff "):
		case strings.HasPrefix(line, "-"):
			if len(come) > 0 {
				flush()
			}
			gone = append(gone, line[1:])
		case strings.HasPrefix(line, "+"):
			come = append(come, line[1:])
		default:
			flush()
		}
	}
	flush()
	if told > mostLines {
		w.add(prefix+"(further lines)", prefix+"(further lines)", "", "")
	}
}

// lineKind is a line without its figures, by which lines are grouped.
func lineKind(old, new string) string {
	line := old
	if old == "(no line)" {
		line = "+ " + new
	}
	kind := []rune(strings.Join(strings.Fields(figures.ReplaceAllString(line, "#")), " "))
	if len(kind) > longestKind {
		return string(kind[:longestKind]) + "…"
	}
	return string(kind)
}
