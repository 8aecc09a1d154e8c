package launcher_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

func starts(l *launcher.Launcher, at float64) []float64 {
	return l.StartPressures(circuitOf(l), at, nil)
}

// A volume joined to the sensed one while charging or armed has its pressure; the
// rest is at ambient (by the circuit).
func TestStartPressuresByState(t *testing.T) {
	const at = 0.8 * sample.Bars
	for name, c := range map[string]struct {
		feed launcher.PathSpec
		dose float64
	}{
		"open while charging":       {sample.ValveIn(pneumatics.Charging), at},
		"open while armed":          {sample.ValveIn(pneumatics.Armed), at},
		"open while firing only":    {sample.ValveIn(pneumatics.Firing), 0},
		"open while off or loading": {sample.ValveIn(pneumatics.Off, pneumatics.Loading), 0},
		"never open":                {sample.ValveIn(), 0},
		"a fixed orifice":           {launcher.PathSpec{Kind: pneumatics.Orifice}, at},
		"a hand valve":              {launcher.PathSpec{Kind: pneumatics.HandValve, OpenIn: pneumatics.SetOf(pneumatics.Charging)}, at},
		"a check valve":             {launcher.PathSpec{Kind: pneumatics.Check, CrackingPressure: launcher.Exact("", 0.05*sample.Bars)}, at},
		"a relief valve":            {launcher.PathSpec{Kind: pneumatics.Relief}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, []float64{at, c.dose}, starts(sample.TwoTanks(c.feed), at))
		})
	}
	assert.Equal(t, []float64{at, 0}, starts(sample.TwoTanks(), at), "no path at all")
}

func TestStartPressuresBehindARegulator(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.5*sample.Bars, 0.1*sample.Bars))
	assert.InDeltaSlice(t, []float64{0.8 * sample.Bars, 0.6 * sample.Bars}, starts(l, 0.8*sample.Bars), 1e-6, "set and creep")
	assert.InDeltaSlice(t, []float64{0.4 * sample.Bars, 0.4 * sample.Bars}, starts(l, 0.4*sample.Bars), 1e-6, "no more than what is before it")
	l.Switch.Senses = "dose"
	assert.InDeltaSlice(t, []float64{4 * sample.Bars, 0.5 * sample.Bars}, starts(l, 0.5*sample.Bars), 1e-6,
		"before it up to the supply's dead head")
	l.Supply.DeadHead = launcher.Band{}
	assert.InDeltaSlice(t, []float64{0.5 * sample.Bars, 0.5 * sample.Bars}, starts(l, 0.5*sample.Bars), 1e-6, "no dead head is known")
}

// The way with the highest pressure counts, whatever the order of the paths.
func TestStartPressuresTakeTheHighestWay(t *testing.T) {
	reg, bypass := sample.Regulator(0.3*sample.Bars, 0), sample.ValveIn(pneumatics.Charging)
	reg.Name, bypass.Name = "reg", "bypass"
	for _, feeds := range [][]launcher.PathSpec{{reg, bypass}, {bypass, reg}} {
		assert.Equal(t, []float64{0.8 * sample.Bars, 0.8 * sample.Bars}, starts(sample.TwoTanks(feeds...), 0.8*sample.Bars))
	}
	low, high := sample.Regulator(0.2*sample.Bars, 0), sample.Regulator(0.4*sample.Bars, 0)
	low.Name, high.Name = "low", "high"
	for _, feeds := range [][]launcher.PathSpec{{low, high}, {high, low}} {
		assert.Equal(t, []float64{0.8 * sample.Bars, 0.4 * sample.Bars}, starts(sample.TwoTanks(feeds...), 0.8*sample.Bars))
	}
}

func TestStartPressuresOfAChain(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "third", Volume: launcher.Exact("", 1e-4)},
		launcher.VolumeSpec{Name: "alone", Volume: launcher.Exact("", 1e-4)})
	// listed before what it hangs on
	l.Paths = append([]launcher.PathSpec{{Name: "far", From: "dose", To: "third", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(1*sample.Millimetres, 0.7)}}, l.Paths...)
	assert.Equal(t, []float64{0.8 * sample.Bars, 0.8 * sample.Bars, 0.8 * sample.Bars, 0}, starts(l, 0.8*sample.Bars))
}

