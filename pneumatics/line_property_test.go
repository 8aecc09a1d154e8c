package pneumatics

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// linedCircuit is a random circuit with lines on some of its paths, of up to two
// pieces a side, with a stated number of cells or the program's own. So that a test
// takes seconds the run is short.
func linedCircuit(d dice) (*Circuit, *Scenario) {
	c, sc := randomCircuit(d)
	pieces := func() []line.Piece {
		var out []line.Piece
		for range d.pick(2) + d.pick(2) {
			l := line.Piece{Bore: logBetween(d, 3e-3, 25e-3), Length: logBetween(d, 0.1, 5), Loss: d.between(0, 3), Cells: d.pick(4)}
			if oneIn(d, 3) {
				l.Conductance = d.between(0.5, 1.5)
			}
			out = append(out, l)
		}
		return out
	}
	for i := range c.Paths {
		p := &c.Paths[i]
		if d.pick(2) == 0 {
			p.Before = pieces()
		}
		if d.pick(2) == 0 {
			p.After = pieces()
		}
	}
	sc.Until = min(sc.Until, 0.2)
	return c, sc
}

// shortOfSteps bounds the work on a circuit with lines, as enoughSteps does without.
const shortOfSteps = 1500

// lineContents is contents with the air of the lines.
func lineContents(c *Circuit, sc *Scenario) float64 {
	highest, volume := c.Ambient.Pressure, 0.0
	for i := range sc.Volumes {
		highest = max(highest, sc.Volumes[i].Pressure)
	}
	for i := range c.Paths {
		volume += line.Volume(c.Paths[i].Before) + line.Volume(c.Paths[i].After)
	}
	return contents(c, sc) + highest*volume/(c.Gas.Gamma-1)
}

// TestLineBalances: at any state of any circuit with lines the rates of mass, and
// of energy with the kinetic energy of the lines' gas (its rate by a difference along
// the derivative), sum to nothing: 1e-7 of the sum of their sizes, the difference's own
// error, and 1e-9 W where nothing moves.
func TestLineBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		c, sc := linedCircuit(d)
		sc.Heat, sc.SupplyRuns = Adiabatic, false
		var e engine
		e.compile(c, sc, Options{Settle: oneIn(d, 2)})
		y := e.state
		for i := range e.nodes {
			y[2*i] *= d.between(0.8, 1.2)
			y[2*i+1] *= d.between(0.8, 1.2)
		}
		for i := range e.rows.Faces {
			if f := &e.rows.Faces[i]; f.Index >= 0 {
				y[f.Index] = e.scales[f.Index] * d.between(-0.2, 0.2)
			}
		}
		dy := make([]float64, e.n)
		e.Derivatives(1e-3, y, dy)
		var mass, energy, masses, energies float64
		book := func(i int) {
			mass, masses = mass+dy[i], masses+math.Abs(dy[i])
			energy, energies = energy+dy[i+1], energies+math.Abs(dy[i+1])
		}
		for i := range e.nodes {
			book(2 * i)
		}
		if e.iAtm >= 0 {
			book(e.iAtm)
		}
		z := make([]float64, e.n)
		motion := func(h float64) float64 {
			for i := range z {
				z[i] = y[i] + h*dy[i]
			}
			e.conditions(z)
			return e.lineMotion()
		}
		const h = 1e-8 // [s]
		energy += (8*(motion(h)-motion(-h)) - (motion(2*h) - motion(-2*h))) / (12 * h)
		if math.Abs(mass) > 1e-12*masses || math.Abs(energy) > 1e-7*energies+1e-9 {
			t.Fatalf("mass %g of %g kg/s, energy %g of %g W\n%+v\n%+v", mass, masses, energy, energies, c, sc)
		}
	})
}

// TestConservationWithLines: over random circuits with lines mass is conserved to
// 1e-9, and energy to 1e-6 of the final energy and 1e-10 of the contents (the
// tolerance: they swing through the gas's motion).
func TestConservationWithLines(t *testing.T) {
	var s Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := linedCircuit(rapidDice{t})
		r := s.Run(c, sc, Options{Tolerance: 1e-10, MaxSteps: shortOfSteps})
		if why := complain(c, sc, r); why != "" {
			t.Fatalf("%s\n%+v\n%+v\n%+v", why, c, sc, r)
		}
		energy := 1e-3
		if r.Outcome == Left {
			energy = max(energy, r.FinalEnergy)
		}
		energy = max(energy, r.Account.Impact, r.Account.GasWork, r.Account.LineMotion)
		if limit := 1e-6*energy + 1e-10*lineContents(c, sc); math.Abs(r.EnergyImbalance) > limit {
			t.Fatalf("energy imbalance %g J, allowed %g J\n%+v\n%+v\n%+v", r.EnergyImbalance, limit, c, sc, r)
		}
	})
}

