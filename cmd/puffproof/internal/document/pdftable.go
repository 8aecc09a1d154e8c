package document

import "puffproof/cmd/puffproof/internal/show"

// cellPad is the blank at the sides of a cell [mm].
const cellPad = 1.2

// table writes a table; its head stands again on every page, a row is never cut
// unless it is higher than a page, and a short table is not cut at all.
func (w *pdfWriter) table(t Table) {
	f := w.frameOf(t)
	w.room(f.begin)
	w.caption(t.Caption)
	w.row(f.head, f.widths, f.size, 0, show.Neutral, shaded)
	for i, r := range t.Rows {
		height := w.rowHeight(r, f.widths, f.size, f.least)
		if i == len(t.Rows)-2 { // the last row never stands alone on a page
			height += w.rowHeight(t.Rows[i+1], f.widths, f.size, f.least)
		}
		if w.pdf.GetY()+height > pageFloor && w.pdf.GetY() > marginTop+1 {
			w.pdf.AddPage()
			w.row(f.head, f.widths, f.size, 0, show.Neutral, shaded)
		}
		tone := show.Neutral
		if i < len(t.Tones) {
			tone = t.Tones[i]
		}
		w.row(r, f.widths, f.size, f.least, tone, white)
	}
	w.down(2.5)
}

// tableFrame is how a table is laid out.
type tableFrame struct {
	head   []Text
	widths []float64 // of the columns [mm]
	size   float64   // of the type [pt]
	least  float64   // height of a row [mm]
	begin  float64   // room that the table needs to begin on a page [mm]
}

func (w *pdfWriter) frameOf(t Table) tableFrame {
	f := tableFrame{size: 7.8}
	if w.doc.OneLeaf {
		f.size = 11
	}
	if t.Shape == Blanks {
		f.least = 8
	}
	f.widths = w.columns(t, f.size)
	for _, h := range t.Head {
		f.head = append(f.head, AsStrong(h))
	}
	f.begin = w.captionHeight(t.Caption) + w.rowHeight(f.head, f.widths, f.size, 0) + w.together(t, f)
	return f
}

// together is the height of the rows that stay with the head of a table: all of a
// short table, else the first.
func (w *pdfWriter) together(t Table, f tableFrame) float64 {
	short := 90.0 // a third of the page [mm]
	if t.Shape == Narrow {
		short = 150 // figures that are read together
	}
	sum, first := 0.0, 0.0
	for i, r := range t.Rows {
		sum += w.rowHeight(r, f.widths, f.size, f.least)
		if i == 0 {
			first = min(sum, 200) // a row that fits on a page is not cut
		}
	}
	if sum <= short {
		return sum
	}
	return first
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
		widest(i, AsStrong(h))
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
func (w *pdfWriter) row(row []Text, widths []float64, size, least float64, tone show.Tone, back ground) {
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
func (w *pdfWriter) strip(cells [][]textLine, widths []float64, size, height float64, tone show.Tone, back ground) {
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
	if tone != show.Neutral && tone != show.Faint {
		w.pdf.SetFillColor(toneInk(tone))
		w.pdf.Rect(marginSide, y, 0.9, height, "F")
	}
	w.pdf.SetY(y + height)
}
