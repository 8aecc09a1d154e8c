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

// after is what a jam with 1 bar behind it leaves.
func after(t *testing.T, l *launcher.Launcher) Jam {
	t.Helper()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	j, err := AfterJam(Input{Launcher: l, Limits: limits}, 1*sample.Bars)
	require.NoError(t, err)
	return j
}

// What nothing lets out stays, and gives the availability of the air in the barrel, V (p ln(p/pa) - (p - pa)), closed form
// of the ideal gas; a hole of a millimetre lets it out in the time asked. Isothermally and choked it would take
// V/(C A sqrt(R T)) ln(p/p') with C = 0.685: some 130 mL through 0.6 times 0.785 mm2 take 0.96 s a factor of e: a tenth of a
// second leaves nearly all, a minute nothing.
func TestWhatAJamLeaves(t *testing.T) {
	l := sample.Dumped()
	pa := l.Ambient.Pressure.Low
	all := l.SpaceBehindProjectile() * ((pa+1e5)*math.Log((pa+1e5)/pa) - 1e5)
	sealed := after(t, l)
	assert.True(t, math.IsInf(sealed.Stays, 1))
	assert.InEpsilon(t, all, sealed.Energy, 1e-9, "the closed form, but for rounding")
	assert.InEpsilon(t, 1e5, sealed.Behind, 1e-9)

	sample.Bled(l)
	bled := after(t, l)
	assert.Zero(t, bled.Stays)
	assert.Less(t, bled.Behind, 100.0, "[Pa]: after a minute, sixty times what takes a factor of e")
	l.Venting.Within = launcher.Exact("venting.within", 0.1)
	soon := after(t, l)
	assert.Greater(t, soon.Energy, 0.5*all)
	assert.Less(t, soon.Energy, all)

	l.Venting.Within = launcher.Band{}
	asked := after(t, l)
	assert.True(t, math.IsNaN(asked.Energy), "without a time nobody knows")
}

// A firing valve that stays open without power joins what cannot empty to the barrel: its air counts too.
func TestAJamCountsWhatIsJoinedToIt(t *testing.T) {
	l := sample.Dumped()
	alone := after(t, l).Energy
	fire := sample.PathNamed(l, "fire")
	fire.OpenIn |= sample.PathNamed(l, "dump_dose").OpenIn
	fire.Unpowered = sample.PathNamed(l, "dump_dose").Unpowered
	for _, dump := range []string{"dump_dose", "dump_tank"} {
		p := sample.PathNamed(l, dump)
		p.OpenIn, p.Unpowered = 0, pneumatics.Closed
	}
	assert.Greater(t, after(t, l).Energy, 2*alone)
}

// The drill that is advised empties it in the time, also if it comes out a little narrower (boreError): the
// advice is the first of a row that does. A second asks for a wider one than a minute.
func TestTheBleedThatAJamNeeds(t *testing.T) {
	drill := func(within float64) float64 {
		l := sample.Dumped()
		l.Venting.Within = launcher.Exact("venting.within", within)
		limits, err := l.EnergyLimits("")
		require.NoError(t, err)
		in := Input{Launcher: l, Limits: limits}
		d, err := BleedDrill(in, 1*sample.Bars, 0.5)
		require.NoError(t, err)
		return d
	}
	slow, quick := drill(60), drill(1)
	assert.Equal(t, SmallestVent, slow, "130 mL through the smallest drill take some seconds")
	assert.Greater(t, quick, slow)
	assert.True(t, math.IsNaN(drill(1e-3)), "none in a millisecond")
	l := sample.Dumped()
	l.Venting.Within = launcher.Exact("venting.within", 1)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "hole", From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(quick-0.05e-3, 0.6)})
	assert.LessOrEqual(t, after(t, l).Energy, 0.5, "drilled, it does")
}
