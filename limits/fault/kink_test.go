package fault

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// hosed is the plain launcher with a hose of 12 mm and 1 m after its firing valve, 113 mL.
func hosed(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	l := sample.Plain(changes...)
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 12e-3), Length: launcher.Exact("", 1), Side: launcher.HoseAfter}
	return l
}

// A kinked hose is a vessel of its own air at the pressure before the valve, and the kink
// opens at once by the hose's bore.
func TestAKinkedHoseIsFull(t *testing.T) {
	w := failedBy(t, stageOf(t, hosed()), "fire.hose-kinked")
	require.Len(t, w.Volumes, 2)
	assert.InEpsilon(t, math.Pi/4*144e-6, w.Volumes[1].Volume.Nominal, 1e-9)
	assert.Equal(t, []float64{0.5 * sample.Bars, 0.5 * sample.Bars}, w.HighStart(0.5*sample.Bars))
	open := w.Paths[1]
	assert.Equal(t, "barrel", open.To)
	assert.Zero(t, open.OpeningTime.High)
	assert.InEpsilon(t, math.Pi/4*144e-6, launcher.Circle(open.Flow.Value.Nominal)*open.Flow.DischargeCoefficient.Nominal, 1e-9)
	assert.Nil(t, w.Paths[0].Hose)

	l := hosed()
	l.Paths[0].Hose.Bore, l.Paths[0].Hose.Length = sample.Between("", 11e-3, 13e-3), sample.Between("", 0.9, 1.1)
	kink(l, 0)
	assert.InEpsilon(t, math.Pi/4*169e-6*1.1, l.Volumes[1].Volume.High, 1e-9, "the widest and longest holds most")
	assert.InEpsilon(t, math.Pi/4*121e-6*0.9, l.Volumes[1].Volume.Low, 1e-9)
}

// With a slow, small valve the hose that was full goes off harder than a shot; with no
// hose, one before the valve, or a valve that is no firing valve there is no such fault.
func TestAKinkedHoseGoesOffHarder(t *testing.T) {
	slow := func(l *launcher.Launcher) {
		l.Paths[0].OpeningTime = launcher.Exact("", 1)
		l.Paths[0].Flow = sample.Cv(0.05)
		l.Barrel.Travel = launcher.Exact("", 0.05) // all of it is pushed
	}
	kinked := runFault(t, stageOf(t, hosed(slow)), "fire.hose-kinked")
	usual := runFault(t, stageOf(t, hosed(slow)), "fire.opens-faster")
	assert.Greater(t, kinked.Energy, 10*usual.Energy)
	ceiling := (2e-3 + math.Pi/4*144e-6) / pneumatics.CeilingDose(1, 0.95*sample.Bars, 101325)
	assert.Less(t, kinked.Energy, ceiling, "the availability of all the air, by the closed form")

	for _, l := range []*launcher.Launcher{sample.Plain(),
		hosed(func(l *launcher.Launcher) { l.Paths[0].OpenIn = pneumatics.SetOf(pneumatics.Charging) })} {
		for _, f := range stageOf(t, l).singleFaults() {
			assert.NotEqual(t, HoseKinked, f.mode)
		}
	}
	l := hosed()
	l.Paths[0].Hose.Side = launcher.HoseBefore
	for _, f := range stageOf(t, l).singleFaults() {
		assert.NotEqual(t, HoseKinked, f.mode)
	}
}

// A jam keeps the air of the hose too, at what rushed into it: as computed, else at the
// bound.
func TestAJamHasTheAirOfTheHose(t *testing.T) {
	l := hosed()
	st := stageOf(t, l)
	bound := faultOf(t, st, "projectile.jammed")
	high, ok := l.FaultHigh()
	require.True(t, ok)
	assert.Equal(t, launcher.Rush*high, bound.behind)
	assert.InEpsilon(t, l.SpaceBehindProjectile()/pneumatics.CeilingDose(1, bound.behind, 101325), bound.freed, 1e-9)
	st = stageOf(t, l)
	st.Plugged = &worst.Plugged{Behind: 1.1 * high}
	assert.Equal(t, 1.1*high, faultOf(t, st, "projectile.jammed").behind)
}
