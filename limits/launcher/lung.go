package launcher

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// MixedIntoLung is the highest gauge pressure [Pa] that the air of all volumes which feed
// the barrel comes to in a lung of a size [m3], from a gauge pressure of each [Pa], and how
// much space they have then [m3]:
//
//	p = sum(p_i V_i)/(sum V_i + V_dead + V_lung)
//
// (ideal gas, isothermal). A volume that stands above the mix counts with the most that it can hold, one below it
// dilutes it: with the least, and not at all where nothing can flow back into it.
func (l *Launcher) MixedIntoLung(gauge []float64, lung float64) (mix, volume float64) {
	most, least := l.spaces(1), l.spaces(0)
	reach := ReachOf(l)
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
func (l *Launcher) spaces(end float64) *pneumatics.Circuit {
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

// LetsGo is how long lips stay sealed on a muzzle that blows [s] (own rule of this project).
const LetsGo = 1.0

// BlownInto is what a gauge pressure [Pa] in so much space [m3] rises to while lips stay sealed, where the supply has an
// open way into the barrel as it is fired, however fast where its delivery is not stated; at most to where
// the filling ends in normal use, or to its dead head where that is a timer, which may start then.
func (l *Launcher) BlownInto(gauge, space float64) float64 {
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
	if most := l.Supply.MostFreeAir(); most > 0 {
		rises = gauge + l.Ambient.Pressure.High*most*LetsGo/space
	}
	switch w := l.Working(); {
	case w.By != StopUnknown && w.By != StopTimer:
		rises = min(rises, l.HighStart(w.High)[l.Node(l.Supply.Feeds)])
	case l.Supply.DeadHead.Set:
		rises = min(rises, l.Supply.DeadHead.High)
	}
	return max(gauge, rises)
}
