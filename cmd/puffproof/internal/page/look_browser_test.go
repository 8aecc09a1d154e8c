//go:build browser

package page

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// look sets the window and the scheme of colours.
func (b *tab) look(width, height int64, dark bool) {
	b.t.Helper()
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.EmulateViewport(width, height)))
	require.NoError(b.t, chromedp.Do(b.ctx, func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return chromedp.Void{}, err
	}))
}

// Pictures of the page at three widths and in both schemes, to be looked at (PUFFPROOF_SCREENSHOTS names their folder): as it comes,
// and with a part, a step of the road, a play and the wiring open. Nothing may stick out of the window (WCAG 2.2, 1.4.10).
func TestBrowserPictures(t *testing.T) {
	for _, design := range []string{"whale", "careless", "soapbox"} {
		_, link := serveLightly(t, design)
		b := browse(t, link)
		b.until(judged, "the whole judgement")
		b.until(`!document.querySelector("#ladder").textContent.includes("are looked for")`, "the set pressures")
		for _, opened := range []string{"", "-open"} {
			if opened != "" {
				eval[int](b, `document.querySelector(".place").dispatchEvent(new MouseEvent("click", {bubbles: true})), 0`)
				eval[int](b, `["#road .phase", "#road .step", "#play-shot", ".verdict details"].forEach(s => document.querySelector(s).open = true), 0`)
				eval[int](b, `document.querySelectorAll(".wiring").forEach(d => d.open = true), 0`)
				eval[int](b, `(e => { e.value = 40; e.dispatchEvent(new Event("input", {bubbles: true})); })(
					document.querySelector("#play-shot [data-moment]")), 0`)
				// The plots of the shot show the moment too: at each a line between the axis and the muzzle, none in the others.
				assert.Equal(t, "pressure speed", eval[string](b, `[...document.querySelectorAll(".now.seen")].filter(line => {
					const at = parseFloat(line.style.insetInlineStart) / 100;
					return at > Number(line.dataset.from) && at <= Number(line.dataset.to) && line.getBoundingClientRect().height > 50;
				}).map(line => line.closest(".plot").id.replace("plot-", "")).join(" ")`), design)
			}
			for _, width := range []int64{320, 1280, 3840} {
				for _, dark := range []bool{false, true} {
					b.look(width, 900, dark)
					assert.False(t, eval[bool](b, `document.documentElement.scrollWidth > document.documentElement.clientWidth`),
						"%s%s scrolls sideways at %d", design, opened, width)
					name := fmt.Sprintf("%s%s-%d", design, opened, width)
					if dark {
						name += "-dark"
					}
					b.picture(name, width, 900, dark)
				}
			}
		}
		b.clean()
	}
}
