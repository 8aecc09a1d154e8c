//go:build browser

package page

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// Whatever is pressed, dragged, typed, resized and loaded anew: the browser complains about nothing, nothing leaks, and at the end the
// page says of the saved file what `check --json` says of it. PUFFPROOF_RANDOM is how long, a minute without it; PUFFPROOF_SEED
// repeats what a run did, as far as its timing lets it.
func TestBrowserBearsAnyInput(t *testing.T) {
	long, seed := time.Minute, uint64(time.Now().UnixNano())
	if text := os.Getenv("PUFFPROOF_RANDOM"); text != "" {
		var err error
		long, err = time.ParseDuration(text)
		require.NoError(t, err)
	}
	if text := os.Getenv("PUFFPROOF_SEED"); text != "" {
		_, err := fmt.Sscan(text, &seed)
		require.NoError(t, err)
	}
	t.Logf("PUFFPROOF_SEED=%d", seed)
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	today := time.Now().Format(time.DateOnly) // as the program that it is compared with has it
	link := beginOn(t, t.Context(), today, name)
	b := browse(t, link)
	b.until(judged, "the whole judgement")
	r := rand.New(rand.NewPCG(seed, 1))
	var began holding
	end, warm := time.Now().Add(long), time.Now().Add(long/3)
	for n := 0; time.Now().Before(end); n++ {
		b.act(r, link)
		if began == (holding{}) && time.Now().After(warm) {
			began = b.holds()
		}
		if n%200 == 0 {
			b.until(`document.querySelector(".finding") != null`, "the page stands")
		}
	}
	b.settle(t, link)
	ended := b.holds()
	t.Logf("after a third: %+v; at the end: %+v", began, ended)
	// Two halves of the same work differ by what is kept of the last drafts and undone steps, never by multiples.
	assert.LessOrEqual(t, ended.goroutines, began.goroutines+20, "goroutines that nobody ends")
	assert.LessOrEqual(t, ended.heap, 2*began.heap+64<<20, "memory of the program that nobody gives back [byte]")
	assert.LessOrEqual(t, ended.script, 2*began.script+32<<20, "memory of the page that nobody gives back [byte]")
	b.clean()
	b.saysWhatCheckSays(t, name)
}

// holding is what the program and its page hold.
type holding struct {
	goroutines   int
	heap, script uint64 // [byte]
}

func (b *tab) holds() holding {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, t, heapprofiler.CollectGarbage, cdp.Empty{})
		return chromedp.Void{}, err
	}))
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return holding{runtime.NumGoroutine(), m.HeapAlloc, uint64(eval[float64](b, "performance.memory.usedJSHeapSize"))}
}

// act does one thing that a hand, a keyboard or a window may do. Papers and files to choose are left alone: they open windows of the
// browser.
func (b *tab) act(r *rand.Rand, link string) {
	b.t.Helper()
	one := func(selector, then string) {
		eval[int](b, fmt.Sprintf(`(all => { const e = all[Math.floor(%g * all.length)]; if (e) { %s } return 0; })(
			[...document.querySelectorAll(%q)].filter(e => e.getClientRects().length > 0 && !e.disabled))`, r.Float64(), then, selector))
	}
	switch n := r.IntN(100); {
	case n < 25:
		one("button, summary, .place, input[type=radio], #budget a, .faults a", `e.focus();
			e.dispatchEvent(new MouseEvent("click", {bubbles: true, cancelable: true, view: window}));`)
	case n < 50: // a drag
		for range 1 + r.IntN(6) {
			one("input[type=range]", fmt.Sprintf(`const s = document.activeElement?.type == "range" ? document.activeElement : e; s.focus();
				s.value = Number(s.min) + (s.max - s.min) * %g; s.dispatchEvent(new Event("input", {bubbles: true}));`, r.Float64()))
		}
	case n < 75:
		keys := []string{kb.Tab, kb.Tab, kb.Tab, kb.Enter, " ", kb.ArrowLeft, kb.ArrowRight, kb.PageUp, kb.PageDown, kb.Home, kb.Escape,
			kb.Backspace}
		b.press(keys[r.IntN(len(keys))])
	case n < 83:
		words := []string{"", "?", "1", "2 bar", "12 g ± 0.5 g, measured", "0.5", "true", "\"", "<b onclick=alert(1)>", "1e99 m", "-3 mm", "[]",
			"é"}
		one("input[type=text], select, textarea", fmt.Sprintf(`e.focus(); e.value = %s;
			e.dispatchEvent(new Event("change", {bubbles: true}));`, quoted(words[r.IntN(len(words))])))
	case n < 95: // most goes back, so that the design stays one that is judged
		key := []string{"z", "z", "z", "y", "s"}[r.IntN(5)]
		eval[int](b, fmt.Sprintf(`document.activeElement?.blur?.(), document.body.dispatchEvent(new KeyboardEvent("keydown", {key: %q,
			ctrlKey: true, bubbles: true})), 0`, key))
	case n < 98:
		b.look(int64(320+r.IntN(1600)), int64(300+r.IntN(900)), r.IntN(2) == 0)
	default:
		require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Navigate(link)))
	}
	time.Sleep(time.Duration(r.IntN(30)) * time.Millisecond)
}

