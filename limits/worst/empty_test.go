package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A shot out of a dose that holds nothing at its highest has no energy, and says nothing of a launcher that somebody fires: unknown, never
// a pass. What is filled in any state, by a tap that anybody can turn, or by a supply that blows as it is fired, is not empty.
func TestAShotOutOfNothingIsUnknown(t *testing.T) {
	tap := sample.ValveIn()
	tap.Kind = pneumatics.HandValve
	for _, c := range []struct {
		name   string
		feed   launcher.PathSpec
		change func(*launcher.Launcher)
		empty  bool
	}{
		{"a solenoid valve of no state", sample.ValveIn(), nil, true},
		{"one that is open while loading", sample.ValveIn(pneumatics.Loading), nil, false},
		{"one that opens with the shot", sample.ValveIn(pneumatics.Firing), nil, false},
		{"a tap of no state", tap, nil, false},
		{"a supply of the dose that runs on", sample.ValveIn(), func(l *launcher.Launcher) {
			l.Supply.Feeds, l.Supply.RunsIn = "dose", pneumatics.SetOf(pneumatics.Firing)
		}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := sample.TwoTanks(c.feed)
			if c.change != nil {
				c.change(l)
			}
			high, ok := l.SoakedHigh()
			require.True(t, ok)
			why := nothingBehind(l, high)
			if assert.Equal(t, c.empty, len(why) != 0); c.empty {
				assert.Contains(t, why.String(), "nothing that feeds the barrel (dose) is ever filled")
			}
		})
	}
	limits, err := sample.Plain().EnergyLimits("")
	require.NoError(t, err)
	out, err := ComputeEnergies(sample.Weakly(), EnergyInput{Launcher: sample.TwoTanks(sample.ValveIn()), Limits: limits, Depth: Quick})
	require.NoError(t, err)
	assert.NotEmpty(t, out.NoStart, "no energy is judged")
}
