//go:build browser

package page

import (
	"encoding/json"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/trial"
)

// words is the text of the first element that a selector finds.
func (b *tab) words(selector string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf(`document.querySelector(%q)?.textContent ?? ""`, selector))
}

// press presses keys where the focus is.
func (b *tab) press(keys string) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.KeyEvent(keys)))
}

// click presses what a script finds.
func (b *tab) click(find string) {
	b.t.Helper()
	b.until(find+" != null && !"+find+".disabled", "there is no "+find)
	eval[int](b, find+".click(), 0")
}

// field is the script that finds the field of a key.
func field(key string) string {
	return fmt.Sprintf("document.querySelector('.tables [data-field=%q]')", key)
}

// A user's way through the page with the keyboard: a part is chosen in the drawing, its slider moved; the finding, the plots and the
// figures follow; it is undone; a value is spoiled, shown at its field and mended; saved, and the file has that one change.
func TestBrowserTurnsAFigureByKeyboard(t *testing.T) {
	folder, link := serveLightly(t, "whale")
	b := browse(t, link)
	b.until(judged, "the whole judgement")
	first := b.words(".finding .words")
	eval[int](b, `document.querySelector(".place[aria-label^='dose']").focus(), 0`)
	b.press(kb.Enter)
	b.until(`document.activeElement.dataset.slot && document.activeElement.closest("details").open`, "the part's figures open")
	assert.Equal(t, "volumes.dose", eval[string](b, `document.activeElement.getAttribute("aria-label")`))
	for range 40 { // on with the tabulator to the slider of the volume
		if eval[string](b, `document.activeElement.dataset.slides ? document.activeElement.getAttribute("aria-label") : ""`) == "volume, slider" {
			break
		}
		b.press(kb.Tab)
	}
	require.Equal(t, "volume, slider", eval[string](b, `document.activeElement.getAttribute("aria-label") ?? ""`))
	plot := eval[string](b, `document.querySelector("#plot-energy svg").outerHTML`)
	hard := b.words(".hard tbody tr td")
	b.press(kb.PageUp)
	b.press(kb.ArrowRight)
	b.until(field("volumes.dose.volume")+`.value != "1.0 L ± 3 %, measured"`, "the field follows the slider")
	value := eval[string](b, field("volumes.dose.volume")+".value")
	assert.True(t, strings.HasSuffix(value, " L ± 3 %, measured"), "the tolerance and the origin stay: %s", value)
	b.until(`document.querySelector("#plot-energy svg").outerHTML != `+quoted(plot), "the plot follows")
	b.until(`document.querySelector(".hard tbody tr td").textContent != `+quoted(hard), "the speed follows")
	b.until(`document.querySelector(".differs summary").textContent.includes("1 figure differs")`, "one figure differs")
	b.until(judged, "judged anew")
	assert.Equal(t, "volume, slider", eval[string](b, `document.activeElement.getAttribute("aria-label") ?? ""`), "the focus stays")
	b.click(`document.querySelector("[data-do=undo]")`)
	b.until(field("volumes.dose.volume")+`.value == "1.0 L ± 3 %, measured"`, "undone")

	enter := func(key, text string) {
		eval[int](b, fmt.Sprintf(`(e => { for (let d = e.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
			e.focus(); e.select(); })(%s), 0`, field(key)))
		require.NoError(t, chromedp.Do(b.ctx, chromedp.KeyEvent(text)))
		b.press(kb.Enter)
	}
	enter("projectile.mass", "4 mm")
	b.until(`document.querySelector(".finding .words").textContent.startsWith("Not judged")`, "not judged with a mistake")
	b.until(field("projectile.mass")+`.getAttribute("aria-invalid") == "true"`, "the field says so")
	assert.Contains(t, eval[string](b, field("projectile.mass")+`.closest(".field").querySelector(".about").textContent`),
		"this is a length", "as the reader words it")
	assert.True(t, eval[bool](b, `document.querySelector("[data-do=save]").disabled`))
	b.picture("mistake", 1280, 900, false)
	enter("projectile.mass", "4.2 g ± 0.4 g, measured")
	b.until(judged, "judged again")
	b.click(`document.querySelector("[data-do=save]")`)
	b.until(`document.querySelector("#actions .state").textContent.includes("Saved")`, "saved")
	was, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	is, err := os.ReadFile(filepath.Join(folder, "whale.toml"))
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(string(was), "4.0 g ± 0.4 g, measured", "4.2 g ± 0.4 g, measured", 1), string(is))
	assert.NotEmpty(t, first)
	b.clean()
}

