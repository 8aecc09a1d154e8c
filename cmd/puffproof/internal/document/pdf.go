package document

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
)

// PDF writes a document with selectable text, embedded fonts and vector figures.
// The design file and the archive are attached. The same document makes the same
// bytes.
func PDF(d *Document) ([]byte, error) {
	w, err := newPDFWriter(d)
	if err != nil {
		return nil, err
	}
	body, appendix := w.write()
	w.pdf.RegisterAlias("{body}", fmt.Sprint(body))
	w.pdf.RegisterAlias("{appendix}", fmt.Sprint(appendix))
	var b bytes.Buffer
	if err := w.pdf.Output(&b); err != nil {
		return nil, fmt.Errorf("the PDF: %w", err)
	}
	return b.Bytes(), w.err
}

// Pages counts the pages of a document as the PDF has them: of its body, and of the appendix that is counted apart, 0 where it has none.
func Pages(d *Document) (body, appendix int, err error) {
	w, err := newPDFWriter(d)
	if err != nil {
		return 0, 0, err
	}
	body, appendix = w.write()
	return body, appendix, w.err
}

// write lays the document out and counts its pages.
func (w *pdfWriter) write() (body, appendix int) {
	w.pdf.AddPage()
	w.heading(w.doc.Heading, 17, 0, 0)
	for i := 0; i < len(w.doc.Blocks); i++ {
		i += w.block(w.doc.Blocks, i)
	}
	if w.appendix == 0 {
		return w.pdf.PageNo(), 0
	}
	return w.appendix - 1, w.pdf.PageNo() - w.appendix + 1
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
	w.apart = slices.ContainsFunc(d.Blocks, func(b Block) bool { h, ok := b.(Heading); return ok && h.Appendix })
	if w.set, err = newTypesetter(pdf); err != nil {
		return nil, err
	}
	pdf.AliasNbPages("{pages}")
	pdf.SetHeaderFunc(w.pageHead)
	pdf.SetFooterFunc(w.pageFoot)
	return w, w.attach(d)
}

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
	w.aside = [2]float64{}
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
	n := w.pdf.PageNo()
	page := fmt.Sprintf("page %d of {pages}", n)
	switch {
	case w.appendix > 0:
		page = fmt.Sprintf("appendix, page %d of {appendix}", n-w.appendix+1)
	case w.apart:
		page = fmt.Sprintf("page %d of {body}, and an appendix", n)
	}
	w.set.line(Own(page), pageWidth-marginSide-44, pageHeight-13, 7.5, 50)
	w.set.ink(0x1a, 0x1a, 0x1a)
}
