package document

import (
	"bytes"
	"fmt"
	"strings"
)

// Markdown writes a document as Markdown with tables (GitHub's dialect). A figure
// is told in words: Markdown has none.
func Markdown(d *Document) ([]byte, error) {
	w := &markdownWriter{}
	// The archive stands first: no text of a design can then pass for one.
	if d.Archive != nil {
		code, err := d.Archive.Encode()
		if err != nil {
			return nil, err
		}
		w.f("<!-- %s -->\n\n", code)
	}
	w.f("# %s\n\n**%s**\n\n", md(d.Heading), md(d.Running))
	for _, b := range d.Blocks {
		w.block(b)
		if h, ok := b.(Heading); ok && h.Level == 2 && !d.OneLeaf {
			w.f("**%s**\n\n", md(d.Running))
		}
	}
	w.f("---\n\n%s\n", md(d.Foot))
	return w.b.Bytes(), nil
}

type markdownWriter struct{ b bytes.Buffer }

func (w *markdownWriter) f(format string, args ...any) { fmt.Fprintf(&w.b, format, args...) }

// md makes a text harmless in Markdown: what could be markup or HTML is escaped.
func md(s string) string {
	var b strings.Builder
	for i, r := range s {
		switch {
		case strings.ContainsRune("\\`*_[]<>|~&", r):
			b.WriteByte('\\')
		case i == 0 && strings.ContainsRune("#+-=>", r):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

func mdText(t Text) string {
	var b strings.Builder
	for _, r := range t {
		text := md(r.Text)
		if r.Kind == Strong && strings.TrimSpace(text) != "" {
			lead := len(text) - len(strings.TrimLeft(text, " "))
			tail := len(strings.TrimRight(text, " "))
			text = text[:lead] + "**" + text[lead:tail] + "**" + text[tail:]
		}
		b.WriteString(text)
	}
	return b.String()
}

func (w *markdownWriter) block(b Block) {
	switch b := b.(type) {
	case Heading:
		w.f("%s %s\n\n", strings.Repeat("#", b.Level), md(b.Text))
	case Paragraph:
		w.f("%s\n\n", mdText(b.Text))
	case List:
		lead := "- "
		if b.Boxes {
			lead = "- [ ] "
		}
		for _, it := range b.Items {
			w.f("%s%s\n", lead, mdText(it))
		}
		w.f("\n")
	case Table:
		w.table(b)
	case Figure:
		w.f("*Figure: %s %s*\n\n", md(b.Caption), md(b.Alt))
	case Raw:
		w.f("%s\n\n", md(b.Caption))
		for l := range strings.Lines(harmless(b.Text)) {
			w.f("    %s\n", strings.TrimRight(l, "\n"))
		}
		w.f("\n")
	case Callout:
		w.f("> **%s**\n", md(b.Title))
		for _, t := range b.Body {
			w.f(">\n> %s\n", mdText(t))
		}
		w.f("\n")
	case Form:
		for _, f := range b.Fields {
			value := mdText(f.Value)
			if value == "" {
				value = strings.Repeat("\\_", 24)
			}
			w.f("- **%s:** %s\n", md(f.Label), value)
		}
		w.f("\n")
	case Space:
		w.f("*(room for: %s)*\n\n", md(b.Caption))
	}
}

func (w *markdownWriter) table(t Table) {
	w.f("%s\n\n|", md(t.Caption))
	for _, h := range t.Head {
		w.f(" %s |", md(h))
	}
	w.f("\n|%s\n", strings.Repeat(" --- |", len(t.Head)))
	for _, row := range t.Rows {
		w.f("|")
		for _, cell := range row {
			w.f(" %s |", mdText(cell))
		}
		w.f("\n")
	}
	w.f("\n")
}