// settle goes back to a draft without mistakes, saves it and waits for its judgement.
func (b *tab) settle(t *testing.T, link string) {
	t.Helper()
	defer func() {
		if t.Failed() {
			t.Log(eval[string](b, `[...document.querySelectorAll("#finding, #trouble, #actions")].map(e => e.textContent).join(" | ")`))
		}
	}()
	require.NoError(t, chromedp.Do(b.ctx, chromedp.Navigate(link)))
	b.until(`document.querySelector("#actions button") != null`, "loaded")
	for range 600 {
		if !eval[bool](b, `document.querySelector("#trouble section") != null`) {
			break
		}
		if eval[bool](b, `document.querySelector("[data-choice=mine]") != null`) { // the file was changed elsewhere, by an answer
			b.click(`document.querySelector("[data-choice=mine]")`)
		} else {
			eval[int](b, `document.querySelector("[data-do=undo]").click(), 0`) // of a button that is off by now nothing comes
		}
		time.Sleep(50 * time.Millisecond)
	}
	if eval[bool](b, `!document.querySelector("[data-do=save]").disabled`) {
		b.click(`document.querySelector("[data-do=save]")`)
	}
	b.until(judged+` && document.querySelector("[data-do=save]").disabled`, "saved and judged")
}

// saysWhatCheckSays compares the figures of the page with those of the program's JSON, each written as the page writes it.
func (b *tab) saysWhatCheckSays(t *testing.T, name string) {
	t.Helper()
	program := exec.CommandContext(t.Context(), "go", "run", "puffproof/cmd/puffproof", "check", "--json", name)
	out, err := program.Output() // a design that does not hold ends with another status
	var report struct {
		Holds    bool
		Open     int `json:"open_items"`
		Verdicts []struct {
			ID, Status   string
			Value, Limit *float64
		}
		Energy struct {
			Judged *float64 `json:"judged_J"`
		}
	}
	require.NoError(t, json.Unmarshal(out, &report), "%v", err)
	require.NotEmpty(t, report.Verdicts)
	found := eval[map[string]string](b, `Object.fromEntries([...document.querySelectorAll(".verdict details")].map(d =>
		[d.dataset.id, d.querySelector(".word").textContent]))`)
	assert.Len(t, found, len(report.Verdicts))
	for _, v := range report.Verdicts {
		assert.Equal(t, show.Word(finding.Status(v.Status)), found[v.ID], v.ID)
	}
	var units quantity.System
	judged := b.words(".hard .judged td:nth-child(3)")
	if report.Energy.Judged == nil {
		assert.Contains(t, []string{"", "-"}, judged)
	} else {
		assert.Equal(t, units.Worst(quantity.Energy, *report.Energy.Judged), judged)
	}
	words := b.words(".finding .words")
	assert.Equal(t, report.Holds, strings.HasPrefix(words, "Judged: Holds"), words)
	if report.Holds && report.Open > 0 {
		assert.Contains(t, words, fmt.Sprintf("%d items open", report.Open))
	}
	t.Logf("%d verdicts, judged %s, %s", len(report.Verdicts), judged, words)
}
