package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A count in words is a count wherever it is read: of readings, of what came back, and before a unit.
func TestNumbersInWords(t *testing.T) {
	for word, want := range map[string]int{"one": 1, "eleven": 11, "twelve": 12, "fifteen": 15, "sixty": 60} {
		n, is := InWords(word)
		assert.True(t, is, word)
		assert.Equal(t, want, n)
	}
	for _, word := range []string{"zero", "", "7", "ones"} {
		_, is := InWords(word)
		assert.False(t, is, word)
	}
	assert.True(t, counts(spoken("fifteen times, 0.36 bar"), 10))
	assert.False(t, counts(spoken("nine times, 0.36 bar"), 10))
	assert.True(t, shortOf(spoken("fifteen of twenty came back")))
	assert.False(t, shortOf(spoken("twenty of twenty came back")))
}
