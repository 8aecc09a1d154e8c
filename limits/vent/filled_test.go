package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A pump that nothing stops comes to rest against an open bleed where the two flows are equal, not at its dead head. By
// hand at each end: what it delivers at the rest, in ambient air, is what the bleed passes there, subcritical, by the
// isentropic nozzle m = Cd A p sqrt(2 k/((k-1) R T) (r^(2/k) - r^((k+1)/k))). 2e-3: gas
// constants to three digits.
func TestAPumpRestsAgainstItsBleed(t *testing.T) {
	l := sample.Rocket()
	f, ok, err := FilledOf(l)
	require.NoError(t, err)
	require.True(t, ok)
	dose := l.Node("tank")
	dead := l.Supply.DeadHead
	assert.Less(t, f.Low[dose], f.Nominal[dose])
	assert.Less(t, f.Nominal[dose], f.High[dose])
	assert.Less(t, f.High[dose], dead.High, "never up to the dead head")
	c := new(pneumatics.Circuit)
	l.Fill(c)
	p, pa, t0 := f.Nominal[dose]+c.Ambient.Pressure, c.Ambient.Pressure, c.Ambient.Temperature
	k, gas, r := 1.4, 287.0, pa/p
	mass := 0.65 * math.Pi / 4 * 0.4e-3 * 0.4e-3 * p * math.Sqrt(2*k/((k-1)*gas*t0)*(math.Pow(r, 2/k)-math.Pow(r, (k+1)/k)))
	assert.InEpsilon(t, c.Supply.Delivery(f.Nominal[dose]), mass*gas*t0/pa, 2e-3, "the two flows are equal [m3/s of ambient air]")
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("", 0.1*sample.Bars)}
	_, ok, err = FilledOf(l)
	require.NoError(t, err)
	assert.False(t, ok, "a switch ends that one")
}
