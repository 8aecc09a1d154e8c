package pneumatics

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"puffproof/pneumatics/flow"
)

// enoughSteps bounds the work on one random circuit. A run that spends it ends
// there; balances and bounds must hold at that moment too.
const enoughSteps = 5000

// contents is the internal energy at the start, the yardstick of rounding [J].
func contents(c *Circuit, sc *Scenario) float64 {
	u := c.Ambient.Pressure * (c.Barrel.DeadVolume + c.Barrel.Area*c.Barrel.Travel)
	for i, v := range c.Volumes {
		u += sc.Volumes[i].Pressure * v.Volume
	}
	return u / (c.Gas.Gamma - 1)
}

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// complain reports what is physically wrong with a result, "" if nothing.
func complain(c *Circuit, sc *Scenario, r *Result) string {
	if r.Reason != "" && r.Reason != outOfSteps {
		return r.Reason
	}
	if !finite(r.Time, r.Position, r.Speed, r.MassResidual, r.EnergyImbalance, r.Freed, r.SupplyMass) {
		return "a figure is not finite"
	}
	highest := c.Ambient.Pressure
	for _, v := range sc.Volumes {
		highest = max(highest, v.Pressure)
	}
	for _, v := range r.Volumes {
		if !(v.Pressure > 0 && v.Temperature > 0) || !finite(v.Pressure, v.Temperature) {
			return "a volume is not at a positive pressure and temperature"
		}
	}
	if !sc.NoProjectile {
		if !(r.Barrel.Pressure > 0 && r.Barrel.Temperature > 0) || !finite(r.Barrel.Pressure, r.Barrel.Temperature) {
			return "the barrel is not at a positive pressure and temperature"
		}
		if r.Position < -1e-9 || r.Outcome == Stalled && r.Position > c.Barrel.Travel {
			return "the projectile is outside the barrel"
		}
	}
	if r.Outcome == Left && !(r.MuzzleSpeed >= 0 && r.FinalEnergy >= 0 && finite(r.ExitTime, r.BarrelExit)) {
		return "it left without a speed"
	}
	if r.Outcome != Left && !(math.IsNaN(r.MuzzleEnergy) && math.IsNaN(r.FinalEnergy) && math.IsNaN(r.ExitTime)) {
		return "it did not leave and has a muzzle energy"
	}
	if !(math.Abs(r.MassResidual) <= MaxMassResidual) {
		return "mass is not conserved"
	}
	return ""
}

// TestConservation: over random circuits mass is conserved to 1e-9 and, at a
// tight tolerance, energy to 1e-6 of the final energy (at least 1 mJ). What
// rounding does to the sum of the contents comes on top: 1e-11 of them, 1e-10 (the
// tolerance) where they swing to and fro through the projectile's motion.
func TestConservation(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		r := s.Run(c, sc, Options{Tolerance: 1e-10, MaxSteps: enoughSteps})
		if why := complain(c, sc, r); why != "" {
			t.Fatalf("%s\n%+v\n%+v\n%+v", why, c, sc, r)
		}
		energy := r.FinalEnergy
		if math.IsNaN(energy) {
			energy = 0
		}
		// An impact at the rear stop or a plug moves energy that the final energy
		// does not show.
		rounding := 1e-11
		if sc.MuzzleClosed || r.Rests > 0 { // much of the contents goes into motion and back
			rounding = 1e-10
		}
		energy = max(energy, 1e-3, r.Account.Impact, r.Account.GasWork)
		if limit := 1e-6*energy + rounding*contents(c, sc); math.Abs(r.EnergyImbalance) > limit {
			t.Fatalf("energy imbalance %g J, allowed %g J\n%+v\n%+v\n%+v", r.EnergyImbalance, limit, c, sc, r)
		}
	})
}

