package launcher_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// pumpBefore is the plain launcher with a volume [m3] between pump and tank, joined to the
// tank by a path; the switch takes half a second.
func pumpBefore(senses string, size float64, joint launcher.PathSpec) *launcher.Launcher {
	return sample.Plain(func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "pump", Volume: launcher.Exact("", size)})
		joint.Name, joint.From, joint.To = "joint", "pump", "tank"
		l.Paths = append(l.Paths, joint)
		l.Supply.Feeds, l.Switch.Senses = "pump", senses
		l.Switch.ReactionTime = launcher.Exact("", 0.5)
		// It delivers the same at every pressure that is reached here.
		l.Supply.DeadHead = launcher.Exact("", 1e9)
	})
}

// ran is what the pump's volume and the tank come to when the supply goes on for so long
// [s] from two gauge pressures, and then for an hour without it [Pa gauge]; the highest in
// the pump's volume on the way.
func ran(t *testing.T, l *launcher.Launcher, pump, tank, seconds float64) (peak, end float64) {
	t.Helper()
	c := circuitOf(l)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	sc := &pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging, NoProjectile: true, SupplyRuns: true,
		Heat: pneumatics.Isothermal, Until: seconds,
		Volumes: []pneumatics.Condition{{Pressure: pa + tank, Temperature: ta}, {Pressure: pa + pump, Temperature: ta}}}
	r := new(pneumatics.Sim).Run(c, sc, pneumatics.Options{Settle: true, Samples: 101}).Clone()
	require.Empty(t, r.Withheld())
	for _, p := range r.Trace.Volumes[1] {
		peak = max(peak, p-pa)
	}
	sc.SupplyRuns, sc.Until, sc.Volumes = false, 3600, r.Volumes
	r = new(pneumatics.Sim).Run(c, sc, pneumatics.Options{Settle: true})
	require.Empty(t, r.Withheld())
	return peak, r.Volumes[0].Pressure - pa
}

// A volume of 50 mL before a check valve: 0.2 L/s in half a second are 10.13 J, which
// alone would raise it by 2.03 bar. The valve opens by 20 mbar and the tank takes its share,
// 10.13 J/2.05 L = 49 mbar: what remains is below 0.1 bar, and no run of the circuit comes
// higher. Behind a pinhole, or a valve that may be shut, it is alone.
func TestACheckValveOpensWhileTheSwitchReacts(t *testing.T) {
	check := launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(5e-3, 0.75), CrackingPressure: launcher.Exact("", 2000)}
	l := pumpBefore("pump", 50e-6, check)
	const cutOut = 0.95 * sample.Bars
	alone := 101325 * 1e-4 / 50e-6
	rise := l.Overshoot()
	assert.Less(t, rise, 0.1*sample.Bars)
	peak, _ := ran(t, l, cutOut, cutOut, 0.5)
	assert.GreaterOrEqual(t, cutOut+rise, peak)
	assert.Less(t, rise, 1.1*(peak-cutOut), "no more than a tenth above what it is")

	pinhole := check
	pinhole.Flow = sample.Orifice(0.05e-3, 0.75)
	assert.InEpsilon(t, alone, pumpBefore("pump", 50e-6, pinhole).Overshoot(), sample.Rounding)
	valve := check
	valve.Kind, valve.OpenIn, valve.CrackingPressure = pneumatics.Valve, pneumatics.SetOf(pneumatics.Charging), launcher.Band{}
	assert.InEpsilon(t, alone, pumpBefore("pump", 50e-6, valve).Overshoot(), sample.Rounding)
	regulator := sample.Regulator(0.5*sample.Bars, 0)
	regulator.Flow = check.Flow
	assert.InEpsilon(t, alone, pumpBefore("pump", 50e-6, regulator).Overshoot(), sample.Rounding)
}

// Whatever the sizes, and whichever of the two volumes the switch senses, no run of the
// circuit goes beyond the overshoot: from a full tank, from one that the path has just
// filled, and with what stands before a narrow path.
func TestNoRunGoesBeyondTheOvershoot(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, random.Float64()) }
	for range 60 {
		joint := launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(between(0.3e-3, 6e-3), 0.75),
			CrackingPressure: launcher.Exact("", between(100, 20000))}
		if random.IntN(2) == 0 {
			joint.Kind, joint.CrackingPressure = pneumatics.Orifice, launcher.Band{}
		}
		size := between(10e-6, 3e-3)
		const cutOut = 0.95 * sample.Bars
		l := pumpBefore("pump", size, joint)
		for _, tank := range []float64{0, 0.5 * cutOut, cutOut} {
			peak, _ := ran(t, l, cutOut, tank, 0.5)
			assert.LessOrEqual(t, peak, cutOut+l.Overshoot()+1, "%g m3, %+v from %g Pa", size, joint, tank)
		}
		l = pumpBefore("tank", size, joint)
		_, end := ran(t, l, l.HighStart(cutOut)[1], cutOut, 0.5)
		assert.LessOrEqual(t, end, cutOut+l.Overshoot()+1, "%g m3, %+v behind it", size, joint)
	}
}

// The switch may trip as much later as its gauge reads low: the overshoot is that of a
// cut-out so much higher, which a path that opens at its own pressure makes less of.
func TestTheOvershootKnowsTheGauge(t *testing.T) {
	check := launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(0.8e-3, 0.75), CrackingPressure: launcher.Exact("", 2000)}
	rise := func(cutOut, reads float64) float64 {
		l := pumpBefore("pump", 50e-6, check)
		l.Switch.CutOut, l.Switch.GaugeError = launcher.Exact("", cutOut), sample.Between("", -reads, reads)
		return l.Overshoot()
	}
	exact, off := rise(0.6*sample.Bars, 0), rise(0.6*sample.Bars, 0.3*sample.Bars)
	assert.InEpsilon(t, rise(0.9*sample.Bars, 0), off, sample.Rounding)
	assert.Greater(t, math.Abs(off/exact-1), 1e-3, "else the test shows nothing")
}
