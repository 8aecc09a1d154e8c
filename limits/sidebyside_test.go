package limits

import (
	"context"
	"errors"
	"runtime"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every task is done once on any number of cores; the first error in the order of
// the tasks is given, and a panic reaches the caller.
func TestSideBySideOnAllCores(t *testing.T) {
	first, second := errors.New("first"), errors.New("second")
	var done [20]atomic.Int64
	err := sideBySide(len(done), func(i int) error {
		done[i].Add(1)
		return map[int]error{3: first, 7: second}[i]
	})
	assert.Same(t, first, err)
	for i := range done {
		assert.EqualValues(t, 1, done[i].Load(), "task %d", i)
	}
	assert.NoError(t, sideBySide(0, nil))
	assert.PanicsWithValue(t, "out of order", func() { _ = sideBySide(4, func(int) error { panic("out of order") }) })
}

// Faults and set pressures do not depend on the number of cores, to the last bit.
func TestSameResultOnAllCores(t *testing.T) {
	l := ventedTank()
	run := func(cores int) (f *FaultReport, s Setpoint) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		f, err := Faults(context.Background(), l, FaultOptions{})
		require.NoError(t, err)
		if !testing.Short() { // under the race detector the faults, which use the same means, are enough
			s = setpoint(t, l)
		}
		return f, s
	}
	oneFaults, one := run(1)
	manyFaults, many := run(4)
	assert.Empty(t, cmp.Diff(oneFaults, manyFaults, cmpopts.EquateNaNs()))
	assert.Empty(t, cmp.Diff(one, many, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(Band{})))
}
