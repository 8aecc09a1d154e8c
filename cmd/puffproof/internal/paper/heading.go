package paper

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
)

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

// nameLength is the most characters of a name: more would push what matters off page one. The design file in the appendix has it in full.
const nameLength = 80

func quoted(s string) string { return "\"" + s + "\"" }

// named is the name and revision in quotes: they are the builder's words and must not read as the paper's own.
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
func (b *builder) expired() string { return b.in.Launcher.FirstPast(b.in.Date, b.in.Date) }