// serveLightly serves an example design with searches at a fiftieth of their effort.
func serveLightly(t *testing.T, design string) (folder, link string) {
	t.Helper()
	folder = t.TempDir()
	data, err := os.ReadFile("../../../../testdata/designs/" + design + ".toml")
	require.NoError(t, err)
	name := filepath.Join(folder, design+".toml")
	require.NoError(t, os.WriteFile(name, data, 0o644))
	return folder, beginIn(t, trial.Lightly(t.Context(), 0.02), name)
}

func quoted(s string) string {
	data, _ := json.Marshal(s)
	return string(data)
}

// clean expects that the browser complained about nothing and asked nobody but the program.
func (b *tab) clean() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, line := range b.console[:min(3, len(b.console))] {
		assert.Fail(b.t, "the browser complains", line)
	}
	for _, u := range b.fetched {
		assert.True(b.t, strings.HasPrefix(u, "http://127.0.0.1:") || strings.HasPrefix(u, "data:"), u)
	}
}

// Advice that was tried is applied by its button, mends what it says, and is undone.
func TestBrowserAppliesAdvice(t *testing.T) {
	_, link := serveLightly(t, "careless")
	b := browse(t, link)
	b.until(judged, "the whole judgement")
	before := eval[int](b, `document.querySelectorAll(".verdict.bad").length`)
	b.click(`document.querySelector(".causes > li:nth-child(2) [data-do=apply]")`)
	b.until(`document.querySelector(".differs summary").textContent.includes("differ")`+" && !document.querySelector('.differs').hidden",
		"applied to the draft")
	b.until(judged, "judged with it")
	assert.Less(t, eval[int](b, `document.querySelectorAll(".verdict.bad").length`), before)
	b.click(`document.querySelector("[data-do=undo]")`)
	b.until(judged+` && document.querySelectorAll(".verdict.bad").length == `+fmt.Sprint(before), "undone")
	b.clean()
}

// A second page sees what the first one does.
func TestBrowserTwoPagesSeeEachOther(t *testing.T) {
	_, link := serveLightly(t, "rocket")
	a, b := browse(t, link), browse(t, link)
	a.until(judged, "judged")
	b.until(judged, "there too")
	eval[int](a, `(e => { e.value = "Renamed"; e.dispatchEvent(new Event("change", {bubbles: true})); })(`+field("name")+`), 0`)
	b.until(`document.querySelector(".finding .title").textContent.includes("Renamed")`, "the second page follows")
	b.until(field("name")+`.value == "Renamed"`, "its field too")
	a.clean()
	b.clean()
}

// The real program is killed: the page says so and keeps what stands on it; a new run has a new link.
func TestBrowserSaysThatTheProgramIsGone(t *testing.T) {
	binary := filepath.Join(t.TempDir(), "puffproof")
	out, err := exec.CommandContext(t.Context(), "go", "build", "-o", binary, "puffproof/cmd/puffproof").CombinedOutput()
	require.NoError(t, err, string(out))
	name := filepath.Join(t.TempDir(), "launcher.toml")
	require.NoError(t, os.WriteFile(name, least(t), 0o644))
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := l.Addr().String()
	require.NoError(t, l.Close())
	start := func() (*exec.Cmd, string) {
		program := exec.CommandContext(t.Context(), binary, "page", name, "--no-browser", "--listen", address)
		pipe, err := program.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, program.Start())
		line := make([]byte, 200)
		n, err := pipe.Read(line)
		require.NoError(t, err)
		return program, strings.TrimSpace(string(line[:n]))
	}
	program, link := start()
	require.True(t, strings.HasPrefix(link, "http://"+address+"/?key="), link)
	b := browse(t, link)
	b.until(judged, "judged")
	eval[int](b, `(e => { e.value = "Not lost"; e.dispatchEvent(new Event("change", {bubbles: true})); })(`+field("name")+`), 0`)
	b.until(`document.querySelector(".finding .title").textContent.includes("Not lost") &&
		document.querySelectorAll(".differs tbody tr").length == 1`, "edited")
	require.NoError(t, program.Process.Kill())
	_ = program.Wait()
	b.until(`!document.getElementById("lost").hidden`, "the page says that the program is gone")
	assert.Contains(t, b.words("#lost"), "1")
	assert.Contains(t, b.words(".finding .title"), "Not lost", "what stands on the page stays")
	b.picture("gone", 1280, 900, false)
	program, link = start()
	again := browse(t, link)
	again.until(judged, "a new run serves the file")
	require.NoError(t, program.Process.Signal(os.Interrupt))
	ended := make(chan error, 1)
	go func() { ended <- program.Wait() }()
	select {
	case err := <-ended:
		require.NoError(t, err, "an interrupt ends it as it should")
	case <-time.After(5 * time.Second):
		t.Fatal("an interrupt does not end it")
	}
}

