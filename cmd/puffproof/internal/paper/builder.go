package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// builder collects the blocks of a paper.
type builder struct {
	in      *Input
	paper   string // what it calls itself: file, card
	blocks  []document.Block
	sources []string
	err     error // of the first figure that could not be drawn
}

func (b *builder) add(blocks ...document.Block) { b.blocks = append(b.blocks, blocks...) }

// say adds a paragraph of texts; a string is the program's own words.
func (b *builder) say(parts ...any) { b.tell(show.Neutral, parts...) }

// tell is say with a tone.
func (b *builder) tell(tone show.Tone, parts ...any) {
	b.add(document.Paragraph{Text: document.Join(parts...), Tone: tone})
}

// list adds a list, boxes one to tick.
func (b *builder) list(items ...any) { b.add(document.List{Items: document.Texts(items...)}) }

func (b *builder) boxes(items ...any) {
	b.add(document.List{Items: document.Texts(items...), Boxes: true})
}

// chapter begins a chapter of the safety file. Those that are taken out and used by themselves begin on a new page; the others follow
// where there is room, so that no page is nearly empty.
func (b *builder) chapter(number int, title string) {
	h := document.Heading{Level: 2, Text: fmt.Sprintf("%d. %s", number, title), ID: fmt.Sprintf("part-%d", number)}
	switch number {
	case 2: // behind page one
		h.Break = true
	case appendixPart:
		h.Break, h.Appendix = true, true
	}
	b.add(h)
}

// appendixPart is the number of the appendix, the last part.
const appendixPart = 12

func (b *builder) section(title string) {
	b.add(document.Heading{Level: 3, Text: title, ID: slug(title)})
}

// slug makes an identifier of a title that is the program's own.
func slug(title string) string {
	var s strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			s.WriteRune(r)
		case s.Len() > 0 && !strings.HasSuffix(s.String(), "-"):
			s.WriteByte('-')
		}
	}
	return strings.TrimSuffix(s.String(), "-")
}

// draw adds a figure; the first that cannot be drawn ends the paper.
func (b *builder) draw(caption, alt string, make func() (*figure.Drawing, error)) {
	d, err := make()
	if err != nil {
		if b.err == nil {
			b.err = err
		}
		return
	}
	b.add(document.Figure{Caption: caption, Alt: alt, Drawing: d})
}

// verdictLines adds the verdicts of those names that there are.
func (b *builder) verdictLines(ids ...string) {
	for _, id := range ids {
		if v, ok := b.in.Report.Verdict(id); ok {
			b.verdictLine(v)
		}
	}
}

// verdictLine is one verdict as a sentence.
func (b *builder) verdictLine(v finding.Verdict) {
	t := document.Join(document.AsStrong(show.PaperWord(v.Status)), " "+v.Title)
	if a := b.in.against(v); a != "" {
		t = document.Join(t, ": "+a)
	}
	if v.Basis != "" && v.Status != finding.NotApplicable {
		t = document.Join(t, "; basis "+string(v.Basis))
	}
	if len(v.Why) != 0 {
		t = document.Join(t, "; "+b.text(v.Why))
	}
	t = document.Join(t, ". ")
	if c := show.Condition(b.in.Units, v); c != "" {
		t = document.Join(t, c+" ")
	}
	if len(v.Advice) != 0 && v.Status != finding.Pass {
		t = document.Join(t, "Do: "+b.text(v.Advice)+" ")
	}
	b.tell(show.ToneOf(v.Status), t, b.source(v.Source))
}

// text writes a text of the results in the units of the paper.
func (b *builder) text(t finding.Text) string { return b.in.Units.Text(t) }

// source numbers a source in the order of first use: "[3]".
func (b *builder) source(s string) string {
	if s == "" {
		return ""
	}
	for i, known := range b.sources {
		if known == s {
			return fmt.Sprintf("[%d]", i+1)
		}
	}
	b.sources = append(b.sources, s)
	return fmt.Sprintf("[%d]", len(b.sources))
}

// dash stands where there is nothing to say.
func dash(s string) string {
	if strings.TrimSpace(s) == "" {
		return "–"
	}
	return s
}

func word(s, missing string) string {
	if s == "" {
		return missing
	}
	return s
}

func optional(s string) document.Text {
	if strings.TrimSpace(s) == "" {
		return nil
	}
	return document.AsGiven(document.Shortened(document.AsGiven(s).String(), nameLength))
}
