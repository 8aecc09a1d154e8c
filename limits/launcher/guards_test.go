package launcher_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// ISO 13857, round openings, persons of three years and above (from memory): a finger tip through 4 mm, a hand up to 30 mm
// stops at 120 mm, an arm goes in 0.9 m; an open muzzle of 41 mm is reached that far.
func TestHowFarAHandReaches(t *testing.T) {
	for opening, want := range map[float64]float64{0.004: 0.002, 0.0041: 0.01, 0.012: 0.08, 0.0121: 0.12, 0.03: 0.12, 0.0412: 0.9, 0.1: 0.9} {
		assert.Equal(t, want, launcher.ReachDistance(opening), "%g m", opening)
	}
	assert.True(t, math.IsInf(launcher.ReachDistance(0.101), 1))
}

// Slots pass at 0.1 bar what the valve lets in. By hand with one hole of 3 mm, Cd 0.6, before the barrel, as the ideal
// nozzle of any textbook, psi(r) = sqrt(2 k/(k-1) (r^(2/k) - r^((k+1)/k))), so that the coefficients and the temperature go:
//
//	A = A0 p0 psi0/(p1 psi1)
//
// 1e-3: the isentropic exponent of the gas to three digits.
func TestSlotsPassWhatTheValveLetsIn(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Paths[0].Flow = sample.Orifice(3e-3, 0.6)
		l.Supply.DeadHead = launcher.Exact("", 0.5*sample.Bars)
		l.Switch = nil
	})
	area, needed := l.SlotArea()
	assert.True(t, needed)
	high, _ := l.SoakedHigh()
	pa, k := l.Ambient.Pressure.Nominal, 1.4
	psi := func(r float64) float64 { return math.Sqrt(2 * k / (k - 1) * (math.Pow(r, 2/k) - math.Pow(r, (k+1)/k))) }
	p0, p1 := pa+high, pa+0.1e5
	assert.InEpsilon(t, math.Pi/4*9e-6*p0*psi(p1/p0)/(p1*psi(pa/p1)), area, 1e-3)

	l.Supply.DeadHead = launcher.Exact("", 0.1*sample.Bars)
	_, needed = l.SlotArea()
	assert.False(t, needed, "never above the pressure of lung injury")
}