// The supply feeds one volume, the switch senses another behind a restriction:
// the fed one stands higher by what its delivery needs.
func TestStartPressuresFedAgainstSensed(t *testing.T) {
	l := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Orifice, Flow: sample.Orifice(0.4*sample.Millimetres, 0.75)})
	l.Switch.Senses = "dose"
	const at = 0.5 * sample.Bars
	got := starts(l, at)
	assert.Equal(t, at, got[1])
	// At the answer the orifice passes the delivery (1 - p/dead head) Q rho. The
	// flow is that of a choked nozzle, 0.0404184 p A/sqrt(T) (NACA Report 1135).
	p := got[0] + 101325
	require.Greater(t, p*0.528, at+101325, "choked")
	orificeFlow := 0.75 * 0.0404184 * p * math.Pi / 4 * 0.16e-6 / math.Sqrt(293.15)
	delivery := (1 - got[0]/(4*sample.Bars)) * 12 * sample.LitreMinute * 101325 / (287.05 * 293.15)
	assert.InEpsilon(t, delivery, orificeFlow, 1e-4, "gas constants of the two tables differ in the fifth digit")

	// A check valve on the way adds its cracking pressure.
	l = sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(8*sample.Millimetres, 0.75),
		CrackingPressure: launcher.Exact("", 0.2*sample.Bars)})
	l.Switch.Senses = "dose"
	got = starts(l, at)
	assert.Greater(t, got[0], at+0.2*sample.Bars)
	assert.Less(t, got[0], at+0.25*sample.Bars, "a wide disc needs little more")
	// The wrong way round nothing passes: the supply goes to its dead head.
	l.Paths[1].From, l.Paths[1].To = "dose", "tank"
	assert.InEpsilon(t, 4*sample.Bars, starts(l, at)[0], 1e-9)

	// A hose in series counts.
	l = sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Orifice, Flow: sample.Orifice(8*sample.Millimetres, 0.75)})
	l.Switch.Senses = "dose"
	wide := starts(l, at)[0]
	l.Paths[1].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 1*sample.Millimetres), Length: launcher.Exact("", 2)}
	assert.Greater(t, starts(l, at)[0], wide+0.1*sample.Bars)
}

// A fed volume that nothing joins to the switch goes to the dead head.
func TestStartPressuresOfAnUnwatchedSupply(t *testing.T) {
	l := sample.TwoTanks()
	l.Switch.Senses = "dose"
	assert.Equal(t, []float64{4 * sample.Bars, 0.5 * sample.Bars}, starts(l, 0.5*sample.Bars))
}

func TestStartPressuresReuseTheSlice(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	buffer := make([]float64, 0, 8)
	got := l.StartPressures(circuitOf(l), 1e4, buffer)
	assert.Same(t, &buffer[:1][0], &got[0])
	assert.True(t, slices.Equal([]float64{1e4, 1e4}, got))
}

// NormalHigh: the top of the cut-out, the gauge's error and what the supply adds
// while the switch reacts, dp = pa Q t/V (isothermal; by hand: 101325 Pa 0.2 L/s
// 0.5 s/2 L = 5066.25 Pa).
func TestNormalHigh(t *testing.T) {
	high := func(changes ...func(*launcher.Launcher)) float64 {
		p, ok := sample.Plain(changes...).NormalHigh()
		require.True(t, ok)
		return p
	}
	banded := func(l *launcher.Launcher) { l.Switch.CutOut = sample.Between("", 0.9*sample.Bars, 1.0*sample.Bars) }
	gauge := func(l *launcher.Launcher) {
		l.Switch.GaugeError = sample.Between("", -0.016*sample.Bars, 0.016*sample.Bars)
	}
	slow := func(l *launcher.Launcher) { l.Switch.ReactionTime = sample.Between("", 0, 0.5) }
	assert.Equal(t, 1.0*sample.Bars, high(banded))
	assert.InEpsilon(t, 1.016*sample.Bars, high(banded, gauge), sample.Rounding)
	assert.InEpsilon(t, 1.016*sample.Bars+5066.25, high(banded, gauge, slow), sample.Rounding)
	assert.InEpsilon(t, 1.0*sample.Bars+5066.25, high(banded, slow, func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }),
		sample.Rounding,
		"an unknown dead head does not stop the overshoot")
	assert.InEpsilon(t, 1.003*sample.Bars, high(banded, slow, func(l *launcher.Launcher) {
		l.Supply.DeadHead = launcher.Exact("", 1.003*sample.Bars)
	}), sample.Rounding,
		"a known one does")
	assert.Equal(t, 1.0*sample.Bars, high(banded, slow, func(l *launcher.Launcher) { l.Supply = nil }), "no supply, no overshoot")

	noSwitch := func(l *launcher.Launcher) { l.Switch = nil }
	assert.Equal(t, 4.4*sample.Bars, high(noSwitch, func(l *launcher.Launcher) {
		l.Supply.DeadHead = sample.Between("", 3.6*sample.Bars,
			4.4*sample.Bars)
	}))
	for name, change := range map[string]func(*launcher.Launcher){
		"no supply":    func(l *launcher.Launcher) { l.Supply = nil },
		"no dead head": func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} },
	} {
		_, ok := sample.Plain(noSwitch, change).NormalHigh()
		assert.False(t, ok, name)
		_, ok = sample.Plain(noSwitch, change).SoakedHigh()
		assert.False(t, ok, name)
	}
}

