package design

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/advise"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// What an example shoots is shot by its weakest launcher too: who builds one from it is not left with a projectile that stays in
// the barrel.
func TestTheWeakestOfAnExampleLeaves(t *testing.T) {
	budget := 200
	if os.Getenv("PUFFPROOF_MORE") != "" {
		budget = 600
	}
	for _, name := range []string{"whale", "rocket", "soapbox"} {
		w, err := worst.FindWeakest(t.Context(), read(t, demo(t, name+".toml")), search.Options{Budget: budget})
		require.NoError(t, err)
		require.True(t, w.Known, name)
		assert.True(t, w.Leaves, "%s: %.2f m/s", name, w.Speed)
	}
}

// A figure without a unit that is advised is read with the tolerance that it was screened with.
func TestAnAdvisedFlowKeepsItsTolerance(t *testing.T) {
	d, problems := Reader{}.Open("whale.toml", demo(t, "whale.toml"))
	require.Empty(t, problems)
	cv := advise.Value{Number: &advise.Quantity{Value: 3.3, Below: 0.33, Above: 0.33}, Bare: true}
	changed, err := d.With([]advise.Change{{Key: "paths.fire.Cv", To: cv}})
	require.NoError(t, err)
	l := changed.Launcher()
	band := l.Paths[l.PathIndex("fire")].Flow.Value
	assert.InDeltaSlice(t, []float64{2.97, 3.3, 3.63}, []float64{band.Low, band.Nominal, band.High}, 1e-9)
	assert.False(t, band.Assumed)
}
