//go:build browser

// These tests need a browser and poppler: .ci/browser installs them (Debian:
// chromium, poppler-utils) and runs `go test -tags browser`. A missing program
// fails the test with "not run": it never counts as passed.
package paper

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdpruntime "github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
)

// tool finds a program or says how to get it.
func tool(t *testing.T, pkg string, names ...string) string {
	t.Helper()
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	t.Fatalf("not run: %s (apt-get install %s)", names[0], pkg)
	return ""
}

// papers are the files the browser looks at, by name.
func papers(t *testing.T) map[string]*document.Document {
	t.Helper()
	card, err := Card(invented(t, nil))
	require.NoError(t, err)
	wrong, err := Card(hostileEverywhere(t))
	require.NoError(t, err)
	long := invented(t, nil)
	long.Launcher.Name, long.Design.Name = strings.Repeat("W", 5000), strings.Repeat("W", 5000)
	return map[string]*document.Document{"open": built(t, invented(t, nil)), "failing": built(t, failing(invented(t, nil))), "card": card,
		"hostile": built(t, hostileEverywhere(t)), "hostile-card": wrong, "long": built(t, long)}
}

// watched is what a page did besides being shown.
type watched struct {
	mu      sync.Mutex
	console []string
	fetched []string
}

// note takes down what the browser tells.
func (w *watched) note(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *log.EventEntryAdded:
		w.console = append(w.console, e.Entry.Text)
	case *cdpruntime.EventConsoleAPICalled:
		w.console = append(w.console, string(e.Type))
	case *cdpruntime.EventExceptionThrown:
		w.console = append(w.console, e.ExceptionDetails.Text)
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !strings.HasPrefix(u, "file://") && !strings.HasPrefix(u, "data:") {
			w.fetched = append(w.fetched, u)
		}
	}
}

// browser starts a headless browser on one paper.
func browser(t *testing.T, d *document.Document) (context.Context, *watched) {
	t.Helper()
	data, err := document.HTML(d)
	require.NoError(t, err)
	return openPage(t, data)
}

// keepScreenshot writes the page as it is seen, where somebody wants to look.
func keepScreenshot(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	folder := os.Getenv("PUFFPROOF_SCREENSHOTS")
	if folder == "" {
		return
	}
	shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(90))
	if len(shot) == 0 && (err == nil || strings.Contains(err.Error(), "too large")) { // higher than some 16 000 pixels
		t.Logf("%s: too high for one picture", name)
		return
	}
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(folder, name+".jpg"), shot, 0o644))
}

// openPage starts a headless browser on one file.
func openPage(t *testing.T, data []byte) (context.Context, *watched) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(path, data, 0o644))
	w := &watched{}
	ctx, stopAllocator := chromedp.NewExecAllocator(t.Context(), chromedp.ExecPath(tool(t, "chromium", "chromium", "chromium-browser")),
		chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU)
	ctx, stopTab := chromedp.NewContext(ctx, chromedp.WithListener(w.note))
	ctx, stopClock := context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(func() { stopClock(); stopTab(); stopAllocator() })
	// The start switches the network, log and runtime events on by itself.
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+path)))
	return ctx, w
}

// At 360 and at 1200 pixels no part of the page is wider than the window (WCAG
// 2.2, 1.4.10 asks the same of 320 pixels); nothing is fetched, nothing is
// complained about.
func TestBrowserShowsThePageWhole(t *testing.T) {
	for name, d := range papers(t) {
		ctx, w := browser(t, d)
		for _, width := range []int64{320, 360, 640, 1200} {
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)))
			wide, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`
				[...document.querySelectorAll("body *")].filter(e => {
					const r = e.getBoundingClientRect();
					return r.width > 0 && r.right > document.documentElement.clientWidth + 1 && !e.closest("thead") && !e.closest("svg");
				}).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 40))
				.concat(document.documentElement.scrollWidth > document.documentElement.clientWidth ? ["the page scrolls sideways"] : [])`))
			require.NoError(t, err)
			assert.Empty(t, wide, "%s at %d pixels", name, width)
			keepScreenshot(t, ctx, name+"-"+strconv.FormatInt(width, 10))
		}
		w.mu.Lock()
		assert.Empty(t, w.console, name)
		assert.Empty(t, w.fetched, name)
		w.mu.Unlock()
	}
}

