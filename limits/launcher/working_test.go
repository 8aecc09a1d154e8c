package launcher_test

import (
	"math"
	"testing"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pumped is a launcher that a person pumps up, without a switch; a pump of up to 11 bar.
func pumped(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	return sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
		l.Switch, l.Supply.Kind = nil, launcher.HandPump
		l.Supply.DeadHead = sample.Between("", 9*sample.Bars, 11*sample.Bars)
	}}, changes...)...)
}

func lifts(set float64, bore float64) func(*launcher.Launcher) {
	return sample.WithRelief(sample.Between("", 0.9*set, 1.1*set), sample.Between("", 1.3*set, 1.5*set), bore, 0.62)
}

// Without a switch a relief valve that carries the pump ends the filling, at its full flow and the top of its
// tolerance; one that does not carry the peak of the stroke does not, nor does one that is stuck. That one stuck shut
// is a single fault, at the dead head.
func TestARelievedPumpWorksAtTheFullFlow(t *testing.T) {
	const set = 0.15 * sample.Bars
	held := pumped(lifts(set, 5*sample.Millimetres))
	assert.Equal(t, launcher.StopRelief, held.Working().By)
	high, ok := held.NormalHigh()
	require.True(t, ok)
	assert.InEpsilon(t, 1.5*set, high, sample.Rounding, "1.4 set, shifted by 0.1 set, is its own upper end")
	assert.InEpsilon(t, 11*sample.Bars, held.FaultOvercharge().Pressure, sample.Rounding)
	assert.Contains(t, held.FaultOvercharge().Why.String(), "relief stuck shut")
	at, _ := held.FaultHigh()
	assert.InEpsilon(t, 11*sample.Bars, at, sample.Rounding)
	assert.InEpsilon(t, 11*sample.Bars, held.VesselPressures()[0].Fault, sample.Rounding)

	dead, _ := pumped().NormalHigh()
	assert.Equal(t, 11*sample.Bars, dead)
	// 12 L/min through 1.3 mm at 0.2 bar: 0.62 x 1.33 mm2 x sqrt(2 x 0.2e5/1.2) pass 9 L/min.
	small, _ := pumped(lifts(set, 1.3*sample.Millimetres)).NormalHigh()
	assert.Equal(t, 11*sample.Bars, small, "it does not carry the pump")
	strokes := func(l *launcher.Launcher) { l.Supply.PeakFlow = launcher.Exact("", 200*sample.LitreMinute) }
	jerked, _ := pumped(lifts(set, 5*sample.Millimetres), strokes).NormalHigh()
	assert.Equal(t, 11*sample.Bars, jerked, "it carries the mean, not the stroke")
	stuck := pumped(lifts(set, 5*sample.Millimetres))
	stuck.Paths[1].Flow = launcher.FlowSpec{}
	alone, _ := stuck.NormalHigh()
	assert.Equal(t, 11*sample.Bars, alone)
}

// The sun lifts the relief valve that ends the filling; where a check valve keeps the air of a second volume from
// it, that air gets warmer and stays.
func TestAReliefValveLetsOutTheHeatOfWhatIsJoinedToIt(t *testing.T) {
	hot := func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", 330) }
	l := pumped(lifts(0.15*sample.Bars, 5*sample.Millimetres), hot)
	high, _ := l.NormalHigh()
	soaked, _ := l.SoakedHigh()
	assert.Equal(t, high, soaked)
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Check,
		Flow: sample.Orifice(2e-3, 0.75)})
	soaked, _ = l.SoakedHigh()
	assert.InEpsilon(t, l.Soak(high), soaked, sample.Rounding)
	assert.Greater(t, soaked, 1.3*high)
}

// A mark on the gauge ends the filling with the gauge's error, an item of the checklist keeps it; above the relief
// valve's full flow it means nothing. Pumping on ends at the relief valve, or at the dead head.
func TestAMarkOnTheGauge(t *testing.T) {
	mark := func(l *launcher.Launcher) {
		l.Supply.PumpedTo = sample.Between("", 0.25*sample.Bars, 0.35*sample.Bars)
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1*sample.Bars), Class: 2.5}}
	}
	l := pumped(mark)
	w := l.Working()
	assert.Equal(t, launcher.StopMark, w.By)
	assert.InDelta(t, 0.375*sample.Bars, w.High, 1e-6)
	assert.InDelta(t, 0.225*sample.Bars, w.Low, 1e-6)
	_, item := l.Kept()
	assert.Equal(t, finding.ItemPumpMark, item)
	assert.Equal(t, 11*sample.Bars, l.Overcharge().Pressure)
	weak := pumped(mark, func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.4*sample.Bars) })
	assert.False(t, weak.Overcharge().Known, "a stronger person goes on, beyond what one of them reached")
	weak = pumped(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.22*sample.Bars) })
	condition, item := weak.Kept()
	assert.Equal(t, finding.ItemPumpMark, item)
	assert.Contains(t, condition.String(), "nobody pumps harder than to 0.22 bar")
	relieved := pumped(mark, lifts(0.5*sample.Bars, 8*sample.Millimetres))
	assert.Equal(t, launcher.StopMark, relieved.Working().By)
	assert.InEpsilon(t, 0.75*sample.Bars, relieved.Overcharge().Pressure, sample.Rounding)
	assert.Equal(t, launcher.StopRelief, pumped(mark, lifts(0.15*sample.Bars, 8*sample.Millimetres)).Working().By)
}

