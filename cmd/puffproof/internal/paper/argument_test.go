package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
)

// The list of claims has every question and item, and says of each that is open that it is undeveloped; the figures are beside it.
func TestTheArgumentIsListed(t *testing.T) {
	list := func(in Input) (words string) {
		for _, b := range built(t, in).Blocks {
			if table, ok := b.(document.Table); ok && strings.HasPrefix(table.Caption, "The same as a list") {
				for _, row := range table.Rows {
					for _, cell := range row {
						words += cell.String() + " "
					}
				}
			}
		}
		require.NotEmpty(t, words)
		return words
	}
	in := invented(t, nil)
	words := list(in)
	for _, want := range []string{"◊ undeveloped: procedure confirm.shots", "verdict energy.total: Energy of the projectile, worst case: " +
		"0.21 J of 0.50 J",
		"procedure seal-guard: Inspect the guard (2026-05-01", "No more than that was shown"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "FAILS")
	assert.Contains(t, list(failing(in)), "FAILS: verdict energy.total")
	figureOf(t, in, "The argument in one view")
	figureOf(t, in, "The argument in full, 1 of")
}
