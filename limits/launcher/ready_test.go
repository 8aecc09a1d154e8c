package launcher_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

func ready(l *launcher.Launcher, at float64) []float64 {
	return l.ReadyPressures(circuitOf(l), at, nil)
}

// What stands in the supplied volume goes on flowing into the sensed one after the switch
// has stopped the supply: two rigid volumes that are joined without loss of energy end at
// sum(p V)/sum(V) (first law, ideal gas). The supplied one is taken as if it had lost nothing.
func TestReadyPressuresCreepOn(t *testing.T) {
	l := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Orifice, Flow: sample.Orifice(0.4*sample.Millimetres, 0.75)})
	l.Switch.Senses = "dose"
	const at = 0.36 * sample.Bars
	trip := starts(l, at)
	require.Greater(t, trip[0], 2*at, "the tank stands far above the dose when its switch trips")
	tank, dose := l.Volumes[0].Volume.Nominal, l.Volumes[1].Volume.Nominal
	got := ready(l, at)
	assert.Equal(t, trip[0], got[0])
	assert.InEpsilon(t, (trip[0]*tank+at*dose)/(tank+dose), got[1], 1e-12)

	// The simulator agrees: supply off, the path open, no heat to the walls.
	c := circuitOf(l)
	at0 := func(gauge float64) pneumatics.Condition {
		return pneumatics.Condition{Pressure: c.Ambient.Pressure + gauge, Temperature: c.Ambient.Temperature}
	}
	var sim pneumatics.Sim
	end := sim.Run(c, &pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Armed, NoProjectile: true, Until: 900,
		Volumes: []pneumatics.Condition{at0(trip[0]), at0(at)}}, pneumatics.Options{})
	require.Empty(t, end.Reason)
	assert.InEpsilon(t, got[1], end.Volumes[1].Pressure-c.Ambient.Pressure, 1e-3, "the last bit takes for ever")

	// With the switch on the supplied volume nothing stands higher.
	l.Switch.Senses = "tank"
	assert.Equal(t, starts(l, at), ready(l, at))
}

// A vessel hung on the supplied one has its pressure; behind the sensed one it gets what balances.
func TestReadyPressuresOfNeighbours(t *testing.T) {
	l := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Orifice, Flow: sample.Orifice(0.4*sample.Millimetres, 0.75)})
	l.Switch.Senses = "dose"
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "side", Volume: launcher.Exact("", 1e-3)},
		launcher.VolumeSpec{Name: "far", Volume: launcher.Exact("", 1e-4)})
	join := func(name, from, to string) launcher.PathSpec {
		return launcher.PathSpec{Name: name, From: from, To: to, Kind: pneumatics.Orifice, Flow: sample.Orifice(1*sample.Millimetres, 0.7)}
	}
	l.Paths = append(l.Paths, join("branch", "tank", "side"), join("onward", "dose", "far"))
	got := ready(l, 0.36*sample.Bars)
	assert.Equal(t, got[0], got[2], "as high as the tank")
	assert.Greater(t, got[1], 0.36*sample.Bars)
	assert.Equal(t, got[1], got[3])

	// A check valve that lets nothing out of the supplied volume keeps it there.
	l = sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Check, From: "dose", To: "tank", Flow: sample.Orifice(1*sample.Millimetres, 0.7)})
	l.Switch.Senses = "dose"
	assert.Equal(t, 0.36*sample.Bars, ready(l, 0.36*sample.Bars)[1])
}

// A dose behind a regulator that does not relieve is sealed: filled at 5 degC and left at 55 degC it has
// (p0 + pa) T/T0 - pa (ideal gas at constant volume).
func TestReadyPressuresSealedBehindARegulator(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.5*sample.Bars, 0.1*sample.Bars))
	l.Ambient.Temperature = launcher.Exact("", 278.15)
	l.Ambient.Hottest = launcher.Exact("", 328.15)
	pa := l.Ambient.Pressure.High
	hot := (0.6*sample.Bars+pa)*328.15/278.15 - pa
	assert.InDelta(t, hot, ready(l, 2*sample.Bars)[1], 1e-6)
	assert.Equal(t, 0.7*sample.Bars, ready(l, 0.7*sample.Bars)[1], "no more than what is before it")
	assert.InDelta(t, 0.6*sample.Bars, starts(l, 2*sample.Bars)[1], 1e-6, "at once after filling")
	l.Paths[1].Relieving = true
	assert.InDelta(t, 0.6*sample.Bars, ready(l, 2*sample.Bars)[1], 1e-6, "one that relieves lets it out")
}

// What joins two volumes in any state before a shot, or once somebody turns a tap, has filled the one from the other (by the circuit);
// a path that opens only for the shot has not.
func TestReadyPressuresOfWhatWasJoinedBefore(t *testing.T) {
	const at, set = 0.8 * sample.Bars, 0.2 * sample.Bars
	hand := func(p launcher.PathSpec) launcher.PathSpec { p.Kind = pneumatics.HandValve; return p }
	unpowered := sample.ValveIn()
	unpowered.Unpowered = pneumatics.Open
	for name, c := range map[string]struct {
		bypass launcher.PathSpec
		dose   float64
	}{
		"while loading":            {sample.ValveIn(pneumatics.Loading), at},
		"while off":                {sample.ValveIn(pneumatics.Off), at},
		"without power":            {unpowered, at},
		"a tap of no state":        {hand(sample.ValveIn()), at},
		"a solenoid of no state":   {sample.ValveIn(), set},
		"while firing only":        {sample.ValveIn(pneumatics.Firing), set},
		"a tap while firing only":  {hand(sample.ValveIn(pneumatics.Firing)), set},
		"a relief valve":           {launcher.PathSpec{Kind: pneumatics.Relief}, set},
		"a tap to the open":        {launcher.PathSpec{Kind: pneumatics.HandValve, From: "dose", To: "atmosphere"}, set},
		"a tap between, other way": {launcher.PathSpec{Kind: pneumatics.HandValve, From: "dose", To: "tank"}, at},
	} {
		t.Run(name, func(t *testing.T) {
			l := sample.TwoTanks(sample.Regulator(set, 0), c.bypass)
			l.Paths[len(l.Paths)-2].Relieving = true
			circuit := circuitOf(l)
			before := circuitOf(l)
			assert.InDeltaSlice(t, []float64{at, c.dose}, l.ReadyPressures(circuit, at, nil), 1e-6)
			assert.Equal(t, before.Paths, circuit.Paths, "the circuit is as it was")
		})
	}
}
