package measure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
)

// filledTo is a test of the launcher's own tank, filled to 0.40 bar by a supply that delivers so much [m3/s]: simulated.
func filledTo(t *testing.T, l *launcher.Launcher, free float64) launcher.BenchSpec {
	t.Helper()
	truth := l.Clone()
	truth.Supply.FreeAir = launcher.Exact("supply.free_air", free)
	c := new(pneumatics.Circuit)
	truth.Fill(c)
	took := filling.Time(c, 0, []float64{0}, 0.4*sample.Bars)
	require.Greater(t, took, 2.5, "long enough for a hand")
	return launcher.BenchSpec{GaugeError: launcher.Exact("e", 1), FillVolume: launcher.Exact("v", 2e-3),
		FillTo: launcher.Exact("to", 0.4*sample.Bars), FillTimes: []float64{took, took, took}}
}

// pumped is a launcher whose supply delivers from 9 to 11 L/min, of a kind; no switch, whose cut-out the gauge's error would be held to.
func pumped(kind launcher.SupplyKind, change ...func(*launcher.Launcher)) *launcher.Launcher {
	return sample.Plain(append([]func(*launcher.Launcher){sample.Orderly, func(l *launcher.Launcher) {
		l.Switch, l.Supply.Kind = nil, kind
		l.Supply.FreeAir = sample.Between("supply.free_air", 9*sample.LitreMinute, 11*sample.LitreMinute)
	}}, change...)...)
}

// What one person filled takes nothing away from the most that a hand pump is stated to deliver, as another pumps harder; what contradicts
// it widens the band to whichever side it lies on, and is told; and where it delivers more its strokes do, six times the mean at the most
// (common practice, no source: what a design assumes of them).
func TestFillsOfAHandPump(t *testing.T) {
	wide := pumped(launcher.HandPump, func(l *launcher.Launcher) {
		l.Supply.FreeAir = sample.Between("supply.free_air", 2*sample.LitreMinute, 30*sample.LitreMinute)
	})
	measure.ApplyBench(wide, filledTo(t, wide, 10*sample.LitreMinute))
	assert.Greater(t, wide.Supply.FreeAir.Low, 8*sample.LitreMinute)
	assert.InDelta(t, 30*sample.LitreMinute, wide.Supply.FreeAir.High, 1e-12)
	assert.Empty(t, wide.Bench.Clashes)

	weak := pumped(launcher.HandPump)
	measure.ApplyBench(weak, filledTo(t, weak, 3*sample.LitreMinute))
	require.Len(t, weak.Bench.Clashes, 1)
	assert.InDelta(t, 11*sample.LitreMinute, weak.Supply.FreeAir.High, 1e-12)
	assert.Less(t, weak.Supply.FreeAir.Low, 3*sample.LitreMinute)

	for name, stated := range map[string]launcher.Band{"assumed": {Set: true, Assumed: true, Low: 9 * sample.LitreMinute,
		Nominal: 31 * sample.LitreMinute, High: 66 * sample.LitreMinute}, "stated, too low": {Set: true, Line: 9, Low: 14 * sample.LitreMinute,
		Nominal: 15 * sample.LitreMinute, High: 16 * sample.LitreMinute}, "none": {}} {
		strong := pumped(launcher.HandPump)
		strong.Supply.PeakFlow = stated
		measure.ApplyBench(strong, filledTo(t, strong, 14*sample.LitreMinute))
		require.Len(t, strong.Bench.Clashes, 1, name)
		assert.Contains(t, strong.Bench.Clashes[0].String(), "one of the two is wrong", name)
		assert.Greater(t, strong.Supply.FreeAir.High, 14*sample.LitreMinute, name)
		assert.InEpsilon(t, 6*strong.Supply.FreeAir.High, strong.Supply.MostFreeAir(), sample.Rounding, name)
	}

	untold := pumped(launcher.HandPump, func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} })
	measure.ApplyBench(untold, filledTo(t, untold, 10*sample.LitreMinute))
	assert.Greater(t, untold.Supply.FreeAir.High, 10*sample.LitreMinute)
	assert.InEpsilon(t, 6*untold.Supply.FreeAir.High, untold.Supply.MostFreeAir(), sample.Rounding)
}

