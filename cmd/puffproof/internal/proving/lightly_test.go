package proving

import (
	"context"
	"os"
	"testing"

	"puffproof/limits/recall"
	"puffproof/limits/search"
)

var computed = recall.New()

// lightly is for words, files and statuses: searches make a share of their effort, and what was computed for one test is there for
// the next; with PUFFPROOF_MORE=1 each computes its own.
func lightly(t testing.TB, share float64) context.Context {
	ctx := search.WithStrength(t.Context(), share)
	if os.Getenv("PUFFPROOF_MORE") != "" {
		return ctx
	}
	return recall.With(ctx, computed)
}
