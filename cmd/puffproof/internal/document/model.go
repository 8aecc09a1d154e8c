package document

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
)

// Document is a paper as plain data, in reading order.
type Document struct {
	Title   string    // of the whole paper, one line
	Heading string    // the first heading
	Running string    // stands on every page; the finding in one line
	Tone    show.Tone // of the running line
	Foot    string    // stands at the foot of every page: name, revision, date, file
	Date    string    // ISO date of the paper
	OneLeaf bool      // one page to laminate, in large type; else as many as it takes
	Blocks  []Block
	Archive *Archive // nil: none is embedded
}

// Text is a line of text in runs.
type Text []Run

// Run is a piece of text of one kind.
type Run struct {
	Text string
	Kind RunKind
}

// RunKind is the kind of a run.
type RunKind uint8

// The kinds. A Given run comes from a file: it is kept apart from the text around
// it, whatever its script and direction.
const (
	Plain RunKind = iota
	Strong
	Given
	Code
)

// Own is the program's own words. Sentences of limits have names of the design in
// them, so they are cleaned as well.
func Own(s string) Text { return Text{{show.Clean(s), Plain}} }

func AsStrong(s string) Text { return Text{{show.Clean(s), Strong}} }

// AsGiven is text from a file.
func AsGiven(s string) Text { return Text{{show.Clean(s), Given}} }

func AsCode(s string) Text { return Text{{show.Clean(s), Code}} }

// Join puts texts behind one another; a string is the program's own words.
func Join(parts ...any) Text {
	var out Text
	for _, p := range Texts(parts...) {
		out = append(out, p...)
	}
	return out
}

// Texts makes a text of each part: a Text stays as it is, a string is the program's own
// words, nil is room to write in. It panics on anything else.
func Texts(parts ...any) []Text {
	out := make([]Text, len(parts))
	for i, p := range parts {
		switch p := p.(type) {
		case nil:
		case string:
			out[i] = Own(p)
		case Text:
			out[i] = p
		default:
			panic(fmt.Sprintf("document: a %T is no text", p))
		}
	}
	return out
}

// String is the text without its kinds.
func (t Text) String() string {
	var b strings.Builder
	for _, r := range t {
		b.WriteString(r.Text)
	}
	return b.String()
}

// Block is a part of a document: one of the types of this file.
type Block interface{ block() }

// Heading begins a section. Level 2 is a chapter, 3 a part of it.
type Heading struct {
	Level int
	Text  string
	ID    string
	Break bool // it begins a new page
	// Appendix begins what stands apart: its pages are counted by themselves.
	Appendix bool
}

// Paragraph is a paragraph.
type Paragraph struct {
	Text Text
	Tone show.Tone
}

// List is a list.
type List struct {
	Items []Text
	Boxes bool // to tick
}

// Table is a table. The first cell of each row names the row.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]Text
	Tones   []show.Tone // of the rows; nil: all neutral
	Shape   Shape
	Widths  []int // shares of the width; nil: even
}

// Add adds a row of cells, as Texts makes them.
func (t *Table) Add(cells ...any) { t.AddToned(show.Neutral, cells...) }

// AddToned is Add with the tone of the row.
func (t *Table) AddToned(tone show.Tone, cells ...any) {
	t.Rows, t.Tones = append(t.Rows, Texts(cells...)), append(t.Tones, tone)
}

// Shape says what a table does where there is no room for it.
type Shape uint8

const (
	Wide   Shape = iota // on a phone each row becomes a card
	Narrow              // figures only: fits everywhere
	Blanks              // empty rows to write in
)

// Figure is a drawing with its words.
type Figure struct {
	Caption string
	Alt     string // what it shows, for who cannot see it
	Drawing *figure.Drawing
	Aside   bool // at the right margin, the text that follows beside it
}

// Raw is text kept as it is, line by line.
type Raw struct {
	Caption string
	Text    string
}

// Callout is a box that is seen first.
type Callout struct {
	Title string
	Tone  show.Tone
	Body  []Text
}

// Form is lines to fill in by hand: what is known already stands on them.
type Form struct{ Fields []Field }

// Field is one line of a form.
type Field struct {
	Label string
	Value Text // empty: a blank line
}

// Space is empty room to draw or to glue a photograph.
type Space struct {
	Caption string
	Height  int // [mm]
	Least   int // as little as this where the page has no more, and none at all below it [mm]; 0: it does not shrink
}

func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Figure) block()    {}
func (Raw) block()       {}
func (Callout) block()   {}
func (Form) block()      {}
func (Space) block()     {}
