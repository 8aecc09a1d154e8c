package limits

import (
	"context"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/setpoint"
)

// Titles fit their column, and no sentence has an exponent.
func TestProseOfEveryVerdict(t *testing.T) {
	whale, err := whaleCheck()
	require.NoError(t, err)
	for _, r := range []Report{check(t, sample.Plain()), whale} {
		for _, v := range r.Verdicts {
			assert.LessOrEqual(t, len([]rune(v.Title)), 38, v.Title)
			for _, text := range []string{v.Why.String(), v.Advice.String(), v.Caveat.String()} {
				assert.NotRegexp(t, `[0-9]e[+-][0-9]`, text)
			}
			if v.Status == finding.Unknown || v.Status == finding.NotApplicable {
				assert.Nil(t, v.Value, v.ID)
				assert.Nil(t, v.Limit, v.ID)
				assert.Nil(t, v.Margin, v.ID)
			}
			if v.Status == finding.Fail {
				assert.NotEmpty(t, v.Advice.String(), v.ID)
				assert.LessOrEqual(t, *v.Margin, 0.0, v.ID)
			}
		}
	}
}

// The whole check is the same, figure by figure, on one core and on three.
func TestCheckIsDeterministic(t *testing.T) {
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	run := func() Report {
		r, err := Check(anew(t), sample.Rocket(), assessment.Options{})
		require.NoError(t, err)
		return r
	}
	one := run()
	runtime.GOMAXPROCS(3)
	three := run()
	assert.Equal(t, one, three)
}

// Faults and set pressures do not depend on the number of cores, to the last bit.
func TestSameResultOnAllCores(t *testing.T) {
	l := sample.VentedTank()
	run := func(cores int) (f *fault.Report, s setpoint.Answer) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		f, err := Faults(anew(t), l, "", fault.LatentPairs)
		require.NoError(t, err)
		if !testing.Short() { // under the race detector the faults, which use the same means, are enough
			s, err = setpoint.Find(anew(t), l, setpoint.Options{})
			require.NoError(t, err)
		}
		return f, s
	}
	oneFaults, one := run(1)
	manyFaults, many := run(4)
	assert.Empty(t, cmp.Diff(oneFaults, manyFaults, cmpopts.EquateNaNs()))
	assert.Empty(t, cmp.Diff(one, many, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(launcher.Band{})))
}

// anew is a context of a glance below which every shot is computed: a worker that leaves something of one in the next is seen.
func anew(t *testing.T) context.Context { return search.WithStrength(t.Context(), 0.004) }

func BenchmarkCheck(b *testing.B) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "rocket": sample.Rocket()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Check(context.Background(), l, assessment.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
