package document

// cellPad is the blank at the sides of a cell [mm].
const cellPad = 1.2

// table writes a table; its head stands again on every page, a row is never cut
// unless it is higher than a page.
func (w *pdfWriter) table(t Table) {
	size := 7.8
	if w.doc.Layout == OneLeaf {
		size = 11
	}
	w.caption(t.Caption)
	widths := w.columns(t, size)
	head := make([]Text, len(t.Head))
	for i, h := range t.Head {
		head[i] = strong(h)
	}
	least := 0.0
	if t.Shape == Blanks {
		least = 8
	}
	first := 0.0
	if len(t.Rows) > 0 {
		first = w.rowHeight(t.Rows[0], widths, size, least)
	}
	w.room(w.rowHeight(head, widths, size, 0) + min(first, 60))
	w.row(head, widths, size, 0, Neutral, shaded)
	for i, r := range t.Rows {
		height := w.rowHeight(r, widths, size, least)
		if w.pdf.GetY()+height > pageFloor {
			w.pdf.AddPage()
			w.row(head, widths, size, 0, Neutral, shaded)
		}
		tone := Neutral
		if i < len(t.Tones) {
			tone = t.Tones[i]
		}
		w.row(r, widths, size, least, tone, white)
	}
	w.down(2.5)
}

// ground is the colour behind a row.
type ground uint8

const (
	white ground = iota
	shaded
)

// columns gives the widths of the columns [mm]: the shares that the table states,
// the widths of the words in a narrow one, or even ones.
func (w *pdfWriter) columns(t Table, size float64) []float64 {
	out := make([]float64, len(t.Head))
	switch {
	case len(t.Widths) == len(t.Head):
		sum := 0
		for _, s := range t.Widths {
			sum += s
		}
		for i, s := range t.Widths {
			out[i] = textWidth * float64(s) / float64(sum)
		}
	case t.Shape == Narrow:
		w.natural(t, size, out)
	default:
		for i := range out {
			out[i] = textWidth / float64(len(out))
		}
	}
	return out
}

// natural makes every column as wide as its widest cell, and all of them
// narrower in proportion where that is too much.
func (w *pdfWriter) natural(t Table, size float64, out []float64) {
	widest := func(i int, cell Text) {
		width := 2*cellPad + 1
		for _, l := range w.set.lines(cell, size, textWidth) {
			sum := 0.0
			for _, p := range l {
				sum += p.width
			}
			width = max(width, sum+2*cellPad+1)
		}
		out[i] = max(out[i], min(width, 0.6*textWidth))
	}
	for i, h := range t.Head {
		widest(i, strong(h))
		out[i] = max(out[i], 18)
	}
	for _, r := range t.Rows {
		for i, c := range r {
			widest(i, c)
		}
	}
	sum := 0.0
	for _, v := range out {
		sum += v
	}
	if sum > textWidth {
		for i := range out {
			out[i] *= textWidth / sum
		}
	}
}

func (w *pdfWriter) rowHeight(row []Text, widths []float64, size, least float64) float64 {
	height := max(least, leading(size)+1.2)
	for i, c := range row {
		height = max(height, float64(len(w.set.lines(c, size, widths[i]-2*cellPad)))*leading(size)+1.2)
	}
	return height
}

// row writes one row. A row higher than the page is cut at the floor and goes on
// on the next page.
func (w *pdfWriter) row(row []Text, widths []float64, size, least float64, tone Tone, back ground) {
	cells := make([][]textLine, len(row))
	for i, c := range row {
		cells[i] = w.set.lines(c, size, widths[i]-2*cellPad)
	}
	for {
		height, left := max(least, leading(size)+1.2), false
		fit := int((pageFloor - w.pdf.GetY() - 1.2) / leading(size))
		part := make([][]textLine, len(cells))
		for i, lines := range cells {
			n := min(len(lines), max(fit, 1))
			part[i], cells[i] = lines[:n], lines[n:]
			left = left || len(cells[i]) > 0
			height = max(height, float64(n)*leading(size)+1.2)
		}
		w.strip(part, widths, size, height, tone, back)
		if !left {
			return
		}
		w.pdf.AddPage()
	}
}

// strip draws one row's cells and their frame.
func (w *pdfWriter) strip(cells [][]textLine, widths []float64, size, height float64, tone Tone, back ground) {
	x, y := marginSide, w.pdf.GetY()
	w.pdf.SetDrawColor(0xb0, 0xb0, 0xb0)
	w.pdf.SetFillColor(0xec, 0xec, 0xec)
	w.pdf.SetLineWidth(0.2)
	style := "D"
	if back == shaded {
		style = "FD"
	}
	for i := range cells {
		w.pdf.Rect(x, y, widths[i], height, style)
		w.set.draw(cells[i], x+cellPad, y+0.5, size)
		x += widths[i]
	}
	if tone == Bad || tone == Open || tone == Good {
		w.pdf.SetFillColor(toneInk(tone))
		w.pdf.Rect(marginSide, y, 0.9, height, "F")
	}
	w.pdf.SetY(y + height)
}
