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
		slider.step = "0.1";
		const middle = Number(slider.value);
		const shot = [], look = [];
		// Told once all parts of an event are in their places; a timer would add its own 4 ms.
		const wait = (is) => new Promise(done => {
			const seen = () => { if (!is()) return false; done(performance.now()); return true; };
			const observer = new MutationObserver(() => { if (seen()) observer.disconnect(); });
			if (!seen()) observer.observe(document.getElementById("finding"),
				{subtree: true, childList: true, attributes: true, characterData: true});
		});
		for (let i = 0; i < 200; i++) {
			const was = document.querySelector(".finding").dataset.generation;
			slider.value = middle + (i % 2 ? -1 : 1) * (i + 1) / 10; // a value that was never there: nothing of it is known
			const began = performance.now();
			slider.dispatchEvent(new Event("input", {bubbles: true}));
			const f = () => document.querySelector(".finding").dataset;
			shot.push(await wait(() => f().generation != was && f().stage != "asking") - began);
			look.push(await wait(() => f().stage == "first" || f().stage == "full") - began);
		}
		const of = (a) => { a.sort((x, y) => x - y); return "median " + a[100].toFixed(0) + " ms, nine of ten within " +
			a[180].toFixed(0) + " ms, worst " + a[199].toFixed(0) + " ms"; };
		window.latency = "nominal figures and plots: " + of(shot) + "; first look: " + of(look);
	})(), 0`)
	b.until(`window.latency !== undefined`, "200 moves")
	t.Log(fmt.Sprint(eval[string](b, "window.latency")))
}
