package pneumatics

import (
	"math"
	"strconv"

	"pgregory.net/rapid"

	"puffproof/pneumatics/flow"
)

// dice makes choices for random circuits: from rapid in properties, from bytes in
// the fuzz test.
type dice interface {
	between(low, high float64) float64
	pick(n int) int // 0 … n-1
}

type rapidDice struct{ t *rapid.T }

func (d rapidDice) between(low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.t, "x")
}
func (d rapidDice) pick(n int) int { return rapid.IntRange(0, n-1).Draw(d.t, "n") }

type byteDice struct{ bytes []byte }

func (d *byteDice) next() byte {
	if len(d.bytes) == 0 {
		return 0
	}
	b := d.bytes[0]
	d.bytes = d.bytes[1:]
	return b
}
func (d *byteDice) between(low, high float64) float64 {
	v := float64(d.next())*256 + float64(d.next())
	return low + (high-low)*v/65535
}
func (d *byteDice) pick(n int) int { return int(d.next()) % n }

// logBetween is uniform in the logarithm.
func logBetween(d dice, low, high float64) float64 {
	return math.Exp(d.between(math.Log(low), math.Log(high)))
}

func oneIn(d dice, n int) bool { return d.pick(n) == n-1 }

// randomFlow is a part between a needle and a wide valve.
func randomFlow(d dice) flow.Restriction {
	switch d.pick(3) {
	case 0:
		return flow.SonicConductance(logBetween(d, 1e-9, 2e-7), d.between(0, 0.55))
	case 1:
		return flow.SonicConductance(logBetween(d, 1e-9, 2e-7), d.between(0.1, 0.5)).WithIndex(d.between(0.4, 0.7))
	}
	return flow.Nozzle(discArea(logBetween(d, 0.5e-3, 12e-3)), d.between(0.6, 0.9))
}

func randomStates(d dice) StateSet {
	var s StateSet
	for _, st := range States() {
		if d.pick(2) == 0 {
			s |= SetOf(st)
		}
	}
	return s
}

func randomPath(d dice, name string, from, to Node) Path {
	p := Path{Name: name, From: from, To: to, Flow: randomFlow(d), Kind: PathKind(d.pick(8))}
	if p.Kind == QuickExhaust || oneIn(d, 4) { // of no account for the kinds without a diaphragm
		p.Balance = Balance{SeatShare: d.between(0.05, 0.9), Spring: d.between(0, 0.3e5), Span: logBetween(d, 500, 1e5),
			Pilot: []Node{Atmosphere, 0, from, to}[d.pick(4)]}
	}
	switch p.Kind {
	case Hose:
		p.Flow = flow.HoseFlow(d.between(3e-3, 12e-3), d.between(0.1, 3))
	case Valve, HandValve:
		p.OpenIn = randomStates(d)
		p.Unpowered = Position(d.pick(3))
		if d.pick(2) == 0 {
			p.OpeningTime, p.ClosingTime = d.between(1e-3, 0.04), d.between(1e-3, 0.04)
		}
		if oneIn(d, 4) {
			p.Pulse = d.between(1e-3, 0.2)
		}
	case Relief:
		p.SetPressure = d.between(0.2e5, 5e5)
		p.FullFlowPressure = p.SetPressure + d.between(0.05e5, 0.5e5)
		p.ReseatPressure = p.SetPressure * d.between(0.5, 0.95)
	case Regulator:
		p.SetPressure, p.Droop = d.between(0.1e5, 5e5), d.between(0.02e5, 0.3e5)
	case Check:
		p.CrackingPressure = d.between(0, 0.2e5)
	}
	if oneIn(d, 3) {
		p.Hose = flow.HoseFlow(d.between(4e-3, 12e-3), d.between(0.1, 2))
	}
	return p
}

