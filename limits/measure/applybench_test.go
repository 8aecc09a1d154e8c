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

func cycles(first float64, steps ...float64) []float64 {
	out := []float64{first}
	for _, s := range steps {
		out = append(out, first+s)
	}
	return out
}

// The band of readings is reckoned by hand: the mean, plus and minus the one-sided
// factor for ten readings at 95 % confidence and 99 % coverage, 3.981 (Montgomery and
// Runger, table XII), times the standard deviation, widened by the gauge's error and half of
// what it resolves (the launcher has no gauge: 0.02 bar counts).
func TestBenchCyclesReplaceTheSwitchBands(t *testing.T) {
	l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
		l.Switch.GaugeError = sample.Between("gauge_error", -0.02*sample.Bars, 0.02*sample.Bars)
		l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.30*sample.Bars, 0.50*sample.Bars)
	})
	// Mean 0.4030 bar, standard deviation 421.637 Pa.
	measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("bench.gauge_error", 0.005*sample.Bars),
		CutOuts: cycles(0.40*sample.Bars, 1000, 0, 500, 0, 1000, 0, 0, 500, 0),
		CutIns:  cycles(0.30*sample.Bars, 0, 500)}) // three are too few
	const spread = 3.981 * 421.637
	assert.InDelta(t, 40300-spread-1500, l.Switch.CutOut.Low, 0.5) // the digits of factor and deviation
	assert.InDelta(t, 40300+spread+1500, l.Switch.CutOut.High, 0.5)
	assert.Equal(t, launcher.Measured, l.Switch.CutOut.Origin)
	assert.InDelta(t, 0.32*sample.Bars, l.Switch.CutIn.High, 1e-6*sample.Bars, "too few readings leave the band")
	assert.Zero(t, l.Switch.GaugeError.High, "the gauge it was set by no longer counts")
	require.Len(t, l.Bench.Replaced, 2)
	assert.InDelta(t, 0.50*sample.Bars, l.Bench.Replaced[0].Before.High, 1e-6*sample.Bars)
	assert.Empty(t, l.Bench.Clashes)
}

// A gauge that reads exactly is none that was looked at: where its error is stated as nothing, or less than the finest dial's
// (class 0.1 of EN 837-1), the readings are as uncertain as the gauge on the sensed volume, here of class 2.5 to 1 bar.
func TestAnErrorOfNothingNarrowsNoReading(t *testing.T) {
	for _, stated := range []float64{0, 0.0003} {
		l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
			l.Switch.GaugeError = sample.Between("gauge_error", -0.02*sample.Bars, 0.02*sample.Bars)
			l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.30*sample.Bars, 0.50*sample.Bars)
			l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars), Class: 2.5,
				Graduation: launcher.Exact("", 0.02*sample.Bars)}}
		})
		measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("bench.gauge_error", stated*sample.Bars),
			CutOuts: cycles(0.40*sample.Bars, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)})
		assert.InDelta(t, 0.40+0.025+0.01, l.Switch.CutOut.High/sample.Bars, 1e-9, "%g bar", stated)
	}
}

// Fill times computed with a known delivery give it back: FillTime is checked
// against the closed form in supply_test.go. 1e-3: times are read off a trace.
func TestBenchFillGivesTheDeliveryBack(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Switch = nil // of whose cut-out the finest dial's error, the least that counts, would be 40 Pa
	const q = 9 * sample.LitreMinute
	l.Supply.FreeAir = sample.Between("supply.free_air", 6*sample.LitreMinute, 14*sample.LitreMinute)
	truth := l.Clone()
	truth.Supply.FreeAir = launcher.Exact("supply.free_air", q)
	c := new(pneumatics.Circuit)
	truth.Fill(c)
	time := filling.Time(c, 0, []float64{0}, 0.4*sample.Bars)
	measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("e", 1), FillVolume: launcher.Exact("v", 2e-3),
		FillTo: launcher.Exact("to", 0.4*sample.Bars), FillTimes: []float64{time, time, time}})
	assert.InEpsilon(t, q, l.Supply.FreeAir.Nominal, 1e-3)
	assert.Greater(t, time, 4.5)
	assert.Less(t, l.Supply.FreeAir.Width(), (0.08+0.3/4.5)*q, "half a mark of 0.02 bar at both ends of 0.40 bar is 5 %, and counts for more "+
		"as the delivery falls; a hand is 0.2 s late and another tenth off")
	// Readings with errors give a band that has the truth inside.
	measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("e", 0.01*sample.Bars),
		FillVolume: sample.Between("v", 1.96e-3, 2.04e-3), FillTo: launcher.Exact("to", 0.4*sample.Bars),
		FillTimes: []float64{0.98 * time, time, 1.02 * time}})
	assert.Less(t, l.Supply.FreeAir.Low, q)
	assert.Greater(t, l.Supply.FreeAir.High, q)
}

