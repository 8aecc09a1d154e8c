package explain

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/verdict"
)

// Every verdict of the table is explained, once, and nothing else is.
func TestEveryVerdictIsExplained(t *testing.T) {
	written := map[string]int{}
	for _, x := range texts() {
		written[x.id]++
	}
	for _, q := range verdict.Table() {
		assert.Equal(t, 1, written[q.ID], "texts of %s", q.ID)
		delete(written, q.ID)
		e, ok := Of(q.ID)
		if !assert.True(t, ok, q.ID) {
			continue
		}
		assert.Equal(t, q.Title, e.Title)
		for _, said := range []string{e.Asks.String(), e.Way.String(), e.Not.String()} {
			assert.Regexp(t, `^[A-Z].*[.?]$`, said, q.ID)
			assert.NotContains(t, said, "%!", q.ID)
		}
		assert.NotEmpty(t, e.Moves, q.ID)
		assert.True(t, len(e.Marks) > 0 || e.Source != "", "%s has no source", q.ID)
	}
	assert.Empty(t, written, "texts of no verdict")
	_, ok := Of("energy")
	assert.False(t, ok)
}
