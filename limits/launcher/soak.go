package launcher

import (
	"cmp"
	"math"

	"puffproof/limits/halving"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// SoakedHigh is NormalHigh shut off at the coldest temperature the design states
// for its use, and heated to the hottest [Pa gauge]: Soak of it. Where a relief valve is what ends the filling,
// and every volume filled is joined to it by what is always open, it lets out what heat adds.
func (l *Launcher) SoakedHigh() (gauge float64, ok bool) {
	w := l.stops()
	switch {
	case w.By == StopUnknown:
		return 0, false
	case w.By == StopRelief && l.relievedInHeat():
		return w.High, true
	}
	return l.Soak(w.High), true
}

// relievedInHeat tells that no volume that is filled can be shut off from the supplied one.
func (l *Launcher) relievedInHeat() bool {
	links := l.Links()
	open := graph.Reached(links, len(l.Volumes), l.Node(l.Supply.Feeds), func(i int, way graph.Way) bool {
		k := l.Paths[i].Kind
		back := k == pneumatics.Orifice || k == pneumatics.Hose || k.OneWay() && k != pneumatics.Regulator && way == graph.Against
		return links[i].BetweenVolumes() && alwaysOpen(k) && back
	})
	for i, filled := range l.meetsSupply() {
		if filled && !open.At(pneumatics.Node(i)) {
			return false
		}
	}
	return true
}

// Soak is what a gauge pressure [Pa] rises to when the launcher, filled at its coldest and
// shut off, stands in its hottest: as of SealedSoak, but what is driven out by bleeds
// that are always open does not stay. Where every volume has such a way out the pressure
// rises no further than to the balance of what heats up and what flows out.
func (l *Launcher) Soak(gauge float64) float64 {
	sealed := l.SealedSoak(gauge)
	if sealed == gauge || !l.bleeds() {
		return sealed
	}
	return min(sealed, max(gauge, l.soakBalance(sealed)))
}

// SealedSoak is what a gauge pressure [Pa] rises to where nothing leaves:
//
//	p = (p0 + pa) T_hot/T_fill - pa
func (l *Launcher) SealedSoak(gauge float64) float64 {
	hot := l.Hottest()
	fill := l.Ambient.Temperature.Low
	if c := l.Ambient.Coldest; c.Set && !c.Assumed {
		fill = min(fill, c.Low)
	}
	if hot <= fill {
		return gauge
	}
	pa := l.Ambient.Pressure.High
	return (gauge+pa)*hot/fill - pa
}

// bleeds tells whether any opening to the atmosphere is always there.
func (l *Launcher) bleeds() bool {
	for i := range l.Paths {
		if p := &l.Paths[i]; alwaysOpen(p.Kind) && (p.From == "atmosphere" || p.To == "atmosphere") {
			return true
		}
	}
	return false
}

// alwaysOpen tells of a kind of path that nothing but pressure moves. A regulator is
// none: it shuts at its set pressure; nor is a relief valve.
func alwaysOpen(k pneumatics.PathKind) bool {
	return k == pneumatics.Orifice || k == pneumatics.Hose || k == pneumatics.Check
}

const (
	// fastestHeating is faster than anything that stands in the sun gets warm [K/s] (own
	// rule of this project: full sun, 1000 W/m2, warms a plate of half a millimetre of
	// aluminium, 2.4 MJ/(m3 K), by 0.8 K/s, and the air behind it later).
	fastestHeating = 1.0
	// leastBalance is the least gauge pressure that is told as a balance [Pa]: the bleeds'
	// hoses count with their laminar flow there.
	leastBalance = 1000.0
)

// soakBalance is the highest gauge pressure of any volume [Pa] at which the bleeds that are
// always open, at their narrowest, pass all the air that heating drives out of all volumes
// together:
//
//	q = (sealed + pa) V/(R T^2) dT/dt
//
// +Inf where a volume has no such way out but through valves or the barrel. sealed is a
// gauge pressure that none exceeds [Pa].
func (l *Launcher) soakBalance(sealed float64) float64 {
	c, cold := l.weakPaths(), l.Coldest()
	q := (sealed + l.Ambient.Pressure.High) * l.mostSpace() / (c.Gas.R * cold * cold) * fastestHeating
	level := graph.NewPerNode(len(c.Volumes), math.Inf(1))
	level.Set(pneumatics.Atmosphere, 0)
	links := c.Links()
	// From the atmosphere backwards: the other way than the air.
	graph.Reach(links, level, cmp.Less[float64], func(i int, way graph.Way, behind float64) float64 {
		p := &c.Paths[i]
		if !alwaysOpen(p.Kind) || links[i].End(way) == pneumatics.BarrelNode || way == graph.Along && p.Kind.OneWay() {
			return math.Inf(1)
		}
		return passesAll(c, p, q, behind, sealed, way == graph.Against)
	})
	most := leastBalance
	for _, g := range level.Volumes() {
		most = max(most, g)
	}
	return most
}

// passesAll is the least gauge pressure before a path [Pa], up to most, at which it passes
// a mass flow [kg/s] to a gauge pressure behind it, by bisection; +Inf: it does not.
func passesAll(c *pneumatics.Circuit, p *pneumatics.Path, flow, behind, most float64, forward bool) float64 {
	if !(behind < most) || chargeFlow(c, p, most, behind, forward) < flow {
		return math.Inf(1)
	}
	_, high := halving.Between(behind, most, 50, func(at float64) bool { return !(chargeFlow(c, p, at, behind, forward) < flow) })
	return high
}

// mostSpace is the most that all volumes with their hoses hold [m3].
func (l *Launcher) mostSpace() (space float64) {
	for i := range l.Volumes {
		space += l.Volumes[i].Volume.High
	}
	for i := range l.Paths {
		if h := l.Paths[i].Hose; h != nil {
			space += Circle(h.Bore.High) * h.Length.High
		}
	}
	return space
}

// Hottest is the highest temperature the filled launcher can have [K].
func (l *Launcher) Hottest() float64 {
	hot := l.Ambient.Temperature.High
	if l.Ambient.Hottest.Set {
		hot = max(hot, l.Ambient.Hottest.High)
	}
	return hot
}

// Coldest is the lowest temperature the launcher can have [K].
func (l *Launcher) Coldest() float64 {
	cold := l.Ambient.Temperature.Low
	if l.Ambient.Coldest.Set {
		cold = min(cold, l.Ambient.Coldest.Low)
	}
	return cold
}
