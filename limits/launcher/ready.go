package launcher

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// ReadyPressures is StartPressures after any wait, with everything that goes on once
// the switch has stopped the supply at at [Pa gauge], each volume as high as it can get:
//
//   - what stands higher in the supplied volume than in the sensed one goes on flowing
//     until they balance; what is joined to the supplied volume has its pressure;
//   - behind a regulator that does not relieve, the air filled cold is sealed in the heat;
//   - what joins two volumes while loading, off or without power has done so before, and a tap that
//     the design has open in no state was turned all the same: anybody can.
//
// It is an upper bound: no energy is lost to the walls (two volumes that are joined end at
// sum(p V)/sum(V), whatever their temperatures), and what flowed out of a volume is counted
// there as well, since the shot may come at any moment of the wait.
func (l *Launcher) ReadyPressures(c *pneumatics.Circuit, at float64, gauge []float64) []float64 {
	cold, was := l.sealHot(c), joinBefore(c)
	gauge = l.StartPressures(c, at, gauge)
	l.creepOn(c, gauge)
	for i, in := range was {
		c.Paths[i].OpenIn = in
	}
	for i, p := range cold {
		c.Paths[i].SetPressure = p
	}
	return gauge
}

// joinBefore counts valves between volumes as open while charging that are so while loading, off, without power or by a hand that the
// design has in no state, and gives the states that it replaced, by path.
func joinBefore(c *pneumatics.Circuit) (was map[int]pneumatics.StateSet) {
	for i := range c.Paths {
		p := &c.Paths[i]
		opens := p.OpenIn.Has(pneumatics.Loading) || p.OpenIn.Has(pneumatics.Off) || p.Unpowered == pneumatics.Open
		turned := p.Kind == pneumatics.HandValve && p.OpenIn == 0
		if opensForCharge(p) || p.Kind == pneumatics.Relief || p.From < 0 || p.To < 0 || !opens && !turned {
			continue
		}
		if was == nil {
			was = map[int]pneumatics.StateSet{}
		}
		was[i], p.OpenIn = p.OpenIn, p.OpenIn|pneumatics.SetOf(pneumatics.Charging)
	}
	return was
}

// sealHot raises every regulator that does not relieve to what its set pressure becomes
// in the heat, and gives the pressures that it replaced, by path.
func (l *Launcher) sealHot(c *pneumatics.Circuit) map[int]float64 {
	var cold map[int]float64
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.Kind != pneumatics.Regulator || l.Paths[i].Relieving {
			continue
		}
		if hot := l.Soak(p.SetPressure); hot > p.SetPressure {
			if cold == nil {
				cold = map[int]float64{}
			}
			cold[i], p.SetPressure = p.SetPressure, hot
		}
	}
	return cold
}

// creepOn lets the supplied volume, and what is joined to it, balance with the sensed one.
func (l *Launcher) creepOn(c *pneumatics.Circuit, gauge []float64) {
	if l.Supply == nil {
		return
	}
	fed, sensed := l.Node(l.Supply.Feeds), l.Node(l.Sensed())
	if fed == sensed || !(gauge[fed] > gauge[sensed]) {
		return
	}
	links := c.Links()
	level := graph.NewPerNode(len(gauge), math.NaN())
	level[fed] = gauge[fed]
	graph.Reach(links, level, Higher, func(i int, way graph.Way, at float64) float64 {
		if links[i].End(way) == sensed {
			return math.NaN()
		}
		return flowsOn(c, i, links[i], way, at)
	})
	volume := c.Volumes[sensed].Volume
	content := gauge[sensed] * volume
	for i := range gauge {
		if level[i] >= gauge[i] {
			gauge[i] = level[i]
			content += level[i] * c.Volumes[i].Volume
			volume += c.Volumes[i].Volume
		}
	}
	after := graph.NewPerNode(len(gauge), math.NaN())
	copy(after, gauge)
	balanced := max(gauge[sensed], content/volume)
	graph.Reach(links, after, Higher, func(i int, way graph.Way, at float64) float64 {
		return flowsOn(c, i, links[i], way, min(at, balanced))
	})
	copy(gauge, after.Volumes())
}

// flowsOn is the pressure up to which a path fills the volume at its end from at [Pa gauge]; NaN: it
// does not.
func flowsOn(c *pneumatics.Circuit, i int, link graph.Link, way graph.Way, at float64) float64 {
	if !link.BetweenVolumes() || c.Paths[i].Kind.OneWay() && way == graph.Against {
		return math.NaN()
	}
	return charged(&c.Paths[i], way, at)
}

// ReadyHigh is the highest gauge pressure of the sensed volume before a shot in normal
// operation [Pa]: SoakedHigh, with what still flows into it after the switch has stopped the
// supply. Not ok where the design does not tell.
func (l *Launcher) ReadyHigh() (gauge float64, ok bool) {
	high, ok := l.SoakedHigh()
	if !ok {
		return 0, false
	}
	return l.HighStart(high)[l.Node(l.Sensed())], true
}
