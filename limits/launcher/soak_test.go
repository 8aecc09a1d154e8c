package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// bled is the plain launcher in the sun, with some paths more.
func bled(paths ...launcher.PathSpec) *launcher.Launcher {
	return sample.Plain(func(l *launcher.Launcher) {
		l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45)
		l.Paths = append(l.Paths, paths...)
	})
}

// joint is a path of some kind and bore [m], Cd 0.75.
func joint(from, to string, kind pneumatics.PathKind, bore float64) launcher.PathSpec {
	return launcher.PathSpec{Name: from + " to " + to, From: from, To: to, Kind: kind, Flow: sample.Orifice(bore, 0.75),
		OpenIn: pneumatics.SetOf(pneumatics.States()...), Unpowered: pneumatics.Open}
}

// What leaves by a bleed that is always open does not stay to be heated; what is shut off
// from every bleed is heated as TestSoakedHigh has it. Who is shut off is read off the
// drawing: nothing flows back through a check valve, a valve may be shut, relief valves and
// regulators are no way out, and air behind a projectile has none.
func TestOnlyWhatIsShutOffIsHeatedInTheSun(t *testing.T) {
	const filled, mm = 0.95 * sample.Bars, sample.Millimetres
	sealed := (filled+101325)*318.15/293.15 - 101325
	two := func(l *launcher.Launcher) *launcher.Launcher {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 0.5e-3)})
		return l
	}
	for name, c := range map[string]struct {
		l    *launcher.Launcher
		want float64
	}{
		"shut":                         {bled(), sealed},
		"a bleed":                      {bled(joint("tank", "atmosphere", pneumatics.Orifice, mm)), filled},
		"a bleed listed the other way": {bled(joint("atmosphere", "tank", pneumatics.Orifice, mm)), filled},
		"a check valve out":            {bled(joint("tank", "atmosphere", pneumatics.Check, mm)), filled},
		"a check valve in":             {bled(joint("atmosphere", "tank", pneumatics.Check, mm)), sealed},
		"a relief valve":               {bled(joint("tank", "atmosphere", pneumatics.Relief, mm)), sealed},
		"a valve":                      {bled(joint("tank", "atmosphere", pneumatics.Valve, mm)), sealed},
		"by the barrel": {bled(joint("tank", "barrel", pneumatics.Orifice, mm),
			joint("barrel", "atmosphere", pneumatics.Orifice, mm)), sealed},
		"a pinhole that a log would not see": {bled(joint("tank", "atmosphere", pneumatics.Orifice, 1e-3*mm)), sealed},
		"a second volume without one":        {two(bled(joint("tank", "atmosphere", pneumatics.Orifice, mm))), sealed},
		"a second volume with a pipe to it": {two(bled(joint("tank", "atmosphere", pneumatics.Orifice, mm),
			joint("dose", "tank", pneumatics.Orifice, mm))), filled},
		"a check valve towards it": {two(bled(joint("tank", "atmosphere", pneumatics.Orifice, mm),
			joint("dose", "tank", pneumatics.Check, mm))), filled},
		"a check valve from it": {two(bled(joint("tank", "atmosphere", pneumatics.Orifice, mm),
			joint("tank", "dose", pneumatics.Check, mm))), sealed},
	} {
		high, ok := c.l.SoakedHigh()
		require.True(t, ok)
		assert.InEpsilon(t, c.want, high, sample.Rounding, name)
		assert.InEpsilon(t, sealed, c.l.SealedSoak(filled), sample.Rounding, name)
		worst := c.l.VesselPressures()[0]
		assert.InEpsilon(t, c.want, worst.Normal, sample.Rounding, name)
		assert.GreaterOrEqual(t, worst.Fault, sealed*(1-sample.Rounding), "%s: a bleed can be blocked", name)
	}
}

// A hole too small for all that heat drives out holds the pressure at their balance. 2 L
// at up to the sealed pressure p, by 1 K/s from 293.15 K: q = p V/(R T^2) dT/dt; through
// the hole q = Cd A sqrt(2 rho dp) (Bernoulli; 2 % of compressibility at 0.03 bar).
func TestASmallBleedHoldsTheSunAtABalance(t *testing.T) {
	const dp = 3000.0
	const filled = 1500.0
	sealed := (filled+101325)*318.15/293.15 - 101325 // 10269 Pa
	q := (sealed + 101325) * 2e-3 / (287.05287 * 293.15 * 293.15)
	rho := (101325 + 0.5*dp) / (287.05287 * 318.15) // of the hot air that leaves
	area := q / (0.75 * math.Sqrt(2*rho*dp))
	l := bled(joint("tank", "atmosphere", pneumatics.Orifice, math.Sqrt(4*area/math.Pi)))
	assert.InEpsilon(t, dp, l.Soak(filled), 0.04, "twice the 2 %: the pressure goes as the flow squared")
	assert.InEpsilon(t, 1e4, l.Soak(1e4), sample.Rounding, "what was there before it got warm")
	for low := 0.0; low < 1e5; low += 500 {
		assert.LessOrEqual(t, l.Soak(low), l.Soak(low+500), "never less from more")
	}
}
