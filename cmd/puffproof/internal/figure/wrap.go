package figure

import (
	"strings"
	"unicode/utf8"

	"gonum.org/v1/plot/vg"
)

// mostLines is how many lines a name may take in a drawing. What is longer (some hundred characters: nobody's
// name for a part) ends in a mark of omission; the list beside the drawing has it in full.
const mostLines = 8

// wrap breaks a text into lines of at most a width: behind a blank, a hyphen, a dot or an underscore where there is
// one, else within a word. Nothing is left out.
func wrap(s string, room vg.Length, points float64) []string {
	var out []string
	line, wide, words := "", vg.Length(0), 0
	flush := func() {
		if line = strings.TrimRight(line, " "); line != "" {
			out = append(out, line)
		}
		line, wide, words = "", 0, 0
	}
	// The line is measured as a whole only where the sum of its words, which kerning between two of them alters by
	// less than a third of the type's size, does not tell.
	tooWide := func(word string, width vg.Length) bool {
		kerning := vg.Points(points / 3 * float64(words))
		return wide+width+kerning > room && (wide+width-kerning > room || widthOf(line+word, points) > room)
	}
	for _, word := range breakable(s) {
		shown := strings.TrimRight(word, " ")
		width := widthOf(shown, points)
		if shown != "" && tooWide(shown, width) {
			flush()
		}
		for width > room {
			head := widest(word, room, points)
			out, word = append(out, head), word[len(head):]
			width = widthOf(strings.TrimRight(word, " "), points)
		}
		line += word
		wide, words = wide+widthOf(word, points), words+1
	}
	flush()
	return out
}

// wrapName is wrap of a name, which has at most mostLines.
func wrapName(s string, room vg.Length, points float64) []string {
	out := wrap(s, room, points)
	if len(out) > mostLines {
		out = append(out[:mostLines-1], out[mostLines-1]+"…")
	}
	return out
}

// breakable cuts a text behind the characters where a line may end: not within a figure or a date.
func breakable(s string) []string {
	var out []string
	start := 0
	for i, r := range s {
		if r == ' ' || strings.ContainsRune("-_.", r) && i+1 < len(s) && (s[i+1] < '0' || s[i+1] > '9') {
			out = append(out, s[start:i+1])
			start = i + 1
		}
	}
	if start < len(s) {
		out = append(out, s[start:])
	}
	return out
}

// widest is as much of a word as fits, at least one character.
func widest(word string, room vg.Length, points float64) string {
	end := 0
	for end < len(word) {
		_, size := utf8.DecodeRuneInString(word[end:])
		if end > 0 && widthOf(word[:end+size], points) > room {
			break
		}
		end += size
	}
	return word[:end]
}
