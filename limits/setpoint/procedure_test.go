package setpoint

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
)

// everything takes what the supply of the plain sample can push to, and there is a gauge of class 1.6 up to top.
func everythingTakesIt(top float64) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		for i := range l.Volumes {
			l.Volumes[i].RatedPressure, l.Volumes[i].RatedForGas = launcher.Exact("", 100*sample.Bars), launcher.Yes
		}
		l.Barrel.RatedPressure, l.Barrel.RatedForGas = launcher.Exact("", 100*sample.Bars), launcher.Yes
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", top), Class: 1.6}}
	}
}

// steps is the procedure of a launcher as one text.
func steps(s *solver) string {
	var all []string
	for _, t := range s.out.Procedure {
		all = append(all, t.String())
	}
	return strings.Join(all, "\n")
}

// The switch is set to the design's own 0.38 to 0.42 bar, not to the highest that would hold; read at the highest that
// the pointer reaches, in steps that the gauge shows: class 1.6 of 1 bar is 16 mbar, so 20 mbar. Three cycles to set,
// ten to record. The cooling by hand: 0.1 bar times (1 - 1/1.4) = 0.0286 bar.
func TestTheProcedureSetsTheDesignsOwnCutOut(t *testing.T) {
	s := solverFor(sample.Plain(sample.Orderly, everythingTakesIt(1*sample.Bars), func(l *launcher.Launcher) {
		l.Switch.GaugeError = sample.Between("", -0.016*sample.Bars, 0.016*sample.Bars)
	}))
	require.Greater(t, *s.out.CutOut, *s.out.Stated, "more would hold than the design asks for")
	text := steps(s)
	for _, want := range []string{"Aim at 0.380 bar", "between 0.380 bar and 0.420 bar", "steps of 0.020 bar", "highest that the pointer " +
		"reaches",
		"Three cycles", "Then 10 cycles", "After test shots at a higher pressure", "seal it again"} {
		assert.Contains(t, text, want)
	}
	assert.InDelta(t, 0.1*sample.Bars*(1-1/1.4), s.cooling(), 0.0005*sample.Bars, "gamma of air is 1.4 to four digits")
	assert.Less(t, strings.Index(text, "relief valve, on a bench"), strings.Index(text, "Charge up"), "no air before that")

	s.l.Gauges[0].Graduation = launcher.Exact("", 0.25*sample.Bars)
	assert.Contains(t, s.aim().String(), "too coarse", "no mark lies between 0.38 and 0.42 bar")
	s.l.Gauges[0].Graduation = launcher.Exact("", 0.05*sample.Bars)
	assert.Contains(t, s.aim().String(), "too coarse", "one does, at 0.40 bar: every reading would have to be the same")
}

// A switch is not set by a design that fails, that is not known, or that has none.
func TestNoProcedureForADesignThatDoesNotHold(t *testing.T) {
	for name, change := range map[string]func(*launcher.Launcher){
		"too high": func(l *launcher.Launcher) {
			l.Switch.CutOut = sample.Between("cut_out", 1.4*sample.Bars, 1.5*sample.Bars)
		},
		"not made for gas": func(l *launcher.Launcher) { l.Volumes[0].RatedForGas = launcher.No },
		"no switch":        func(l *launcher.Launcher) { l.Switch = nil },
	} {
		assert.Empty(t, solverFor(sample.Plain(sample.Orderly, change)).out.Procedure, name)
	}
	s := solverFor(sample.Plain(sample.Orderly))
	require.NotEmpty(t, s.out.Procedure)
	for _, spoil := range []func(){func() {
		nothing := &assessment.Assessment{Launcher: s.l, Stated: s.l}
		s.o.Assessed = nothing // of which every verdict is unknown
	}, func() { s.o.Assessed = nil; s.out.Unknown = finding.Words("open") }, func() { s.out.Unknown, s.out.Works = nil, false }} {
		s.out.Procedure = nil
		spoil()
		s.procedure()
		assert.Empty(t, s.out.Procedure)
	}
}

// The switch is bridged only where everything takes what the supply can push to; the test then names what the design's
// relief valve is expected to do: set from 0.55 bar, full flow up to 0.75 bar, not the 1.1 bar that would hold.
func TestTheSwitchIsBridgedOnlyWhereNothingCanBurst(t *testing.T) {
	may := steps(solverFor(sample.Plain(sample.Orderly, everythingTakesIt(100*sample.Bars))))
	assert.Contains(t, may, "bridge the switch, an adult at a distance")
	assert.Contains(t, may, "between 0.550 bar and 0.750 bar")
	not := steps(solverFor(sample.Plain(sample.Orderly, everythingTakesIt(1*sample.Bars))))
	assert.Contains(t, not, "Do NOT bridge the switch")
	assert.Contains(t, not, "the gauge on tank is good for 1")
	for _, text := range []string{may, not} {
		assert.Contains(t, text, "it must begin to hiss between 0.55 bar and 0.65 bar")
	}
}
