package selfcheck

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every published value comes out, in time for a user who waits: 3 s is the
// project's own bound (no source), tripled for a busy machine.
func TestEveryCheckAgrees(t *testing.T) {
	start := time.Now()
	rows, err := Run(context.Background())
	require.NoError(t, err)
	t.Logf("%d checks in %v", len(rows), time.Since(start))
	assert.Less(t, time.Since(start), 9*time.Second)
	for _, r := range rows {
		t.Logf("%-8s %s: expected %.12g, found %.12g, difference %.2g of %.2g", r.Status, r.What, r.Expected, r.Found, r.Difference,
			r.Tolerance)
		assert.Equal(t, Agrees, r.Status, "%s: expected %.12g, found %.12g, tolerance %g", r.What, r.Expected, r.Found, r.Tolerance)
		assert.NotEmpty(t, r.Source, r.What)
		assert.NotEmpty(t, r.Reason, r.What)
		assert.Positive(t, r.Tolerance, r.What)
	}
	assert.Zero(t, Failures(rows))
}

// A check can fail: a wrong figure, no figure, and a crash all differ.
func TestACheckCanFail(t *testing.T) {
	ok := check{expected: 1, tolerance: 0.1, found: func() float64 { return 1.05 }}
	assert.Equal(t, Agrees, ok.row("").Status)
	for name, found := range map[string]func() float64{
		"high": func() float64 { return 1.2 }, "low": func() float64 { return 0.8 }, "none": math.NaN,
		"crash": func() float64 { panic("no") },
	} {
		bad := ok
		bad.found = found
		r := bad.row("")
		assert.Equal(t, Differs, r.Status, name)
		assert.Equal(t, 1, Failures([]Row{r, ok.row("")}), name)
	}
}

func TestRunStopsWhenAsked(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Run(ctx)
	assert.ErrorIs(t, err, context.Canceled)
}

// The measured points built into the program are those of the files.
func TestMeasuredPointsAreThoseOfTheFiles(t *testing.T) {
	assert.Equal(t, points(t, "reference/air-tank-discharge.csv", "p_bar_abs"), tankPressures())
	assert.Equal(t, points(t, "reference/vacuum-cannon.csv", ""), cannonShots())
}

// points reads the last two columns of a file; kind picks rows by their first.
func points(t *testing.T, name, kind string) (out []point) {
	f, err := os.Open("../../../../testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		if kind != "" && row[0] != kind {
			continue
		}
		at, err := strconv.ParseFloat(row[len(row)-2], 64)
		require.NoError(t, err)
		value, err := strconv.ParseFloat(row[len(row)-1], 64)
		require.NoError(t, err)
		out = append(out, point{at, value})
	}
	return out
}