// SoakedHigh: sealed at the coldest ambient temperature, heated to the hottest
// (Gay-Lussac). By hand: (95000 + 101325) 318.15/281.15 - 101325 = 120836.8 Pa.
// Filled at 20 degC, 45 degC in the sun: (95000 + 101325) 318.15/293.15 - 101325 =
// 111743 Pa.
func TestSoakedHigh(t *testing.T) {
	soaked := func(low, high, hot float64) float64 {
		p, ok := sample.Plain(func(l *launcher.Launcher) {
			l.Ambient.Temperature = sample.Between("", sample.Kelvin0+low, sample.Kelvin0+high)
			l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+hot)
		}).SoakedHigh()
		require.True(t, ok)
		return p
	}
	assert.InDelta(t, 120836.8, soaked(8, 28, 45), 0.5, "a decimal of the hand calculation")
	assert.InDelta(t, 1.117*sample.Bars, soaked(20, 20, 45), 50, "three decimals printed")
	assert.Equal(t, 0.95*sample.Bars, soaked(20, 20, 20))
	assert.InEpsilon(t, (95000+101325)*(sample.Kelvin0+30)/(sample.Kelvin0+10)-101325, soaked(10, 30, 15), sample.Rounding,
		"the hottest is never below the ambient's own top")
}

// A volume before a regulator that the sensed tank itself feeds has the tank's
// pressure: the switch that stops the supply limits it too. Only where the supply
// gets there past the sensed volume is it the dead head (by the circuit).
func TestStartPressuresBeforeARegulatorFedByTheSensedTank(t *testing.T) {
	const at = 0.8 * sample.Bars
	withMid := func(change func(l *launcher.Launcher)) *launcher.Launcher {
		feed, reg := sample.ValveIn(pneumatics.Charging), sample.Regulator(0.2*sample.Bars, 0)
		feed.From, feed.To = "tank", "mid"
		reg.From, reg.To = "mid", "dose"
		l := sample.TwoTanks(reg, feed)
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 0.2e-3)})
		change(l)
		return l
	}
	assert.InDeltaSlice(t, []float64{at, 0.2 * sample.Bars, at}, starts(withMid(func(*launcher.Launcher) {}), at), 1e-6)
	back := launcher.PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check, Flow: sample.Orifice(2*sample.Millimetres, 0.75)}
	assert.InDeltaSlice(t, []float64{at, at, at}, starts(withMid(func(l *launcher.Launcher) { l.Paths = append(l.Paths, back) }), at), 1e-6,
		"a check valve may pass")
	past := withMid(func(l *launcher.Launcher) { l.Supply.Feeds, l.Switch.Senses = "mid", "dose" })
	assert.InDelta(t, 4*sample.Bars, starts(past, 0.2*sample.Bars)[2], 1e-6, "the supply gets there past the switch")
}

// A volume of which nothing is known feeds two others through regulators: it has
// at least the pressure of the higher one, in whatever order they are listed.
func TestStartPressuresOfWhatFeedsTwoRegulators(t *testing.T) {
	const at = 0.8 * sample.Bars
	between := func(name, from, to string, set float64) launcher.PathSpec {
		p := sample.Regulator(set, 0)
		p.Name, p.From, p.To = name, from, to
		return p
	}
	down := between("down", "tank", "dose", 0.3*sample.Bars)
	toDose, toTank := between("to dose", "mid", "dose", sample.Bars), between("to tank", "mid", "tank", sample.Bars)
	for _, feeds := range [][]launcher.PathSpec{{down, toDose, toTank}, {down, toTank, toDose}, {toDose, down, toTank}} {
		l := sample.TwoTanks(feeds...)
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 0.2e-3)})
		l.Supply.DeadHead = launcher.Band{}
		assert.InDeltaSlice(t, []float64{at, at, at}, starts(l, at), 1e-6)
	}
}

// Known and fed: a volume behind one regulator is not raised by what another lets
// through back to it; one that the supply feeds past the switch reaches the dead head,
// though a check valve from the sensed volume gives it a pressure already.
func TestStartPressuresBackThroughARegulator(t *testing.T) {
	const at = 0.8 * sample.Bars
	mid := launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 0.2e-3)}
	down, up := sample.Regulator(0.3*sample.Bars, 0), sample.Regulator(sample.Bars, 0)
	down.Name, down.From, down.To = "down", "tank", "mid"
	up.Name, up.From, up.To = "up", "mid", "tank"
	ring := sample.TwoTanks(down, up)
	ring.Volumes = append(ring.Volumes, mid)
	assert.InDeltaSlice(t, []float64{at, 0, 0.3 * sample.Bars}, starts(ring, at), 1e-6)

	out := sample.Regulator(sample.Bars, 0)
	out.Name, out.From, out.To = "out", "mid", "dose"
	back := launcher.PathSpec{Name: "back", From: "dose", To: "mid", Kind: pneumatics.Check, Flow: sample.Orifice(2*sample.Millimetres, 0.75)}
	fed := sample.TwoTanks(out, back)
	fed.Volumes = append(fed.Volumes, mid)
	fed.Supply.Feeds, fed.Switch.Senses = "mid", "dose"
	assert.InDelta(t, 4*sample.Bars, starts(fed, at)[2], 1e-6)
}
