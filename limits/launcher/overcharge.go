package launcher

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/pneumatics"
)

// Overcharge is where the pressure ends when nothing stops the supply: the
// switch welded, or none. Gauge pressures [Pa].
type Overcharge struct {
	Known    bool
	Pressure float64 // the highest
	Balance  float64 // supply and relief flow balance; the dead head where no relief valve works
	FullFlow float64 // full-flow pressure of the relief valve at the top of its tolerance; 0: none
	Why      finding.Text
}

// Overcharge gives the pressure of the volumes joined to the supply when the
// switch never opens, with the supply at the strong end of its tolerance and the
// relief valves at the weak end:
//
//	min(dead head, max(full-flow pressure, balance of supply and relief flow))
//
// Only a relief valve on the supplied volume itself counts: what stands between
// another volume's and the supply may be shut or narrow. Without one it is the
// dead head, as it is where the delivery is not stated; without a dead head
// unknown.
func (l *Launcher) Overcharge() Overcharge { return l.OverchargeWith("") }

// OverchargeWith leaves out the relief valve named stuck.
func (l *Launcher) OverchargeWith(stuck string) Overcharge {
	switch {
	case l.Supply == nil:
		return Overcharge{Why: finding.Words("the design has no [supply]: what fills it, and how far that can push, is not stated")}
	case !l.Supply.DeadHead.Set:
		return Overcharge{Why: finding.Words("supply.dead_head is not stated")}
	}
	o := Overcharge{Known: true}
	c := l.StrongSupplyWeakRelief()
	dead := c.Supply.DeadHead
	var reliefs []*pneumatics.Path
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.Kind == pneumatics.Relief && p.Name != stuck && p.From == c.Supply.Feeds {
			reliefs = append(reliefs, p)
		}
	}
	switch {
	case len(reliefs) == 0:
		o.Pressure, o.Balance = dead, dead
		o.Why = finding.Words("no working relief valve on the supplied volume: the supply's dead head")
		return o
	case c.Supply.Delivery(0) <= 0:
		o.Pressure, o.Balance = dead, dead
		o.Why = finding.Words("supply.free_air is not stated, so nobody knows what the relief valve must carry: the supply's dead head")
		return o
	}
	if i := l.ReliefOnSupply(); i >= 0 && stuck == "" && l.Paths[i].SteadyPressure.Set {
		o.Balance = min(dead, l.Paths[i].SteadyPressure.High)
		o.Pressure, o.FullFlow = o.Balance, max(l.Paths[i].FullFlowHigh(), o.Balance)
		o.Why = finding.Words("measured with the switch bridged, with the gauge's error")
		return o
	}
	o.Balance, o.FullFlow, o.Pressure = math.Inf(1), math.Inf(1), math.Inf(1)
	for _, p := range reliefs { // each alone bounds the pressure
		b := balance(c, []*pneumatics.Path{p})
		if top := max(b, p.FullFlowPressure); top < o.Pressure {
			o.Pressure, o.Balance, o.FullFlow = top, b, p.FullFlowPressure
		}
	}
	o.Pressure = min(dead, o.Pressure)
	switch {
	case o.Pressure == dead:
		o.Why = finding.Words("the supply cannot go beyond its dead head")
	case o.Balance > o.FullFlow:
		o.Why = finding.Words("the relief valve does not carry the supply: supply and relief flow balance here")
	default:
		o.Why = finding.Words("the relief valve at full flow, top of its tolerance")
	}
	return o
}

