package limits

import (
	"math"

	"puffproof/pneumatics"
)

// Overcharge is where the pressure ends when nothing stops the supply: the
// switch welded, or none. Gauge pressures [Pa].
type Overcharge struct {
	Known    bool
	Pressure float64 // the highest
	Balance  float64 // supply and relief flow balance; the dead head where no relief valve works
	FullFlow float64 // full-flow pressure of the relief valve at the top of its tolerance; 0: none
	Why      string
}

// Overcharge gives the pressure of the volumes joined to the supply when the
// switch never opens, with the supply at the strong end of its tolerance and the
// relief valves at the weak end:
//
//	min(dead head, max(full-flow pressure, balance of supply and relief flow))
//
// Without a relief valve it is the dead head; without a dead head unknown.
func (l *Launcher) Overcharge() Overcharge { return l.overcharge("") }

// overcharge leaves out the relief valve named stuck.
func (l *Launcher) overcharge(stuck string) Overcharge {
	switch {
	case l.Supply == nil:
		high, ok := l.NormalHigh()
		return Overcharge{Known: ok, Pressure: high, Balance: high, Why: "no supply in the design: filled by hand to the stated pressure"}
	case !l.Supply.DeadHead.Set:
		return Overcharge{Why: "supply.dead_head is not stated"}
	}
	o := Overcharge{Known: true}
	c := l.strongSupplyWeakRelief()
	dead := c.Supply.DeadHead
	var reliefs []*pneumatics.Path
	joined := l.joinedToSupply()
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.Kind == pneumatics.Relief && p.Name != stuck && p.From >= 0 && joined[p.From] {
			reliefs = append(reliefs, p)
			o.FullFlow = max(o.FullFlow, p.FullFlowPressure)
		}
	}
	if len(reliefs) == 0 {
		o.Pressure, o.Balance = dead, dead
		o.Why = "no relief valve on the supplied volumes: the supply's dead head"
		return o
	}
	o.Balance = balance(c, reliefs)
	o.Pressure = min(dead, max(o.FullFlow, o.Balance))
	switch {
	case o.Pressure == dead:
		o.Why = "the supply cannot go beyond its dead head"
	case o.Balance > o.FullFlow:
		o.Why = "the relief valve does not carry the supply: supply and relief flow balance here"
	default:
		o.Why = "the relief valve at full flow, top of its tolerance"
	}
	return o
}

// strongSupplyWeakRelief is the circuit with the supply at the strong end and
// the relief valves set high and narrow.
func (l *Launcher) strongSupplyWeakRelief() *pneumatics.Circuit {
	w := l.Clone()
	w.Ambient.Pressure.Nominal = w.Ambient.Pressure.High
	w.Supply.FreeAir.Nominal = w.Supply.FreeAir.High
	w.Supply.DeadHead.Nominal = w.Supply.DeadHead.High
	for i := range w.Paths {
		p := &w.Paths[i]
		if p.Kind != pneumatics.Relief {
			continue
		}
		p.FullFlowPressure.Nominal = p.fullFlowHigh()
		p.SetPressure.Nominal = p.SetPressure.High
		for _, b := range []*Band{&p.Flow.Value, &p.Flow.DischargeCoefficient, &p.Flow.PressureDropRatio} {
			b.Nominal = b.Low
		}
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// fullFlowHigh is the full-flow pressure at the top of its tolerance: its own
// band, or shifted with the set pressure, whichever is higher.
func (p *PathSpec) fullFlowHigh() float64 {
	return max(p.FullFlowPressure.High, p.FullFlowPressure.Nominal+p.SetPressure.High-p.SetPressure.Nominal)
}

// reseatLow is the reseat pressure shifted with the low end of the set pressure.
func (p *PathSpec) reseatLow() float64 {
	return min(p.ReseatPressure.Low, p.ReseatPressure.Nominal-p.SetPressure.Nominal+p.SetPressure.Low)
}

// balance is the gauge pressure at which the relief valves pass what the supply
// delivers, by bisection: the supply falls with pressure, the relief flow rises.
func balance(c *pneumatics.Circuit, reliefs []*pneumatics.Path) float64 {
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	rho := pa / (c.Gas.R * ta)
	low, high := 0.0, c.Supply.DeadHead
	for range 60 {
		mid := 0.5 * (low + high)
		net := c.Supply.Delivery(mid) * rho
		for _, p := range reliefs {
			lift := min(max((mid-p.SetPressure)/(p.FullFlowPressure-p.SetPressure), 0), 1)
			net -= lift * p.Flow.MassFlow(c.Gas, pa+mid, ta, pa, ta)
		}
		if net > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// joinedToSupply tells which volumes share the supplied volume's pressure while
// charging: by paths open then, regulators apart.
func (l *Launcher) joinedToSupply() []bool {
	joined := make([]bool, len(l.Volumes))
	if l.Supply == nil {
		return joined
	}
	c := new(pneumatics.Circuit)
	l.Fill(c)
	joined[l.Node(l.Supply.Feeds)] = true
	for changed := true; changed; {
		changed = false
		for i := range c.Paths {
			p := &c.Paths[i]
			if p.From < 0 || p.To < 0 || !opensForCharge(p) || p.Kind == pneumatics.Regulator {
				continue
			}
			if joined[p.From] != joined[p.To] {
				joined[p.From], joined[p.To], changed = true, true, true
			}
		}
	}
	return joined
}

// vesselPressure is the highest pressure a volume can see [Pa gauge].
type vesselPressure struct {
	normal, fault float64
	why           string
}

// vesselPressures gives the highest pressure of every volume, normal and at a
// single fault; NaN where it cannot be known.
func (l *Launcher) vesselPressures() []vesselPressure {
	c := new(pneumatics.Circuit)
	l.Fill(c)
	out := make([]vesselPressure, len(l.Volumes))
	over := l.Overcharge()
	joined := l.joinedToSupply()
	high, ok := l.SoakedHigh()
	var normal []float64
	if ok {
		normal = l.StartPressures(c, high, nil)
	}
	top := 0.0 // what a regulator that fails open lets through
	for _, p := range normal {
		top = max(top, p)
	}
	for i := range out {
		v := &out[i]
		v.normal = math.NaN()
		if ok {
			v.normal = normal[i]
		}
		switch {
		case joined[i] && over.Known:
			v.fault, v.why = over.Pressure, over.Why
		case joined[i]:
			v.fault, v.why = math.NaN(), over.Why
		default:
			v.fault, v.why = top, "a regulator or check valve before it passes all it gets"
		}
		v.fault = max(v.fault, v.normal)
	}
	return out
}

// faultHigh is the highest start pressure of the sensed volume at an
// overcharging fault [Pa gauge]; not ok where it is unknown.
func (l *Launcher) faultHigh() (float64, bool) {
	high, ok := l.SoakedHigh()
	over := l.Overcharge()
	if !over.Known {
		return high, false
	}
	if !ok {
		return over.Pressure, true
	}
	return max(high, over.Pressure), true
}
