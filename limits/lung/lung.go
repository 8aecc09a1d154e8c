// Package lung is what a lung, or an ear, takes whose lips are sealed on a muzzle: the charge mixed into it, and what the supply blows on.
// It computes no shot. Start reading at Mixed.
package lung

import (
	"math"

	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Mixed is the highest gauge pressure [Pa] that the air of all volumes which feed
// the barrel comes to in a lung of a size [m3], from a gauge pressure of each [Pa], and how
// much space they have then [m3]:
//
//	p = sum(p_i V_i)/(sum V_i + V_dead + V_lung)
//
// (ideal gas, isothermal). A volume that stands above the mix counts with the most that it can hold, one below it
// dilutes it: with the least, and not at all where nothing can flow back into it.
func Mixed(l *launcher.Launcher, gauge []float64, lung float64) (mix, volume float64) {
	most, least := spaces(l, 1), spaces(l, 0)
	reach := launcher.ReachOf(l)
	links := l.Links()
	takes := graph.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, way graph.Way) bool {
		return reach.Paths[i] && (way == graph.Along || !l.Paths[i].Kind.OneWay())
	}).Volumes()
	for range len(gauge) + 1 { // each round the mix is the higher one, until no volume changes sides
		charge, space := 0.0, least.Barrel.DeadVolume+lung
		volume = 0
		for i, g := range gauge {
			v := most.Volumes[i].Volume
			switch {
			case !reach.Volumes[i], g <= mix && !takes[i]:
				continue
			case g <= mix:
				v = least.Volumes[i].Volume
			}
			charge, volume = charge+g*v, volume+v
		}
		mix = max(mix, charge/(space+volume))
	}
	return mix, volume
}

// spaces is the circuit with every volume and hose at one end of its band: 0 the least
// space, 1 the most.
func spaces(l *launcher.Launcher, end float64) *pneumatics.Circuit {
	w := l.Clone()
	for i := range w.Volumes {
		v := &w.Volumes[i].Volume
		v.Nominal = v.Lerp(end)
	}
	w.Barrel.DeadVolume.Nominal = w.Barrel.DeadVolume.Lerp(end)
	for i := range w.Paths {
		if h := w.Paths[i].Hose; h != nil {
			h.Bore.Nominal, h.Length.Nominal = h.Bore.Lerp(end), h.Length.Lerp(end)
		}
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// Blown is what a gauge pressure [Pa] in so much space [m3] rises to while lips or an ear stay sealed on a muzzle that blows, where the
// supply has an open way into the barrel as it is fired. Nobody lets go for certain, and a supply that brings little brings it all the
// same: it is followed to rest. That is at the most to where the filling ends in normal use, or to its dead head where that is a timer,
// which may start then; and no further than to where what is always open in the barrel lets out all that it delivers, at the narrow end of
// its bands.
func Blown(l *launcher.Launcher, gauge, space float64) float64 {
	if !l.SupplyFires() {
		return gauge
	}
	open := graph.Reached(l.Links(), len(l.Volumes), l.Node(l.Supply.Feeds), func(i int, way graph.Way) bool {
		p := &l.Paths[i]
		moved := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		return p.Kind != pneumatics.Relief && (!moved || p.OpenIn.Has(pneumatics.Firing)) && (way == graph.Along || !p.Kind.OneWay())
	})
	if !open.At(pneumatics.BarrelNode) { // a feed that is still shutting is not counted: it lasts milliseconds
		return gauge
	}
	rises := math.Inf(1)
	switch high, known := l.NormalHigh(); {
	case known && l.Stops() != launcher.StopTimer:
		rises = l.HighStart(high)[l.Node(l.Supply.Feeds)]
	case l.Supply.DeadHead.Set:
		rises = l.Supply.DeadHead.High
	}
	return max(gauge, bled(l, rises))
}

// bled is the gauge pressure of the barrel [Pa] at which its drilled holes into the open pass all that the supply delivers, at most top.
func bled(l *launcher.Launcher, top float64) float64 {
	if l.Supply.MostFreeAir() <= 0 || math.IsInf(top, 1) {
		return top
	}
	w := vent.AtEnd(l, vent.SlowEnd)
	w.Supply.Strongest()
	c := new(pneumatics.Circuit)
	w.Fill(c)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	passes := func(p float64) bool {
		out := 0.0
		for i := range c.Paths {
			if k := &c.Paths[i]; k.Kind == pneumatics.Orifice && k.From == pneumatics.BarrelNode && k.To == pneumatics.Atmosphere {
				law := k.SteadyFlow(c.Gas)
				out += law.MassFlow(c.Gas, pa+p, ta, pa, ta)
			}
		}
		return out >= c.Supply.Delivery(p)*pa/(c.Gas.R*ta)
	}
	if !passes(top) {
		return top
	}
	_, high := halving.Between(0, top, 60, passes)
	return high
}
