package worst

import (
	"errors"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/search"
)

// Every task is done once on any number of cores; the first error in the order of
// the tasks is given, and a panic reaches the caller.
func TestSideBySideOnAllCores(t *testing.T) {
	first, second := errors.New("first"), errors.New("second")
	var done [20]atomic.Int64
	err := SideBySide(len(done), func(i int) error {
		done[i].Add(1)
		return map[int]error{3: first, 7: second}[i]
	})
	assert.Same(t, first, err)
	for i := range done {
		assert.EqualValues(t, 1, done[i].Load(), "task %d", i)
	}
	assert.NoError(t, SideBySide(0, nil))
	defer func() {
		r, ok := recover().(search.Raised)
		assert.True(t, ok)
		assert.Equal(t, "out of order", r.String())
		assert.Contains(t, string(r.Stack), "sidebyside_test.go")
	}()
	_ = SideBySide(4, func(int) error { panic("out of order") })
}
