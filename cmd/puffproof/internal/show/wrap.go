package show

import (
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

// CutWords cuts a text to a number of columns and marks the cut: behind a clause where more
// than half of it stays, else behind a word.
func CutWords(s string, columns int) string {
	if Columns(s) <= columns {
		return s
	}
	cut := strings.TrimSuffix(Shorten(s, columns-1), "…")
	if i := strings.LastIndexByte(cut, ' '); i > 0 {
		cut = cut[:i]
	}
	for _, end := range []string{". ", "; ", " (", ", "} {
		if i := strings.LastIndex(cut, end); i > len(cut)/2 {
			cut = cut[:i]
			break
		}
	}
	return strings.TrimRight(cut, " ,;:(.") + " …"
}
