package wave

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Shot runs one shot of a circuit with the gas in the barrel, and the hoses that
// the options give, resolved in one dimension. Vessels stay lumped. The error
// says why a circuit does not fit: it needs a loaded projectile, an open muzzle,
// and exactly one valve, orifice or hose that feeds the barrel; vents and bleed
// holes to the atmosphere may open from its breech besides. What is physical is in
// the result.
func Shot(c *pneumatics.Circuit, sc *pneumatics.Scenario, o Options) (Result, error) {
	var r runner
	if err := r.build(c, sc, o); err != nil {
		return Result{}, err
	}
	return r.run(), nil
}

// ShotWithError runs a shot twice, with half the cells and with all, and gives
// the fine result with the relative difference of the two muzzle speeds [-]: an
// upper estimate of the mesh's error, since the error falls with the square of
// the cell. NaN where one of the two did not leave.
func ShotWithError(c *pneumatics.Circuit, sc *pneumatics.Scenario, o Options) (Result, float64, error) {
	if o.Cells == 0 {
		o.Cells = DefaultCells
	}
	fine, err := Shot(c, sc, o)
	if err != nil {
		return fine, math.NaN(), err
	}
	o.Cells, o.LineCells = max(8, o.Cells/2), o.LineCells/2
	coarse, err := Shot(c, sc, o)
	return fine, math.Abs(fine.MuzzleSpeed-coarse.MuzzleSpeed) / fine.MuzzleSpeed, err
}

// runner is one shot on its way.
type runner struct {
	system
	c      *pneumatics.Circuit
	sc     *pneumatics.Scenario
	o      Options
	travel float64
	until  float64
	fixed  int // cells of the chamber, which do not move
	feed   plumbing
	dead   float64 // dead volume without the hose after the valve [m3]
	nose   float64 // gap at the nose of a projectile over a tube, in its diameters [-]
	target float64 // cell length aimed at behind the projectile [m]
	reach  float64 // highest pressure of a supply that can reach the barrel [Pa]
	joined []bool  // nodes that can reach the barrel

	r     Result
	e0    float64 // energy at the start
	m0    float64
	start []float64 // masses of the nodes at the start
}

func (r *runner) build(c *pneumatics.Circuit, sc *pneumatics.Scenario, o Options) error {
	r.c, r.sc = c, sc
	if o.Cells == 0 {
		o.Cells = DefaultCells
	}
	if o.Courant == 0 {
		o.Courant = 0.6
	}
	if o.MaxSteps == 0 {
		o.MaxSteps = 4e6
	}
	o.lines()
	r.o = o
	path, err := r.fits()
	if err != nil {
		return err
	}
	r.g = newGas(c.Gas)
	r.pa, r.ta = c.Ambient.Pressure, c.Ambient.Temperature
	r.courant = o.Courant
	r.nose = nosePart
	r.travel = c.Barrel.Travel
	r.until = sc.Until
	if r.until <= 0 {
		r.until = 10
	}
	for i := range c.Paths {
		r.valves = append(r.valves, newValve(&r.g, &c.Paths[i], sc, i))
	}
	r.feed = r.feedOf(path)
	r.vessels()
	if err := r.barrel(); err != nil {
		return err
	}
	if err := r.connect(); err != nil {
		return err
	}
	r.feedLines()
	r.findReach()
	return nil
}

// vessels makes the nodes and the links: all open paths but the one that feeds the
// barrel.
func (r *runner) vessels() {
	for i, v := range r.c.Volumes {
		r.nodes = append(r.nodes, r.nodeAt(r.sc.Volumes[i], v.Volume))
	}
	for i := range r.c.Paths {
		p := &r.c.Paths[i]
		if i == r.feed.path || p.Flow.IsZero() || r.valves[i].peak() == 0 {
			continue
		}
		r.links = append(r.links, link{from: int(p.From), to: int(p.To), path: i})
	}
	sw := r.sc.Switch
	if s := r.c.Supply; s != nil && r.sc.SupplyRuns && s.Feeds >= 0 && !(sw != nil && sw.Stopped) {
		r.supply, r.feeds = s, int(s.Feeds)
	}
}

// findReach finds the nodes whose air can reach the barrel, and the supply's
// highest pressure if it can.
func (r *runner) findReach() {
	// The tubes are the barrel: it reaches each node that one of them ends at.
	var links []graph.Link
	for i := range r.joints {
		links = append(links, graph.Link{From: pneumatics.Node(r.joints[i].node), To: pneumatics.BarrelNode})
	}
	for _, l := range r.links {
		links = append(links, graph.Link{From: pneumatics.Node(l.from), To: pneumatics.Node(l.to)})
	}
	r.joined = graph.Reached(links, len(r.nodes), pneumatics.BarrelNode, func(i int, way graph.Way) bool {
		k := i - len(r.joints)
		return k < 0 || way == graph.Against || !r.valves[r.links[k].path].spring
	}).Volumes()
	if r.supply != nil && r.joined[r.feeds] {
		r.reach = r.pa + r.supply.DeadHead
	}
}
