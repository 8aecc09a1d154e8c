package pneumatics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/pneumatics/flow"
)

// seededDice makes the same choices every time.
type seededDice struct{ r *rand.Rand }

func (d seededDice) between(low, high float64) float64 { return low + (high-low)*d.r.Float64() }
func (d seededDice) pick(n int) int                    { return d.r.IntN(n) }

// emptyingCircuit is a random circuit of parts whose time constants lie between
// 0.05 and 3 s, so that half a minute decides whether a volume empties. A loaded
// projectile is stuck for good: what it does is not the question here.
func emptyingCircuit(d dice) (*Circuit, *Scenario) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101325, 293.15}}
	n := 1 + d.pick(5)
	for i := range n {
		c.Volumes = append(c.Volumes, Volume{Name: fmt.Sprint("v", i), Volume: d.between(0.5e-3, 2e-3)})
	}
	c.Barrel = Barrel{Present: true, Area: 1e-3, ExitArea: 1e-3, DeadVolume: 4e-4, Travel: 0.2, Mass: 5e-3, Breakaway: 1e6, LeakCd: 0.6,
		JetFactor: 1}
	if d.pick(2) == 0 {
		c.Barrel.LeakArea = d.between(4e-6, 2e-5)
	}
	nodes := func() Node {
		k := d.pick(n + 2)
		return Node(k) - 2 // barrel, atmosphere, volumes
	}
	for i := range n + d.pick(n+2) {
		from := Node(d.pick(n))
		to := nodes()
		if from == to {
			continue
		}
		p := Path{Name: fmt.Sprint("p", i), From: from, To: to, Kind: PathKind(d.pick(7)),
			Flow:   flow.SonicConductance(d.between(2e-8, 5e-8), d.between(0.2, 0.5)),
			OpenIn: randomStates(d), Unpowered: Position(d.pick(3))}
		switch p.Kind {
		case Relief: // lifts, and keeps far more than the target
			p.SetPressure = d.between(0.4e5, 3e5)
			p.FullFlowPressure, p.ReseatPressure = p.SetPressure*1.2, p.SetPressure*0.8
		case Check:
			p.CrackingPressure = d.between(0, 0.15e5)
		case Regulator:
			p.SetPressure, p.Droop = d.between(0.3e5, 2e5), 0.1e5
		case Valve:
			if d.pick(3) == 0 {
				p.Pulse = 0.05 // opens and shuts again
			}
		}
		c.Paths = append(c.Paths, p)
	}
	states := States()
	sc := &Scenario{From: states[d.pick(5)], To: Off, PowerLost: d.pick(2) == 0, NoProjectile: d.pick(2) == 0,
		Heat: Isothermal, Until: 60}
	for range n {
		sc.Volumes = append(sc.Volumes, Condition{c.Ambient.Pressure + d.between(0.8e5, 4e5), c.Ambient.Temperature})
	}
	return c, sc
}

// Two independent ways to the same answer: the graph and the integrated flow.
// The target is 0.05 bar; a residual that close to it that a slow approach could
// blur the answer (a check valve's flow fades at its cracking pressure) is drawn
// again and counted.
func TestTrappedByGraphAndBySimulation(t *testing.T) {
	const target, circuits = 5000.0, 1000
	d := seededDice{rand.New(rand.NewPCG(4, 1914))}
	var sim Sim
	trapped, emptied, partly, near := 0, 0, 0, 0
	for done := 0; done < circuits; {
		c, sc := emptyingCircuit(d)
		left := Residual(c, sc)
		if blurred(left, target) {
			near++
			continue
		}
		done++
		r := sim.Run(c, sc, Options{Settle: true, Tolerance: 1e-4})
		require.Empty(t, r.Reason, "circuit %d", done)
		require.Equal(t, sc.Until, r.Time, "circuit %d", done)
		for i, v := range r.Volumes {
			gauge := v.Pressure - c.Ambient.Pressure
			require.Equal(t, left[i] > target, gauge > target,
				"circuit %d volume %d: the graph leaves %g Pa, the run %g Pa\n%+v\n%+v", done, i, left[i], gauge, c.Paths, sc)
			switch {
			case math.IsInf(left[i], 1):
				trapped++
			case left[i] > target:
				partly++
			default:
				emptied++
			}
		}
	}
	// The draw must contain all three answers, and few circuits on the edge.
	require.Greater(t, trapped, 300)
	require.Greater(t, emptied, 300)
	require.Greater(t, partly, 20)
	require.Less(t, near, circuits)
}

func blurred(left []float64, target float64) bool {
	for _, p := range left {
		if math.Abs(p-target) < 0.25*target {
			return true
		}
	}
	return false
}

// A vent behind two check valves keeps the sum of their cracking pressures.
func TestResidualAddsUpAlongTheWayOut(t *testing.T) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101325, 293.15}, Volumes: []Volume{{Volume: 1e-3}, {Volume: 1e-3}}, Paths: []Path{
		{From: 0, To: 1, Kind: Check, CrackingPressure: 3000, Flow: flow.SonicConductance(1e-8, 0.3)},
		{From: 1, To: Atmosphere, Kind: Check, CrackingPressure: 4000, Flow: flow.SonicConductance(1e-8, 0.3)},
	}}
	left := Residual(c, &Scenario{NoProjectile: true})
	require.Equal(t, []float64{7000, 4000, 0}, left)
}

