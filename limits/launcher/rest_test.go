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
	assert.False(t, l.Resting().Ends, "a switch ends that one")
	assert.Equal(t, 0.1*sample.Bars, l.Working().Nominal)
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

// A switch that is set above where the supply comes to rest never stops it: shots start from the rest, as without one, and are judged up to
// what the switch lets it. One between the low and the nominal rest ends the nominal filling, and not the weakest.
func TestASwitchAboveTheRest(t *testing.T) {
	l := sample.Rocket()
	rest := l.Resting()
	for _, c := range []struct{ cutOut, nominal float64 }{{1.1 * rest.Nominal[0], rest.Nominal[0]},
		{0.5 * (rest.Low[0] + rest.Nominal[0]), 0.5 * (rest.Low[0] + rest.Nominal[0])}} {
		l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("", c.cutOut)}
		w := l.Working()
		assert.Equal(t, launcher.StopSwitch, w.By)
		assert.InDeltaSlice(t, []float64{rest.Low[0], c.nominal}, []float64{w.Low, w.Nominal}, 1e-9)
		assert.Equal(t, c.nominal == rest.Nominal[0], l.Resting().Ends)
		assert.InEpsilon(t, c.cutOut+l.Overshoot(), w.High, 1e-9, "no hole counts")
		fired, _ := l.FiredHigh()
		assert.GreaterOrEqual(t, fired, min(rest.High[0], w.High))
	}
}

// A timer stops a supply that fills against a bleed sooner than it comes to rest: the balance V dp/dt = pa Q(p) - R T m(p), isothermal,
// followed here by steps of a thousandth of the time, with the nozzle of TestAPumpRestsAgainstItsBleed. 2e-3: steps, gas constants. What it
// is judged by knows no bleed, and a timer that runs on and on no timer.
func TestATimerAgainstABleed(t *testing.T) {
	tight, l := sample.Rocket(), sample.Rocket()
	rest := l.Resting()
	for _, w := range []*launcher.Launcher{tight, l} {
		w.Supply.RunTime, w.Supply.FromEmpty = sample.Between("", 0.8, 1.2), launcher.Yes
	}
	tight.Paths = tight.Paths[:1]
	after := func(volume, seconds, temperature, free, dead float64) float64 {
		const k, gas, cd, bore, pa, steps = 1.4, 287.0, 0.65, 0.4e-3, 101325.0, 1000
		at := 0.0
		for range steps {
			p, ratio := at+pa, pa/(at+pa)
			mass := cd * math.Pi / 4 * bore * bore * p *
				math.Sqrt(2*k/((k-1)*gas*temperature)*(math.Pow(ratio, 2/k)-math.Pow(ratio, (k+1)/k)))
			at += (pa*free*sample.LitreMinute*(1-at/dead) - gas*temperature*mass) / volume * seconds / steps
		}
		return at
	}
	w := l.Working()
	assert.Equal(t, launcher.StopTimer, w.By)
	assert.InEpsilon(t, after(0.2e-3, 1, 293.15, 3, 0.2*sample.Bars), w.Nominal, 2e-3)
	assert.InEpsilon(t, after(0.202e-3, 0.8, 303.15, 2.7, 0.18*sample.Bars), w.Low, 2e-3)
	assert.Less(t, w.Nominal, 0.99*rest.Nominal[0])
	assert.Less(t, w.Nominal, 0.99*tight.Working().Nominal)
	assert.Equal(t, tight.Working().High, w.High)
	fired, _ := l.FiredHigh()
	assert.GreaterOrEqual(t, fired, rest.High[0])
	l.Supply.RunTime = launcher.Exact("", 600)
	assert.InDelta(t, rest.Nominal[0], l.Working().Nominal, 1)
	assert.InDelta(t, rest.Low[0], l.Working().Low, 1)
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
