package document

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"puffproof/cmd/puffproof/internal/show"
)

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

// PDF writes a document with selectable text, embedded fonts and vector figures.
// The design file and the archive are attached. The same document makes the same
// bytes.
func PDF(d *Document) ([]byte, error) {
	w, err := newPDFWriter(d)
	if err != nil {
		return nil, err
	}
	w.pdf.AddPage()
	w.heading(d.Heading, 17, 0, 0)
	for i := 0; i < len(d.Blocks); i++ {
		i += w.block(d.Blocks, i)
	}
	var b bytes.Buffer
	if err := w.pdf.Output(&b); err != nil {
		return nil, fmt.Errorf("the PDF: %w", err)
	}
	return b.Bytes(), w.err
}

// pdfWriter lays blocks out from the top of a page to its floor.
type pdfWriter struct {
	doc  *Document
	pdf  *fpdf.Fpdf
	set  typesetter
	base float64 // size of running text [pt]
	err  error
}

func newPDFWriter(d *Document) (*pdfWriter, error) {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.SetCatalogSort(true)
	day, err := time.Parse(time.DateOnly, d.Date)
	if err != nil {
		return nil, fmt.Errorf("the date of the paper: %w", err)
	}
	pdf.SetCreationDate(day.UTC())
	pdf.SetModificationDate(day.UTC())
	pdf.SetTitle(d.Title, true)
	pdf.SetSubject(d.Running, true)
	pdf.SetCreator("puffproof", true)
	pdf.SetLang("en")
	pdf.SetMargins(marginSide, marginTop, marginSide)
	pdf.SetAutoPageBreak(false, marginBottom)
	pdf.AddUTF8FontFromBytes(fontSans, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(fontSans, "B", liberationsansbold.TTF)
	pdf.AddUTF8FontFromBytes(fontMono, "", liberationmonoregular.TTF)
	w := &pdfWriter{doc: d, pdf: pdf, base: 9.5}
	if d.OneLeaf {
		w.base = 12
	}
	if w.set, err = newTypesetter(pdf); err != nil {
		return nil, err
	}
	pdf.AliasNbPages("{pages}")
	pdf.SetHeaderFunc(w.pageHead)
	pdf.SetFooterFunc(w.pageFoot)
	return w, w.attach(d)
}

const (
	fontSans = "sans"
	fontMono = "mono"
)

// attach puts the design and the archive into the file.
func (w *pdfWriter) attach(d *Document) error {
	if d.Archive == nil {
		return nil
	}
	data, err := json.Marshal(d.Archive)
	if err != nil {
		return err
	}
	w.pdf.SetAttachments([]fpdf.Attachment{
		{Content: []byte(d.Archive.Design), Filename: "design.toml", Description: "the design file as read"},
		{Content: data, Filename: "archive.json", Description: "inputs and answers of this file"},
	})
	return nil
}

// pageHead says the finding on every page.
func (w *pdfWriter) pageHead() {
	r, g, b := toneInk(w.doc.Tone)
	w.pdf.SetFillColor(r, g, b)
	w.pdf.Rect(marginSide, 10, 1.6, 5, "F")
	w.set.ink(r, g, b)
	size := 9.0
	for size > 5.5 && len(w.set.lines(AsStrong(w.doc.Running), size, textWidth-3)) > 1 { // the end of it counts as much as its beginning
		size -= 0.5
	}
	w.set.line(AsStrong(w.doc.Running), marginSide+3, 13.8, size, textWidth-3)
	w.set.ink(0x1a, 0x1a, 0x1a)
	w.pdf.SetXY(marginSide, marginTop)
}

// pageFoot says what the paper is of, and the page.
func (w *pdfWriter) pageFoot() {
	w.set.ink(0x4a, 0x4a, 0x4a)
	w.set.line(Own(Shortened(w.doc.Foot, 100)), marginSide, pageHeight-13, 7.5, textWidth-30)
	w.set.line(Own(fmt.Sprintf("page %d of {pages}", w.pdf.PageNo())), pageWidth-marginSide-22, pageHeight-13, 7.5, 30)
	w.set.ink(0x1a, 0x1a, 0x1a)
}

// toneInk is the colour of a tone; its words say the same.
func toneInk(t show.Tone) (r, g, b int) {
	switch t {
	case show.Bad:
		return 0x9d, 0x00, 0x19
	case show.Open:
		return 0x7a, 0x4b, 0x00
	case show.Good:
		return 0x00, 0x60, 0x3a
	case show.Kept:
		return 0x00, 0x4a, 0x86
	case show.Faint:
		return 0x4a, 0x4a, 0x4a
	}
	return 0x1a, 0x1a, 0x1a
}

// room begins a new page where less than so many millimetres are left.
func (w *pdfWriter) room(height float64) {
	if w.pdf.GetY()+height > pageFloor && w.pdf.GetY() > marginTop+1 {
		w.pdf.AddPage()
	}
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
