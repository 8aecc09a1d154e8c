package document

import (
	"fmt"
	"strings"
)

// Shortened cuts a text to so many characters, in the middle, and marks the cut.
func Shortened(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n-41]) + "…" + string(r[len(r)-40:])
}

// CSSString quotes a text for a style sheet: all but letters and digits become
// codes, so that no text can end the string or the sheet.
func CSSString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		if r < 0x80 && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune(" ,:;.", r)) {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, "\\%06x", r)
	}
	b.WriteByte('"')
	return b.String()
}

// harmless keeps line breaks and tabs of a raw text and makes everything else
// that could fool a reader visible.
func harmless(s string) string {
	lines := strings.Split(strings.ReplaceAll(s, "\r\n", "\n"), "\n")
	for i, l := range lines {
		parts := strings.Split(l, "\t")
		for k := range parts {
			parts[k] = AsGiven(parts[k]).String()
		}
		lines[i] = strings.Join(parts, "\t")
	}
	return strings.Join(lines, "\n")
}
