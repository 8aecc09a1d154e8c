package limits

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// answered solves a launcher whose energy limit is reached at 1.1 bar, without the
// searches that find such a pressure.
func answered(l *Launcher) *solver {
	witness := 1.101 * bars
	s := &solver{ctx: context.Background(), l: l, allowed: 0.5, energy: crossing{low: 1.1 * bars, high: witness},
		caps: pressureCaps{energy: 1.1 * bars, rating: l.lowestRating(), blocked: math.Inf(1)}}
	s.out = Setpoint{AllowedWhy: "energy.total", Pressure: 1.1 * bars, Witness: &witness, Top: 4 * bars}
	s.chain = l.solveChain(s.caps)
	s.answer()
	s.ladder()
	if err := s.source(); err != nil {
		panic(err)
	}
	s.parts()
	s.procedure()
	return s
}

// Every kind of launcher gets an answer that says what binds and why, with figures
// that are numbers.
func TestSetpointOfEveryKind(t *testing.T) {
	for name, c := range map[string]struct {
		change  func(*Launcher)
		binding string
		works   bool
	}{
		"no relief valve, strong pump": {func(l *Launcher) { l.Paths = l.Paths[:1] }, "energy.fault", true},
		"no switch, strong pump":       {func(l *Launcher) { l.Switch = nil }, "ladder.order", true},
		"no supply":                    {func(l *Launcher) { l.Supply = nil }, "energy.total", true},
		"no dead head":                 {func(l *Launcher) { l.Supply.DeadHead = Band{} }, "ladder.order", true},
		"no ratings":                   {func(l *Launcher) { l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = Band{}, Band{} }, "ladder.order", true},
		"narrow relief valve": {func(l *Launcher) { l.Paths[1].Flow = orifice(0.2*millimetres, 0.62) },
			"relief.capacity", false},
		"low rating": {func(l *Launcher) { l.Volumes[0].RatedPressure = Exact("r", 0.45*bars) }, "vessel.rating", true},
	} {
		s := answered(plain(orderly, c.change)).out
		assert.Equal(t, c.works, s.Works, "%s: %s", name, s.Why)
		assert.Equal(t, c.binding, s.Binding, "%s: %s", name, s.Why)
		assert.NotEmpty(t, s.Why, name)
		assert.NotEmpty(t, s.Ladder, name)
		for _, r := range s.Ladder {
			assert.False(t, math.IsNaN(r.Gauge+r.Low+r.High) || math.IsInf(r.Gauge+r.Low+r.High, 0), "%s: %s", name, r.Name)
		}
		if s.Works && s.CutOut != nil {
			assert.Less(t, *s.CutIn, *s.CutOut, name)
			require.NotNil(t, s.ReliefFullFlowMax, name)
			assert.LessOrEqual(t, *s.CutOut, *s.ReliefFullFlowMax, name)
		}
	}
}

// A regulator between tank and dose: the answer is for the sensed tank, and what
// the regulator could do when it fails open is told.
func TestSetpointWithARegulator(t *testing.T) {
	l := plain(orderly)
	l.Volumes = append(l.Volumes, VolumeSpec{Name: "dose", Volume: Exact("volumes.dose.volume", 0.1e-3),
		RatedPressure: Exact("volumes.dose.rated_pressure", 10*bars), RatedForGas: Yes, Material: "steel"})
	l.Paths[0].From = "dose"
	l.Paths = append(l.Paths, PathSpec{Name: "regulator", From: "tank", To: "dose", Kind: pneumatics.Regulator, Flow: orifice(2*millimetres, 0.7),
		SetPressure: between("paths.regulator.set_pressure", 0.18*bars, 0.22*bars), Creep: between("paths.regulator.creep", 0, 0.05*bars),
		Droop: Exact("paths.regulator.droop", 0.05*bars)})
	s := answered(l).out
	assert.True(t, s.Works, s.Why)
	var told []string
	for _, one := range s.Source.Turned {
		told = append(told, one.What)
	}
	assert.Contains(t, told, "regulator regulator failed open")
}
