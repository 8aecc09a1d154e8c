package wave

import (
	"errors"
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// Shot runs one shot of a circuit with the gas in the barrel, and a hose if the
// options give one, resolved in one dimension. Vessels stay lumped. The error
// says why a circuit does not fit: it needs a loaded projectile in the bore, an
// open muzzle, and exactly one valve, orifice or hose that opens to the barrel.
// What is physical is in the result.
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
	o.Cells = max(8, o.Cells/2)
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
	fixed  int     // cells of the chamber, which do not move
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
	r.o = o
	path, err := r.fits()
	if err != nil {
		return err
	}
	r.g = newGas(c.Gas)
	r.pa, r.ta = c.Ambient.Pressure, c.Ambient.Temperature
	r.courant = o.Courant
	r.travel = c.Barrel.Travel
	r.until = sc.Until
	if r.until <= 0 {
		r.until = 10
	}
	for i := range c.Paths {
		r.valves = append(r.valves, newValve(&r.g, &c.Paths[i], sc, i))
	}
	r.vessels()
	if err := r.barrel(); err != nil {
		return err
	}
	r.connect(path)
	r.findReach(path)
	return nil
}

// fits finds the path to the barrel and says why a circuit does not fit.
func (r *runner) fits() (path int, err error) {
	c, sc, o := r.c, r.sc, r.o
	var bad []error
	add := func(no bool, format string, a ...any) {
		if no {
			bad = append(bad, fmt.Errorf("wave: "+format, a...))
		}
	}
	add(!c.Barrel.Present, "the circuit has no barrel")
	add(c.Barrel.Fit != pneumatics.InBore, "the wave model takes a projectile in the bore, not over a tube")
	add(sc.NoProjectile, "no projectile is loaded")
	add(sc.MuzzleClosed, "the wave model takes an open muzzle")
	add(sc.Heat != pneumatics.Adiabatic, "the wave model is adiabatic; a shot is too short for wall heat")
	add(len(sc.Volumes) != len(c.Volumes), "scenario with %d start conditions for %d volumes", len(sc.Volumes), len(c.Volumes))
	add(o.Cells < 8, "%d cells are too few, at least 8", o.Cells)
	add(!(o.Courant > 0 && o.Courant <= 1), "a Courant number of %g is outside 0 to 1", o.Courant)
	path = -1
	g := newGas(c.Gas)
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.From != pneumatics.BarrelNode && p.To != pneumatics.BarrelNode || p.Flow.IsZero() {
			continue
		}
		v := newValve(&g, p, sc, i)
		if v.peak() == 0 {
			continue
		}
		add(v.spring, "path %q: a %s to the barrel is not resolved by the wave model", p.Name, p.Kind)
		add(path >= 0, "path %q: the wave model takes one path that opens to the barrel", p.Name)
		path = i
	}
	add(path < 0, "no path opens to the barrel in this scenario")
	return path, errors.Join(bad...)
}

// vessels makes the nodes and the links between them.
func (r *runner) vessels() {
	for i, v := range r.c.Volumes {
		r.nodes = append(r.nodes, r.nodeAt(r.sc.Volumes[i], v.Volume))
	}
	for i := range r.c.Paths {
		p := &r.c.Paths[i]
		if p.From == pneumatics.BarrelNode || p.To == pneumatics.BarrelNode || p.Flow.IsZero() || r.valves[i].peak() == 0 {
			continue
		}
		r.links = append(r.links, link{from: int(p.From), to: int(p.To), path: i})
	}
	sw := r.sc.Switch
	if s := r.c.Supply; s != nil && r.sc.SupplyRuns && s.Feeds >= 0 && !(sw != nil && sw.Stopped) {
		r.supply, r.feeds = s, int(s.Feeds)
	}
}

// barrel makes the projectile and the tubes behind and ahead of it.
func (r *runner) barrel() error {
	b := &r.c.Barrel
	s := &r.shot
	*s = projectile{present: true, mass: b.Mass, area: b.Area, weight: b.Mass * 9.80665 * b.SinPitch,
		breakaway: max(b.Breakaway, b.Sliding), restart: max(b.Breakaway, b.Sliding), sliding: b.Sliding,
		x: min(max(r.sc.Seat, 0), b.Travel), held: true, front: r.o.Ahead, back: r.o.BackPressure}
	if b.Restart > 0 {
		s.restart = max(b.Restart, b.Sliding)
	}
	if b.LeakArea > 0 {
		s.leak = pneumatics.Nozzle(b.LeakArea, b.LeakCd)
	}
	if r.sc.Parts.NoAirAhead && s.front == AheadTube {
		s.front, s.back = AheadPressure, r.pa
	}
	s.still = State{r.g.Density(r.pa, r.ta), 0, r.pa}
	if err := r.layBehind(); err != nil {
		return err
	}
	cond := r.sc.Barrel
	if cond.Pressure <= 0 {
		cond = pneumatics.Condition{Pressure: r.pa, Temperature: r.ta}
	}
	inside := State{r.g.Density(cond.Pressure, cond.Temperature), 0, cond.Pressure}
	s.behind.place(s.x)
	s.behind.fill(&r.g, func(float64) State { return inside })
	r.tubes = append(r.tubes, s.behind)
	if s.front == AheadTube {
		r.layAhead()
	}
	return nil
}