// TestCeilingIsNeverExceeded: no run, of any circuit, has more energy than the
// availability of the air given to it, the supply's delivery included, by more
// than its own imbalance.
func TestCeilingIsNeverExceeded(t *testing.T) {
	var s, bound Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		r := s.Run(c, sc, Options{Tolerance: 1e-8, MaxSteps: enoughSteps})
		if sc.NoProjectile {
			return
		}
		slack := math.Abs(r.EnergyImbalance) + 1e-12*contents(c, sc)
		if most := bound.MostPush(c, sc); r.Outcome == Left && r.FinalEnergy > most+slack {
			t.Fatalf("%g of %g J\n%+v\n%+v\n%+v", r.FinalEnergy, most, c, sc, r)
		}
		if why := aboveCeiling(c, sc, r, bound.Ceiling(c, sc, r.SupplyMass), slack); why != "" {
			t.Fatalf("%s\n%+v\n%+v\n%+v", why, c, sc, r)
		}
	})
}

// aboveCeiling says by what a run has more energy than a bound and a slack [J]; "" it has not.
func aboveCeiling(c *Circuit, sc *Scenario, r *Result, b Bound, slack float64) string {
	if r.Outcome == Left {
		if r.FinalEnergy > b.Final+slack || r.MuzzleEnergy > b.Muzzle+slack {
			return fmt.Sprintf("muzzle %g of %g J, final %g of %g J", r.MuzzleEnergy, b.Muzzle, r.FinalEnergy, b.Final)
		}
		return ""
	}
	// Behind its seat the atmosphere has pushed it so far.
	pushed := max(0, sc.Seat-r.Position) * (c.Ambient.Pressure*c.Barrel.Area + math.Abs(c.Barrel.Mass*9.80665*c.Barrel.SinPitch))
	if k := 0.5 * c.Barrel.Mass * r.Speed * r.Speed; k > b.Muzzle+pushed+slack {
		return fmt.Sprintf("moving %g of %g J", k, b.Muzzle)
	}
	return ""
}

var sameWithNaN = cmp.Options{cmpopts.EquateNaNs(), cmpopts.EquateEmpty()}

// TestReuseIsBitIdentical: a Sim that has run other circuits gives exactly the
// answer of a fresh one, trace and all; so does the same Sim twice.
func TestReuseIsBitIdentical(t *testing.T) {
	var used Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		o := Options{Tolerance: 1e-6, MaxSteps: enoughSteps, Samples: rapid.SampledFrom([]int{0, 7}).Draw(t, "samples")}
		if rapid.Bool().Draw(t, "watch") {
			o.Watch = []Watch{{0, c.Ambient.Pressure * 1.1}}
		}
		if d := differsWhenUsed(&used, c, sc, o); d != "" {
			t.Fatal(d)
		}
	})
}

// differsWhenUsed says how the answer of a Sim that has run other circuits differs from that
// of a fresh one, or its second answer from its first; "" they are the same.
func differsWhenUsed(used *Sim, c *Circuit, sc *Scenario, o Options) string {
	first := used.Run(c, sc, o).Clone()
	if d := cmp.Diff(new(Sim).Run(c, sc, o), first, sameWithNaN); d != "" {
		return "a used Sim differs from a fresh one:\n" + d
	}
	used.Ceiling(c, sc, 0)
	if d := cmp.Diff(first, used.Run(c, sc, o), sameWithNaN); d != "" {
		return "the second run differs from the first:\n" + d
	}
	return ""
}

