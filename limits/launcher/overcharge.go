package launcher

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
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

// Overcharge gives the pressure of the volumes joined to the supply when the switch never opens, with the supply at the strong end of its
// tolerance and the relief valves at the weak end:
//
//	min(dead head, max(full-flow pressure, balance of supply and relief flow))
//
// sealed then and left in the heat, as far as the relief valve lets it rise. A cylinder's
// regulator is part of the supply, and fails too: its dead head is that of a full cylinder.
//
// Only a relief valve on the supplied volume itself counts: what stands between another volume's and the supply may be shut or narrow.
// Without one it is the dead head, as it is where the delivery is not stated; without a dead head, or of a hand pump, unknown.
func (l *Launcher) Overcharge() Overcharge { return l.OverchargeWith("") }

// OverchargeWith leaves out the relief valve named stuck.
func (l *Launcher) OverchargeWith(stuck string) Overcharge {
	return l.overcharge(stuck, l.FailedSource())
}

// FaultOvercharge is where the pressure ends at the worst single fault of what limits it: Overcharge, and where a
// relief valve is what ends the filling, with that one stuck shut.
func (l *Launcher) FaultOvercharge() Overcharge {
	out := l.Overcharge()
	if l.Stops() != StopRelief {
		return out
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind != pneumatics.Relief || p.From != l.Supply.Feeds {
			continue
		}
		if o := l.OverchargeWith(p.Name); o.Pressure > out.Pressure {
			out = o
			out.Why = finding.Say("%s stuck shut: %s", p.Name, o.Why)
		}
	}
	return out
}

// overfilled is what fills a vessel elsewhere at its highest, left in the heat. No relief valve counts: how much it
// must carry is not known.
func (l *Launcher) overfilled() Overcharge {
	v := &l.Volumes[l.Prefilled()]
	if !v.FillerReaches.Set {
		return Overcharge{Why: finding.Key("volumes." + v.Name + ".filler_reaches").Say(" is not stated: how far it may be filled by mistake")}
	}
	top := max(v.FillerReaches.High, v.FilledTo.High)
	return Overcharge{Known: true, Pressure: l.Soak(top), Balance: top,
		Why: finding.Say("%s filled as far as what fills it can push", v.Name)}.inTheHeat(top)
}

// handReaches is the pressure [Pa gauge] that people reach with a hand pump, whatever one of them reached on a closed gauge: that is a
// force over a piston's area. Floor pumps for bicycles are sold for it (common practice, no source).
const handReaches = 10e5

