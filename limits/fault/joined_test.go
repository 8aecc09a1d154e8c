package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A part that fails joins what was filled before it failed: behind a regulator that passes everything the dose has the tank's pressure,
// though the switch on the dose still stops the supply.
func TestAFaultJoinsWhatWasFilledHigher(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.3*sample.Bars, 0))
	l.Switch.Senses, l.Switch.CutOut = "dose", launcher.Exact("", 0.25*sample.Bars)
	st := stageOf(t, l)
	w := l.Clone()
	feed := &w.Paths[len(w.Paths)-1]
	*feed = launcher.PathSpec{Name: feed.Name, From: feed.From, To: feed.To, Flow: feed.Flow, Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.States()...)}
	start, ok := st.faultStart(w, &fault{})
	require.True(t, ok)
	high, _ := l.SoakedHigh()
	tank := l.HighStart(high)[l.Node("tank")]
	require.Greater(t, tank, 1.05*w.Soak(st.normalHigh()), "else the test shows little")
	assert.InEpsilon(t, tank, start, 1e-12)
}
