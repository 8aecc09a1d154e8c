package document

import (
	"strings"

	"puffproof/cmd/puffproof/internal/show"
)

// block writes the block at i and says how many of those after it were written
// with it.
func (w *pdfWriter) block(blocks []Block, i int) int {
	switch b := blocks[i].(type) {
	case Heading:
		w.section(b, w.start(blocks, i+1))
	case Paragraph:
		w.down(0.8)
		w.set.ink(toneInk(paragraphTone(b.Tone)))
		w.paragraph(b.Text, w.base, marginSide, w.wide())
		w.set.ink(toneInk(show.Neutral))
		w.down(1)
	case List:
		w.list(b)
	case Table:
		w.table(b)
	case Figure:
		if b.Aside {
			w.figureAside(b)
			return 0
		}
		return w.figures(blocks, i)
	case Raw:
		w.raw(b)
	case Callout:
		w.callout(b)
	case Form:
		w.form(b)
	case Space:
		w.space(b)
	}
	return 0
}

// paragraphTone keeps running text black but for faint notes.
func paragraphTone(t show.Tone) show.Tone {
	if t == show.Faint {
		return show.Faint
	}
	return show.Neutral
}

// section writes a heading where what follows it has room to begin.
func (w *pdfWriter) section(h Heading, follows float64) {
	switch {
	case h.Break:
		w.pdf.AddPage()
		if h.Appendix {
			w.appendix = w.pdf.PageNo()
		}
	case h.Level == 2:
		w.down(2.5)
	default:
		w.down(2)
	}
	size := [...]float64{17, 17, 13.5, 11, 10}[h.Level]
	if w.doc.OneLeaf {
		size += 2
	}
	w.heading(h.Text, size, h.Level-1, follows)
}

func (w *pdfWriter) list(l List) {
	const indent = 5.0
	w.down(0.5)
	for _, it := range l.Items {
		lines := w.set.lines(it, w.base, w.wide()-indent)
		w.room(float64(min(len(lines), 3)) * leading(w.base))
		y := w.pdf.GetY()
		w.pdf.SetDrawColor(0x1a, 0x1a, 0x1a)
		w.pdf.SetFillColor(0x1a, 0x1a, 0x1a)
		if l.Boxes {
			w.pdf.SetLineWidth(0.3)
			w.pdf.Rect(marginSide, y+0.7, 3, 3, "D")
		} else {
			w.pdf.Circle(marginSide+1.5, y+0.5*leading(w.base), 0.6, "F")
		}
		w.paragraph(it, w.base, marginSide+indent, w.wide()-indent)
		w.down(0.8)
	}
	w.down(1)
}

func (w *pdfWriter) callout(c Callout) {
	const pad = 3.0
	title := w.set.lines(AsStrong(c.Title), w.base+3, textWidth-3*pad)
	height := float64(len(title))*leading(w.base+3) + 2*pad
	for _, t := range c.Body {
		height += float64(len(w.set.lines(t, w.base, textWidth-3*pad)))*leading(w.base) + 1
	}
	w.room(min(height, pageFloor-marginTop))
	y := w.pdf.GetY()
	r, g, b := toneInk(c.Tone)
	w.pdf.SetDrawColor(r, g, b)
	w.pdf.SetFillColor(r, g, b)
	w.pdf.SetLineWidth(0.5)
	w.pdf.Rect(marginSide, y, textWidth, height, "D")
	w.pdf.Rect(marginSide, y, 2.2, height, "F")
	w.pdf.SetY(y + pad)
	w.set.ink(r, g, b)
	w.set.draw(title, marginSide+2*pad, w.pdf.GetY(), w.base+3)
	w.set.ink(toneInk(show.Neutral))
	w.down(float64(len(title))*leading(w.base+3) + 0.8)
	for _, t := range c.Body {
		w.paragraph(t, w.base, marginSide+2*pad, textWidth-3*pad)
		w.down(1)
	}
	w.pdf.SetY(y + height + 2)
}

func (w *pdfWriter) form(f Form) {
	label := 0.42 * textWidth
	for _, field := range f.Fields {
		names := w.set.lines(AsStrong(field.Label), w.base, label-2)
		values := w.set.lines(field.Value, w.base, textWidth-label)
		height := max(8.5, float64(max(len(names), len(values)))*leading(w.base)+3)
		w.room(height)
		y := w.pdf.GetY()
		w.set.draw(names, marginSide, y+2, w.base)
		w.set.draw(values, marginSide+label, y+2, w.base)
		w.pdf.SetDrawColor(0x90, 0x90, 0x90)
		w.pdf.SetLineWidth(0.2)
		w.pdf.Line(marginSide, y+height, marginSide+textWidth, y+height)
		w.pdf.SetY(y + height)
	}
	w.down(2)
}

func (w *pdfWriter) space(s Space) {
	height := float64(s.Height)
	if s.Least > 0 {
		left := pageFloor - w.pdf.GetY() - 3
		switch {
		case left >= float64(s.Least):
			height = min(height, left)
		case s.Least < s.Height/2: // it belongs to this page or to none
			return
		}
	}
	w.room(height + 2)
	y := w.pdf.GetY() + 1
	w.pdf.SetDrawColor(0x4a, 0x4a, 0x4a)
	w.pdf.SetLineWidth(0.3)
	w.pdf.SetDashPattern([]float64{1.5, 1}, 0)
	w.pdf.Rect(marginSide, y, textWidth, height, "D")
	w.pdf.SetDashPattern(nil, 0)
	w.set.ink(toneInk(show.Faint))
	w.set.line(Own(s.Caption), marginSide+2, y+5, 8.5, textWidth-4)
	w.set.ink(toneInk(show.Neutral))
	w.pdf.SetY(y + height + 2)
}

// raw keeps the lines of a text.
func (w *pdfWriter) raw(r Raw) {
	const size = 7.5
	w.caption(r.Caption)
	for l := range strings.Lines(harmless(r.Text)) {
		l = strings.ReplaceAll(strings.TrimRight(l, "\r\n"), "\t", "    ")
		lead := len(l) - len(strings.TrimLeft(l, " "))
		indent := min(float64(lead)*1.4, 40)
		if strings.TrimSpace(l) == "" {
			w.down(leading(size) / 2)
			continue
		}
		w.paragraph(Text{{strings.TrimLeft(l, " "), Code}}, size, marginSide+2+indent, textWidth-2-indent)
	}
	w.down(2)
}

// start is the room that a block needs to begin on a page [mm].
func (w *pdfWriter) start(blocks []Block, i int) float64 {
	const lines = 16.0 // three lines of text
	if i >= len(blocks) {
		return 0
	}
	switch b := blocks[i].(type) {
	case Table:
		return w.frameOf(b).begin
	case Figure:
		return w.figureHeight(b, min(b.width()*leastScale, textWidth))
	}
	return lines
}
