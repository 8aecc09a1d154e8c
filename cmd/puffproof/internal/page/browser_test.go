//go:build browser

// These tests need a browser: .ci/browser installs it (Debian: chromium) and runs `go test -tags browser`. A missing program
// fails the test with "not run": it never counts as passed.
package page

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdpruntime "github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
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

// tab is one page in a browser, with what it complained about.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu      sync.Mutex
	console []string
	fetched []string
}

// note takes down what the browser tells.
func (b *tab) note(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *log.EventEntryAdded:
		b.console = append(b.console, e.Entry.Text+" "+e.Entry.URL)
	case *cdpruntime.EventConsoleAPICalled:
		b.console = append(b.console, string(e.Type))
	case *cdpruntime.EventExceptionThrown:
		b.console = append(b.console, e.ExceptionDetails.Text)
	case *network.EventRequestWillBeSent:
		b.fetched = append(b.fetched, e.Request.URL)
	}
}

// browse opens a link in a new browser.
func browse(t *testing.T, link string) *tab {
	t.Helper()
	b := &tab{t: t}
	ctx, stopAllocator := chromedp.NewExecAllocator(t.Context(), chromedp.ExecPath(tool(t, "chromium", "chromium", "chromium-browser")),
		chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU)
	ctx, stopTab := chromedp.NewContext(ctx, chromedp.WithListener(b.note))
	ctx, stopClock := context.WithTimeout(ctx, 45*time.Minute)
	t.Cleanup(func() { stopClock(); stopTab(); stopAllocator() })
	b.ctx = ctx
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(link)))
	return b
}

// eval gives what a script says.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	require.NoError(b.t, err, script)
	return v
}

// until waits for a script to be true.
func (b *tab) until(script, what string) {
	b.t.Helper()
	require.Eventually(b.t, func() bool { return eval[bool](b, script) }, 3*time.Minute, 50*time.Millisecond, what)
}

// picture keeps a screenshot where somebody wants to look.
func (b *tab) picture(name string, width, height int64, dark bool) {
	b.t.Helper()
	folder := os.Getenv("PUFFPROOF_SCREENSHOTS")
	if folder == "" {
		return
	}
	b.look(width, height, dark)
	shot, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(filepath.Join(folder, name+".png"), shot, 0o644))
}

const judged = `document.querySelector(".finding")?.dataset.stage == "full"`

// serve serves copies of example designs; their folder and the link.
func serve(t *testing.T, designs ...string) (folder, link string) {
	t.Helper()
	folder = t.TempDir()
	var names []string
	for _, d := range designs {
		data, err := os.ReadFile("../../../../testdata/designs/" + d + ".toml")
		require.NoError(t, err)
		name := filepath.Join(folder, d+".toml")
		require.NoError(t, os.WriteFile(name, data, 0o644))
		names = append(names, name)
	}
	return folder, begin(t, names...)
}

// begin serves files until the test ends; the link.
func begin(t *testing.T, names ...string) string {
	t.Helper()
	return beginIn(t, t.Context(), names...)
}
