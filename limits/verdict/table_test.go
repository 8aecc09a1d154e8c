package verdict

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/vent"
)

// Each question stands once, with a title that fits its column.
func TestTableIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, q := range Table() {
		assert.False(t, seen[q.ID], q.ID)
		seen[q.ID] = true
		assert.NotEmpty(t, q.Title, q.ID)
		assert.LessOrEqual(t, len([]rune(q.Title)), 38, q.ID)
		assert.NotNil(t, q.Judge, q.ID)
	}
	assert.Len(t, seen, 28)
}

// A question that does not arise has no verdict, and one of the whole none in a part of it.
func TestQuestionsThatDoNotArise(t *testing.T) {
	a := assessed.Emptying(t, sample.VentedTank(), vent.SlowEndOnly)
	assert.Empty(t, Of(a, finding.MeasuredLeak).ID)
	assert.Empty(t, Of(a, finding.DatesPast).ID)
	assert.Empty(t, Of(a, "no.such").ID)
	a.Logs.Leak = &vent.LeakAnswer{Status: vent.LeakTight}
	v := Of(a, finding.MeasuredLeak)
	assert.Equal(t, finding.Pass, v.Status)
	assert.Equal(t, "The measured leak-down is tight", v.Title)
	var ids []string
	for _, v := range Judge(a, assessment.EmptyingStage) {
		ids = append(ids, v.ID)
	}
	assert.Equal(t, []string{finding.VentShutdown, finding.VentPowerLoss, finding.VentPoints, finding.VentTrapped, finding.GaugeReadable}, ids)
}
