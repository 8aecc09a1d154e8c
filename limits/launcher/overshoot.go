package launcher

import (
	"math"

	"puffproof/pneumatics"
)

// Overshoot is the rise of the sensed volume from the moment at which the switch trips
// [Pa], isothermal, with the supply's highest delivery Q at zero gauge for the reaction
// time t.
//
// Where the supply feeds the sensed volume itself and nothing else takes the air:
//
//	dp = pa Q t/V
//
// A volume V2 behind a path that is always open, such as the tank behind a check valve,
// takes its share once the path passes the delivery, at a drop D over it:
//
//	dp <= D + pa Q t/(V + V2)
//
// (Both contents together rise by pa Q t, so neither mean rises by more; the fed volume
// stands at most by D above the other, since above that it loses more than it gets.) The
// lesser counts. Where the supply feeds another volume V, which stands by D above the
// sensed one V2, its excess comes over as well:
//
//	dp = (V D + pa Q t)/(V + V2)
//
// with every band at the end that makes it larger.
func (l *Launcher) Overshoot() float64 {
	if l.Switch == nil || l.Supply == nil {
		return 0
	}
	sensed, fed := l.Node(l.Sensed()), l.Node(l.Supply.Feeds)
	air := 0.0 // pa Q t [J]
	if l.Switch.ReactionTime.Set {
		air = l.Ambient.Pressure.High * l.Supply.MostFreeAir() * l.Switch.ReactionTime.High
	}
	v := l.Volumes[fed].Volume
	at := l.Switch.CutOut.High + l.Switch.GaugeError.High
	if sensed == fed {
		return l.overshootFed(fed, at, air)
	}
	if excess := l.HighStart(at)[fed] - at; excess > 0 && l.chargesDirectly(fed, sensed) {
		s := l.Volumes[sensed].Volume
		return excess*v.High/(v.High+s.Low) + air/(v.Low+s.Low)
	}
	return air / min(v.Low, l.Volumes[sensed].Volume.Low)
}

// overshootFed is Overshoot of a volume that the supply feeds and the switch senses, at a
// gauge pressure [Pa], by so much air [J].
func (l *Launcher) overshootFed(fed pneumatics.Node, at, air float64) float64 {
	v := l.Volumes[fed].Volume.Low
	rise := air / v
	if rise == 0 {
		return 0
	}
	c := l.weakPaths()
	flow := l.Ambient.Pressure.High * l.Supply.MostFreeAir() / (c.Gas.R * l.Coldest())
	top := at + rise
	for i := range c.Paths {
		p := &c.Paths[i]
		other := p.To
		if p.To == fed {
			other = p.From
		}
		if !alwaysOpen(p.Kind) || other < 0 || other == fed || p.From != fed && (p.To != fed || p.Kind.OneWay()) {
			continue
		}
		if passes := passesAll(c, p, flow, at, top, p.From == fed); !math.IsInf(passes, 1) {
			rise = min(rise, passes-at+air/(v+l.Volumes[other].Volume.Low))
		}
	}
	return rise
}

// weakPaths is the circuit with every path at the end of its bands where it passes least
// and its air the hottest.
func (l *Launcher) weakPaths() *pneumatics.Circuit {
	w := l.withOwnPaths()
	w.Ambient.Temperature.Nominal = w.Hottest()
	for i := range w.Paths {
		p := &w.Paths[i]
		weakFlow(p)
		w.HoldBack(p, leastBalance)
		p.CrackingPressure.Nominal = p.CrackingPressure.High
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// chargesDirectly tells whether a path that opens for the charge leads from one volume to
// another without a regulator, which lets no excess through.
func (l *Launcher) chargesDirectly(from, to pneumatics.Node) bool {
	for i := range l.Paths {
		p := l.Paths[i].Path(l)
		back := p.From == to && p.To == from && !p.Kind.OneWay()
		if opensForCharge(&p) && p.Kind != pneumatics.Regulator && (p.From == from && p.To == to || back) {
			return true
		}
	}
	return false
}
