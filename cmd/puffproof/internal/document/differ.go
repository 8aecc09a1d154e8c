package document

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"golang.org/x/net/html"
)

// Difference is one place where a paper is not what its inputs give.
type Difference struct {
	Place  string // such as "line 12", "the words before \"Hazard log\""
	Is     string // in the paper; "" it is missing or is no text
	Should string // from its inputs; "" it is too much or is no text
}

// String is the difference in a line.
func (d Difference) String() string {
	switch {
	case d.Is == "" && d.Should == "":
		return d.Place
	case d.Is == "":
		return d.Place + ": missing is " + quoted(d.Should)
	case d.Should == "":
		return d.Place + ": too much is " + quoted(d.Is)
	}
	return d.Place + ": it says " + quoted(d.Is) + ", its inputs give " + quoted(d.Should)
}

func quoted(s string) string { return "\"" + s + "\"" }

// mostDifferences is how many differences are listed: who alters a paper alters
// few things, and another build alters many.
const mostDifferences = 20

// Differences lists where a file is not the one that its inputs give, the first
// first. Both are of one format of Formats.
func Differences(file, should []byte) []Difference {
	if bytes.Equal(file, should) {
		return nil
	}
	var out []Difference
	switch FormatOfFile(should) {
	case "html":
		is, was := pageWords(file), pageWords(should)
		out = lineDifferences(is, was, "words ")
		out = append(out, unseenDifferences(file, should, hiddenParts())...)
		if len(out) == 0 {
			out = unseenDifferences(file, should, []pagePart{{"a figure", regexp.MustCompile(`(?s)<svg.*?</svg>`)}})
		}
		if len(out) == 0 {
			out = lineDifferences(strings.Split(string(file), "\n"), strings.Split(string(should), "\n"), "markup, line ")
			out = out[:min(1, len(out))]
		}
	case "pdf":
		out = pdfDifferences(file, should)
	default:
		out = lineDifferences(strings.Split(string(file), "\n"), strings.Split(string(should), "\n"), "line ")
	}
	if len(out) > mostDifferences {
		out = append(out[:mostDifferences], Difference{Place: fmt.Sprintf("and %d more", len(out)-mostDifferences)})
	}
	return out
}

// endOf is where the end of a paper's file is, and whether it has one; a Markdown file has no end of its own.
func endOf(file []byte) (at int, has bool) {
	ends := map[string]*regexp.Regexp{"html": regexp.MustCompile("</html>"), "pdf": regexp.MustCompile(`startxref\s+\d+\s+%%EOF`)}
	if end := ends[FormatOfFile(file)]; end == nil {
		return len(file), true
	} else if found := end.FindIndex(file); found != nil { // the first: a PDF that was added to has a second one
		return found[1], true
	}
	return 0, false
}

// CutOff tells whether a file of a paper ends before its end. Of a Markdown file nobody can tell: Differences finds what is missing.
func CutOff(file []byte) bool {
	_, has := endOf(file)
	return !has
}

// Followed tells whether something else than blanks and line ends stands behind the end of a file of a paper. Of a Markdown file
// nobody can tell.
func Followed(file []byte) bool {
	at, has := endOf(file)
	return has && len(bytes.TrimSpace(file[at:])) > 0
}

// lineDifferences compares line by line, from both ends, so that lines put in or
// taken out do not make every other one differ.
func lineDifferences(is, was []string, unit string) (out []Difference) {
	head := 0
	for head < len(is) && head < len(was) && is[head] == was[head] {
		head++
	}
	tail := 0
	for tail < len(is)-head && tail < len(was)-head && is[len(is)-1-tail] == was[len(was)-1-tail] {
		tail++
	}
	is, was = is[head:len(is)-tail], was[head:len(was)-tail]
	for i := range max(len(is), len(was)) {
		var a, b string
		if i < len(is) {
			a = is[i]
		}
		if i < len(was) {
			b = was[i]
		}
		if a == b {
			continue
		}
		d := Difference{Place: fmt.Sprintf("%s%d", unit, head+i+1)}
		d.Is, d.Should = around(a, b)
		out = append(out, d)
	}
	return out
}

// around cuts two texts to where they differ, with some words before and after.
func around(a, b string) (string, string) {
	x, y := []rune(a), []rune(b)
	head := 0
	for head < len(x) && head < len(y) && x[head] == y[head] {
		head++
	}
	const before, most = 24, 90
	from := max(0, head-before)
	cut := func(r []rune) string {
		if from >= len(r) {
			return strings.TrimSpace(string(r[min(len(r), max(0, len(r)-before)):]))
		}
		t := string(r[from:min(len(r), from+most)])
		if from > 0 {
			t = "…" + t
		}
		if from+most < len(r) {
			t += "…"
		}
		return strings.TrimSpace(AsGiven(t).String())
	}
	return cut(x), cut(y)
}

