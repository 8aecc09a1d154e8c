package design

import (
	"context"

	"puffproof/limits/recall"
	"puffproof/limits/search"
)

// shots are those that tests of this package computed: designs that differ in one key have most of them in common.
var shots = recall.Shots()

// lightly gives a context below which searches make a share of their effort, and no shot is computed twice.
func lightly(ctx context.Context, share float64) context.Context {
	return search.WithStrength(recall.With(ctx, shots), share)
}
