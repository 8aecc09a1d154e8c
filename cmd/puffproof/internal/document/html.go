package document

import (
	"bytes"
	"fmt"
	"html"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
)

// HTML writes a document as one file that needs nothing else: no network, no
// script, the figures and the style inside. Every text is escaped; no text of a
// design can become markup or style.
func HTML(d *Document) ([]byte, error) {
	w := &htmlWriter{}
	w.head(d)
	w.f("<body class=\"%s\">\n", layoutClass(d))
	w.f("<a class=\"skip\" href=\"#content\">To the content</a>\n")
	w.f("<header><p class=\"running %s\" role=\"status\">%s</p><h1>%s</h1></header>\n<main id=\"content\">\n", toneClass(d.Tone),
		esc(d.Running), bdi(d.Heading))
	if !d.OneLeaf {
		w.contents(d)
	}
	open, row := false, false
	for i, b := range d.Blocks {
		if f, is := b.(Figure); is && f.Aside {
			w.figure(f)
			continue
		} else if is != row { // figures that follow one another share a line where there is room
			row = is
			if is {
				w.f("<div class=\"figures\">\n")
			} else {
				w.f("</div>\n")
			}
		}
		if h, ok := b.(Heading); ok && h.Level == 2 {
			if open {
				w.f("</section>\n")
			}
			w.f("<section aria-labelledby=\"%s\"%s>\n", esc(h.ID), breakClass(h))
			open = true
			w.block(b)
			if !d.OneLeaf {
				w.f("<p class=\"reminder %s\">%s</p>\n", toneClass(d.Tone), esc(d.Running))
			}
			continue
		}
		w.block(b)
		if row && i == len(d.Blocks)-1 {
			w.f("</div>\n")
		}
	}
	if open {
		w.f("</section>\n")
	}
	w.f("</main>\n<footer><p>%s</p></footer>\n</body>\n</html>\n", bdi(d.Foot))
	return w.b.Bytes(), w.err
}

type htmlWriter struct {
	b      bytes.Buffer
	tables int // written so far
	err    error
}

func (w *htmlWriter) f(format string, args ...any) { fmt.Fprintf(&w.b, format, args...) }

// esc makes a text harmless in HTML, in text and in quoted attributes.
func esc(s string) string { return html.EscapeString(s) }

// bdi keeps a text of unknown direction apart.
func bdi(s string) string { return "<bdi>" + esc(s) + "</bdi>" }

func layoutClass(d *Document) string {
	if d.OneLeaf {
		return "card"
	}
	return "file"
}

func toneClass(t show.Tone) string {
	return [...]string{"neutral", "good", "open", "bad", "faint", "kept"}[t]
}

func breakClass(h Heading) string {
	if h.Break {
		return ` class="page"`
	}
	return ""
}