// overcharge is OverchargeWith of the supply as strong has it.
func (l *Launcher) overcharge(stuck string, strong *Launcher) Overcharge {
	switch {
	case l.Supply == nil && l.Prefilled() >= 0:
		return l.overfilled()
	case l.Supply == nil:
		return Overcharge{Why: finding.Words("the design has no [supply]: what fills it, and how far that can push, is not stated")}
	case !l.Supply.DeadHead.Set:
		return Overcharge{Why: finding.Key("supply.dead_head").Say(" is not stated")}
	}
	o, harder := Overcharge{Known: true}, strong.Supply.Kind == HandPump && strong.Supply.DeadHead.High < handReaches
	if harder {
		strong = strong.Clone()
		strong.Supply.DeadHead.High = handReaches
	}
	c := strong.StrongSupplyWeakRelief()
	dead := c.Supply.DeadHead
	var reliefs []*pneumatics.Path
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.Kind == pneumatics.Relief && p.Name != stuck && p.From == c.Supply.Feeds && !p.Flow.IsZero() {
			reliefs = append(reliefs, p)
		}
	}
	switch {
	case len(reliefs) == 0 && harder:
		return Overcharge{Why: finding.Words("the dead head of a hand pump is what one person reached: a stronger one goes on, and no working " +
			"relief valve on the supplied volume ends it")}
	case len(reliefs) == 0:
		o.Pressure, o.Balance = l.Soak(dead), dead
		o.Why = finding.Words("no working relief valve on the supplied volume: the supply's dead head")
		return o.inTheHeat(dead)
	case c.Supply.Delivery(0) <= 0:
		o.Pressure, o.Balance = l.Soak(dead), dead
		o.Why = finding.Key("supply.free_air").Say(" is not stated, so nobody knows what the relief valve must carry: the supply's dead head")
		return o.inTheHeat(dead)
	}
	if i := l.ReliefOnSupply(); i >= 0 && stuck == "" && l.Paths[i].SteadyPressure.Set {
		o.Balance = min(dead, l.Paths[i].SteadyPressure.High)
		o.Pressure, o.FullFlow = o.Balance, max(l.Paths[i].FullFlowHigh(), o.Balance)
		o.Why = finding.Words("measured with the switch bridged, with the gauge's error")
		return o
	}
	o.Balance, o.FullFlow, o.Pressure = math.Inf(1), math.Inf(1), math.Inf(1)
	for _, p := range reliefs { // each alone bounds the pressure
		b := balance(c, p)
		if top := max(b, p.FullFlowPressure); top < o.Pressure {
			o.Pressure, o.Balance, o.FullFlow = top, b, p.FullFlowPressure
		}
	}
	carried := o.Pressure
	o.Pressure = max(min(dead, carried), min(l.Soak(dead), o.FullFlow))
	switch {
	case dead <= carried:
		o.Why = finding.Words("the supply cannot go beyond its dead head")
		return o.inTheHeat(dead)
	case o.Balance > o.FullFlow:
		o.Why = finding.Words("the relief valve does not carry the supply: supply and relief flow balance here")
	default:
		o.Why = finding.Words("the relief valve at full flow, top of its tolerance")
	}
	return o
}

// inTheHeat says so where heat raises the dead head [Pa gauge].
func (o Overcharge) inTheHeat(dead float64) Overcharge {
	if o.Pressure > dead {
		o.Why = o.Why.Say(", sealed and left in the heat")
	}
	return o
}

// Regulated tells that a regulator stands between the supply's own pressure and what it feeds.
func (s *SupplySpec) Regulated() bool { return s.Kind == RegulatedCylinder || s.Kind == ShopAir }

// FailedSource is a copy in which the regulator of a cylinder or of a main has failed open: the supply pushes up to
// the pressure before it, and delivers what its seat passes. Any other supply stays as it is.
func (l *Launcher) FailedSource() *Launcher {
	if l.Supply == nil || !l.Supply.Regulated() {
		return l
	}
	const full = 200e5 // a full cylinder [Pa gauge] (common practice, from memory)
	w := l.Clone()
	s := w.Supply
	before := full
	if s.SourcePressure.Set {
		before = s.SourcePressure.High
	}
	top := max(s.DeadHead.High, before)
	s.DeadHead.Set, s.DeadHead.Nominal, s.DeadHead.High = true, top, top
	if !s.RegulatorBore.Set {
		return w
	}
	seat := flow.Nozzle(Circle(s.RegulatorBore.High), 1)
	g, pa, t := l.GasModel(), l.Ambient.Pressure.Nominal, l.Coldest()
	free := func(at float64) float64 { return seat.MassFlow(g, pa+top, t, pa+at, t) / g.Density(pa, t) }
	most := max(s.FreeAir.High, free(0))
	s.FreeAir = Exact(s.FreeAir.Key, most)
	s.Curve = []CurvePoint{{0, most}}
	const points = 40
	for k := 1; k <= points; k++ { // a line between points lies below the law: each has the delivery of the one before
		s.Curve = append(s.Curve, CurvePoint{top * float64(k) / points, free(top * float64(k-1) / points)})
	}
	return w
}