// TestOrderDoesNotMatter: volumes and paths listed the other way round, under
// other names, give the same answer. Sums in another order round differently, a
// projectile without friction rests and turns at moments that rounding decides,
// and every such event is right to a thousand tolerances: 1e-4 at a tolerance of
// 1e-10 for those that rested, 1e-6 for the others. A relief valve's lift is
// noted at the ends of steps, and the order decides where those are: 1e-3.
func TestOrderDoesNotMatter(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		a := s.Run(c, sc, Options{Tolerance: 1e-10, MaxSteps: enoughSteps}).Clone()
		mirror, msc := mirrored(c, sc)
		b := s.Run(mirror, msc, Options{Tolerance: 1e-10, MaxSteps: enoughSteps})
		if a.Outcome != b.Outcome {
			t.Fatalf("%v became %v\n%+v\n%+v", a.Outcome, b.Outcome, c, sc)
		}
		if a.Idle || b.Idle || a.Steps+a.Rejected >= enoughSteps || b.Steps+b.Rejected >= enoughSteps {
			return // ended early: nothing left to happen, or the work spent, at a moment of no account
		}
		rel := 1e-6
		if !math.IsNaN(a.FirstRestTime) || !math.IsNaN(b.FirstRestTime) {
			rel = 1e-4
		}
		if slices.ContainsFunc(c.Paths, func(p Path) bool { return p.Kind == Relief }) {
			rel = 1e-3
		}
		near := func(x, y, floor float64) bool { return math.Abs(x-y) <= rel*max(math.Abs(x), floor) }
		slices.Reverse(b.Volumes)
		for i := range a.Volumes {
			if !near(a.Volumes[i].Pressure, b.Volumes[i].Pressure, 0) {
				t.Fatalf("volume %d: %+v became %+v\n%+v\n%+v", i, a.Volumes[i], b.Volumes[i], c, sc)
			}
		}
		if a.Outcome == Left && !(near(a.FinalEnergy, b.FinalEnergy, 1e-4) && near(a.ExitTime, b.ExitTime, 0)) {
			t.Fatalf("%g J became %g J\n%+v\n%+v", a.FinalEnergy, b.FinalEnergy, c, sc)
		}
	})
}

// mirrored lists everything the other way round.
func mirrored(c *Circuit, sc *Scenario) (*Circuit, *Scenario) {
	last := Node(len(c.Volumes) - 1)
	turn := func(n Node) Node {
		if n < 0 {
			return n
		}
		return last - n
	}
	m, ms := *c, *sc
	m.Volumes, m.Paths, ms.Volumes, ms.Stuck = slices.Clone(c.Volumes), slices.Clone(c.Paths), slices.Clone(sc.Volumes),
		slices.Clone(sc.Stuck)
	slices.Reverse(m.Volumes)
	slices.Reverse(m.Paths)
	slices.Reverse(ms.Volumes)
	for i := range m.Paths {
		p := &m.Paths[i]
		p.Name, p.From, p.To = "other "+p.Name, turn(p.From), turn(p.To)
		p.Balance.Pilot = turn(p.Balance.Pilot)
	}
	for i := range ms.Stuck {
		ms.Stuck[i].Path = len(c.Paths) - 1 - ms.Stuck[i].Path
	}
	if c.Supply != nil {
		s := *c.Supply
		s.Feeds = turn(s.Feeds)
		m.Supply = &s
	}
	if sc.Switch != nil {
		w := *sc.Switch
		w.Senses = turn(w.Senses)
		ms.Switch = &w
	}
	return &m, &ms
}

// TestIdleStaysIdle: a circuit at ambient pressure and temperature does nothing,
// and its books close.
func TestIdleStaysIdle(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		c.Barrel.SinPitch, c.Supply, sc.SupplyRuns, sc.Barrel = 0, nil, false, Condition{}
		sc.WallTemperature = c.Ambient.Temperature
		for i := range sc.Volumes {
			sc.Volumes[i] = Condition{c.Ambient.Pressure, c.Ambient.Temperature}
		}
		if sc.Seat >= c.Barrel.Travel {
			sc.Seat = 0
		}
		r := s.Run(c, sc, Options{MaxSteps: enoughSteps})
		if why := r.Withheld(); why != "" {
			t.Fatalf("%s\n%+v\n%+v", why, c, r)
		}
		if r.Outcome == Left || math.Abs(r.Speed) > 1e-4 {
			t.Fatalf("it moved: %+v", r)
		}
		for _, v := range r.Volumes { // a step ended by an event is right to 1e3 tolerances
			if math.Abs(v.Pressure/c.Ambient.Pressure-1) > 1e-4 || math.Abs(v.Temperature/c.Ambient.Temperature-1) > 1e-4 {
				t.Fatalf("a volume drifted to %+v", v)
			}
		}
	})
}

