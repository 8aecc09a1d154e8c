package document

import (
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the fonts of a PDF do not have is said in words, not in codes.
func TestMissingLettersAreTold(t *testing.T) {
	set, err := newTypesetter(fpdf.New("P", "mm", "A4", ""))
	require.NoError(t, err)
	for text, want := range map[string]string{
		"plain ± 3 %":   "plain ± 3 %",
		"a 🐋 b":         "a (1 character not in the font) b",
		"日本語":           "(3 characters not in the font)",
		"日本 語 and more": "(3 characters not in the font) and more",
		"end 日 ":        "end (1 character not in the font) ",
	} {
		assert.Equal(t, want, set.shown(text))
	}
	assert.Contains(t, set.shown("\u05e9\u05dc\u05d5\u05dd \u65e5\u672c"), "(2 characters not in the font)",
		"words of ours are not turned round")
}
