package launcher

import (
	"cmp"
	"math"
	"slices"

	"puffproof/limits/halving"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Sensed names the volume whose pressure stands for the launcher's: the one the
// switch senses, else the one the supply feeds, else the one that comes filled, else the first.
func (l *Launcher) Sensed() string {
	switch {
	case l.Switch != nil:
		return l.Switch.Senses
	case l.Supply != nil:
		return l.Supply.Feeds
	}
	return l.Volumes[max(l.Prefilled(), 0)].Name
}

// StartPressures fills gauge with the pressure of every volume [Pa gauge] when
// the sensed one stands at at:
//
//   - a volume joined to it by a path that is open while charging or armed has
//     the same pressure;
//   - behind a regulator it is at most the set pressure with its creep; before
//     one it is what feeds it, and the supply's dead head where that is the supply
//     itself or not known;
//   - the volume the supply feeds is higher by what the path to the sensed one
//     needs to pass the delivery;
//   - a fed volume that nothing joins to the switch reaches the dead head;
//   - every other volume is at ambient pressure.
func (l *Launcher) StartPressures(c *pneumatics.Circuit, at float64, gauge []float64) []float64 {
	gauge = resizeTo(gauge, len(l.Volumes))
	for i := range gauge {
		gauge[i] = math.NaN()
	}
	gauge[l.Node(l.Sensed())] = at
	l.spread(c, gauge)
	if l.Supply != nil {
		if fed := l.Node(l.Supply.Feeds); math.IsNaN(gauge[fed]) {
			gauge[fed] = l.Supply.DeadHead.High
			l.spread(c, gauge)
		} else if l.Supply.Feeds != l.Sensed() {
			gauge[fed] = max(gauge[fed], l.behindRestriction(c, fed, at))
		}
	}
	for i := range gauge {
		if math.IsNaN(gauge[i]) {
			gauge[i] = 0
		}
	}
	return gauge
}

// spread passes known pressures on to the volumes joined to them. Where several
// paths lead to a volume the highest pressure counts, whatever their order; the
// sensed volume keeps its own. NaN: not known.
func (l *Launcher) spread(c *pneumatics.Circuit, gauge []float64) {
	links, sensed := c.Links(), l.Node(l.Sensed())
	level := graph.NewPerNode(len(c.Volumes), math.NaN())
	copy(level, gauge)
	pass := func(i int, way graph.Way, at float64) float64 {
		if !links[i].BetweenVolumes() || links[i].End(way) == sensed {
			return math.NaN()
		}
		return charged(&c.Paths[i], way, at)
	}
	graph.Reach(links, level, Higher, pass)
	feeds := l.suppliedPast(c) // and the volumes of which nothing is known yet
	for i, at := range level.Volumes() {
		feeds[i] = feeds[i] || math.IsNaN(at)
	}
	if slices.Contains(feeds, true) {
		graph.Reach(links, level, Higher, func(i int, way graph.Way, at float64) float64 {
			if c.Paths[i].Kind == pneumatics.Regulator && way == graph.Against && links[i].BetweenVolumes() && feeds[links[i].From] {
				return l.deadHead(at)
			}
			return pass(i, way, at)
		})
	}
	copy(gauge, level)
}

// Higher is better for start pressures: any that is known before none.
func Higher(a, b float64) bool { return cmp.Less(b, a) }

// charged is the pressure that a path between volumes passes on while charging or
// armed [Pa gauge], none back through a regulator; NaN: none.
func charged(p *pneumatics.Path, way graph.Way, at float64) float64 {
	switch {
	case !opensForCharge(p), p.Kind == pneumatics.Regulator && way == graph.Against:
		return math.NaN()
	case p.Kind == pneumatics.Regulator:
		return min(at, p.SetPressure)
	}
	return at
}

// suppliedPast tells which volumes the supply reaches while charging without
// passing the sensed one: no switch limits their pressure.
func (l *Launcher) suppliedPast(c *pneumatics.Circuit) []bool {
	sensed := l.Node(l.Sensed())
	if l.Supply == nil || l.Node(l.Supply.Feeds) == sensed {
		return make([]bool, len(c.Volumes))
	}
	links := c.Links()
	return graph.Reached(links, len(c.Volumes), l.Node(l.Supply.Feeds), func(i int, _ graph.Way) bool {
		k := links[i]
		return k.BetweenVolumes() && k.From != sensed && k.To != sensed && opensForCharge(&c.Paths[i])
	}).Volumes()
}

func opensForCharge(p *pneumatics.Path) bool {
	switch p.Kind {
	case pneumatics.Valve, pneumatics.HandValve:
		return p.OpenIn.Has(pneumatics.Charging) || p.OpenIn.Has(pneumatics.Armed)
	case pneumatics.Relief:
		return false
	}
	return true
}

func (l *Launcher) deadHead(otherwise float64) float64 {
	if l.Supply == nil || !l.Supply.DeadHead.Set {
		return otherwise
	}
	return max(otherwise, l.Supply.DeadHead.High)
}

// behindRestriction is the gauge pressure of the fed volume at which the paths
// to the sensed volume pass the supply's delivery, by bisection; the dead head
// where the two are not neighbours.
func (l *Launcher) behindRestriction(c *pneumatics.Circuit, fed pneumatics.Node, at float64) float64 {
	sensed := l.Node(l.Sensed())
	supply := c.Supply
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	excess := func(p float64) float64 {
		q := supply.Delivery(p) * pa / (c.Gas.R * ta)
		for i := range c.Paths {
			path := &c.Paths[i]
			if opensForCharge(path) && (path.From == fed && path.To == sensed || path.From == sensed && path.To == fed) {
				q -= chargeFlow(c, path, p, at, path.From == fed)
			}
		}
		return q
	}
	low, high := at, max(at, supply.DeadHead)
	if excess(high) > 0 {
		return high
	}
	_, high = halving.Between(low, high, 60, func(p float64) bool { return !(excess(p) > 0) })
	return high
}

// chargeFlow is the mass flow [kg/s] of a path, hose included, from a volume at
// p to one at the lower at [Pa gauge]; forward: along the path's direction.
func chargeFlow(c *pneumatics.Circuit, path *pneumatics.Path, p, at float64, forward bool) float64 {
	law, lift := path.SteadyFlow(c.Gas), 1.0
	switch path.Kind {
	case pneumatics.Check, pneumatics.Regulator:
		if !forward {
			return 0
		}
		// A disc is fully open a tenth of its cracking pressure, or 1 kPa, above it.
		lift = min(max((p-at-path.CrackingPressure)/max(0.1*path.CrackingPressure, 1000), 0), 1)
	}
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	return lift * law.MassFlow(c.Gas, pa+p, ta, pa+at, ta)
}

func resizeTo(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}

// NormalHigh is the highest gauge pressure of the sensed volume in normal
// operation [Pa]: Working, at its upper end. Not ok where the design does not tell.
func (l *Launcher) NormalHigh() (gauge float64, ok bool) {
	w := l.stops()
	if w.By == StopUnknown {
		return 0, false
	}
	return w.High, true
}

// HighStart gives ReadyPressures with the switch stopping the supply at at [Pa gauge], the
// regulators at the top of their bands and the supply at its strongest.
func (l *Launcher) HighStart(at float64) []float64 {
	w := l.withOwnPaths()
	for i := range w.Paths {
		p := &w.Paths[i]
		if p.Kind == pneumatics.Regulator {
			p.SetPressure.Nominal, p.Creep.Nominal = p.SetPressure.High, p.Creep.High
		}
		p.CrackingPressure.Nominal = p.CrackingPressure.High
	}
	if s := w.Supply; s != nil {
		s.Strongest()
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return w.ReadyPressures(c, at, nil)
}

// MaySoak tells whether the projectile may take up water: yes, unless the design states closed cells.
func (l *Launcher) MaySoak() bool { return l.Projectile.OpenCell != No }

// MayFreeze tells whether water on and in the projectile may turn to ice: yes, unless the design states a coldest
// temperature above freezing.
func (l *Launcher) MayFreeze() bool {
	const freezing = 273.15 // [K]
	c := l.Ambient.Coldest
	return !c.Set || c.Assumed || l.Coldest() <= freezing
}
