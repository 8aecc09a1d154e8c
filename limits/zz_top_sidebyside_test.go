package limits

import (
	"context"
	"puffproof/limits/fault"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/setpoint"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Faults and set pressures do not depend on the number of cores, to the last bit.
func TestSameResultOnAllCores(t *testing.T) {
	l := sample.VentedTank()
	run := func(cores int) (f *fault.Report, s setpoint.Answer) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		f, err := Faults(context.Background(), l, FaultOptions{})
		require.NoError(t, err)
		if !testing.Short() { // under the race detector the faults, which use the same means, are enough
			s = settingOf(t, l)
		}
		return f, s
	}
	oneFaults, one := run(1)
	manyFaults, many := run(4)
	assert.Empty(t, cmp.Diff(oneFaults, manyFaults, cmpopts.EquateNaNs()))
	assert.Empty(t, cmp.Diff(one, many, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(launcher.Band{})))
}
