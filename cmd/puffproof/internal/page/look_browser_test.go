//go:build browser

package page

import (
	"context"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
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

// Pictures of the page at three widths and in both schemes, to be looked at (PUFFPROOF_SCREENSHOTS names their folder).
func TestBrowserPictures(t *testing.T) {
	for _, design := range []string{"whale", "careless"} {
		_, link := serve(t, design)
		b := browse(t, link)
		b.until(judged, "the whole judgement")
		for name, width := range map[string]int64{"320": 320, "1280": 1280, "3840": 3840} {
			b.picture(design+"-"+name, width, 900, false)
			b.picture(design+"-"+name+"-dark", width, 900, true)
		}
		require.Empty(t, b.console[:min(len(b.console), 3)])
	}
}
