//go:build browser

package paper

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axeVariable names the file of the accessibility rules, axe.min.js of axe-core.
const axeVariable = "PUFFPROOF_AXE"

// axeRules is the text of axe-core, or the test fails saying how to get it.
func axeRules(t *testing.T) string {
	t.Helper()
	path := os.Getenv(axeVariable)
	if path == "" {
		t.Fatalf("not run: axe-core (.ci/browser gets it; or npm pack axe-core@4.14.1, unpack it, and let %s name its axe.min.js)", axeVariable)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("not run: axe-core (%s=%q: %v)", axeVariable, path, err)
	}
	return string(data)
}

// axeFault is one rule that is broken, as axe-core reports it.
type axeFault struct {
	ID, Impact, Help string
	Nodes            []struct {
		HTML string
		Why  string `json:"failureSummary"`
	}
}

// axeRun runs all rules on the page that is open.
func axeRun(t *testing.T, ctx context.Context, rules string) []axeFault {
	t.Helper()
	// Two runs: the first hands the rules over and gives nothing back.
	_, err := chromedp.Run(ctx, chromedp.Evaluate[int](rules+"\n;0"))
	require.NoError(t, err)
	text, err := chromedp.Run(ctx,
		chromedp.Evaluate[string](`axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations))`,
			chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	var out []axeFault
	require.NoError(t, json.Unmarshal([]byte(text), &out))
	return out
}

// demoPapers are the papers of the shipped designs, written by the program
// itself, by name.
func demoPapers(t *testing.T) map[string][]byte {
	t.Helper()
	folder := t.TempDir()
	program := filepath.Join(folder, "puffproof")
	build := exec.CommandContext(t.Context(), "go", "build", "-o", program, "puffproof/cmd/puffproof")
	text, err := build.CombinedOutput()
	require.NoError(t, err, string(text))
	out := map[string][]byte{}
	for _, design := range []string{"whale", "rocket", "soapbox", "careless"} {
		for _, paper := range []string{"dossier", "card"} {
			file := filepath.Join(folder, design+"-"+paper+".html")
			cmd := exec.CommandContext(t.Context(), program, paper, filepath.Join("..", "..", "..", "..", "testdata", "designs", design+".toml"),
				"--date", "2026-05-31", "-o", file)
			text, _ := cmd.CombinedOutput() // status 1 where it does not hold
			data, err := os.ReadFile(file)
			require.NoError(t, err, string(text))
			out[design+"-"+paper] = data
		}
	}
	return out
}

// axe-core finds no serious and no critical fault in the papers of the shipped
// designs, on a phone and on a wide screen. Lesser ones are printed.
func TestBrowserFindsThePapersAccessible(t *testing.T) {
	rules := axeRules(t)
	for name, data := range demoPapers(t) {
		ctx, _ := openPage(t, data)
		for _, width := range []int64{360, 1200} {
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)))
			keepScreenshot(t, ctx, name+"-"+strconv.FormatInt(width, 10))
			for _, f := range axeRun(t, ctx, rules) {
				say := t.Logf
				if f.Impact == "serious" || f.Impact == "critical" {
					say = t.Errorf
				}
				say("%s at %d pixels: %s: %s: %s, %d places", name, width, f.Impact, f.ID, f.Help, len(f.Nodes))
				for _, n := range f.Nodes[:min(3, len(f.Nodes))] {
					t.Logf("    %.200s\n    %s", n.HTML, n.Why)
				}
			}
		}
	}
}

// The rules do bite: a page with known faults is reported with them.
func TestBrowserReportsKnownFaults(t *testing.T) {
	ctx, _ := openPage(t,
		[]byte(`<!DOCTYPE html><html><head><title>x</title></head><body><main><h1>x</h1>`+
			`<img src="data:,"><p style="color:#bbb">faint</p></main></body></html>`))
	found := map[string]string{}
	for _, f := range axeRun(t, ctx, axeRules(t)) {
		found[f.ID] = f.Impact
	}
	assert.Equal(t, "critical", found["image-alt"])
	assert.Equal(t, "serious", found["color-contrast"])
	assert.Equal(t, "serious", found["html-has-lang"])
}
