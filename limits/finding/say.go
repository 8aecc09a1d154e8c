package finding

import (
	"fmt"
	"slices"
	"strings"
)

// Text is what is said to a reader: words, and figures that whoever writes it shows
// in the reader's own units. The zero value says nothing.
type Text []Part

// Part is one piece of a text: words, or a figure.
type Part struct {
	Words  string
	Figure *Shown // nil: the part is words
	// Key is the dotted key of the design file that the words name, because the answer waits for it; "" they name none.
	Key string
	// Contradicts tells that the words are OneIsWrong's.
	Contradicts bool
}

// plain tells that the part is words and nothing else.
func (p *Part) plain() bool { return p.Figure == nil && p.Key == "" && !p.Contradicts }

// Key names a key of the design file that is missing, or that something contradicts: Text.Keys finds it again.
func Key(key string) Text { return KeyAs(key, key) }

// KeyAs is Key in other words.
func KeyAs(key, words string) Text { return Text{{Words: words, Key: key}} }

// OneIsWrong says that a reading and what the design states exclude each other.
func OneIsWrong() Text { return Text{{Words: "one of the two is wrong", Contradicts: true}} }

// Keys are the keys that the text names by Key and KeyAs, in order, each once.
func (t Text) Keys() (out []string) {
	for _, p := range t {
		if p.Key != "" && !slices.Contains(out, p.Key) {
			out = append(out, p.Key)
		}
	}
	return out
}

// Contradicts tells whether OneIsWrong stands in the text.
func (t Text) Contradicts() bool {
	return slices.ContainsFunc(t, func(p Part) bool { return p.Contradicts })
}

// Words is a text without figures.
func Words(words string) Text {
	if words == "" {
		return nil
	}
	return Text{{Words: words}}
}

// Say fills a format as fmt.Sprintf does, with texts and figures among its
// arguments: each of those stands at a %s and keeps its type.
//
//	Say("up to %s in %d of %d shots", Bar(p), n, all)
func Say(format string, args ...any) Text {
	var out Text
	for {
		i := strings.IndexByte(format, '%')
		if i < 0 {
			return out.words(format)
		}
		out, format = out.words(format[:i]), format[i:]
		if strings.HasPrefix(format, "%%") {
			out, format = out.words("%"), format[2:]
			continue
		}
		end := strings.IndexAny(format, "sdvgfqt") + 1
		if end == 0 || len(args) == 0 {
			panic("finding: format " + format)
		}
		switch arg := args[0].(type) {
		case Text:
			out = out.And(arg)
		case Shown:
			out = append(out, Part{Figure: &arg})
		default:
			out = out.words(fmt.Sprintf(format[:end], arg))
		}
		format, args = format[end:], args[1:]
	}
}

// And is one text after the other.
func (t Text) And(more Text) Text {
	t = t[:len(t):len(t)] // never into what another text still holds
	for _, p := range more {
		if p.plain() {
			t = t.words(p.Words)
		} else {
			t = append(t, p)
		}
	}
	return t
}

// Say is the text with more behind it, as Say writes it.
func (t Text) Say(format string, args ...any) Text { return t.And(Say(format, args...)) }

// words is the text with words behind it; neighbouring words are one part.
func (t Text) words(words string) Text {
	switch n := len(t); {
	case words == "":
		return t
	case n > 0 && t[n-1].plain():
		out := append(Text(nil), t...)
		out[n-1].Words += words
		return out
	}
	return append(t[:len(t):len(t)], Part{Words: words})
}

// Join puts a separator between texts.
func Join(texts []Text, separator string) Text {
	var out Text
	for i, t := range texts {
		if i > 0 {
			out = out.words(separator)
		}
		out = out.And(t)
	}
	return out
}

// Notes joins what there is of notes with semicolons.
func Notes(notes ...Text) Text {
	var there []Text
	for _, n := range notes {
		if len(n) > 0 {
			there = append(there, n)
		}
	}
	return Join(there, "; ")
}

// String writes the text in metric units.
func (t Text) String() string {
	var b strings.Builder
	for _, p := range t {
		if p.Figure == nil {
			b.WriteString(p.Words)
		} else {
			b.WriteString(p.Figure.String())
		}
	}
	return b.String()
}

// HasPrefix tells whether the text begins with words, up to its first figure.
func (t Text) HasPrefix(words string) bool { return len(t) > 0 && strings.HasPrefix(t[0].Words, words) }

// TrimEnd is the text without those of the characters that it ends with.
func (t Text) TrimEnd(characters string) Text {
	n := len(t)
	if n == 0 || !t[n-1].plain() {
		return t
	}
	return t[: n-1 : n-1].words(strings.TrimRight(t[n-1].Words, characters))
}

// AllWords makes a text of each string.
func AllWords(words []string) []Text {
	var out []Text
	for _, w := range words {
		out = append(out, Words(w))
	}
	return out
}
