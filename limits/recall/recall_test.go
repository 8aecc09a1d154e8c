package recall_test

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/recall"
)

// part is of the kinds that a launcher is made of.
type part struct {
	name   string
	share  float64
	inside *part
	all    []part
	any    any
}

// The same input is computed once, whatever holds it; any other, and all of it without a memory, anew.
func TestTheSameIsComputedOnce(t *testing.T) {
	ctx, n := recall.With(context.Background(), recall.New()), 0
	ask := func(ctx context.Context, of ...any) int {
		got, err := recall.Once(ctx, func() recall.Key { return of }, func() (int, error) { n++; return n, nil })
		require.NoError(t, err)
		return got
	}
	like := func() *part { return &part{"a", 1, &part{name: "b"}, []part{{share: 2}}, uint8(3)} }
	first := ask(ctx, "x", like())
	assert.Equal(t, first, ask(ctx, "x", like()))
	seen := map[int]bool{first: true}
	for _, change := range []func(p *part){
		func(p *part) { p.name = "c" }, func(p *part) { p.share = 1 + 1e-15 }, func(p *part) { p.inside.name = "" },
		func(p *part) { p.inside = nil },
		func(p *part) { p.all[0].share = 3 }, func(p *part) { p.all = append(p.all, part{}) }, func(p *part) { p.all = nil },
		func(p *part) { p.any = uint16(3) }, func(p *part) { p.any = nil },
	} {
		p := like()
		change(p)
		seen[ask(ctx, "x", p)] = true
	}
	seen[ask(ctx, "y", like())] = true
	seen[ask(ctx, "xa", "b")], seen[ask(ctx, "x", "ab")] = true, true
	assert.Len(t, seen, 13, "each is another input")
	without := context.Background()
	assert.NotEqual(t, ask(without, "x", like()), ask(without, "x", like()))
	shots := recall.With(context.Background(), recall.Shots())
	assert.NotEqual(t, ask(shots, "x", like()), ask(shots, "x", like()), "what knows shots alone knows nothing that is put together of them")
	assert.Panics(t, func() { ask(ctx, func() {}) }, "two functions cannot be told to be the same")
}

// What failed, or was stopped, is computed again.
func TestNothingHalfDoneIsKept(t *testing.T) {
	ctx, stop := context.WithCancel(recall.With(context.Background(), recall.New()))
	n := 0
	ask := func(ctx context.Context, err error) {
		_, _ = recall.Once(ctx, func() recall.Key { return recall.Key{"x"} }, func() (int, error) { n++; return n, err })
	}
	ask(ctx, errors.New("withheld"))
	ended, end := context.WithCancel(ctx)
	end()
	ask(ended, nil)
	ask(ctx, nil)
	assert.Equal(t, 3, n)
	ask(ctx, nil)
	assert.Equal(t, 3, n)
	stop()
}
