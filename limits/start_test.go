package limits

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

func starts(l *Launcher, at float64) []float64 { return l.StartPressures(circuitOf(l), at, nil) }

// A volume joined to the sensed one while charging or armed has its pressure; the
// rest is at ambient (by the circuit).
func TestStartPressuresByState(t *testing.T) {
	const at = 0.8 * bars
	for name, c := range map[string]struct {
		feed PathSpec
		dose float64
	}{
		"open while charging":       {valveIn(pneumatics.Charging), at},
		"open while armed":          {valveIn(pneumatics.Armed), at},
		"open while firing only":    {valveIn(pneumatics.Firing), 0},
		"open while off or loading": {valveIn(pneumatics.Off, pneumatics.Loading), 0},
		"never open":                {valveIn(), 0},
		"a fixed orifice":           {PathSpec{Kind: pneumatics.Orifice}, at},
		"a hand valve":              {PathSpec{Kind: pneumatics.HandValve, OpenIn: pneumatics.SetOf(pneumatics.Charging)}, at},
		"a check valve":             {PathSpec{Kind: pneumatics.Check, CrackingPressure: Exact("", 0.05*bars)}, at},
		"a relief valve":            {PathSpec{Kind: pneumatics.Relief}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, []float64{at, c.dose}, starts(twoTanks(c.feed), at))
		})
	}
	assert.Equal(t, []float64{at, 0}, starts(twoTanks(), at), "no path at all")
}

func TestStartPressuresBehindARegulator(t *testing.T) {
	l := twoTanks(regulator(0.5*bars, 0.1*bars))
	assert.InDeltaSlice(t, []float64{0.8 * bars, 0.6 * bars}, starts(l, 0.8*bars), 1e-6, "set and creep")
	assert.InDeltaSlice(t, []float64{0.4 * bars, 0.4 * bars}, starts(l, 0.4*bars), 1e-6, "no more than what is before it")
	l.Switch.Senses = "dose"
	assert.InDeltaSlice(t, []float64{4 * bars, 0.5 * bars}, starts(l, 0.5*bars), 1e-6, "before it up to the supply's dead head")
	l.Supply.DeadHead = Band{}
	assert.InDeltaSlice(t, []float64{0.5 * bars, 0.5 * bars}, starts(l, 0.5*bars), 1e-6, "no dead head is known")
}

// The way with the highest pressure counts, whatever the order of the paths.
func TestStartPressuresTakeTheHighestWay(t *testing.T) {
	reg, bypass := regulator(0.3*bars, 0), valveIn(pneumatics.Charging)
	reg.Name, bypass.Name = "reg", "bypass"
	for _, feeds := range [][]PathSpec{{reg, bypass}, {bypass, reg}} {
		assert.Equal(t, []float64{0.8 * bars, 0.8 * bars}, starts(twoTanks(feeds...), 0.8*bars))
	}
	low, high := regulator(0.2*bars, 0), regulator(0.4*bars, 0)
	low.Name, high.Name = "low", "high"
	for _, feeds := range [][]PathSpec{{low, high}, {high, low}} {
		assert.Equal(t, []float64{0.8 * bars, 0.4 * bars}, starts(twoTanks(feeds...), 0.8*bars))
	}
}

func TestStartPressuresOfAChain(t *testing.T) {
	l := twoTanks(valveIn(pneumatics.Charging))
	l.Volumes = append(l.Volumes, VolumeSpec{Name: "third", Volume: Exact("", 1e-4)}, VolumeSpec{Name: "alone", Volume: Exact("", 1e-4)})
	// listed before what it hangs on
	l.Paths = append([]PathSpec{{Name: "far", From: "dose", To: "third", Kind: pneumatics.Orifice, Flow: orifice(1*millimetres, 0.7)}}, l.Paths...)
	assert.Equal(t, []float64{0.8 * bars, 0.8 * bars, 0.8 * bars, 0}, starts(l, 0.8*bars))
}

