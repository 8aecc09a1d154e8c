//go:build browser

package page

import (
	"fmt"
	"os"
	"testing"
)

// How long a moved slider takes to change the page, by the browser's own clock: from the input event to the changed figures of the
// nominal shot, and to the changed finding. It measures and asserts nothing.
//
//	PUFFPROOF_LONG=1 go test -tags browser ./cmd/puffproof/internal/page -run BrowserLatency -v
func TestBrowserLatency(t *testing.T) {
	if os.Getenv("PUFFPROOF_LONG") == "" {
		t.Log("not run: PUFFPROOF_LONG is not set")
		return
	}
	_, link := serve(t, "whale")
	b := browse(t, link)
	b.until(judged, "the whole judgement")
	eval[int](b, `(async () => {
		const slider = [...document.querySelectorAll("[data-slides]")].find(s => s.getAttribute("aria-label") == "dead_volume, slider");
		slider.focus();
		const shot = [], look = [];
		const wait = (is) => new Promise(done => { const go = () => is() ? done(performance.now()) : setTimeout(go, 1); go(); });
		for (let i = 0; i < 200; i++) {
			const was = document.querySelector(".finding").dataset.generation;
			slider.value = Number(slider.value) + (i % 2 ? -2 : 2);
			const began = performance.now();
			slider.dispatchEvent(new Event("input", {bubbles: true}));
			const f = () => document.querySelector(".finding").dataset;
			shot.push(await wait(() => f().generation != was && f().stage != "asking") - began);
			look.push(await wait(() => f().stage == "first" || f().stage == "full") - began);
		}
		const of = (a) => { a.sort((x, y) => x - y); return "median " + a[100].toFixed(0) + " ms, worst " + a[199].toFixed(0) + " ms"; };
		window.latency = "nominal figures and plots: " + of(shot) + "; first look: " + of(look);
	})(), 0`)
	b.until(`window.latency !== undefined`, "200 moves")
	t.Log(fmt.Sprint(eval[string](b, "window.latency")))
}
