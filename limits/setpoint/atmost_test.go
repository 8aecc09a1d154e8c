package setpoint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"

	"puffproof/limits/assessment"
)

// With the relief valve set as high as the answer says, the design's gauge may end below what a fault then reaches, and check fails
// gauge.range: the answer says so beside that setting, and with which gauge it does not. With such a gauge nothing is said.
func TestTheHighestReliefSettingNamesTheGaugeThatItNeeds(t *testing.T) {
	with := func(end float64) (*solver, *launcher.Launcher) {
		s := solverFor(sample.Plain(sample.CutOut(0.35*sample.Bars), func(l *launcher.Launcher) {
			l.Switch.CutIn = launcher.Exact("pressure_switch.cut_in", 0.2*sample.Bars)
			l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", end), Class: 1.6}}
		}, sample.WithRelief(sample.Between("set", 0.6*sample.Bars, 0.64*sample.Bars), sample.Between("full", 0.66*sample.Bars,
			0.7*sample.Bars), 6e-3, 0.62)))
		require.NotNil(t, s.out.ReliefSetMax)
		w := s.chain.launcher.Clone()
		MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.out.ReliefSetMax)
		return s, w
	}
	gauge := func(w *launcher.Launcher) finding.Status {
		return verdict.Of(&assessment.Assessment{Launcher: w, Stated: w, Computed: assessment.EnergyStage}, finding.GaugeRange).Status
	}
	small, w := with(0.8 * sample.Bars)
	require.Equal(t, finding.Fail, gauge(w), "what check says of it")
	require.Greater(t, *small.out.ReliefSetMax, 0.7*sample.Bars)
	needs := gaugeFor(w).String()
	assert.Contains(t, needs, "a gauge on tank whose scale ends at")
	assert.Contains(t, needs, "(the design's: 0.80 bar)")

	_, w = with(verdict.LeastScale(w, "tank"))
	assert.Equal(t, finding.Pass, gauge(w))
	assert.Empty(t, gaugeFor(w))
}

// The cut-in's figure says what keeps it down.
func TestWhatKeepsTheCutInDown(t *testing.T) {
	why := func(change func(*launcher.Launcher)) string {
		s := solverFor(sample.Plain(sample.CutOut(0.35*sample.Bars), func(l *launcher.Launcher) {
			l.Switch.CutIn = launcher.Exact("pressure_switch.cut_in", 0.2*sample.Bars)
			l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.06*sample.Bars)
		}, change))
		require.NotNil(t, s.out.CutIn)
		return s.out.CutInWhy.String()
	}
	assert.Contains(t, why(func(*launcher.Launcher) {}), "the switch's differential, 0.060 bar")
	dose := func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("volumes.dose.volume", 1.5e-3)})
		l.Paths[0].From = "dose"
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: l.Paths[0].Kind, Flow: sample.Cv(0.1),
			OpenIn: l.Supply.RunsIn})
	}
	assert.Contains(t, why(dose), "one shot from that cut-out")
}