// A hole that is open while it fills makes it last longer: what it passes at the most counts, so that the truth lies inside, and what is
// stated of the supply is no contradiction. Simulated.
func TestAFillAgainstAnOpenHole(t *testing.T) {
	bled := func(l *launcher.Launcher) {
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: sample.Orifice(0.8*sample.Millimetres, 0.7)})
	}
	l := pumped(launcher.Compressor, bled)
	l.Supply.FreeAir = sample.Between("supply.free_air", 9.9*sample.LitreMinute, 14*sample.LitreMinute)
	spec := filledTo(t, l, 10*sample.LitreMinute)
	tight := pumped(launcher.Compressor)
	require.Greater(t, spec.FillTimes[0], 1.15*filledTo(t, tight, 10*sample.LitreMinute).FillTimes[0], "the hole counts")
	measure.ApplyBench(l, spec)
	assert.Empty(t, l.Bench.Clashes)
	assert.InDelta(t, 9.9*sample.LitreMinute, l.Supply.FreeAir.Low, 1e-12)
	assert.Greater(t, l.Supply.FreeAir.High, 10*sample.LitreMinute)
	assert.Less(t, l.Supply.FreeAir.High, 14*sample.LitreMinute)

	into := pumped(launcher.Compressor, func(l *launcher.Launcher) {
		l.Paths[l.PathIndex("fire")].OpenIn = pneumatics.SetOf(pneumatics.Charging, pneumatics.Firing)
	})
	measure.ApplyBench(into, spec)
	assert.GreaterOrEqual(t, into.Supply.FreeAir.High, 11*sample.LitreMinute)
	assert.Contains(t, into.Bench.Silent[0].String(), "while it fills air gets into the barrel and out")
	into.Supply.FreeAir = launcher.Band{}
	measure.ApplyBench(into, spec)
	assert.False(t, into.Supply.FreeAir.Set)
	assert.Contains(t, into.Bench.Silent[0].String(), "and not the most")
}

// Of a supply with a curve a filling says how much more or less it delivers than that: the curve of the straight line from 10 L/min to the
// dead head is that line, and a filling at 14 L/min says so. What agrees with a curve leaves it, and says that.
func TestAFillOfACurve(t *testing.T) {
	curve := func(l *launcher.Launcher) {
		s := l.Supply
		s.FreeAir = launcher.Band{}
		s.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 10 * sample.LitreMinute}, {Gauge: s.DeadHead.Nominal, FreeAir: 0}}
	}
	straight := pumped(launcher.Compressor)
	for free, more := range map[float64]bool{10 * sample.LitreMinute: false, 14 * sample.LitreMinute: true} {
		l := pumped(launcher.Compressor, curve)
		measure.ApplyBench(l, filledTo(t, straight, free))
		if !more {
			assert.InEpsilon(t, 13*sample.LitreMinute, l.Supply.MostFreeAir(), 1e-9, "a curve alone may lie 1.3 times as high")
			require.Len(t, l.Bench.Silent, 1)
			assert.Contains(t, l.Bench.Silent[0].String(), "agrees with supply.curve")
			continue
		}
		line := pumped(launcher.Compressor)
		measure.ApplyBench(line, filledTo(t, straight, free))
		require.Len(t, l.Bench.Clashes, 1)
		assert.Greater(t, l.Supply.MostFreeAir(), free)
		assert.InEpsilon(t, line.Supply.MostFreeAir(), l.Supply.MostFreeAir(), 1e-6, "the same line")
		c := new(pneumatics.Circuit)
		l.Supply.Strongest()
		l.Fill(c)
		assert.Greater(t, c.Supply.Delivery(0.2*sample.Bars), free*(1-0.2*sample.Bars/l.Supply.DeadHead.High), "all along the curve")
	}
}

// No reading is left out in silence.
func TestAFillThatIsNotUsedSaysWhy(t *testing.T) {
	spec := filledTo(t, pumped(launcher.Compressor), 10*sample.LitreMinute)
	for want, change := range map[string]func(*launcher.Launcher, *launcher.BenchSpec){
		"too near the dead head": func(l *launcher.Launcher, _ *launcher.BenchSpec) {
			l.Supply.DeadHead = sample.Between("supply.dead_head", 0.39*sample.Bars, 0.45*sample.Bars)
		},
		"the gauge cannot tell": func(_ *launcher.Launcher, s *launcher.BenchSpec) {
			s.FillFrom = launcher.Exact("from", 0.39*sample.Bars)
		},
		"agrees with what the design states": func(l *launcher.Launcher, _ *launcher.BenchSpec) {
			l.Supply.FreeAir = sample.Between("supply.free_air", 9.9*sample.LitreMinute, 10.1*sample.LitreMinute)
		},
		"another person may pump harder": func(l *launcher.Launcher, _ *launcher.BenchSpec) {
			l.Supply.Kind = launcher.HandPump
			l.Supply.FreeAir = sample.Between("supply.free_air", 9.9*sample.LitreMinute, 12*sample.LitreMinute)
		},
	} {
		l, s := pumped(launcher.Compressor), spec
		change(l, &s)
		before := l.Supply.FreeAir
		measure.ApplyBench(l, s)
		assert.Equal(t, before, l.Supply.FreeAir, want)
		require.Len(t, l.Bench.Silent, 1, want)
		assert.Contains(t, l.Bench.Silent[0].String(), want)
	}
}