func (w *htmlWriter) head(d *Document) {
	w.f("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
	w.f("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
	w.f("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n")
	w.f("<link rel=\"icon\" href=\"data:,\">\n")
	w.f("<meta name=\"dcterms.date\" content=\"%s\">\n", esc(d.Date))
	if d.Archive != nil {
		code, err := d.Archive.Encode()
		if err != nil {
			w.err = err
		}
		w.f("<meta name=\"puffproof-archive\" content=\"%s\">\n", code)
	}
	w.f("<title>%s</title>\n<style>\n%s%s</style>\n</head>\n", esc(d.Title), sheet(), pageStyle(d))
}

// pageStyle puts the finding and the name on every printed page.
func pageStyle(d *Document) string {
	if d.OneLeaf {
		return fmt.Sprintf("@page{margin:10mm 12mm 12mm;@bottom-left{content:%s;font:7.5pt Arial,sans-serif}}\n", CSSString(d.Foot))
	}
	return fmt.Sprintf("@page{margin:19mm 14mm 16mm;@top-left{content:%s;font:bold 9pt Arial,sans-serif}"+
		"@bottom-left{content:%s;font:7.5pt Arial,sans-serif}@bottom-right{content:\"page \" counter(page) \" of \" counter(pages);font:7.5pt "+
		"Arial,sans-serif}}\n", CSSString(d.Running), CSSString(Shortened(d.Foot, 100)))
}

// contents is a list of the parts, for the screen; none of a paper without any.
func (w *htmlWriter) contents(d *Document) {
	if !slices.ContainsFunc(d.Blocks, func(b Block) bool { h, ok := b.(Heading); return ok && h.Level == 2 }) {
		return
	}
	w.f("<nav class=\"contents\" aria-label=\"Parts of this file\"><ul>\n")
	for _, b := range d.Blocks {
		if h, ok := b.(Heading); ok && h.Level == 2 {
			w.f("<li><a href=\"#%s\">%s</a></li>\n", esc(h.ID), esc(h.Text))
		}
	}
	w.f("</ul></nav>\n")
}

func (w *htmlWriter) text(t Text) string {
	var b strings.Builder
	for _, r := range t {
		switch r.Kind {
		case Strong:
			b.WriteString("<strong>" + esc(r.Text) + "</strong>")
		case Given:
			b.WriteString(bdi(r.Text))
		case Code:
			b.WriteString("<code>" + bdi(r.Text) + "</code>")
		default:
			b.WriteString(esc(r.Text))
		}
	}
	return b.String()
}

func (w *htmlWriter) block(b Block) {
	switch b := b.(type) {
	case Heading:
		class := ""
		if b.Level > 2 { // a chapter begins its page by its section
			class = breakClass(b)
		}
		w.f("<h%d id=\"%s\"%s>%s</h%d>\n", b.Level, esc(b.ID), class, esc(b.Text), b.Level)
	case Paragraph:
		w.f("<p class=\"%s\">%s</p>\n", toneClass(b.Tone), w.text(b.Text))
	case List:
		class := ""
		if b.Boxes {
			class = " class=\"boxes\""
		}
		w.f("<ul%s>\n", class)
		for _, it := range b.Items {
			w.f("<li>%s</li>\n", w.text(it))
		}
		w.f("</ul>\n")
	case Table:
		w.table(b)
	case Figure:
		w.figure(b)
	case Raw:
		w.f("<figure class=\"raw\"><figcaption>%s</figcaption><pre dir=\"ltr\" tabindex=\"0\">%s</pre></figure>\n", esc(b.Caption),
			esc(harmless(b.Text)))
	case Callout:
		w.f("<div class=\"callout %s\"><h2>%s</h2>\n", toneClass(b.Tone), esc(b.Title))
		for _, t := range b.Body {
			w.f("<p>%s</p>\n", w.text(t))
		}
		w.f("</div>\n")
	case Form:
		w.f("<dl class=\"form\">\n")
		for _, f := range b.Fields {
			value := w.text(f.Value)
			if value == "" {
				value = "<span class=\"blank\" aria-label=\"to fill in\" role=\"img\"></span>"
			}
			w.f("<div><dt>%s</dt><dd>%s</dd></div>\n", esc(f.Label), value)
		}
		w.f("</dl>\n")
	case Space:
		least := b.Least
		if least == 0 {
			least = b.Height
		}
		w.f("<div class=\"space\" style=\"height:%dmm;--least:%dmm\"><p>%s</p></div>\n", b.Height, least, esc(b.Caption))
	}
}

// table writes a table with its roles said out loud: on a phone its rows become
// cards, and a browser would then forget that it is one.
func (w *htmlWriter) table(t Table) {
	class := [...]string{"wide", "narrow", "blanks"}[t.Shape]
	// A caption of its own before the table: browsers tear a real one off at a page's end.
	w.tables++
	w.f("<p class=\"caption\" id=\"table-%d\">%s</p>\n<table role=\"table\" class=\"%s\" aria-labelledby=\"table-%d\">\n", w.tables,
		bdi(t.Caption), class, w.tables)
	if len(t.Widths) == len(t.Head) {
		w.f("<colgroup>")
		for _, share := range t.Widths {
			w.f("<col style=\"width:%d%%\">", share)
		}
		w.f("</colgroup>\n")
	}
	w.f("<thead role=\"rowgroup\"><tr role=\"row\">")
	for _, h := range t.Head {
		w.f("<th scope=\"col\" role=\"columnheader\">%s</th>", esc(h))
	}
	w.f("</tr></thead>\n<tbody role=\"rowgroup\">\n")
	for i, row := range t.Rows {
		tone := show.Neutral
		if i < len(t.Tones) {
			tone = t.Tones[i]
		}
		w.f("<tr role=\"row\" class=\"%s\">", toneClass(tone))
		for j, cell := range row {
			label := ""
			if j < len(t.Head) {
				label = t.Head[j]
			}
			text := w.text(cell)
			if j == 0 && text != "" {
				w.f("<th scope=\"row\" role=\"rowheader\">%s</th>", text)
				continue
			}
			w.f("<td role=\"cell\" data-label=\"%s\">%s</td>", esc(label), text)
		}
		w.f("</tr>\n")
	}
	w.f("</tbody></table>\n")
}

func (w *htmlWriter) figure(f Figure) {
	svg, err := f.Drawing.SVG()
	if err != nil {
		w.err = err
		return
	}
	const half = 100 // [mm]: what is wider shares no line
	width, _ := f.Drawing.Size()
	class := "drawing"
	switch {
	case f.Aside:
		class += " aside"
	case width > half:
		class += " whole"
	}
	w.f("<figure class=\"%s\" style=\"max-width:%smm\"><div role=\"img\" "+
		"aria-label=\"%s\">%s</div><figcaption>%s</figcaption></figure>\n",
		class, quantity.Fixed(width*1.05, 0, quantity.Nearest), esc(f.Alt), bytes.TrimSpace(svg), esc(f.Caption))
}
