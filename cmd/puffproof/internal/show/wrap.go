package show

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// Columns is how many terminal columns a text takes; colour codes take none and
// wide characters two.
func Columns(s string) int { return text.StringWidthWithoutEscSequences(s) }

// Shorten cuts a text to a number of columns and marks the cut.
func Shorten(s string, columns int) string {
	if Columns(s) <= columns {
		return s
	}
	return text.Trim(s, columns-1) + "…"
}

// Wrap breaks text at spaces so that no line is wider than width columns. The
// first line begins with first, the others with indent. A word that fits on no
// line is broken.
func Wrap(s string, width int, first, indent string) string {
	var b strings.Builder
	b.WriteString(first)
	at, start := Columns(first), Columns(first)
	for _, word := range strings.Fields(s) {
		w := Columns(word)
		if at > start && at+1+w > width {
			b.WriteString("\n" + indent)
			at, start = Columns(indent), Columns(indent)
		}
		if at > start {
			b.WriteByte(' ')
			at++
		}
		for at+w > width && width > start {
			head := text.Trim(word, width-at)
			if head == "" {
				break
			}
			b.WriteString(head + "\n" + indent)
			word = strings.TrimPrefix(word, head)
			at, start = Columns(indent), Columns(indent)
			w = Columns(word)
		}
		b.WriteString(word)
		at += w
	}
	return strings.TrimRight(b.String(), " ")
}

// TrimLines cuts the blanks at the ends of lines.
func TrimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

// stepLines is how many lines of the one screen steps may take: its finding, figures, cautions and at least the count of the verdicts
// stand beside them.
const stepLines = 6

// Steps are lines with a heading and steps in order, each whole: as many as there is room for on one screen, the first in any case; the
// heading counts the others.
func Steps(heading string, steps []string, width int) (lines []string) {
	for i, s := range steps {
		whole := strings.Split(Wrap(s, width, fmt.Sprintf("  %d. ", i+1), "     "), "\n")
		if i > 0 && len(lines)+len(whole) > stepLines {
			heading += fmt.Sprintf(", and %d more: --full", len(steps)-i)
			break
		}
		lines = append(lines, whole...)
	}
	if len(lines) == 0 {
		return nil
	}
	return append([]string{heading}, lines...)
}
