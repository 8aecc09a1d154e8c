package doubt

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
)

// What a firing valve passes at least of what the bore that it feeds would, as an ideal nozzle [-] (both own rules of this project, from
// figures from memory): of a hose or a launch tube a twelfth, for no valve is smaller than half its line (common practice of control
// valves) and a seat passes a third of an ideal nozzle and more (published tables of solenoid valves: Kv 0.23 with a seat of 3 mm,
// 1.9 with 10 mm, 3.6 with 13 mm, against 0.36, 4.0 and 6.8); of a barrel, which is far wider than any hose, a hundredth: a seat of a
// sixth of the bore.
const (
	leastOfLine   = 1.0 / 12
	leastOfBarrel = 1.0 / 100
)

// OtherFlow gives the section of an ideal nozzle that passes as much as the path's flow figure, and the section of the hose, launch tube
// or barrel that it feeds [m2], and tells whether the stated one is far less than a firing valve for that passes. A drilled hole is none:
// the checklist gauges it.
func OtherFlow(l *launcher.Launcher, path int) (stated, fed launcher.Band, other bool) {
	p := &l.Paths[path]
	if !p.Flow.Value.Set || p.Restrictor() || !fires(l, path) {
		return stated, fed, false
	}
	bore, least := l.Barrel.Bore, leastOfBarrel
	switch {
	case p.Hose != nil:
		bore, least = p.Hose.Bore, leastOfLine
	case l.Barrel.Fit == pneumatics.OverTube:
		bore, least = l.Barrel.TubeInnerDiameter, leastOfLine
	}
	said := p.FlowSaid.Of(p.Flow.Value)
	stated = launcher.Band{Set: true, Low: passes(l, &p.Flow, said.Low), High: passes(l, &p.Flow, said.High)}
	fed = launcher.Band{Set: bore.Set, Low: launcher.Circle(bore.Low), High: launcher.Circle(bore.High)}
	return stated, fed, fed.Set && stated.High < least*fed.Low
}

// Flow lets a firing valve that is told to pass far less than one for its hose, launch tube or barrel pass as much as these too: the more
// it passes, the harder the shot. A decimal point that slipped makes a shot several times milder, and no slower than others are.
func Flow(l *launcher.Launcher) {
	for i := range l.Paths {
		stated, fed, other := OtherFlow(l, i)
		if !other {
			continue
		}
		p := &l.Paths[i]
		p.FlowSaid.Keep(p.Flow.Value)
		wider := fed.High / stated.High
		if p.Flow.Form == launcher.SeatBore || p.Flow.Form == launcher.OrificeBore {
			wider = math.Sqrt(wider)
		}
		p.Flow.Value.High = p.FlowSaid.High * wider
	}
}

// passes is the section of an ideal nozzle that passes as much as a flow figure of a value, where what else is stated of it lets through
// the most [m2].
func passes(l *launcher.Launcher, f *launcher.FlowSpec, value float64) float64 {
	g := *f
	g.Value.Nominal = value
	g.DischargeCoefficient.Nominal, g.PressureDropRatio.Nominal = f.DischargeCoefficient.High, f.PressureDropRatio.High
	gas := l.GasModel()
	c, _ := g.Restriction().Conductance(gas)
	ideal, _ := flow.Nozzle(1, 1).Conductance(gas)
	return c / ideal
}

// fires tells that a path is a valve that opens to fire, and feeds the barrel or what is always open to it.
func fires(l *launcher.Launcher, path int) bool {
	p := &l.Paths[path]
	moved := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
	if !moved && p.Way != launcher.QuickInlet || moved && !p.OpenIn.Has(pneumatics.Firing) || p.Way.Exhausts() {
		return false
	}
	links := l.Links()
	joined := graph.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, _ graph.Way) bool {
		return l.Paths[i].Kind == pneumatics.Orifice
	})
	from, to := links[path].From, links[path].To
	return from != pneumatics.Atmosphere && to != pneumatics.Atmosphere && joined.At(from) != joined.At(to)
}