// StrongSupplyWeakRelief is the circuit with the supply at the strong end and
// the relief valves set high and narrow.
func (l *Launcher) StrongSupplyWeakRelief() *pneumatics.Circuit {
	w := l.Clone()
	w.Ambient.Pressure.Nominal = w.Ambient.Pressure.High
	// Cold free air is heavier; the flow of a relief valve rises only with its root.
	w.Ambient.Temperature.Nominal = l.Coldest()
	w.Supply.Strongest()
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

// weakFlow moves a path to the end of its bands where it passes least.
func weakFlow(p *PathSpec) { moveFlow(p, lowest, highest) }

// WideFlow moves a path to the end of its bands where it passes most; a hose in series with a part counts for nothing.
func WideFlow(p *PathSpec) {
	if p.Kind != pneumatics.Hose {
		p.Hose = nil
	}
	moveFlow(p, highest, lowest)
}

func lowest(b *Band) float64 { return b.Low }

func highest(b *Band) float64 { return b.High }

// moveFlow moves what lets a path pass more to one end of its bands, and what lets it pass less to the other.
func moveFlow(p *PathSpec, end, other func(*Band) float64) {
	f := &p.Flow
	for _, b := range []*Band{&f.Value, &f.DischargeCoefficient, &f.PressureDropRatio, &f.CriticalRatio} {
		b.Nominal = end(b)
	}
	if f.Form == NominalFlow { // its conductance is stated at 7 to 6 bar: a high ratio then passes less
		f.CriticalRatio.Nominal = other(&f.CriticalRatio)
	}
	if h := p.Hose; h != nil {
		h.Bore.Nominal, h.Length.Nominal, h.Conductance.Nominal = end(&h.Bore), other(&h.Length), end(&h.Conductance)
	}
}

// UnstatedCurve is how far above a delivery curve without a band of free_air a supply may lie [-] (common practice, no source).
const UnstatedCurve = 1.3

// CurveShare is how far above its stated curve the supply may lie [-]: as far as its free air's band reaches, a hand pump's peak flow.
func (s *SupplySpec) CurveShare() float64 {
	share, mean := UnstatedCurve, 0.0
	if s.FreeAir.Set && s.FreeAir.Nominal > 0 {
		share, mean = s.FreeAir.High/s.FreeAir.Nominal, s.FreeAir.Nominal
	} else if len(s.Curve) > 0 {
		mean = s.Curve[0].FreeAir
	}
	if s.PeakFlow.Set && mean > 0 {
		share = max(share, s.PeakFlow.High/mean)
	}
	return share
}

// Strongest moves a supply to the strong end of its bands, its curve along.
func (s *SupplySpec) Strongest() {
	s.share = Exact("", s.CurveShare())
	if s.DeadHead.Nominal > 0 {
		s.stretch = Exact("", s.DeadHead.High/s.DeadHead.Nominal)
	}
	s.FreeAir.Nominal, s.DeadHead.Nominal = max(s.FreeAir.High, s.PeakFlow.High), s.DeadHead.High
}

// LeastShare is how far below its stated curve the supply may lie [-], as CurveShare is above.
func (s *SupplySpec) LeastShare() float64 {
	if s.FreeAir.Set && s.FreeAir.Nominal > 0 {
		return s.FreeAir.Low / s.FreeAir.Nominal
	}
	return 1 / UnstatedCurve
}

// Weakest moves a supply to the weak end of its bands, its curve along.
func (s *SupplySpec) Weakest() {
	s.share = Exact("", s.LeastShare())
	if s.DeadHead.Nominal > 0 {
		s.stretch = Exact("", s.DeadHead.Low/s.DeadHead.Nominal)
	}
	s.FreeAir.Nominal, s.DeadHead.Nominal = s.FreeAir.Low, s.DeadHead.Low
}

// DeliveryKnown tells whether the design says how much the supply delivers, and up to which pressure.
func (s *SupplySpec) DeliveryKnown() bool { return s.DeadHead.Set && s.MostFreeAir() > 0 }

// MostFreeAir is the most the supply can deliver at zero gauge [m3/s], a hand pump in the middle of its stroke.
func (s *SupplySpec) MostFreeAir() float64 {
	most := max(s.FreeAir.High, s.PeakFlow.High)
	if len(s.Curve) > 0 {
		return max(most, s.Curve[0].FreeAir*s.CurveShare())
	}
	return most
}

// FullFlowHigh is the full-flow pressure at the top of its tolerance: its own band, or shifted with the set pressure, if that is higher.
func (p *PathSpec) FullFlowHigh() float64 {
	return max(p.FullFlowPressure.High, p.FullFlowPressure.Nominal+p.SetPressure.High-p.SetPressure.Nominal)
}

// ReseatLow is the reseat pressure shifted with the low end of the set pressure.
func (p *PathSpec) ReseatLow() float64 {
	return min(p.ReseatPressure.Low, p.ReseatPressure.Nominal-p.SetPressure.Nominal+p.SetPressure.Low)
}

// balance is the gauge pressure at which a relief valve passes what the supply delivers.
func balance(c *pneumatics.Circuit, relief *pneumatics.Path) float64 {
	rho := c.Ambient.Pressure / (c.Gas.R * c.Ambient.Temperature)
	return bisectBalance(c.Supply.DeadHead, func(at float64) float64 {
		return c.Supply.Delivery(at)*rho - reliefFlow(c, relief, at)
	})
}

// bisectBalance is the gauge pressure up to top at which a net inflow that falls with the pressure is zero, from above.
func bisectBalance(top float64, net func(at float64) float64) float64 {
	_, high := halving.Between(0, top, 60, func(at float64) bool { return !(net(at) > 0) })
	return high
}

// reliefFlow is what a relief valve passes at a gauge pressure before it [kg/s]; its lift
// rises linearly from set pressure to full flow.
func reliefFlow(c *pneumatics.Circuit, p *pneumatics.Path, at float64) float64 {
	lift := min(max((at-p.SetPressure)/(p.FullFlowPressure-p.SetPressure), 0), 1)
	return lift * chargeFlow(c, p, at, 0, true)
}

// JoinedToSupply tells which volumes share the supplied volume's pressure while
// charging: by paths open then, regulators apart.
func (l *Launcher) JoinedToSupply() []bool {
	from := l.Source()
	if from == "" {
		return make([]bool, len(l.Volumes))
	}
	return l.JoinedTo(l.Node(from))
}

// Source names the volume that the air comes to first: the supplied one, or the one that comes filled; "" neither.
func (l *Launcher) Source() string {
	if l.Supply != nil {
		return l.Supply.Feeds
	}
	if i := l.Prefilled(); i >= 0 {
		return l.Volumes[i].Name
	}
	return ""
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
	over := l.FaultOvercharge()
	joined := l.meetsSupply()
	high, ok := l.SoakedHigh()
	var normal, sealed []float64
	if ok {
		top, _ := l.NormalHigh()
		normal, sealed = l.HighStart(high), l.HighStart(l.SealedSoak(top))
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
		case joined[i], l.Source() == "": // something fills it
			v.Fault, v.Why = math.NaN(), over.Why
		case !ok: // what the others stand at is not known either
			v.Fault, v.Why = math.NaN(), over.Why
		default:
			v.Fault, v.Why = l.behindFailed(pneumatics.Node(i), normal)
		}
		v.Fault = max(v.Fault, v.Normal)
		if ok && sealed[i] > v.Fault { // its bleed is blocked
			v.Fault, v.Why = sealed[i], finding.Words("a bleed that is always open is blocked, and it is left in the heat")
		}
	}
	return out
}

