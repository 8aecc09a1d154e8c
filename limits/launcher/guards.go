package launcher

import (
	"math"

	"puffproof/limits/benchmark"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// ReachDistance is how far behind a round opening of a diameter [m] a hazard has to be so that no finger, hand or arm of
// anybody of three years or more gets to it [m]; ISO 13857, reach through regular openings, table for persons of three
// years and above (from memory). Above its largest opening whoever wants to goes through whole: +Inf.
func ReachDistance(opening float64) float64 {
	for _, row := range [...]struct{ opening, distance float64 }{{4e-3, 2e-3}, {6e-3, 10e-3}, {8e-3, 20e-3}, {10e-3, 60e-3}, {12e-3, 80e-3},
		{30e-3, 120e-3}, {100e-3, 0.9}} {
		if opening <= row.opening {
			return row.distance
		}
	}
	return math.Inf(1)
}

// SlotArea is the least area of openings [m2] by which the air of the firing valves gets out of a muzzle on which lips or
// an ear are sealed, at the pressure from which lung injury is reported: the valves at their widest and the volumes
// at the highest normal pressure, in steady flow, the openings as sharp-edged holes of the lowest discharge coefficient. False
// where that pressure is not known, or never above it.
func (l *Launcher) SlotArea() (area float64, needed bool) {
	const sharp = 0.6 // discharge coefficient of a sharp-edged hole at its low end [-] (from memory)
	limit := benchmark.BenchmarkOf(benchmark.LungPressure).Value
	high, known := l.SoakedHigh()
	if !known {
		return 0, false
	}
	w := l.Clone()
	for i := range w.Paths {
		WideFlow(&w.Paths[i])
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	gauge, mass := l.HighStart(high), 0.0
	for i := range c.Paths {
		p := &c.Paths[i]
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		if p.To != pneumatics.BarrelNode || p.From < 0 || p.Kind == pneumatics.Relief || valve && !p.OpenIn.Has(pneumatics.Firing) ||
			gauge[p.From] <= limit {
			continue
		}
		mass += p.Flow.MassFlow(c.Gas, pa+gauge[p.From], ta, pa+limit, ta)
	}
	return mass / flow.Nozzle(1, sharp).MassFlow(c.Gas, pa+limit, ta, pa, ta), mass > 0
}