// pageWords is the text of a page, piece by piece: what a reader is shown, with the
// labels and descriptions that a screen reader says.
func pageWords(file []byte) []string {
	var out []string
	z := html.NewTokenizer(bytes.NewReader(file))
	skip := false
	for {
		switch z.Next() {
		case html.ErrorToken:
			return out
		case html.TextToken:
			if t := strings.Join(strings.Fields(string(z.Text())), " "); t != "" && !skip {
				out = append(out, t)
			}
		case html.EndTagToken:
			if name, _ := z.TagName(); string(name) == "style" {
				skip = false
			}
		case html.StartTagToken, html.SelfClosingTagToken:
			name, more := z.TagName()
			skip = string(name) == "style"
			for more {
				var key, value []byte
				key, value, more = z.TagAttr()
				switch string(key) {
				case "data-label", "aria-label", "alt", "title":
					if len(value) > 0 {
						out = append(out, strings.Join(strings.Fields(string(value)), " "))
					}
				}
			}
		}
	}
}

// pagePart is a part of a page that no word stands in.
type pagePart struct {
	name    string
	pattern *regexp.Regexp
}

// hiddenParts can change what a reader sees, or what verify runs, though no word
// of the page differs.
func hiddenParts() []pagePart {
	return []pagePart{
		{"the style sheet: it can hide or add words", regexp.MustCompile(`(?s)<style.*?</style>`)},
		{"the archive of inputs", regexp.MustCompile(ArchiveMark + `[` + Base64Letters + `]*`)},
	}
}

// unseenDifferences names the parts of a page that differ.
func unseenDifferences(file, should []byte, parts []pagePart) (out []Difference) {
	for _, part := range parts {
		a, b := part.pattern.FindAll(file, -1), part.pattern.FindAll(should, -1)
		if len(a) != len(b) {
			out = append(out, Difference{Place: fmt.Sprintf("%s: %d there, %d from its inputs", part.name, len(a), len(b))})
			continue
		}
		for i := range a {
			if bytes.Equal(a[i], b[i]) {
				continue
			}
			place := part.name
			if len(a) > 1 {
				place = fmt.Sprintf("%s, number %d of %d", part.name, i+1, len(a))
			}
			out = append(out, Difference{Place: place})
			break
		}
	}
	return out
}

// pdfDifferences names the parts of a PDF that differ: its text is packed, so the
// words are not told.
func pdfDifferences(file, should []byte) []Difference {
	a, b := pdfParts(file), pdfParts(should)
	var out []Difference
	for i := range max(len(a), len(b)) {
		switch {
		case i >= len(a):
			return append(out, Difference{Place: fmt.Sprintf("%d of its %d parts are missing", len(b)-i, len(b))})
		case i >= len(b):
			return append(out, Difference{Place: "something stands behind its last part"})
		case !bytes.Equal(a[i], b[i]):
			out = append(out, Difference{Place: fmt.Sprintf("part %d of %d, %s", i+1, len(b), pdfKind(b, i))})
		}
	}
	return out
}

// pdfParts cuts a PDF behind each of its objects.
func pdfParts(file []byte) [][]byte { return bytes.SplitAfter(file, []byte("endobj\n")) }

// pdfKind says what an object is. The text of a page is the object behind it.
func pdfKind(parts [][]byte, i int) string {
	has := func(k int, mark string) bool { return k >= 0 && bytes.Contains(parts[k], []byte(mark)) }
	switch {
	case has(i, "/Type /EmbeddedFile"), has(i, "/Type /Filespec"):
		return "an attached file"
	case has(i, "/Type /Font"), has(i, "/Length1"), has(i, "/CIDInit"), has(i-1, "/Type /Font"):
		return "a font"
	case has(i, "/CreationDate"):
		return "title, date and program"
	case has(i, "/Title"):
		return "an entry of the contents"
	case has(i, "xref"):
		return "its list of parts"
	case has(i, "/Type /Page\n"), has(i, "/Type /Page "), has(i-1, "/Type /Page\n"), has(i-1, "/Type /Page "):
		pages := 0
		for k := range i + 1 {
			if has(k, "/Type /Page\n") || has(k, "/Type /Page ") {
				pages++
			}
		}
		return fmt.Sprintf("page %d", pages)
	}
	return "its frame"
}