// Contrast of text against what is behind it: 4.5 to 1, or 3 to 1 in large type
// (WCAG 2.2, 1.4.3), by the formula of its definition of relative luminance.
func TestBrowserSeesEnoughContrast(t *testing.T) {
	for _, name := range []string{"open", "failing"} {
		ctx, _ := browser(t, papers(t)[name])
		poor, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(() => {
			const rgb = s => (s.match(/[\d.]+/g) || []).map(Number);
			const linear = v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
			const lum = c => c.slice(0, 3).map(v => linear(v / 255)).reduce((a, v, i) => a + v * [0.2126, 0.7152, 0.0722][i], 0);
			const behind = e => {
				for (; e; e = e.parentElement) {
					const c = rgb(getComputedStyle(e).backgroundColor);
					if (c.length == 3 || c[3] > 0) return c;
				}
				return [255, 255, 255];
			};
			const words = e => !e.closest("svg") && [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim());
			return [...document.querySelectorAll("body *")].filter(words).filter(e => {
				const s = getComputedStyle(e), a = lum(rgb(s.color)), b = lum(behind(e)), size = parseFloat(s.fontSize);
				const big = size >= 24 || size >= 18.66 && s.fontWeight >= 700;
				return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) < (big ? 3 : 4.5);
			}).map(e => e.tagName + " " + e.textContent.slice(0, 40));
		})()`))
		require.NoError(t, err)
		assert.Empty(t, poor, name)
	}
}

// printed prints a page as the browser does and gives the text of its pages.
func printed(t *testing.T, d *document.Document, paper chromedp.PaperSize) []string {
	t.Helper()
	ctx, _ := browser(t, d)
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper)))
	require.NoError(t, err)
	return pdfPages(t, pdf)
}

// pdfPages extracts the text of each page.
func pdfPages(t *testing.T, pdf []byte) []string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "paper.pdf")
	require.NoError(t, os.WriteFile(path, pdf, 0o644))
	var out, errOut bytes.Buffer
	cmd := exec.CommandContext(t.Context(), tool(t, "poppler-utils", "pdftotext"), "-layout", path, "-")
	cmd.Stdout, cmd.Stderr = &out, &errOut
	require.NoError(t, cmd.Run(), errOut.String())
	return strings.Split(strings.TrimSuffix(out.String(), "\f"), "\f")
}

// notLast are lines that belong to what follows them.
var notLast = regexp.MustCompile(`^(\d+\. [A-Z]|(What fails|Hazard log|Checklist|Emptying|` +
	`Every verdict|Measured shots|Faults tried|Bench and proof|The highest pressure|Setting the switch` +
	`|The eye|One nominal shot|The worst combination|Single faults|Pairs|Objects|Limits used|Assumed|` +
	`The model|Sources|Inputs and how|Signatures|The ladder in figures|Vessels:|Due dates)( .*)?$)`)

// lastLine is the last line of a page above its foot.
func lastLine(page string) string {
	lines := strings.Split(strings.TrimSpace(page), "\n")
	for k := len(lines) - 2; k >= 0; k-- { // the last line is the foot
		if t := strings.TrimSpace(lines[k]); t != "" {
			return t
		}
	}
	return ""
}

// Printed on A4 and on Letter every page says the finding, and no heading stands
// alone at the foot of a page. The card is one page.
func TestBrowserPrintsWholePages(t *testing.T) {
	all := papers(t)
	for paper, size := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
		for _, name := range []string{"open", "failing"} {
			pages := printed(t, all[name], size)
			assert.Greater(t, len(pages), 11, "%s on %s", name, paper)
			for i, p := range pages {
				assert.Contains(t, p, all[name].Running[:20], "%s on %s, page %d", name, paper, i+1)
				assert.Contains(t, p, "page "+strconv.Itoa(i+1)+" of "+strconv.Itoa(len(pages)), "%s on %s", name, paper)
				assert.NotRegexp(t, notLast, lastLine(p), "%s on %s, page %d ends in a heading", name, paper, i+1)
				assert.NotEqual(t, all[name].Running, lastLine(p), "%s on %s, page %d ends in the heading of a part", name, paper, i+1)
			}
			assert.Contains(t, pages[0], "Signature of the second person", "%s on %s: page one is one page", name, paper)
			assert.Contains(t, pages[1], "2. What could hurt whom", "%s on %s: page one is one page", name, paper)
		}
		assert.Len(t, printed(t, all["card"], size), 1, "the card on %s", paper)
	}
}

// The same of the document.PDF that the program writes itself, and no table leaves its
// head alone on a page.
func TestPDFPagesEndWell(t *testing.T) {
	head := regexp.MustCompile(`^(Answer +(Question|Fault)|Hazard +Who +Before|Part +(What|Test)|Item +How|Time, s|` +
		`Scenario +Volume|Rests on|Figure +Value|Quantity +Value|Injury|Key +From|No\. +Source|As +Name)`)
	for name, d := range map[string]*document.Document{"open": built(t, invented(t, nil)), "failing": built(t, failing(invented(t, nil))),
		"hostile": built(t, hostileEverywhere(t))} {
		data, err := document.PDF(d)
		require.NoError(t, err)
		for i, p := range pdfPages(t, data) {
			last := lastLine(p)
			assert.NotRegexp(t, notLast, last, "%s, page %d ends in a heading", name, i+1)
			assert.NotRegexp(t, head, last, "%s, page %d ends in the head of a table", name, i+1)
		}
	}
}

// The document.PDF's text can be selected: its words are the verdicts'.
func TestPDFTextAgreesWithTheVerdicts(t *testing.T) {
	in := failing(invented(t, nil))
	d := built(t, in)
	data, err := document.PDF(d)
	require.NoError(t, err)
	pages := pdfPages(t, data)
	blanks := regexp.MustCompile(`\s+`)
	for i, p := range pages {
		assert.Contains(t, blanks.ReplaceAllString(p, " "), d.Running, "page %d", i+1)
	}
	text := blanks.ReplaceAllString(strings.Join(pages, " "), " ")
	for _, v := range in.Report.Verdicts {
		assert.Contains(t, text, v.ID)
	}
	for _, w := range []string{"0.71 J against 0.50 J", "± 3 %", "18 degC", d.Archive.SHA256[:12], "no dead head"} {
		assert.Contains(t, text, w)
	}
}

// A document.PDF of hostile text is still a document.PDF that a strict reader opens.
func TestPDFOfHostileTextOpens(t *testing.T) {
	data, err := document.PDF(built(t, hostileEverywhere(t)))
	require.NoError(t, err)
	text := strings.Join(strings.Fields(strings.Join(pdfPages(t, data), " ")), "") // a narrow cell breaks words anywhere
	assert.Contains(t, text, "<U+202E>")
	assert.Contains(t, text, "notinthefont)", "what the font lacks is said in words")
	assert.NotContains(t, text, "<U+1F40B>")
	before, _, found := strings.Cut(text, "Thedesignfileasread")
	require.True(t, found)
	for i, key := range freeText() {
		assert.Contains(t, before, mark(i), "%s.%s", key[0], key[1])
	}
}