func randomBarrel(d dice) Barrel {
	bore := d.between(10e-3, 60e-3)
	b := Barrel{Present: true, Area: discArea(bore), DeadVolume: logBetween(d, 1e-5, 2e-4), Travel: d.between(0.05, 1),
		Mass: logBetween(d, 2e-3, 0.1), JetFactor: 1 + float64(d.pick(2)), SinPitch: d.between(-1, 1), LeakCd: 0.6}
	b.ExitArea = b.Area
	if d.pick(3) == 0 {
		b.Fit, b.ExitArea = OverTube, b.Area*d.between(0.3, 0.95)
	}
	if d.pick(2) == 0 {
		b.LeakArea = b.Area * logBetween(d, 1e-4, 0.05)
	}
	switch d.pick(3) {
	case 0:
		b.Breakaway = b.Area * d.between(0, 3e5)
		b.Sliding = b.Breakaway * d.between(0, 1)
	case 1:
		b.Sliding = b.Area * d.between(0, 0.5e5)
		b.Breakaway = b.Sliding
	}
	if oneIn(d, 4) {
		b.Restart = b.Breakaway * d.between(0.1, 1)
	}
	if oneIn(d, 4) {
		b.SinPitch = 0
	}
	return b
}

// randomCircuit is a chain of one to four volumes that ends at the barrel, with
// further paths between anything and anything.
func randomCircuit(d dice) (*Circuit, *Scenario) {
	c := &Circuit{Gas: flow.Air(), Ambient: Ambient{d.between(90e3, 105e3), d.between(263, 308)}, Barrel: randomBarrel(d)}
	if oneIn(d, 6) {
		c.Gas = flow.Nitrogen()
	}
	sc := &Scenario{From: States()[d.pick(5)], To: Firing, Until: d.between(0.05, 1)}
	n := 1 + d.pick(4)
	for i := range n {
		name := "v" + strconv.Itoa(i)
		v := Volume{Name: name, Volume: logBetween(d, 5e-5, 5e-3)}
		if d.pick(2) == 0 {
			v.InnerDiameter = math.Cbrt(v.Volume) * d.between(0.5, 1)
		}
		c.Volumes = append(c.Volumes, v)
		sc.Volumes = append(sc.Volumes, Condition{c.Ambient.Pressure + d.between(0, 7e5), d.between(250, 330)})
		if i > 0 {
			c.Paths = append(c.Paths, randomPath(d, "to "+name, Node(i-1), Node(i)))
		}
	}
	fire := randomPath(d, "fire", Node(n-1), BarrelNode)
	if d.pick(4) > 0 {
		fire.Kind = Valve
		fire.OpenIn |= SetOf(Firing)
	}
	c.Paths = append(c.Paths, fire)
	ends := []Node{Atmosphere, BarrelNode, 0, Node(n - 1)}
	for i := range d.pick(4) {
		from, to := ends[2+d.pick(2)], ends[d.pick(4)]
		if from != to {
			c.Paths = append(c.Paths, randomPath(d, "extra "+strconv.Itoa(i), from, to))
		}
	}
	randomScenario(d, c, sc)
	return c, sc
}

func randomScenario(d dice, c *Circuit, sc *Scenario) {
	if oneIn(d, 5) {
		sc.To = States()[d.pick(5)]
	}
	sc.PowerLost = oneIn(d, 6)
	sc.MuzzleClosed = oneIn(d, 5)
	sc.NoProjectile = oneIn(d, 8)
	if d.pick(2) == 0 {
		sc.Seat = d.between(0, c.Barrel.Travel)
	}
	if oneIn(d, 4) {
		sc.Barrel = Condition{c.Ambient.Pressure * d.between(0.8, 1.5), d.between(260, 330)}
	}
	sc.Heat = Heat(d.pick(3))
	if oneIn(d, 3) {
		sc.WallTemperature = d.between(263, 323)
	}
	sc.Parts = Parts{NoGasInertia: oneIn(d, 3), NoAirAhead: oneIn(d, 3), NoAfterMuzzle: oneIn(d, 3), NoWallHeat: oneIn(d, 3)}
	if d.pick(3) == 0 {
		c.Supply = &Supply{Feeds: Node(d.pick(len(c.Volumes))), DeadHead: d.between(1e5, 8e5), FreeAir: logBetween(d, 1e-5, 2e-3)}
		sc.SupplyRuns = true
		if d.pick(2) == 0 {
			out := d.between(0.5e5, 6e5)
			sc.Switch = &SwitchLogic{Senses: c.Supply.Feeds, CutOut: out, CutIn: out * d.between(0.6, 0.95), Stopped: d.pick(2) == 0}
		}
	}
	if oneIn(d, 6) {
		sc.Stuck = []Stuck{{Path: d.pick(len(c.Paths)), Opening: d.between(0, 1)}}
	}
}