// TestOpenSidesEqualise: volumes joined by open paths end at the mean pressure
// sum p V/sum V, which without heat is the first law; 1e-6: the exponential end.
func TestOpenSidesEqualise(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}}
		sc := &Scenario{Until: 2000}
		var pv, volume float64
		for i := range 2 + d.pick(3) {
			v, p := logBetween(d, 5e-5, 5e-3), d.between(0.5e5, 8e5)
			c.Volumes = append(c.Volumes, Volume{Volume: v})
			sc.Volumes = append(sc.Volumes, Condition{p, d.between(250, 330)})
			pv, volume = pv+p*v, volume+v
			if i > 0 {
				c.Paths = append(c.Paths, Path{From: Node(d.pick(i)), To: Node(i), Kind: Orifice,
					Flow: flow.Nozzle(discArea(d.between(1e-3, 4e-3)), 0.7)})
			}
		}
		r := s.Run(c, sc, Options{})
		for _, v := range r.Volumes {
			if r.Time == sc.Until && math.Abs(v.Pressure/(pv/volume)-1) > 1e-6 {
				t.Fatalf("ended at %g, mean %g", v.Pressure, pv/volume)
			}
		}
		if why := r.Withheld(); why != "" || r.Time != sc.Until {
			t.Fatalf("%q after %g s and %d steps", why, r.Time, r.Steps)
		}
	})
}

// TestOneWayParts: through a check valve, a relief valve or a regulator nothing
// ever flows back: the upstream mass never rises, the downstream mass never falls.
// The flow itself has one sign; a step adds flows with weights of either sign (those
// of the eighth-order method), so near the end of a flow it may go back by its own
// error, of which the tolerance is the bound: falls of 8e-12, 6e-14 and rounding were
// found in 6000 circuits at tolerances of 1e-7, 1e-9 and 1e-10.
func TestOneWayParts(t *testing.T) {
	const tolerance = 1e-11
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		p := randomPath(d, "part", 0, 1)
		p.Kind = []PathKind{Check, Relief, Regulator}[d.pick(3)]
		p.SetPressure, p.FullFlowPressure, p.ReseatPressure = 1e5, 1.2e5, 0.8e5
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}, Paths: []Path{p},
			Volumes: []Volume{{Volume: logBetween(d, 1e-4, 5e-3)}, {Volume: logBetween(d, 1e-4, 5e-3)}}}
		sc := &Scenario{Until: 2, Volumes: []Condition{{d.between(1e5, 5e5), d.between(260, 320)},
			{d.between(1e5, 5e5), d.between(260, 320)}}}
		tr := new(Sim).Run(c, sc, Options{Samples: 60, Tolerance: tolerance}).Trace
		mass := func(v, i int) float64 { return tr.Volumes[v][i] / tr.Temperatures[v][i] }
		for i := 1; i < len(tr.Time); i++ {
			if mass(0, i) > mass(0, i-1)*(1+tolerance) || mass(1, i) < mass(1, i-1)*(1-tolerance) {
				t.Fatalf("flow back through a %v at %g s", p.Kind, tr.Time[i])
			}
		}
	})
}

// TestPressuresStayWithinTheirSources: without a projectile's compression no
// volume exceeds the highest pressure at the start, or the supply's dead head;
// heat from the walls may add its ratio of temperatures. Along the whole trace.
func TestPressuresStayWithinTheirSources(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := randomCircuit(rapidDice{t})
		sc.NoProjectile, sc.Heat = true, Adiabatic
		highest := c.Ambient.Pressure
		for _, v := range sc.Volumes {
			highest = max(highest, v.Pressure)
		}
		if sc.SupplyRuns {
			highest = max(highest, c.Ambient.Pressure+c.Supply.DeadHead)
		}
		r := s.Run(c, sc, Options{Samples: 20, MaxSteps: enoughSteps})
		for _, row := range r.Trace.Volumes {
			for _, p := range row { // ten times the tolerance
				if !(p > 0 && p <= highest*(1+1e-6)) {
					t.Fatalf("%g Pa, sources at %g Pa", p, highest)
				}
			}
		}
	})
}