// meetsSupply tells which volumes share the supplied volume's pressure in some state, or once a tap that is open in none is turned: by
// paths open then, regulators and check valves apart.
func (l *Launcher) meetsSupply() []bool {
	out := l.JoinedToSupply()
	if l.Source() == "" {
		return out
	}
	shot := graph.Reached(l.Links(), len(l.Volumes), l.Node(l.Source()), func(i int, _ graph.Way) bool {
		p := &l.Paths[i]
		switch p.Kind {
		case pneumatics.Relief, pneumatics.Regulator:
			return false
		case pneumatics.Valve, pneumatics.HandValve:
			opens := p.OpenIn != 0 || p.Kind == pneumatics.HandValve || p.Unpowered == pneumatics.Open
			return opens && p.From != "barrel" && p.To != "barrel"
		}
		return p.From != "barrel" && p.To != "barrel"
	}).Volumes()
	for i := range out {
		out[i] = out[i] || shot[i]
	}
	return out
}

// behindFailed is the pressure of a volume behind a regulator that fails open [Pa gauge], the
// others at their highest normal pressures: that of the highest of them, or what a
// relief valve on the volume itself holds against all that flows in.
func (l *Launcher) behindFailed(n pneumatics.Node, normal []float64) (gauge float64, why finding.Text) {
	top := 0.0
	for _, p := range normal {
		top = max(top, p)
	}
	gauge, why = top, finding.Words("a regulator or check valve before it passes all it gets")
	if l.Supply == nil {
		return gauge, why
	}
	c, wide := l.StrongSupplyWeakRelief(), l.wideOpen()
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.Kind != pneumatics.Relief || p.From != n || p.To != pneumatics.Atmosphere || p.Flow.IsZero() {
			continue
		}
		held := max(p.FullFlowPressure, bisectBalance(top, func(at float64) float64 {
			return inflow(wide, n, normal, at) - reliefFlow(c, p, at)
		}))
		if held < gauge {
			gauge, why = held, finding.Say("a regulator before it passes all it gets, and the relief valve %s holds it", p.Name)
		}
	}
	return gauge, why
}