// TestAFillTooShortForAHand: a hand that stops the watch late takes a second's filling for a weaker supply than it is. Such a reading
// takes nothing away from the most that the supply may deliver.
func TestAFillTooShortForAHand(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Switch = nil
	l.Supply.FreeAir = sample.Between("supply.free_air", 6*sample.LitreMinute, 90*sample.LitreMinute)
	spec := launcher.BenchSpec{GaugeError: launcher.Exact("e", 1), FillVolume: launcher.Exact("v", 2e-3),
		FillTo: launcher.Exact("to", 0.4*sample.Bars), FillTimes: []float64{1, 1, 1}}
	measure.ApplyBench(l, spec)
	assert.InDelta(t, 90*sample.LitreMinute, l.Supply.FreeAir.High, 1e-12)
	assert.Greater(t, l.Supply.FreeAir.Low, 20*sample.LitreMinute)
}

// A relief valve too narrow for the supply balances it above its full flow, and no gauge reads less than that: worked by hand for a hole
// of 0.55 mm with a discharge coefficient of 0.75, chosen as the widest and set lowest, and a pump that delivers 10.2 L/min of free air
// falling in a straight line to 3.2 bar. The choked hole passes, at 293 K,
//
//	q = Cd A p0/sqrt(R T) sqrt(k) (2/(k+1))^((k+1)/(2(k-1)))   (isentropic nozzle, for instance Zucrow and Hoffman, volume 1, from memory)
//
// 1.036e-4 kg/s at 1.45 bar, where the pump gives 1.120e-4, and 1.099e-4 at 1.6 bar against 1.024e-4: both are straight lines, which cross
// at 1.529 bar. A reading of 0.80 bar is of another launcher: it contradicts the design, and what the circuit gives counts. One of 1.6 bar
// is taken.
func TestASteadyReadingBelowTheBalanceContradictsIt(t *testing.T) {
	launch := func(read float64) (*launcher.Launcher, float64) {
		l := sample.Plain(sample.WithRelief(sample.Between("set_pressure", 0.65*sample.Bars, 0.75*sample.Bars),
			sample.Between("full_flow_pressure", 0.85*sample.Bars, 0.95*sample.Bars), 0.55e-3, 0.75), func(l *launcher.Launcher) {
			l.Supply.FreeAir = sample.Between("supply.free_air", 10.2*sample.LitreMinute, 13.8*sample.LitreMinute)
			l.Supply.DeadHead = launcher.Exact("supply.dead_head", 3.2*sample.Bars)
		})
		computed := l.Overcharge().Pressure
		measure.ApplyBench(l, launcher.BenchSpec{GaugeError: launcher.Exact("bench.gauge_error", 0.02*sample.Bars),
			ReliefSteady: []float64{read, read, read}})
		return l, computed
	}
	l, computed := launch(0.80 * sample.Bars)
	require.Len(t, l.Bench.Clashes, 1)
	assert.Equal(t, computed, l.Overcharge().Pressure)
	l, computed = launch(1.6 * sample.Bars)
	assert.Empty(t, l.Bench.Clashes)
	assert.Less(t, l.Overcharge().Pressure, computed)
	for read, clashes := range map[float64]int{1.49: 1, 1.51: 0} { // with 0.03 bar of error on either side of it
		l, _ = launch(read * sample.Bars)
		assert.Len(t, l.Bench.Clashes, clashes, "%g bar", read)
	}
}
