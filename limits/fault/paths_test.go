package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A check valve that passes backwards, a regulator that fails open and a relief
// valve that leaks open such a way too, each where its place lets it.
func TestPartsWithoutACoilCanShootToo(t *testing.T) {
	for kind, mode := range map[pneumatics.PathKind]Mode{
		pneumatics.Check: PassesBack, pneumatics.Regulator: FailedOpen, pneumatics.Relief: LeakingValve,
	} {
		l := sample.VentedTank()
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "extra", From: "barrel", To: "tank", Kind: kind, Flow: sample.Orifice(3e-3, 0.75),
			SetPressure: launcher.Exact("", 5e4), Droop: launcher.Exact("", 1e4), FullFlowPressure: launcher.Exact("", 7e4),
			ReseatPressure: launcher.Exact("", 4e4)})
		states := map[pneumatics.State]bool{}
		for _, f := range stageOf(t, l).singleFaults() {
			if f.part == "extra" && f.mode == mode && f.unasked {
				states[f.state] = f.changes
			}
		}
		want := map[pneumatics.State]bool{pneumatics.Charging: true, pneumatics.Armed: true, pneumatics.Loading: true}
		assert.Equal(t, want, states, kind.String())
	}
}

// A valve that feeds the dose opens nothing into the barrel while the firing valve
// is shut.
func TestAFeedDoesNotShoot(t *testing.T) {
	for _, f := range stageOf(t, sample.Dumped()).singleFaults() {
		assert.False(t, f.unasked && f.part == "feed", f.id)
	}
}

// A supply that runs while loading feeds the barrel through an open valve, though what
// it feeds is empty.
func TestASupplyThatRunsWhileLoadingCanShoot(t *testing.T) {
	l := sample.VentedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Paths[1].Flow = sample.Orifice(4e-3, 0.75) // wide enough to keep the tank empty
	assert.False(t, faultOf(t, stageOf(t, l), "fire.stuck-open.loading").changes)
	l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	require.True(t, vent.LoadingOf(l, 5000).Empty[0])
	st := stageOf(t, l)
	assert.True(t, faultOf(t, st, "fire.stuck-open.loading").changes)
	st.Loading = &vent.Loading{Rest: []float64{0}, Empty: []bool{true}}
	assert.True(t, faultOf(t, st, "fire.stuck-open.loading").changes, "even if nothing were left in it")
}

// Whose air flows to the barrel in a shot, read off the drawing: none of what lies
// behind the regulator.
func TestWhatFlowsToTheBarrelInABranchedCircuit(t *testing.T) {
	l := sample.Branched()
	assert.Equal(t, []string{"tank", "dose", "buffer"}, sample.VolumesOf(l, worst.FlowsToBarrel(l)))
}

// A hand valve has the fault that nobody opens it; where it is needed to empty the launcher only the item holds it.
func TestAHandValveThatNobodyOpens(t *testing.T) {
	l := sample.Dumped()
	p := sample.PathNamed(l, "dump_tank")
	p.Kind, p.Unpowered = pneumatics.HandValve, pneumatics.Stays
	st := stageOf(t, l)
	for needed, want := range map[bool]finding.Status{true: finding.OpenItem, false: finding.Pass} {
		st.Emptying.ByHand = nil
		if needed {
			st.Emptying.ByHand = []string{"dump_tank"}
		}
		r := runFault(t, st, "dump_tank.not-opened.off")
		assert.Equal(t, want, r.Status)
		assert.Contains(t, r.Consequence.String(), "trapped: tank")
	}
	st.Emptying.ByHand = []string{"dump_tank"}
	st.Day, l.Checklist = "2026-05-02", []finding.Confirmation{{Item: finding.ItemVentByHand, Who: "A. N.", Date: "2026-05-01",
		Value: "0 bar", Figures: []finding.Figure{{Unit: finding.InPascalGauge}}}}
	assert.Equal(t, finding.Pass, runFault(t, st, "dump_tank.not-opened.off").Status)
}
