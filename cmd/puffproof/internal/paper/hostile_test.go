package paper

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// freeText lists every key of a design that takes free text and is shown on
// paper, as its table and its name.
func freeText() [][2]string {
	return [][2]string{{"", "name"}, {"", "revision"}, {"", "serial"}, {"", "description"}, {"", "owner"}, {"", "adult_in_charge"},
		{"volumes.tank", "material"}, {"volumes.tank", "proof_test"}, {"barrel", "material"}, {"barrel", "proof_test"}, {"barrel", "seal_guard"},
		{"projectile", "tip_proof"}, {"projectile", "lot"}, {"objects", "name"}, {"checklist.seal-guard", "who"}, {"checklist.seal-guard",
			"value"}}
}

// evilText is a text of about 450 bytes (500 are allowed) that tries everything,
// with a mark by which it is found again.
func evilText(mark string) string {
	return mark + `</style></title></pre><script>alert(1)</script><img src=x onerror=alert(2)> "; } ` +
		`@page{} --> | [a](javascript:b) <!-- ` + document.ArchiveMark +
		"QUJD \u202Eevil\u202C \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \U0001f40b\u200b\u0301\u0301\u0301\u0301\u0301 ${x} " +
		"{{y}} \\n # * _ " + strings.Repeat("W", 110)
}

// mark is the sign of a key: letters and digits only, so that it survives every
// escaping.
func mark(i int) string { return fmt.Sprintf("Zq%02dx", i) }

// hostileEverywhere puts evil text into every free text of the example design.
func hostileEverywhere(t *testing.T) Input {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "designs", "whale.toml"))
	require.NoError(t, err)
	text := string(data) + "\n[[objects]]\ndiameter = \"12 mm\"\nmass = \"3 g\"\n\n[checklist.seal-guard]\ndate = \"2026-05-01\"\n" +
		"# " + strings.Repeat("very long ", 500) + "\n"
	for i, key := range freeText() {
		text = insert(text, key[0], key[1], evilText(mark(i)))
	}
	l, problems := design.Reader{}.Read("whale.toml", []byte(text))
	require.Empty(t, problems)
	in := failing(invented(t, nil))
	in.Text, in.Launcher = text, l
	sum := sha256.Sum256([]byte(text))
	in.Design = show.DesignID{Name: l.Name, Revision: l.Revision, SHA256: hex.EncodeToString(sum[:])}
	in.Report.Verdicts = append(in.Report.Verdicts, finding.Verdict{ID: "misuse.objects", Title: "Other objects in the barrel",
		Status: finding.Fail, Value: number(1), Limit: number(0.08), Unit: finding.InJoule})
	in.Report.Items[1].Done = &l.Checklist[0]
	in.Attached = []document.Attached{{Role: ShotsRole, Name: evilText("file.csv "), SHA256: strings.Repeat("a", 64),
		Text: evilText("raw ") + "\x00\x1b[31m\a\xff\r\n\u2028"}}
	return in
}

// insert sets a key of a table; what the table says of it already goes.
func insert(text, table, key, value string) string {
	var out []string
	at := ""
	add := func() { out = append(out, key+" = "+strconv.QuoteToASCII(value)) }
	if table == "" {
		add()
	}
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if strings.HasPrefix(line, "[") {
			at = strings.Trim(strings.TrimSpace(strings.SplitN(line, "#", 2)[0]), "[]")
			out = append(out, line)
			if at == table {
				add()
			}
			continue
		}
		if name, _, ok := strings.Cut(line, "="); ok && at == table && strings.TrimSpace(name) == key {
			continue
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n") + "\n"
}

// Whatever stands in a free text, no format and no paper takes it for its own
// markup, and every text is still there to read.
func TestHostileTextInEveryKey(t *testing.T) {
	in := hostileEverywhere(t)
	for name, build := range map[string]func(Input) (*document.Document, error){"file": Build, "card": Card} {
		d, err := build(in)
		require.NoError(t, err)
		root, data := page(t, d)
		shown := textOf(root)
		all(root, func(n *html.Node) {
			assert.NotContains(t, []string{"script", "img", "iframe", "object", "form", "input"}, n.Data, name)
			for _, a := range n.Attr {
				assert.False(t, strings.HasPrefix(a.Key, "on"), "%s: %s", name, a.Key)
				assert.NotContains(t, a.Val, "javascript:b", "%s: an attribute %s", name, a.Key)
			}
		})
		for _, once := range []string{"</style>", "</title>", "</body>", "</html>"} {
			assert.Equal(t, 1, bytes.Count(data, []byte(once)), "%s: %s", name, once)
		}
		harmlessLetters(t, name, string(data))

		marked, err := document.Markdown(d)
		require.NoError(t, err)
		_, body, _ := strings.Cut(string(marked), "-->\n")
		harmlessLetters(t, name, body)
		for line := range strings.Lines(body) {
			if strings.HasPrefix(line, "    ") { // a block of code is text as it stands
				continue
			}
			assert.NotRegexp(t, `(^|[^\\])<script`, line, name)
			assert.NotRegexp(t, `(^|[^\\])\]\(javascript`, line, name)
			assert.NotRegexp(t, `(^|[^\\])<!--`, line, name)
		}
		for _, format := range document.Formats() {
			file, err := document.Write(d, format)
			require.NoError(t, err)
			a, err := document.ReadArchive(file)
			require.NoError(t, err, "%s %s", name, format)
			assert.Equal(t, in.Text, a.Design, "the archive is ours, not that of a hostile text")
		}
		pdf, err := document.PDF(d)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(pdf, []byte("%PDF-")))
		if name == "card" {
			assert.Equal(t, 1, len(regexp.MustCompile(`/Type /Page\b`).FindAll(pdf, -1)), "the card stays one page")
		}
		for i, key := range freeText() {
			if name == "card" && (key[0] != "" || key[1] != "name") { // the card of a failing design names nobody who may fire
				continue
			}
			// The design in full repeats every key, so each is looked for before it.
			before, _, _ := strings.Cut(shown, "The design file as read")
			assert.Contains(t, before, mark(i), "%s: %s.%s is not shown", name, key[0], key[1])
		}
	}
}

// harmlessLetters holds that no letter is left that a viewer would act on unseen.
func harmlessLetters(t *testing.T, name, text string) {
	t.Helper()
	for _, bad := range []string{"\u202e", "\u202c", "\x1b", "\x00", "\a", "\u200b", "\u2028", "\xff"} {
		assert.NotContains(t, text, bad, "%s: %q", name, bad)
	}
}

// Names far longer than the reader of designs lets pass, and ones of nothing but
// signs that no font has, still make every paper, the same one each time.
func TestAbsurdNames(t *testing.T) {
	for what, name := range map[string]string{"long": strings.Repeat("W", 5000), "words": strings.Repeat("long name ", 500),
		"emoji": strings.Repeat("\U0001f40b", 30), "blank": "\u3164", "marks": strings.Repeat("\u0301", 200)} {
		in := invented(t, nil)
		in.Launcher.Name, in.Design.Name, in.Launcher.Owner, in.Launcher.InCharge = name, name, name, name
		for _, build := range []func(Input) (*document.Document, error){Build, Card} {
			d, err := build(in)
			require.NoError(t, err, what)
			for _, format := range document.Formats() {
				a, err := document.Write(d, format)
				require.NoError(t, err, "%s %s", what, format)
				if os.Getenv("PUFFPROOF_MORE") == "" && format != "md" {
					continue
				}
				b, err := document.Write(d, format)
				require.NoError(t, err)
				assert.True(t, bytes.Equal(a, b), "%s %s", what, format)
			}
		}
	}
}
