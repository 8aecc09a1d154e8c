package assessment

import (
	"context"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/recall"
	"puffproof/limits/search"
)

// An assessment that was made before has every field that it had then; what an answer bears on is made anew, and without a memory all is.
func TestWhatIsRecalledIsWhole(t *testing.T) {
	plain := search.WithStrength(t.Context(), 0.00005)
	ctx := recall.With(plain, recall.New())
	made := func(ctx context.Context, want Stages, day string, answers ...finding.Confirmation) *Assessment {
		l := sample.VentedTank()
		l.Checklist = answers
		a, err := Make(ctx, l, Options{Day: day, Want: want})
		require.NoError(t, err)
		return a
	}
	first, again := made(ctx, 0, "2026-06-01"), made(ctx, 0, "2026-06-01")
	require.NotNil(t, first.Budget)
	one, two := reflect.ValueOf(*first), reflect.ValueOf(*again)
	for i := range one.NumField() {
		if name := one.Type().Field(i).Name; name != "Stuck" && name != "Plugged" { // they hold figures that are no numbers
			assert.True(t, reflect.DeepEqual(one.Field(i).Interface(), two.Field(i).Interface()) || one.Field(i).Kind() == reflect.Float64, name)
		}
	}
	assert.Same(t, first.Faults, again.Faults)
	assert.Equal(t, first.Stuck.Freed, again.Stuck.Freed)
	assert.Equal(t, first.Plugged.Value, again.Plugged.Value)
	answered := made(ctx, FaultStage, "2026-06-01",
		finding.Confirmation{Item: finding.ItemLabels, Who: "AB", Date: "2026-05-31", Value: "10 bar"})
	assert.Same(t, first.Energy, answered.Energy)
	assert.NotSame(t, first.Faults, answered.Faults, "a fault may be held by an answer")
	assert.Len(t, answered.Launcher.Checklist, 1)
	assert.NotSame(t, first.Energy, made(ctx, EnergyStage, "2026-06-02").Energy, "answers and dates hold on a day")
	assert.NotSame(t, made(plain, EnergyStage, "2026-06-01").Energy, made(plain, EnergyStage, "2026-06-01").Energy)
}