// A gap around the projectile is a way out past an open muzzle and none past a plugged
// one: by the graph and by the integrated flow. Plugged, the volume shares its air with
// barrel and bore and keeps the rest. Here it takes heat and they take none, so that by
// the balance of energy Vb p = g Vt (p0 - p), gauge pressures from ambient (closed form).
func TestAGapIsNoWayOutPastAPluggedMuzzle(t *testing.T) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101325, 293.15}, Volumes: []Volume{{Name: "tank", Volume: 1e-3}},
		Paths: []Path{{Name: "fire", From: 0, To: BarrelNode, Kind: Orifice, Flow: flow.SonicConductance(3e-8, 0.3)}}}
	c.Barrel = Barrel{Present: true, Area: 1e-3, ExitArea: 1e-3, DeadVolume: 4e-4, Travel: 0.2, Mass: 5e-3, Breakaway: 1e6,
		LeakArea: 1e-5, LeakCd: 0.6, JetFactor: 1}
	var sim Sim
	for _, plugged := range []bool{false, true} {
		sc := &Scenario{From: Armed, To: Off, Heat: Isothermal, Until: 60, MuzzleClosed: plugged, Volumes: []Condition{{201325, 293.15}}}
		left := Residual(c, sc)
		r := sim.Run(c, sc, Options{Settle: true, Tolerance: 1e-4})
		require.Empty(t, r.Reason)
		gauge := r.Volumes[0].Pressure - 101325
		if !plugged {
			require.Equal(t, []float64{0, 0}, left)
			require.Less(t, gauge, 100.0, "empty but for the slow end")
			continue
		}
		require.Equal(t, []float64{math.Inf(1), math.Inf(1)}, left)
		require.InEpsilon(t, 1e5*1.4*1e-3/(1.4*1e-3+6e-4), gauge, 0.002, "the flow fades as the pressures meet")
	}
}

// What a stuck path and a regulator leave, by hand: the ways out of tank 0 lead through
// tank 1, whose check valve to the open keeps 7000 Pa.
func TestResidualBehindARegulatorAndAStuckPath(t *testing.T) {
	trapped := math.Inf(1)
	law := flow.SonicConductance(1e-8, 0.3)
	out := Path{From: 1, To: Atmosphere, Kind: Check, CrackingPressure: 7000, Flow: law}
	shut := Path{From: 0, To: 1, Kind: Valve, Flow: law}
	open := Path{From: 0, To: 1, Kind: Orifice, Flow: law}
	regulator := func(set float64) Path { return Path{From: 0, To: 1, Kind: Regulator, SetPressure: set, Flow: law} }
	back := Path{From: 1, To: 0, Kind: Regulator, SetPressure: 9000, Flow: law}
	for name, k := range map[string]struct {
		path  Path
		stuck []Stuck
		want  float64 // in tank 0
	}{
		"a regulator set above what stays behind it":     {regulator(8000), nil, 7000},
		"a regulator set below what stays behind it":     {regulator(5000), nil, trapped},
		"the same, stuck open":                           {regulator(5000), []Stuck{{Path: 0, Opening: 0.1}}, 7000},
		"a regulator the other way":                      {back, nil, trapped},
		"a shut valve":                                   {shut, nil, trapped},
		"a shut valve that is stuck open":                {shut, []Stuck{{Path: 0, Opening: 0.3}}, 7000},
		"an open path that is stuck shut":                {open, []Stuck{{Path: 0}}, trapped},
		"an open path; the outlet behind it stuck open":  {open, []Stuck{{Path: 1, Opening: 1}}, 0},
		"an open path; the outlet behind it stuck shut":  {open, []Stuck{{Path: 1}}, trapped},
		"no flow figure, no way":                         {Path{From: 0, To: 1, Kind: Orifice}, nil, trapped},
		"a hose the other way round passes all the same": {Path{From: 1, To: 0, Kind: Hose, Flow: law}, nil, 7000},
	} {
		t.Run(name, func(t *testing.T) {
			c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101325, 293.15}, Volumes: make([]Volume, 2), Paths: []Path{k.path, out}}
			require.Equal(t, k.want, Residual(c, &Scenario{NoProjectile: true, Stuck: k.stuck})[0])
		})
	}
}

// A trace of a run that comes to its end has every sample that was asked for, the
// last one at the end, also where an event falls on it: a sheet of readings is made
// from such traces side by side. Here a volume falls to a watched pressure exactly
// at the end: the pressure is that of the same run without the watch.
func TestATraceHasEverySample(t *testing.T) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{101325, 293.15}, Volumes: []Volume{{Name: "tank", Volume: 2e-3}},
		Paths: []Path{{Name: "vent", From: 0, To: Atmosphere, Kind: Orifice, Flow: flow.Nozzle(1e-6, 0.75)}}}
	var sim Sim
	for k := range 200 {
		const samples = 25
		sc := &Scenario{NoProjectile: true, Volumes: []Condition{{2e5, 293.15}}, Until: 1 + 0.173*float64(k)}
		first := sim.Run(c, sc, Options{Settle: true, Samples: samples})
		require.Len(t, first.Trace.Time, samples)
		last := first.Volumes[0].Pressure
		r := sim.Run(c, sc, Options{Settle: true, Samples: samples, Watch: []Watch{{Volume: 0, Pressure: last}}})
		require.Empty(t, r.Reason)
		require.Len(t, r.Trace.Time, samples, "until %g s", sc.Until)
		require.Equal(t, sc.Until, r.Trace.Time[samples-1])
	}
}