// StrongSupplyWeakRelief is the circuit with the supply at the strong end and
// the relief valves set high and narrow.
func (l *Launcher) StrongSupplyWeakRelief() *pneumatics.Circuit {
	w := l.Clone()
	w.Ambient.Pressure.Nominal = w.Ambient.Pressure.High
	// Cold free air is heavier; the flow of a relief valve rises only with its root.
	w.Ambient.Temperature.Nominal = l.Coldest()
	w.Supply.strongest()
	for i := range w.Paths {
		p := &w.Paths[i]
		if p.Kind != pneumatics.Relief {
			continue
		}
		p.FullFlowPressure.Nominal = p.FullFlowHigh()
		p.SetPressure.Nominal = p.SetPressure.High
		weakFlow(p)
		w.HoldBack(p, l.Paths[i].SetPressure.Low)
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// weakFlow moves a relief path to the end of its bands where it passes least.
func weakFlow(p *PathSpec) {
	f := &p.Flow
	for _, b := range []*Band{&f.Value, &f.DischargeCoefficient, &f.PressureDropRatio, &f.CriticalRatio} {
		b.Nominal = b.Low
	}
	if f.Form == NominalFlow { // its conductance is stated at 7 to 6 bar: a high ratio then passes less
		f.CriticalRatio.Nominal = f.CriticalRatio.High
	}
	if h := p.Hose; h != nil {
		h.Bore.Nominal, h.Length.Nominal, h.Conductance.Nominal = h.Bore.Low, h.Length.High, h.Conductance.Low
	}
}

// UnstatedCurve is how far above a delivery curve without a band of free_air a
// supply may lie [-] (common practice, no source).
const UnstatedCurve = 1.3

// CurveShare is how far above its stated curve the supply may lie [-]: as far as
// the band of its free air reaches.
func (s *SupplySpec) CurveShare() float64 {
	if s.FreeAir.Set && s.FreeAir.Nominal > 0 {
		return s.FreeAir.High / s.FreeAir.Nominal
	}
	return UnstatedCurve
}

// strongest moves a supply to the strong end of its bands, its curve along.
func (s *SupplySpec) strongest() {
	s.share = Exact("", s.CurveShare())
	if s.DeadHead.Nominal > 0 {
		s.stretch = Exact("", s.DeadHead.High/s.DeadHead.Nominal)
	}
	s.FreeAir.Nominal, s.DeadHead.Nominal = s.FreeAir.High, s.DeadHead.High
}

// MostFreeAir is the most the supply can deliver at zero gauge [m3/s].
func (s *SupplySpec) MostFreeAir() float64 {
	if len(s.Curve) > 0 {
		return max(s.FreeAir.High, s.Curve[0].FreeAir*s.CurveShare())
	}
	return s.FreeAir.High
}

// FullFlowHigh is the full-flow pressure at the top of its tolerance: its own
// band, or shifted with the set pressure, whichever is higher.
func (p *PathSpec) FullFlowHigh() float64 {
	return max(p.FullFlowPressure.High, p.FullFlowPressure.Nominal+p.SetPressure.High-p.SetPressure.Nominal)
}

// ReseatLow is the reseat pressure shifted with the low end of the set pressure.
func (p *PathSpec) ReseatLow() float64 {
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
			net -= lift * chargeFlow(c, p, mid, 0, true)
		}
		if net > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// JoinedToSupply tells which volumes share the supplied volume's pressure while
// charging: by paths open then, regulators apart.
func (l *Launcher) JoinedToSupply() []bool {
	if l.Supply == nil {
		return make([]bool, len(l.Volumes))
	}
	return l.JoinedTo(l.Node(l.Supply.Feeds))
}

// VesselPressure is the highest pressure a volume can see [Pa gauge].
type VesselPressure struct {
	Normal float64 // in normal operation
	Fault  float64 // at a single fault
	Why    finding.Text
}

// VesselPressures gives the highest pressure of every volume, normal and at a
// single fault; NaN where it cannot be known.
func (l *Launcher) VesselPressures() []VesselPressure {
	out := make([]VesselPressure, len(l.Volumes))
	over := l.Overcharge()
	joined := l.JoinedToSupply()
	high, ok := l.SoakedHigh()
	var normal []float64
	if ok {
		normal = l.HighStart(high)
	}
	top := 0.0 // what a regulator that fails open lets through
	for _, p := range normal {
		top = max(top, p)
	}
	for i := range out {
		v := &out[i]
		v.Normal = math.NaN()
		if ok {
			v.Normal = normal[i]
		}
		switch {
		case joined[i] && over.Known:
			v.Fault, v.Why = over.Pressure, over.Why
		case joined[i], l.Supply == nil: // something fills it
			v.Fault, v.Why = math.NaN(), over.Why
		default:
			v.Fault, v.Why = top, finding.Words("a regulator or check valve before it passes all it gets")
		}
		v.Fault = max(v.Fault, v.Normal)
	}
	return out
}

// FaultHigh is the highest start pressure of the sensed volume at an
// overcharging fault [Pa gauge]; not ok where it is unknown.
func (l *Launcher) FaultHigh() (float64, bool) {
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
