package paper

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
)

// What was altered is named: the place, the wrong words and the right ones.
func TestDifferencesNameThePlace(t *testing.T) {
	files := map[string][]byte{}
	for _, format := range document.Formats() {
		file, err := document.Write(built(t, invented(t, nil)), format)
		require.NoError(t, err)
		files[format] = file
		assert.Empty(t, document.Differences(file, file), format)
		assert.False(t, document.CutOff(file), format)
	}
	edit := func(format, from, to string) []byte {
		out := bytes.Replace(files[format], []byte(from), []byte(to), 1)
		require.NotEqual(t, files[format], out, from)
		return out
	}
	for name, c := range map[string]struct {
		format string
		file   []byte
		says   []string
	}{
		"a figure in words": {"html", edit("html", "0.21 J of 0.50 J", "0.08 J of 0.50 J"), []string{"words ", "0.08 J of",
			"its inputs give", "0.21 J of"}},
		"Markdown":        {"md", edit("md", "0.21 J of 0.50 J", "0.08 J of 0.50 J"), []string{"line ", "0.08 J of", "0.21 J of"}},
		"words taken out": {"md", edit("md", "**May it be used?** Not yet.", "**May it be used?** "), []string{"line ", "Not yet."}},
		"a label":         {"html", edit("html", `data-label="Nominal"`, `data-label="Approved"`), []string{"Approved", "Nominal"}},
		"the style": {"html", edit("html", "h1{", "h1::after{content:'approved'}h1{"),
			[]string{"the style sheet: it can hide or add words"}},
		"a line of a figure":   {"html", edit("html", "<path d=\"M", "<path d=\"M1,1 M"), []string{"a figure, number "}},
		"a class":              {"html", edit("html", `class="neutral"`, `class="good"`), []string{"markup, line "}},
		"behind the end, PDF":  {"pdf", append(bytes.Clone(files["pdf"]), "\n% more\n"...), []string{"its list of parts"}},
		"the date in a PDF":    {"pdf", edit("pdf", "/CreationDate (D:2026", "/CreationDate (D:2036"), []string{"title, date and program"}},
		"an attached file":     {"pdf", flipped(files["pdf"], "/Type /EmbeddedFile"), []string{"an attached file"}},
		"the text of the page": {"pdf", flipped(files["pdf"], "/Type /Page\n"), []string{"page 1"}},
	} {
		d := document.Differences(c.file, files[c.format])
		require.NotEmpty(t, d, name)
		var said []string
		for _, one := range d {
			said = append(said, one.String())
		}
		for _, w := range c.says {
			assert.Contains(t, strings.Join(said, "\n"), w, name)
		}
		assert.Len(t, d, 1, "%s: one thing was altered: %v", name, said)
	}
}

// flipped changes one byte of the stream that follows a mark.
func flipped(file []byte, mark string) []byte {
	out := bytes.Clone(file)
	at := bytes.Index(out, []byte(mark))
	at += bytes.Index(out[at:], []byte("stream\n")) + 40
	out[at] ^= 1
	return out
}

func TestCutOffFilesAreSeen(t *testing.T) {
	for _, format := range []string{"html", "pdf"} {
		file, err := document.Write(built(t, invented(t, nil)), format)
		require.NoError(t, err)
		for _, share := range []int{30, 2} {
			cut := file[:len(file)-len(file)/share]
			assert.True(t, document.CutOff(cut), format)
			assert.False(t, document.Followed(cut), format)
		}
		assert.False(t, document.Followed(file), format)
		for _, more := range []string{"words", "\n\n% more\n", strings.Repeat("and more\n", 500), "\nstartxref\n0\n%%EOF\n</html>\n"} {
			longer := append(bytes.Clone(file), more...)
			assert.False(t, document.CutOff(longer), "%s: nothing is missing of it", format)
			assert.True(t, document.Followed(longer), "%s: %.20q", format, more)
		}
		assert.False(t, document.Followed(append(bytes.Clone(file), " \r\n\n"...)), "%s: an editor's line ends say nothing", format)
	}
}
