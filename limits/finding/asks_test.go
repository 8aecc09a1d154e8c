package finding

import (
	"math"
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

// What closes an item is printed with its figure beside its sentence: the openings of a guard as well as that air gets past it.
func TestWhatIsWrittenHasItsFigure(t *testing.T) {
	it := Item{ID: ItemSealGuard, Figure: FigureBetween(InSquareMetre, 58.4e-6, math.Inf(1))}
	assert.Equal(t, `what was read, 59 mm2 or more, and "air gets past"`, it.Write().String())
	it.Figure = nil
	assert.Equal(t, `"air gets past"`, it.Write().String())
	it.Figure = FigureBetween(InAmpere, 0.1, 30) // its parts tell which
	assert.Equal(t, `what was read, and "air gets past"`, it.Write().String())
}