// axe-core finds nothing to say against the page, with figures open, with mistakes and with failures, in both schemes (WCAG 2.2).
func TestBrowserPassesTheAccessibilityRules(t *testing.T) {
	path := os.Getenv("PUFFPROOF_AXE")
	if path == "" {
		t.Fatal("not run: axe-core (.ci/browser gets it; PUFFPROOF_AXE names its axe.min.js)")
	}
	rules, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, design := range []string{"whale", "careless", "soapbox"} {
		_, link := serveLightly(t, design)
		b := browse(t, link)
		b.until(judged, "judged")
		b.until(`document.querySelector("#budget table") != null || document.querySelectorAll(".verdict.bad").length > 0`, "weighed")
		eval[int](b, `document.querySelectorAll("details").forEach(d => { d.removeAttribute("name"); d.open = true; }), 0`)
		eval[int](b, string(rules)+"\n;0")
		for _, width := range []int64{320, 1280} {
			for _, dark := range []bool{false, true} {
				b.look(width, 900, dark)
				text, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](
					`axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.help + " " +
						v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + n.failureSummary).join(" | "))))`, chromedp.EvalAwaitPromise))
				require.NoError(t, err)
				var faults []string
				require.NoError(t, json.Unmarshal([]byte(text), &faults))
				for _, f := range faults {
					assert.Fail(t, fmt.Sprintf("%s at %d, dark %v", design, width, dark), f)
				}
				wide := eval[bool](b, `document.documentElement.scrollWidth > document.documentElement.clientWidth`)
				assert.False(t, wide, "%s scrolls sideways at %d (WCAG 2.2, 1.4.10)", design, width)
			}
		}
		small := eval[[]string](b, `[...document.querySelectorAll("button, select, input:not([type=hidden]), summary")].filter(e => {
			const r = (e.closest("label") ?? e).getBoundingClientRect();
			return r.width > 0 && Math.max(r.height, e.getBoundingClientRect().height) < 43.5;
		}).map(e => e.outerHTML.slice(0, 120))`)
		assert.Empty(t, small, "targets of less than 44 pixels (WCAG 2.2, 2.5.5)")
	}
}

// A new user's way without the terminal: a design begun from an example is filled in, led from one open field to the next, with the
// figures that the example's own builder has; then it holds on the model, one figure is changed, and what is saved is judged alike by
// `check`.
func TestBrowserFromAnExampleToADesignThatHolds(t *testing.T) {
	name := filepath.Join(t.TempDir(), "launcher.toml")
	out, err := exec.CommandContext(t.Context(), "go", "run", "puffproof/cmd/puffproof", "init", "--from", "whale", name).CombinedOutput()
	require.NoError(t, err, string(out))
	data, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	known, err := edit.Open(data)
	require.NoError(t, err)
	b := browse(t, begin(t, name)) // at the full effort: what holds here must hold for check
	b.until(judged, "judged")
	assert.Contains(t, b.words(".finding .words"), "DOES NOT HOLD")
	assert.NotContains(t, eval[string](b, `document.querySelector(".stretches li").className`), "done", "it is not filled in")
	b.picture("begun", 1280, 900, false)
	b.picture("begun-320", 320, 900, false)
	fields := 0
	for ; !eval[bool](b, `document.querySelector(".todo").hidden`); fields++ {
		require.Less(t, fields, 120, "it comes to an end")
		b.click(`document.querySelector(".todo a")`)
		key := eval[string](b, `document.activeElement.dataset.field ?? ""`)
		value, is := known.Value(key)
		require.True(t, is, "the example has %s", key)
		eval[int](b, fmt.Sprintf(`(e => { e.value = %s; e.dispatchEvent(new Event("change", {bubbles: true})); })(document.activeElement), 0`,
			quoted(strings.Trim(value, `"`))))
		b.until(fmt.Sprintf(`document.querySelector(".todo").hidden || document.querySelector(".todo a").hash != "#" + %s.id`, field(key)), key)
	}
	assert.Greater(t, fields, 60)
	b.until(judged, "judged with figures of its own")
	t.Log(fields, b.words(".finding .words"), b.words(".causes"))
	eval[int](b, `(e => { e.value = "1.05 L ± 3 %, measured"; e.dispatchEvent(new Event("change", {bubbles: true})); })(`+
		field("volumes.dose.volume")+`), 0`)
	b.until(judged+` && document.querySelector(".finding .words").textContent.includes("Holds on the model")`, "it holds")
	b.click(`document.querySelector("[data-do=save]")`)
	b.until(`document.querySelector("#actions .state").textContent.includes("Saved")`, "saved")
	said, err := exec.CommandContext(t.Context(), "go", "run", "puffproof/cmd/puffproof", "check", name).Output()
	assert.Contains(t, string(said), "Holds on the model", "%v", err)
	b.clean()
}