// wideOpen is the circuit with every path at the wide end of its bands and the supply at the strong one.
func (l *Launcher) wideOpen() *pneumatics.Circuit {
	w := l.Clone()
	w.Ambient.Temperature.Nominal = l.Coldest()
	if w.Supply != nil {
		w.Supply.Strongest()
	}
	for i := range w.Paths {
		WideFlow(&w.Paths[i])
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// inflow is what all paths pass from other volumes at their gauge pressures into volume n at at [kg/s], every one
// wide open, whatever its kind, with the supply where it feeds n.
func inflow(c *pneumatics.Circuit, n pneumatics.Node, gauge []float64, at float64) float64 {
	pa, ta := c.Ambient.Pressure, c.Ambient.Temperature
	total := 0.0
	for i := range c.Paths {
		p := &c.Paths[i]
		from := p.From
		if from == n {
			from = p.To
		}
		if p.Kind == pneumatics.Relief || from == n || p.From != n && p.To != n || from < 0 || !(gauge[from] > at) {
			continue
		}
		total += p.Flow.MassFlow(c.Gas, pa+gauge[from], ta, pa+at, ta)
	}
	if c.Supply != nil && c.Supply.Feeds == n {
		total += c.Supply.Delivery(at) * pa / (c.Gas.R * ta)
	}
	return total
}

// FaultHigh is the highest start pressure of the sensed volume at a single
// fault of what limits it [Pa gauge]; not ok where it is unknown.
func (l *Launcher) FaultHigh() (float64, bool) { return l.highWith(l.FaultOvercharge()) }

// OverchargedHigh is FaultHigh where nothing stops the supply, and relief valves work.
func (l *Launcher) OverchargedHigh() (float64, bool) { return l.highWith(l.Overcharge()) }

func (l *Launcher) highWith(over Overcharge) (float64, bool) {
	high, ok := l.SoakedHigh()
	if !over.Known {
		return high, false
	}
	if !ok {
		return over.Pressure, true
	}
	return max(high, over.Pressure), true
}
