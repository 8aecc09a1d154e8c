package render

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/jedib0t/go-pretty/v6/text"
)

// maxMarks is how many combining marks may stand on one letter; every living
// script needs fewer, and heaps of them hide the lines above.
const maxMarks = 3

// Clean makes text from a file or a command line harmless for a terminal and
// puts it on one line. Escape sequences and other control characters, text
// direction overrides and bytes that are no UTF-8 become visible codes such as
// <U+001B>; line breaks and tabs become spaces; invisible joiners go.
func Clean(s string) string {
	var b strings.Builder
	marks := 0
	for i, r := range s {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], "\uFFFD"):
			fmt.Fprintf(&b, "<0x%02X>", s[i])
		case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
			b.WriteByte(' ')
		case r >= '\u200b' && r <= '\u200d' || r == '\ufeff':
			continue
		case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Me, r):
			if marks++; marks <= maxMarks {
				b.WriteRune(r)
			}
			continue
		case !unicode.IsPrint(r) && r != '\u00a0':
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
		marks = 0
	}
	return b.String()
}

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
