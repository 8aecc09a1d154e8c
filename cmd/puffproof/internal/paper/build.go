package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
)

// Build makes the safety file. The order is that of a reader who has two
// minutes: what may be done, what can hurt, the rules; then what looks at the
// thing itself, then the tests, then the numbers. The error is that of a figure
// that cannot be drawn.
func Build(in Input) (*document.Document, error) {
	b := &builder{in: &in, paper: "file"}
	d := b.frame("Safety file")
	for _, part := range []func(){b.pageOne, b.troubles, b.risks, b.rules, b.place, b.photographs, b.launcher, b.pressures, b.tests, b.energy,
		b.inspection, b.appendix, b.signatures} {
		part()
	}
	d.Blocks = b.blocks
	d.Archive = archiveOf(document.SafetyFile, in, d.Running)
	return d, b.err
}

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

// frame is a document without its blocks.
func (b *builder) frame(kind string) *document.Document {
	in := b.in
	running, tone := b.finding()
	named := b.named()
	return &document.Document{
		Title: kind + ": " + named, Heading: kind + " of the design named " + named,
		Running: running, Tone: tone, Date: in.Date,
		Foot: fmt.Sprintf("%s; %s; file %s", named, in.Date, in.Design.Fingerprint()),
	}
}

// nameLength is the most characters of a name: more would push what matters off
// page one. The design file in part 11 has it in full.
const nameLength = 80

// named is the name and revision in quotes: they are the builder's words and must
// not read as the paper's own.
func (b *builder) named() string {
	t := quoted(document.Shortened(document.AsGiven(b.in.Design.Name).String(), nameLength))
	if r := b.in.Design.Revision; r != "" {
		t += ", revision " + quoted(document.Shortened(document.AsGiven(r).String(), nameLength))
	}
	return t
}

// Finding is the one line that a paper of this input carries.
func (in *Input) Finding() string {
	t, _ := (&builder{in: in}).finding()
	return t
}

// finding is the one line of this paper: a date that is past goes first.
func (b *builder) finding() (string, show.Tone) {
	running, tone := Finding(b.in.Report)
	switch past := b.expired(); {
	case past == "":
	case tone == show.Bad: // says itself that it is not to be used
		running = "EXPIRED on " + past + ". " + running
	default:
		running, tone = "EXPIRED on "+past+": not to be used. "+running, show.Bad
	}
	return running, tone
}

// Finding is the one line that stands on every page: that of the screens.
func Finding(r limits.Report) (string, show.Tone) {
	words, tone := show.Finding(r)
	if tone == show.Bad {
		words += " Not to be used."
	}
	return words, tone
}

// expired is the first due date that lies before the paper's; "" none.
func (b *builder) expired() string {
	for _, due := range b.in.Launcher.DueDates(b.in.Date) {
		if due.Date < b.in.Date {
			return due.Date
		}
	}
	return ""
}

// verdict finds a verdict by its name.
func (b *builder) verdict(id string) (finding.Verdict, bool) {
	for _, v := range b.in.Report.Verdicts {
		if v.ID == id {
			return v, true
		}
	}
	return finding.Verdict{}, false
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

// chapter begins a chapter of the safety file. Those that are taken out and used
// by themselves begin on a new page; the others follow where there is room, so
// that no page is nearly empty.
func (b *builder) chapter(number int, title string) {
	h := document.Heading{Level: 2, Text: fmt.Sprintf("%d. %s", number, title), ID: fmt.Sprintf("part-%d", number)}
	switch number {
	case 2, 8, 11, 12: // behind page one, the tests, the appendix, the signatures
		h.Break = true
	}
	b.add(h)
}

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
