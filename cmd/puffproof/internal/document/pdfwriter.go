package document

import (
	"codeberg.org/go-pdf/fpdf"

	"puffproof/cmd/puffproof/internal/show"
)

// pdfWriter lays blocks out from the top of a page to its floor.
type pdfWriter struct {
	doc  *Document
	pdf  *fpdf.Fpdf
	set  typesetter
	base float64 // size of running text [pt]

	aside [2]float64 // what stands at the right margin: its width with a gap, and where it ends on this page [mm]

	apart    bool // the document has an appendix
	appendix int  // the page on which it begins; 0: not yet
	err      error
}

// toneInk is the colour of a tone; its words say the same.
func toneInk(t show.Tone) (r, g, b int) {
	ink, ok := map[show.Tone][3]int{show.Bad: {0x9d, 0x00, 0x19}, show.Open: {0x7a, 0x4b, 0x00}, show.Good: {0x00, 0x60, 0x3a},
		show.Kept: {0x00, 0x4a, 0x86}, show.Faint: {0x4a, 0x4a, 0x4a}}[t]
	if !ok {
		ink = [3]int{0x1a, 0x1a, 0x1a}
	}
	return ink[0], ink[1], ink[2]
}

// room begins a new page where less than so many millimetres are left.
func (w *pdfWriter) room(height float64) {
	if w.pdf.GetY()+height > pageFloor && w.pdf.GetY() > marginTop+1 {
		w.pdf.AddPage()
	}
}

// wide is how wide a line may be here: beside what stands at the right margin it is shorter.
func (w *pdfWriter) wide() float64 {
	if w.pdf.GetY() < w.aside[1] {
		return textWidth - w.aside[0]
	}
	return textWidth
}

func (w *pdfWriter) down(mm float64) { w.pdf.SetY(w.pdf.GetY() + mm) }

// heading writes a heading and takes it into the outline; level 0 has no entry.
// It stays with what follows it, which needs so much room to begin [mm].
func (w *pdfWriter) heading(t string, size float64, level int, follows float64) {
	lines := w.set.lines(AsStrong(t), size, textWidth)
	w.room(float64(len(lines))*leading(size) + 1.2 + follows)
	if level > 0 {
		w.pdf.Bookmark(w.set.shown(t), level-1, -1)
	}
	w.set.draw(lines, marginSide, w.pdf.GetY(), size)
	w.down(float64(len(lines))*leading(size) + 1.2)
}

// paragraph writes text over the whole width, line by line over pages.
func (w *pdfWriter) paragraph(t Text, size, x, width float64) {
	for _, l := range w.set.lines(t, size, width) {
		w.room(leading(size))
		w.set.draw([]textLine{l}, x, w.pdf.GetY(), size)
		w.down(leading(size))
	}
}

// The page, A4, in millimetres. On Letter it prints at full size too: the
// margins leave room for the difference.
const (
	pageWidth    = 210.0
	pageHeight   = 297.0
	marginSide   = 15.0
	marginTop    = 19.0
	marginBottom = 22.0 // Letter is 18 mm shorter
	textWidth    = pageWidth - 2*marginSide
	pageFloor    = pageHeight - marginBottom
)

const (
	fontSans = "sans"
	fontMono = "mono"
)

// caption stands above what it names and stays with it.
func (w *pdfWriter) caption(t string) {
	w.room(w.captionHeight(t) + 12)
	w.down(1)
	lines := w.set.lines(AsStrong(t), captionSize, textWidth)
	w.set.draw(lines, marginSide, w.pdf.GetY(), captionSize)
	w.down(float64(len(lines))*leading(captionSize) + 0.8)
}

const captionSize = 8.8 // [pt]

func (w *pdfWriter) captionHeight(t string) float64 {
	return float64(len(w.set.lines(AsStrong(t), captionSize, textWidth)))*leading(captionSize) + 1.8
}
