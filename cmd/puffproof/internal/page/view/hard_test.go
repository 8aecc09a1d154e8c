package view

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/limits"
	"puffproof/limits/budget"
	"puffproof/limits/worst"
)

// The table has the weakest launcher between the nominal shot and the worst one, as check has it; where it stays in the barrel the
// remark says what looks for a way out.
func TestTheTableHasTheWeakestLauncher(t *testing.T) {
	rows := func(w worst.Weakest) []HardRow {
		return hardOf(&State{Quick: &answer.Quick{NoShot: "no pressure"}, Full: &answer.Full{Budget: &budget.Report{Weakest: w},
			Report: limits.Report{Energy: &worst.EnergyReport{Worst: worst.ShotFigures{Outcome: "left", FinalSpeed: 8, FinalEnergy: 0.1,
				StartGauge: 4e4}}}}})
	}
	leaves := rows(worst.Weakest{Known: true, Leaves: true, Speed: 2.2, Energy: 0.01, Start: 31e3})
	assert.Equal(t, []string{"nominal", "weakest, when filled", "worst over the tolerances"}, []string{leaves[0].Name, leaves[1].Name,
		leaves[2].Name})
	assert.Equal(t, HardRow{"weakest, when filled", "2.2 m/s", "0.010 J", "from 0.31 bar gauge"}, leaves[1])
	stays := rows(worst.Weakest{Known: true})
	assert.Equal(t, "-", stays[1].Speed)
	assert.Contains(t, stays[1].Note, "does not leave; the button below the verdicts looks for changes")
	assert.Len(t, rows(worst.Weakest{}), 2, "none is known")
}
