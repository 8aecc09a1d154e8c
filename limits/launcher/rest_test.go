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

// A pump that nothing stops comes to rest against an open bleed where the two flows are equal, not at its dead head. By
// hand at each end: what it delivers at the rest, in ambient air, is what the bleed passes there, subcritical, by the
// isentropic nozzle m = Cd A p sqrt(2 k/((k-1) R T) (r^(2/k) - r^((k+1)/k))) (any text on gas dynamics). 2e-3: gas
// constants to three digits. The weak end is the pump at 2.7 L/min and 0.18 bar against a bleed of 0.45 mm in the hottest, thinnest air.
func TestAPumpRestsAgainstItsBleed(t *testing.T) {
	l := sample.Rocket()
	l.Paths[1].Flow.Value = sample.Between("", 0.35e-3, 0.45e-3)
	l.Ambient.Pressure = sample.Between("", 97500, 103500)
	r := l.Resting()
	require.True(t, r.Known && r.Ends)
	at := r.Shown(l)
	for _, end := range []struct{ p, pa, t, bore, free, dead float64 }{
		{at.Nominal, 100500, 294.15, 0.4e-3, 3, 0.2 * sample.Bars},
		{at.Low, 97500, 303.15, 0.45e-3, 2.7, 0.18 * sample.Bars},
		{at.High, 103500, l.Coldest(), 0.35e-3, 3.3, 0.22 * sample.Bars},
	} {
		const k, gas, cd = 1.4, 287.0, 0.65
		p, ratio := end.p+end.pa, end.pa/(end.p+end.pa)
		mass := cd * math.Pi / 4 * end.bore * end.bore * p *
			math.Sqrt(2*k/((k-1)*gas*end.t)*(math.Pow(ratio, 2/k)-math.Pow(ratio, (k+1)/k)))
		free := end.free * sample.LitreMinute * (1 - end.p/end.dead)
		assert.InEpsilon(t, free*end.pa/(gas*end.t), mass, 2e-3, "the two flows are equal [kg/s] at %v Pa", end.p)
	}
	// The launcher works from there, and is judged up to the dead head.
	w := l.Working()
	assert.Equal(t, launcher.StopDeadHead, w.By)
	assert.InDeltaSlice(t, []float64{at.Low, at.Nominal, 0.22 * sample.Bars}, []float64{w.Low, w.Nominal, w.High}, 1e-9)
	high, ok := l.NormalHigh()
	assert.True(t, ok)
	assert.Equal(t, w.High, high)
	fired, ok := l.FiredHigh()
	assert.True(t, ok)
	soaked, _ := l.SoakedHigh()
	assert.Less(t, fired, soaked)
	assert.GreaterOrEqual(t, fired, at.High)
}

// What bleeds through a valve that is open while it fills counts as a hole does; where that is shut while armed, and the supply
// runs on, the pressure rises to the dead head again: the band reaches from the one to the other.
func TestWhatIsOpenWhileItFillsCounts(t *testing.T) {
	valve := func(open ...pneumatics.State) *launcher.Launcher {
		l := sample.Rocket()
		l.Paths[1].Kind, l.Paths[1].OpenIn = pneumatics.Valve, pneumatics.SetOf(open...)
		return l
	}
	hole := sample.Rocket().Resting()
	both := valve(pneumatics.Charging, pneumatics.Armed).Resting()
	require.True(t, both.Ends)
	assert.InDeltaSlice(t, hole.Nominal, both.Nominal, 1)
	shut := valve(pneumatics.Off).Resting()
	assert.False(t, shut.Open)
	assert.Equal(t, 0.2*sample.Bars, valve(pneumatics.Off).Working().Nominal)
	one := valve(pneumatics.Charging).Resting()
	require.True(t, one.Ends)
	assert.InDeltaSlice(t, hole.Low, one.Low, 1)
	assert.InEpsilon(t, 0.22*sample.Bars, one.High[0], 1e-3, "armed, without the bleed")
}

// Nobody says a pressure that is not known: without a delivery none is the lowest, and a switch, a shut launcher or a supply
// that runs only in firing come to no such rest.
func TestARestThatIsNotKnown(t *testing.T) {
	l := sample.Rocket()
	l.Supply.FreeAir = launcher.Band{}
	r := l.Resting()
	assert.True(t, r.Open && !r.Known && !r.Ends)
	assert.False(t, r.Shown(l).Set)
	assert.Zero(t, l.Working().Low)
	l.Supply.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 3 * sample.LitreMinute}, {Gauge: 0.2 * sample.Bars}}
	curve := l.Resting()
	require.True(t, curve.Known, "a curve tells it")
	assert.InEpsilon(t, sample.Rocket().Resting().Nominal[0], curve.Nominal[0], 1e-3, "the same straight line")
	assert.Less(t, curve.Low[0], sample.Rocket().Resting().Low[0], "a curve without a band may lie further off")
	l = sample.Rocket()
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("", 0.1*sample.Bars)}
	assert.False(t, l.Resting().Open, "a switch ends that one")
	l = sample.Rocket()
	l.Supply.RunsInStated, l.Supply.RunsIn = true, pneumatics.SetOf(pneumatics.Firing)
	assert.False(t, l.Resting().Open)
}

// A person who pumps to a mark does not get there against a bleed that passes all of it sooner; one that is far above is no news.
func TestAMarkThatABleedKeepsOutOfReach(t *testing.T) {
	l := sample.Rocket()
	rest := l.Resting().Nominal[0]
	l.Supply.PumpedTo = launcher.Exact("", 1.1*rest)
	assert.InEpsilon(t, rest, l.Working().Nominal, 1e-9)
	assert.True(t, l.Resting().Ends)
	high, _ := l.NormalHigh()
	assert.Equal(t, high, l.Resting().High[0], "nobody pumps beyond it with a strong pump either")
	l.Supply.PumpedTo = launcher.Exact("", 0.3*rest)
	assert.Equal(t, 0.3*rest, l.Working().Nominal)
	assert.False(t, l.Resting().Ends)
}

// A relief valve that blows beside the bleed takes its part, at each end of the tolerances with its set pressure at that end; its full flow
// and reseat pressures shift along.
func TestARestBesideAReliefValve(t *testing.T) {
	const low, high, wide = 0.10 * sample.Bars, 0.14 * sample.Bars, 0.08 * sample.Bars
	of := func(set launcher.Band) launcher.Resting {
		l := sample.Rocket()
		l.Paths[1].Flow = sample.Orifice(0.2*sample.Millimetres, 0.65)
		sample.WithRelief(set, launcher.Exact("", set.Nominal+wide), 0.5*sample.Millimetres, 0.62)(l)
		return l.Resting()
	}
	band := of(sample.Between("", low, high))
	require.True(t, band.Ends)
	assert.InEpsilon(t, of(launcher.Exact("", low)).Low[0], band.Low[0], 1e-3)
	assert.InEpsilon(t, of(launcher.Exact("", high)).High[0], band.High[0], 1e-3)
	assert.Less(t, of(launcher.Exact("", low)).High[0], 0.99*band.High[0], "or nothing is asked")
}
