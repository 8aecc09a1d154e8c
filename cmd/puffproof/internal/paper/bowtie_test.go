package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/fault"
)

// Each top event has a page of its own with its faults, the state of their items, and the harm; one without a fault has none.
func TestBowtiesStandOnPagesOfTheirOwn(t *testing.T) {
	in := invented(t, nil)
	in.Faults.Faults[0].Effect = fault.FiresUnasked
	f := figureOf(t, in, "Top event: It fires")
	for _, want := range []string{"fire stuck open while armed: 0.15 J judged", "seen: the sound", "OPEN: ", "a lost eye",
		"before lasting, possible, now lasting, possible"} {
		assert.Contains(t, f.Alt, want)
	}
	assert.Contains(t, figureOf(t, in, "Top event: The pressure goes above").Alt, "relief stuck shut: UNKNOWN")
	pages := 0
	for _, b := range built(t, in).Blocks {
		if h, ok := b.(document.Heading); ok && h.Level == 3 && h.Break {
			pages++
		}
	}
	assert.Equal(t, 2, pages, "the others have no fault")
}
