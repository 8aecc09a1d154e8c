package document

import (
	"fmt"
	"strings"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"
)

// typesetter breaks text into lines for a PDF and draws them.
type typesetter struct {
	pdf        *fpdf.Fpdf
	sans, mono *sfnt.Font
	buffer     *sfnt.Buffer
}

func newTypesetter(pdf *fpdf.Fpdf) (typesetter, error) {
	sans, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		return typesetter{}, fmt.Errorf("the font: %w", err)
	}
	mono, err := sfnt.Parse(liberationmonoregular.TTF)
	if err != nil {
		return typesetter{}, fmt.Errorf("the font: %w", err)
	}
	return typesetter{pdf, sans, mono, new(sfnt.Buffer)}, nil
}

// piece is a word or a part of one in one kind of type.
type piece struct {
	text  string
	kind  RunKind
	width float64 // [mm]
}

// textLine is one line.
type textLine []piece

// leading is the height of a line [mm] of type of a size [pt].
func leading(size float64) float64 { return 1.3 * size * 25.4 / 72 }

// face chooses the font of a kind.
func (t *typesetter) face(k RunKind, size float64) {
	switch k {
	case Strong:
		t.pdf.SetFont(fontSans, "B", size)
	case Code:
		t.pdf.SetFont(fontMono, "", 0.92*size)
	default:
		t.pdf.SetFont(fontSans, "", size)
	}
}

func (t *typesetter) ink(r, g, b int) { t.pdf.SetTextColor(r, g, b) }

// shown replaces what the fonts do not have by how many characters are missing:
// a reader then knows that something stood there, and that the HTML file has it.
func (t *typesetter) shown(s string) string { return t.covered(s, t.sans) }

func (t *typesetter) covered(s string, font *sfnt.Font) string {
	var b strings.Builder
	missing := 0
	tell := func() {
		switch {
		case missing == 1:
			b.WriteString("(1 character not in the font)")
		case missing > 1:
			fmt.Fprintf(&b, "(%d characters not in the font)", missing)
		}
		missing = 0
	}
	var gap strings.Builder       // blanks between missing words belong to them
	for _, r := range visual(s) { // first: the words put in must not be turned round
		blank := r == ' ' || r == '\u00a0'
		if g, err := font.GlyphIndex(t.buffer, r); !blank && (err != nil || g == 0) {
			missing++
			gap.Reset()
			continue
		}
		if blank && missing > 0 {
			gap.WriteRune(r)
			continue
		}
		tell()
		b.WriteString(gap.String())
		gap.Reset()
		b.WriteRune(r)
	}
	tell()
	b.WriteString(gap.String())
	return b.String()
}

// visual puts text that runs from right to left into the order in which it is
// drawn, from left to right.
func visual(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return unicode.In(r, unicode.Hebrew, unicode.Arabic) }) < 0 {
		return s
	}
	var p bidi.Paragraph
	if _, err := p.SetString(s); err != nil {
		return s
	}
	order, err := p.Order()
	if err != nil {
		return s
	}
	var b strings.Builder
	for i := range order.NumRuns() {
		run := order.Run(i)
		text := run.String()
		if run.Direction() == bidi.RightToLeft {
			text = bidi.ReverseString(text)
		}
		b.WriteString(text)
	}
	return b.String()
}

// lines breaks a text at blanks into lines of at most width [mm]; a word that
// fits on no line is broken. A text without words has no line.
func (t *typesetter) lines(text Text, size, width float64) []textLine {
	var out []textLine
	var line textLine
	at := 0.0
	flush := func() {
		if len(line) > 0 {
			out, line, at = append(out, line), nil, 0
		}
	}
	for _, run := range text {
		t.face(run.Kind, size)
		font := t.sans
		if run.Kind == Code {
			font = t.mono
		}
		for _, word := range words(t.covered(run.Text, font)) {
			w := t.pdf.GetStringWidth(word)
			blank := strings.TrimSpace(word) == ""
			if at+w > width && !blank {
				flush()
			}
			if blank && at == 0 {
				continue
			}
			for w > width {
				head := t.head(word, width)
				out = append(out, textLine{{head, run.Kind, t.pdf.GetStringWidth(head)}})
				word = word[len(head):]
				w = t.pdf.GetStringWidth(word)
			}
			line = append(line, piece{word, run.Kind, w})
			at += w
		}
	}
	flush()
	return out
}

// head is as much of a word as fits.
func (t *typesetter) head(word string, width float64) string {
	end := 0
	for i, r := range word {
		next := i + len(string(r))
		if end > 0 && t.pdf.GetStringWidth(word[:next]) > width {
			break
		}
		end = next
	}
	return word[:end]
}

// words cuts a text into words and the blanks between them.
func words(s string) []string {
	var out []string
	start, blank := 0, false
	for i, r := range s {
		if is := r == ' '; i == 0 {
			blank = is
		} else if is != blank {
			out = append(out, s[start:i])
			start, blank = i, is
		}
	}
	if start < len(s) {
		out = append(out, s[start:])
	}
	return out
}

// draw writes lines from y downwards.
func (t *typesetter) draw(lines []textLine, x, y, size float64) {
	for i, l := range lines {
		at := x
		base := y + leading(size)*float64(i) + 0.78*leading(size)
		for k := 0; k < len(l); { // pieces of one kind together: they stay one text for who copies it
			text, width := "", 0.0
			kind := l[k].kind
			for ; k < len(l) && l[k].kind == kind; k++ {
				text += l[k].text
				width += l[k].width
			}
			t.face(kind, size)
			t.pdf.Text(at, base, text)
			at += width
		}
	}
}

// line writes as much of a text as fits on one line, its base at y.
func (t *typesetter) line(text Text, x, y, size, width float64) {
	if lines := t.lines(text, size, width); len(lines) > 0 {
		t.draw(lines[:1], x, y-0.78*leading(size), size)
	}
}