// layBehind makes the tube from the breech to the base: the dead volume and
// the way travelled.
func (r *runner) layBehind() error {
	b := &r.c.Barrel
	bore := 2 * math.Sqrt(b.Area/math.Pi)
	plain := b.DeadVolume / b.Area
	seat := r.shot.x
	if plain+seat < 1e-3*bore {
		return fmt.Errorf("wave: no gas behind the projectile: dead volume and seat leave %.3g mm of bore, at least %.3g mm",
			1e3*(plain+seat), bore)
	}
	neck, taper, chamber, wide := plain, 0.0, 0.0, bore
	if d := r.o.ChamberBore; d > 0 && d != bore {
		wide = d
		neck = 0.5 * bore
		taper = 0.5 * math.Abs(d-bore)
		frustum := math.Pi / 12 * taper * (d*d + d*bore + bore*bore)
		chamber = (b.DeadVolume - neck*b.Area - frustum) / (math.Pi / 4 * d * d)
		if chamber < 0 {
			return fmt.Errorf("wave: a dead volume of %.3g mL is too small for a chamber of %.3g mm with its taper and neck",
				1e6*b.DeadVolume, 1e3*d)
		}
	}
	r.target = (neck + taper + chamber + b.Travel) / float64(r.o.Cells)
	count := func(length float64, least int) int { return max(least, int(math.Round(length/r.target))) }
	t := newTube(4*r.o.Cells + 64)
	section := func(x float64) float64 {
		f := 0.0
		if taper > 0 {
			f = min(max((-neck-x)/taper, 0), 1)
		}
		d := bore + f*(wide-bore)
		return math.Pi / 4 * d * d
	}
	if chamber > 0 {
		n := count(chamber, 4)
		t.lay(0, n, -neck-taper-chamber, -neck-taper, 0, 0, section, r.o.Darcy)
		m := count(taper, 4)
		t.lay(n, m, -neck-taper, -neck, 0, 0, section, r.o.Darcy)
		r.fixed = n + m
	}
	// Cells are equal at the seat: the shares make them so at any travel.
	t.lay(r.fixed, count(neck+seat, 8), -neck, 0, 0, 1, func(float64) float64 { return b.Area }, r.o.Darcy)
	r.shot.behind = t
	return nil
}

// layAhead makes the tube from the front to the open end.
func (r *runner) layAhead() {
	b := &r.c.Barrel
	s := &r.shot
	end := b.Travel + endCorrection*math.Sqrt(b.Area/math.Pi)
	n := 8
	for float64(n)*2*r.target < end-s.x {
		n *= 2
	}
	t := newTube(n + 8)
	t.lay(0, n, 0, end, 1, 0, func(float64) float64 { return b.Area }, r.o.Darcy)
	t.place(s.x)
	t.fill(&r.g, func(float64) State { return s.still })
	s.ahead = t
	r.tubes = append(r.tubes, t)
	r.joints = append(r.joints, joint{tube: t, right: true, node: outside, path: -1,
		port: port{g: &r.g, area: b.Area, open: true}})
}

// connect joins the breech to its vessel, through the hose if there is one.
func (r *runner) connect(path int) {
	p := &r.c.Paths[path]
	far := int(p.From)
	if p.From == pneumatics.BarrelNode {
		far = int(p.To)
	}
	t := r.shot.behind
	breech := port{g: &r.g, area: t.area[0]}
	h := r.o.Hose
	if h.none() {
		r.joints = append(r.joints, joint{tube: t, node: far, path: path, port: breech})
		return
	}
	r.valves[path].full, r.valves[path].hose = p.Flow, false
	hose := r.layHose(h, far)
	r.bridges = append(r.bridges, bridge{hose: port{g: &r.g, area: hose.area[0]}, barrel: breech, from: hose, to: t, path: path})
}

// layHose makes the hose as a tube that begins at a node with an open end.
func (r *runner) layHose(h Hose, from int) *tube {
	area := math.Pi / 4 * h.Bore * h.Bore
	cond := pneumatics.Condition{Pressure: r.pa, Temperature: r.ta}
	if from != outside {
		v := &r.nodes[from]
		cond = r.sc.Volumes[from]
		*v = r.nodeAt(cond, v.volume-area*h.Length)
	}
	n := max(12, int(math.Round(h.Length/r.target)))
	t := newTube(n)
	t.lay(0, n, 0, h.Length, 0, 0, func(float64) float64 { return area }, h.Darcy)
	t.place(0)
	inside := State{r.g.Density(cond.Pressure, cond.Temperature), 0, cond.Pressure}
	t.fill(&r.g, func(float64) State { return inside })
	r.tubes = append(r.tubes, t)
	r.joints = append(r.joints, joint{tube: t, node: from, path: -1, port: port{g: &r.g, area: area, open: true}})
	return t
}

// findReach finds the nodes whose air can reach the barrel, and the supply's
// highest pressure if it can.
func (r *runner) findReach(path int) {
	// The tubes are the barrel: it reaches each node that one of them ends at.
	var links []pneumatics.Link
	for i := range r.joints {
		links = append(links, pneumatics.Link{From: pneumatics.Node(r.joints[i].node), To: pneumatics.BarrelNode})
	}
	for _, l := range r.links {
		links = append(links, pneumatics.Link{From: pneumatics.Node(l.from), To: pneumatics.Node(l.to)})
	}
	r.joined = pneumatics.Reached(links, len(r.nodes), pneumatics.BarrelNode, func(i int, way pneumatics.Way) bool {
		k := i - len(r.joints)
		return k < 0 || way == pneumatics.Against || !r.valves[r.links[k].path].spring
	}).Volumes()
	if r.supply != nil && r.joined[r.feeds] {
		r.reach = r.pa + r.supply.DeadHead
	}
}
