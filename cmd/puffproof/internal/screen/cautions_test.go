package screen

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// Whoever acts on emptying, faults, a plan or a flight reads the cautions of check, unless only the finding was asked for.
func TestEveryScreenToActOnEndsWithTheCautions(t *testing.T) {
	for _, detail := range []Detail{Everything, FindingOnly} {
		frame := Frame{Style: Style{Width: 4000}, Detail: detail}
		for name, s := range map[string]interface{ Write(io.Writer) error }{
			"vent":   &VentScreen{Frame: frame, Report: &vent.Report{Trouble: finding.Words("invented")}},
			"faults": &FaultsScreen{Frame: frame, Report: &fault.Report{}},
			"plan":   &PlanScreen{Frame: frame, Plan: &measure.ShotPlan{}},
			"flight": &FlightScreen{Frame: frame, Report: &measure.FlightReport{}},
		} {
			var b strings.Builder
			require.NoError(t, s.Write(&b))
			for _, c := range benchmark.Cautions() {
				assert.Equal(t, detail == Everything, strings.Contains(b.String(), c.Text), "%s: %s", name, c.Text)
			}
		}
	}
}