// The supply feeds one volume, the switch senses another behind a restriction:
// the fed one stands higher by what its delivery needs.
func TestStartPressuresFedAgainstSensed(t *testing.T) {
	l := twoTanks(PathSpec{Kind: pneumatics.Orifice, Flow: orifice(0.4*millimetres, 0.75)})
	l.Switch.Senses = "dose"
	const at = 0.5 * bars
	got := starts(l, at)
	assert.Equal(t, at, got[1])
	// At the answer the orifice passes the delivery (1 - p/dead head) Q rho. The
	// flow is that of a choked nozzle, 0.0404184 p A/sqrt(T) (NACA Report 1135).
	p := got[0] + 101325
	require.Greater(t, p*0.528, at+101325, "choked")
	orificeFlow := 0.75 * 0.0404184 * p * math.Pi / 4 * 0.16e-6 / math.Sqrt(293.15)
	delivery := (1 - got[0]/(4*bars)) * 12 * litreMinute * 101325 / (287.05 * 293.15)
	assert.InEpsilon(t, delivery, orificeFlow, 1e-4, "gas constants of the two tables differ in the fifth digit")

	// A check valve on the way adds its cracking pressure.
	l = twoTanks(PathSpec{Kind: pneumatics.Check, Flow: orifice(8*millimetres, 0.75), CrackingPressure: Exact("", 0.2*bars)})
	l.Switch.Senses = "dose"
	got = starts(l, at)
	assert.Greater(t, got[0], at+0.2*bars)
	assert.Less(t, got[0], at+0.25*bars, "a wide disc needs little more")
	// The wrong way round nothing passes: the supply goes to its dead head.
	l.Paths[1].From, l.Paths[1].To = "dose", "tank"
	assert.InEpsilon(t, 4*bars, starts(l, at)[0], 1e-9)

	// A hose in series counts.
	l = twoTanks(PathSpec{Kind: pneumatics.Orifice, Flow: orifice(8*millimetres, 0.75)})
	l.Switch.Senses = "dose"
	wide := starts(l, at)[0]
	l.Paths[1].Hose = &HoseSpec{Bore: Exact("", 1*millimetres), Length: Exact("", 2)}
	assert.Greater(t, starts(l, at)[0], wide+0.1*bars)
}

// A fed volume that nothing joins to the switch goes to the dead head.
func TestStartPressuresOfAnUnwatchedSupply(t *testing.T) {
	l := twoTanks()
	l.Switch.Senses = "dose"
	assert.Equal(t, []float64{4 * bars, 0.5 * bars}, starts(l, 0.5*bars))
}

func TestStartPressuresReuseTheSlice(t *testing.T) {
	l := twoTanks(valveIn(pneumatics.Charging))
	buffer := make([]float64, 0, 8)
	got := l.StartPressures(circuitOf(l), 1e4, buffer)
	assert.Same(t, &buffer[:1][0], &got[0])
	assert.True(t, slices.Equal([]float64{1e4, 1e4}, got))
}

// NormalHigh: the top of the cut-out, the gauge's error and what the supply adds
// while the switch reacts, dp = pa Q t/V (isothermal; by hand: 101325 Pa 0.2 L/s
// 0.5 s/2 L = 5066.25 Pa).
func TestNormalHigh(t *testing.T) {
	high := func(changes ...func(*Launcher)) float64 {
		p, ok := plain(changes...).NormalHigh()
		require.True(t, ok)
		return p
	}
	banded := func(l *Launcher) { l.Switch.CutOut = between("", 0.9*bars, 1.0*bars) }
	gauge := func(l *Launcher) { l.Switch.GaugeError = between("", -0.016*bars, 0.016*bars) }
	slow := func(l *Launcher) { l.Switch.ReactionTime = between("", 0, 0.5) }
	assert.Equal(t, 1.0*bars, high(banded))
	assert.InEpsilon(t, 1.016*bars, high(banded, gauge), rounding)
	assert.InEpsilon(t, 1.016*bars+5066.25, high(banded, gauge, slow), rounding)
	assert.InEpsilon(t, 1.0*bars+5066.25, high(banded, slow, func(l *Launcher) { l.Supply.DeadHead = Band{} }), rounding,
		"an unknown dead head does not stop the overshoot")
	assert.InEpsilon(t, 1.003*bars, high(banded, slow, func(l *Launcher) { l.Supply.DeadHead = Exact("", 1.003*bars) }), rounding,
		"a known one does")
	assert.Equal(t, 1.0*bars, high(banded, slow, func(l *Launcher) { l.Supply = nil }), "no supply, no overshoot")

	noSwitch := func(l *Launcher) { l.Switch = nil }
	assert.Equal(t, 4.4*bars, high(noSwitch, func(l *Launcher) { l.Supply.DeadHead = between("", 3.6*bars, 4.4*bars) }))
	for name, change := range map[string]func(*Launcher){
		"no supply":    func(l *Launcher) { l.Supply = nil },
		"no dead head": func(l *Launcher) { l.Supply.DeadHead = Band{} },
	} {
		_, ok := plain(noSwitch, change).NormalHigh()
		assert.False(t, ok, name)
		_, ok = plain(noSwitch, change).SoakedHigh()
		assert.False(t, ok, name)
	}
}

