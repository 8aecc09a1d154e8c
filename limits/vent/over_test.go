package vent

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
)

// An emptying that is stopped under way is no emptying that failed its checks: the error
// is the context's.
func TestAStoppedEmptyingEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(sample.Weakly())
	cancel()
	_, err := Compute(ctx, Input{Launcher: sample.Plain()}, SlowEndOnly)
	assert.ErrorIs(t, err, context.Canceled)
}