// TestCeilingWithLines: no run has more energy than the availability of the air given
// to it, that of the lines included, by more than its own imbalance.
func TestCeilingWithLines(t *testing.T) {
	var s, bound Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := linedCircuit(rapidDice{t})
		r := s.Run(c, sc, Options{Tolerance: 1e-8, MaxSteps: shortOfSteps})
		if sc.NoProjectile {
			return
		}
		slack := math.Abs(r.EnergyImbalance) + 1e-12*lineContents(c, sc)
		if most := bound.MostPush(c, sc); r.Outcome == Left && r.FinalEnergy > most+slack {
			t.Fatalf("%g of %g J\n%+v\n%+v\n%+v", r.FinalEnergy, most, c, sc, r)
		}
		if why := aboveCeiling(c, sc, r, bound.Ceiling(c, sc, r.SupplyMass), slack); why != "" {
			t.Fatalf("%s\n%+v\n%+v\n%+v", why, c, sc, r)
		}
	})
}

// TestReuseWithLines: a Sim that has run other circuits gives exactly the answer of a
// fresh one.
func TestReuseWithLines(t *testing.T) {
	var used Sim
	rapid.Check(t, func(t *rapid.T) {
		c, sc := linedCircuit(rapidDice{t})
		if d := differsWhenUsed(&used, c, sc, Options{Tolerance: 1e-6, MaxSteps: 300}); d != "" {
			t.Fatal(d)
		}
	})
}

// TestLinesEitherWayRound: a line runs the same in both senses: two volumes joined by a
// part with lines, listed From → To and the other way round, end alike. 1e-6 at a
// tolerance of 1e-10: sums in another order, and kinks met at other places of a step.
func TestLinesEitherWayRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		piece := func() line.Piece {
			return line.Piece{Bore: logBetween(d, 4e-3, 20e-3), Length: logBetween(d, 0.1, 3), Loss: d.between(0, 2), Cells: 1 + d.pick(4)}
		}
		p := Path{From: 0, To: 1, Kind: []PathKind{Orifice, Hose}[d.pick(2)], Flow: flow.Nozzle(discArea(d.between(2e-3, 12e-3)), 0.7),
			Before: []line.Piece{piece(), piece()}, After: []line.Piece{piece()}}
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}, Paths: []Path{p},
			Volumes: []Volume{{Volume: logBetween(d, 1e-4, 5e-3)}, {Volume: logBetween(d, 1e-4, 5e-3)}}}
		sc := &Scenario{Until: 0.05, Volumes: []Condition{{d.between(1e5, 5e5), d.between(260, 320)}, {d.between(1e5, 5e5), d.between(260, 320)}}}
		a := new(Sim).Run(c, sc, Options{Tolerance: 1e-10}).Clone()
		turned := p
		turned.From, turned.To = 1, 0
		turned.Before, turned.After = slices.Clone(p.After), slices.Clone(p.Before)
		slices.Reverse(turned.After)
		c.Paths = []Path{turned}
		b := new(Sim).Run(c, sc, Options{Tolerance: 1e-10})
		for i := range a.Volumes {
			if math.Abs(a.Volumes[i].Pressure/b.Volumes[i].Pressure-1) > 1e-6 ||
				math.Abs(a.Volumes[i].Temperature/b.Volumes[i].Temperature-1) > 1e-6 {
				t.Fatalf("volume %d: %+v became %+v\n%+v\n%+v", i, a.Volumes[i], b.Volumes[i], c, sc)
			}
		}
	})
}

// TestLinesEqualise: volumes joined by a line end at the mean pressure sum p V/sum V,
// the line's air included, which without heat is the first law.
func TestLinesEqualise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice{t}
		l := line.Piece{Bore: logBetween(d, 3e-3, 12e-3), Length: logBetween(d, 0.2, 5), Cells: 1 + d.pick(3)}
		c := &Circuit{Gas: flow.Air(), Ambient: Ambient{standardAtmosphere, roomTemperature}, Paths: []Path{alone(0, 1, l)},
			Volumes: []Volume{{Volume: logBetween(d, 1e-4, 1e-3)}, {Volume: logBetween(d, 1e-4, 1e-3)}}}
		sc := &Scenario{Until: 20, Volumes: []Condition{{d.between(1e5, 5e5), 300}, {d.between(1e5, 5e5), 290}}}
		r := new(Sim).Run(c, sc, Options{})
		pv := sc.Volumes[0].Pressure*(c.Volumes[0].Volume+l.Volume()) + sc.Volumes[1].Pressure*c.Volumes[1].Volume
		mean := pv / (c.Volumes[0].Volume + l.Volume() + c.Volumes[1].Volume)
		for _, v := range r.Volumes {
			if math.Abs(v.Pressure/mean-1) > 1e-4 { // what still swings after 20 s
				t.Fatalf("ended at %g, mean %g after %g s\n%+v\n%+v", v.Pressure, mean, r.Time, c, sc)
			}
		}
		if why := r.Withheld(); why != "" || r.Time != sc.Until {
			t.Fatalf("%q after %g s and %d steps", why, r.Time, r.Steps)
		}
	})
}
