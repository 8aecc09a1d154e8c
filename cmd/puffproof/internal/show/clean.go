package show

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
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
