// Package trial is for tests of words, files and statuses, which do not depend on how hard the searches look: they make a share of
// their effort, and what was computed for one test of a package is there for the next. The program itself does not know it.
//
// .ci/run finds by its calls the packages whose tests to run with PUFFPROOF_MORE=1, each computing its own.
package trial

import (
	"context"
	"os"

	"puffproof/limits/recall"
	"puffproof/limits/search"
)

var computed, shots = recall.New(), recall.Shots()

// More tells that PUFFPROOF_MORE asks for more than a sample: each test computes its own then, out of shots that any of them asked for.
func More() bool { return os.Getenv("PUFFPROOF_MORE") != "" }

// Lightly gives a context below which searches make a share of their effort, 1 all of it, and what was computed before is recalled.
func Lightly(ctx context.Context, share float64) context.Context {
	return search.WithStrength(Recalling(ctx), share)
}

// Recalling gives a context below which what was computed before is recalled.
func Recalling(ctx context.Context) context.Context {
	if More() {
		return recall.With(ctx, shots)
	}
	return recall.With(ctx, computed)
}