// SoakedHigh: sealed at the coldest ambient temperature, heated to the hottest
// (Gay-Lussac). By hand: (95000 + 101325) 318.15/281.15 - 101325 = 120836.8 Pa.
// Filled at 20 degC, 45 degC in the sun: (95000 + 101325) 318.15/293.15 - 101325 =
// 111743 Pa.
func TestSoakedHigh(t *testing.T) {
	soaked := func(low, high, hot float64) float64 {
		p, ok := plain(func(l *Launcher) {
			l.Ambient.Temperature = between("", kelvin0+low, kelvin0+high)
			l.Ambient.Hottest = Exact("", kelvin0+hot)
		}).SoakedHigh()
		require.True(t, ok)
		return p
	}
	assert.InDelta(t, 120836.8, soaked(8, 28, 45), 0.5, "a decimal of the hand calculation")
	assert.InDelta(t, 1.117*bars, soaked(20, 20, 45), 50, "three decimals printed")
	assert.Equal(t, 0.95*bars, soaked(20, 20, 20))
	assert.InEpsilon(t, (95000+101325)*(kelvin0+30)/(kelvin0+10)-101325, soaked(10, 30, 15), rounding,
		"the hottest is never below the ambient's own top")
}

// A volume before a regulator that the sensed tank itself feeds has the tank's
// pressure: the switch that stops the supply limits it too. Only where the supply
// gets there past the sensed volume is it the dead head (by the circuit).
func TestStartPressuresBeforeARegulatorFedByTheSensedTank(t *testing.T) {
	const at = 0.8 * bars
	withMid := func(change func(l *Launcher)) *Launcher {
		feed, reg := valveIn(pneumatics.Charging), regulator(0.2*bars, 0)
		feed.From, feed.To = "tank", "mid"
		reg.From, reg.To = "mid", "dose"
		l := twoTanks(reg, feed)
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "mid", Volume: Exact("volumes.mid.volume", 0.2e-3)})
		change(l)
		return l
	}
	assert.InDeltaSlice(t, []float64{at, 0.2 * bars, at}, starts(withMid(func(*Launcher) {}), at), 1e-6)
	back := PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check, Flow: orifice(2*millimetres, 0.75)}
	assert.InDeltaSlice(t, []float64{at, at, at}, starts(withMid(func(l *Launcher) { l.Paths = append(l.Paths, back) }), at), 1e-6, "a check valve may pass")
	past := withMid(func(l *Launcher) { l.Supply.Feeds, l.Switch.Senses = "mid", "dose" })
	assert.InDelta(t, 4*bars, starts(past, 0.2*bars)[2], 1e-6, "the supply gets there past the switch")
}

// A volume of which nothing is known feeds two others through regulators: it has
// at least the pressure of the higher one, in whatever order they are listed.
func TestStartPressuresOfWhatFeedsTwoRegulators(t *testing.T) {
	const at = 0.8 * bars
	between := func(name, from, to string, set float64) PathSpec {
		p := regulator(set, 0)
		p.Name, p.From, p.To = name, from, to
		return p
	}
	down := between("down", "tank", "dose", 0.3*bars)
	toDose, toTank := between("to dose", "mid", "dose", bars), between("to tank", "mid", "tank", bars)
	for _, feeds := range [][]PathSpec{{down, toDose, toTank}, {down, toTank, toDose}, {toDose, down, toTank}} {
		l := twoTanks(feeds...)
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "mid", Volume: Exact("volumes.mid.volume", 0.2e-3)})
		l.Supply.DeadHead = Band{}
		assert.InDeltaSlice(t, []float64{at, at, at}, starts(l, at), 1e-6)
	}
}
