package paper

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
)

// page is an HTML file as the parser of the WHATWG standard sees it.
func page(t *testing.T, d *document.Document) (*html.Node, []byte) {
	t.Helper()
	data, err := document.HTML(d)
	require.NoError(t, err)
	root, err := html.Parse(bytes.NewReader(data))
	require.NoError(t, err)
	return root, data
}

// all lists the elements of a tree in order.
func all(n *html.Node, visit func(n *html.Node)) {
	if n.Type == html.ElementNode {
		visit(n)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		all(c, visit)
	}
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func textOf(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.ElementNode && (c.Data == "style" || c.Data == "script") {
			continue
		}
		b.WriteString(textOf(c))
	}
	return b.String()
}

// What WCAG 2.2 asks of a document like this and a machine can see: language
// (3.1.1), title (2.4.2), headings in order (1.3.1, advisory G141), table headers
// (1.3.1, H43), text for drawings (1.1.1), unique ids, links that arrive.
func TestPageIsAccessibleBySource(t *testing.T) {
	root, _ := page(t, built(t, failing(invented(t, nil))))
	ids, links := map[string]int{}, []string{}
	level, headings, tables, drawings := 0, 0, 0, 0
	all(root, func(n *html.Node) {
		if id := attr(n, "id"); id != "" {
			ids[id]++
		}
		if n.Data == "a" {
			links = append(links, strings.TrimPrefix(attr(n, "href"), "#"))
		}
		switch n.Data {
		case "html":
			assert.Equal(t, "en", attr(n, "lang"))
		case "title":
			assert.Contains(t, textOf(n), "Whale float blowhole")
		case "h1", "h2", "h3", "h4":
			now := int(n.Data[1] - '0')
			assert.LessOrEqual(t, now, level+1, "heading %q skips a level", textOf(n))
			level, headings = now, headings+1
		case "table":
			tables++
			assert.NotEmpty(t, attr(n, "aria-labelledby"))
		case "th":
			assert.Contains(t, []string{"col", "row"}, attr(n, "scope"))
		case "svg":
			drawings++
			assert.Equal(t, "img", attr(n.Parent, "role"))
			assert.Greater(t, len(attr(n.Parent, "aria-label")), 20, "a drawing without words")
		}
	})
	for id, n := range ids {
		assert.Equal(t, 1, n, "id %s", id)
	}
	for _, l := range links {
		assert.Equal(t, 1, ids[l], "link to %s", l)
	}
	assert.Greater(t, headings, 20)
	assert.Greater(t, tables, 15)
	assert.GreaterOrEqual(t, drawings, 5)
}

// The file needs nothing: no script, no address to fetch from.
func TestPageNeedsNothingElse(t *testing.T) {
	root, data := page(t, built(t, invented(t, nil)))
	all(root, func(n *html.Node) {
		assert.NotContains(t, []string{"script", "iframe", "object", "embed", "img", "form", "input", "base"}, n.Data)
		for _, a := range n.Attr {
			assert.False(t, strings.HasPrefix(a.Key, "on"), "a handler %s", a.Key)
			if a.Key == "href" || a.Key == "src" {
				assert.True(t, strings.HasPrefix(a.Val, "#") || a.Val == "data:,", "%s=%q", a.Key, a.Val)
			}
		}
	})
	assert.NotContains(t, string(data), "@import")
	assert.NotContains(t, string(data), "url(")
}

// A reader who opens page one finds the four answers, and every part repeats
// the finding.
func TestPageOneAnswers(t *testing.T) {
	for name, c := range map[string]struct {
		in   Input
		want []string
	}{
		"open items": {invented(t, nil), []string{"Holds on the model. NOT yet confirmed: 1 item open: not to be used yet.", "Not yet.",
			pressure(t), "0.21 J of 0.50 J", "Measure at least 5 shots", "2027-05-31", "Signature of the second person"}},
		"fails": {failing(invented(t, nil)), []string{"DOES NOT HOLD: 1 verdict fails, 1 unknown. Not to be used.", "At none as it is now",
			"FAIL Energy of the projectile, worst case: 0.71 J against 0.50 J",
			"UNKNOWN The least pressure a gauge can tell"}},
	} {
		d := built(t, c.in)
		root, data := page(t, d)
		first, _, _ := strings.Cut(textOf(root), "2. What could hurt whom\n"+d.Running)
		for _, w := range c.want {
			assert.Contains(t, first, w, name)
		}
		parts := bytes.Count(data, []byte("<section"))
		assert.Equal(t, 11, parts, name)
		assert.Equal(t, parts, bytes.Count(data, []byte(`class="reminder`)), "%s: a part without the finding", name)
		assert.Contains(t, string(data), "@page{margin:19mm 14mm 16mm;@top-left{content:"+document.CSSString(d.Running), name)
	}
}

// Failures and unknowns stand in the first table of the file.
func TestFailuresComeFirst(t *testing.T) {
	d := built(t, failing(invented(t, nil)))
	for _, b := range d.Blocks {
		if table, ok := b.(document.Table); ok {
			require.Equal(t, "Failures and unknowns, worst first", table.Caption)
			require.Len(t, table.Rows, 2)
			return
		}
	}
	t.Fatal("no table")
}

// Two digits where two are known; a benchmark from memory has its flag beside it.
func TestFiguresHaveTheirOrigin(t *testing.T) {
	root, _ := page(t, built(t, invented(t, nil)))
	text := textOf(root)
	assert.Contains(t, text, "215 J of 5000 J (M)")
	assert.NotContains(t, text, "0.2071")
	assert.NotContains(t, text, "0.207 J")
}

// Words that a reader would take for an approval are nowhere.
func TestNoWordOfApproval(t *testing.T) {
	for _, in := range []Input{invented(t, nil), failing(invented(t, nil))} {
		for _, build := range []func(Input) (*document.Document, error){Build, Card} {
			d, err := build(in)
			require.NoError(t, err)
			data, err := document.Markdown(d)
			require.NoError(t, err)
			for _, w := range []string{"complies", "compliant", "certified", "safe toy", "toy-safe", "fail-safe"} {
				assert.NotContains(t, strings.ToLower(string(data)), w)
			}
		}
	}
}

// pressure is the cut-out of the example design as papers show it.
func pressure(t *testing.T) string {
	t.Helper()
	in := invented(t, nil)
	return in.Units.Near(quantity.Gauge, in.Launcher.Switch.CutOut.Nominal)
}