// A timer that fills what is empty: at a constant delivery p = pa Q t/V (isothermal), at most gamma times that; never
// above the dead head. On top of what is left it limits nothing.
func TestATimerFillsByFreeAirAndTime(t *testing.T) {
	timed := func(changes ...func(*launcher.Launcher)) *launcher.Launcher {
		return sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Switch = nil
			l.Supply.RunTime, l.Supply.FromEmpty = launcher.Exact("", 3), launcher.Yes
			l.Supply.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 2e-4}, {Gauge: 3.9 * sample.Bars, FreeAir: 2e-4}, {Gauge: 4 * sample.Bars}}
			l.Supply.FreeAir = launcher.Exact("", 2e-4)
		}}, changes...)...)
	}
	w := timed().Working()
	assert.Equal(t, launcher.StopTimer, w.By)
	const plain = 101325 * 2e-4 * 3 / 2e-3
	assert.InEpsilon(t, plain, w.Nominal, 1e-9)
	assert.InEpsilon(t, 1.4*plain, w.High, 1e-9)
	long := timed(func(l *launcher.Launcher) { l.Supply.RunTime = launcher.Exact("", 600) }).Working()
	assert.Equal(t, 4*sample.Bars, long.High)
	wide := timed(func(l *launcher.Launcher) {
		l.Supply.RunTime, l.Supply.FreeAir = sample.Between("", 2, 4), launcher.Band{Set: true, Nominal: 2e-4, Low: 1e-4, High: 3e-4}
	}).Working()
	assert.InEpsilon(t, 1.4*plain*4/3*1.5, wide.High, 1e-9)
	assert.InEpsilon(t, plain*2/3*0.5, wide.Low, 1e-9)
	again := timed(func(l *launcher.Launcher) { l.Supply.FromEmpty = launcher.Unanswered }).Working()
	assert.Equal(t, launcher.StopDeadHead, again.By)
	_, item := timed().Kept()
	assert.Equal(t, finding.ItemTimerEmpty, item)
}

// A vessel that comes filled stands at what it was filled to, heat included; what fills it by mistake is a fault,
// and not known where nobody says.
func TestAVesselThatComesFilled(t *testing.T) {
	filled := func(changes ...func(*launcher.Launcher)) *launcher.Launcher {
		return sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Switch, l.Supply = nil, nil
			l.Volumes[0].FilledTo = sample.Between("", 0.4*sample.Bars, 0.6*sample.Bars)
			l.Ambient.Hottest = launcher.Exact("", 320)
		}}, changes...)...)
	}
	l := filled()
	w := l.Working()
	assert.Equal(t, launcher.Working{By: launcher.StopPrefill, Low: 0.4 * sample.Bars, Nominal: 0.5 * sample.Bars, High: 0.6 * sample.Bars}, w)
	soaked, _ := l.SoakedHigh()
	assert.InEpsilon(t, (0.6*sample.Bars+101325)*320/293.15-101325, soaked, 1e-12, "ideal gas at constant volume")
	assert.False(t, l.Overcharge().Known)
	assert.True(t, math.IsNaN(l.VesselPressures()[0].Fault))
	over := filled(func(l *launcher.Launcher) { l.Volumes[0].FillerReaches = launcher.Exact("", 3*sample.Bars) })
	assert.InEpsilon(t, (3*sample.Bars+101325)*320/293.15-101325, over.VesselPressures()[0].Fault, 1e-12)
}

// A regulator that fails open passes what its seat passes at the pressure before it: a relief valve that carries what
// the regulator delivers in its range may not carry that. By hand: 5 mm at 0.62 pass 0.95 bar gauge, 8 bar through
// 3 mm choked pass about (9/1.95) x (3/5)^2/0.62 = 2.7 times as much, through 1 mm 0.30 times.
func TestAFailedRegulatorDeliversWhatItsSeatPasses(t *testing.T) {
	main := func(bore float64) *launcher.Launcher {
		return sample.Plain(func(l *launcher.Launcher) {
			l.Supply.Kind, l.Supply.DeadHead = launcher.ShopAir, launcher.Exact("", 1.2*sample.Bars)
			l.Supply.SourcePressure, l.Supply.RegulatorBore = launcher.Exact("", 8*sample.Bars), launcher.Exact("", bore)
		}, sample.WithRelief(launcher.Exact("", 0.75*sample.Bars), launcher.Exact("", 0.95*sample.Bars), 5*sample.Millimetres, 0.62))
	}
	held, open := main(1*sample.Millimetres).Overcharge(), main(3*sample.Millimetres).Overcharge()
	assert.InEpsilon(t, 0.95*sample.Bars, held.Pressure, sample.Rounding)
	assert.Greater(t, open.Pressure, 2*sample.Bars)
	assert.LessOrEqual(t, open.Pressure, 8*sample.Bars)
	assert.Contains(t, open.Why.String(), "does not carry")
	none := main(3 * sample.Millimetres)
	none.Paths = none.Paths[:1]
	assert.Equal(t, 8*sample.Bars, none.Overcharge().Pressure)
}

// Nobody is told to pump on until the supply stops where a mark or a relief valve comes first.
func TestATestIsFilledNoFurtherThanItWorks(t *testing.T) {
	assert.Equal(t, "Charge until the supply stops by itself", sample.Plain().HowFilled(""))
	l := pumped(lifts(0.15*sample.Bars, 8*sample.Millimetres))
	assert.Equal(t, "Charge from empty until the relief valve blows, then stop", l.HowFilled("from empty "))
	l.Supply.PumpedTo = launcher.Exact("", 0.1*sample.Bars)
	assert.Equal(t, "Pump to the mark on the gauge, no further", l.HowFilled(""))
}
