package launcher

import (
	"fmt"
	"math"
	"slices"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
)

// Fill writes the launcher's nominal values into a circuit, reusing its slices. Hoses
// are resistances whose air is that of the node on their side: for what is slow
// against the sound in them, see FillShot. Names must be known (the design reader has
// checked them); an unknown name panics.
func (l *Launcher) Fill(c *pneumatics.Circuit) { l.fill(c, false) }

// FillShot is Fill for a shot: a hose that air can pass on its way to the barrel is a line, with inertia and waves.
func (l *Launcher) FillShot(c *pneumatics.Circuit) { l.fill(c, true) }

func (l *Launcher) fill(c *pneumatics.Circuit, lines bool) {
	c.Gas = l.GasModel()
	c.Ambient = pneumatics.Ambient{Pressure: l.Ambient.Pressure.Nominal, Temperature: l.Ambient.Temperature.Nominal}
	c.Volumes = c.Volumes[:0]
	for _, v := range l.Volumes {
		c.Volumes = append(c.Volumes, pneumatics.Volume{Name: v.Name, Volume: v.Volume.Nominal, InnerDiameter: v.InnerDiameter.Nominal})
	}
	c.Barrel = l.BarrelAt()
	c.Paths = c.Paths[:0]
	for i := range l.Paths {
		spec := &l.Paths[i]
		c.Paths = append(c.Paths, spec.Path(l))
		if lines && spec.isLine() {
			spec.lay(&c.Paths[i])
			continue
		}
		l.addHose(c, spec)
	}
	l.fillSupply(c)
}

// inletBore is the bore of the fitting by which a supply blows into a volume [m] (common
// practice, no source: a hose of 6 mm outside). A wider one stirs less, by the bore to the
// power of 0.67.
const inletBore = 4e-3

func (l *Launcher) fillSupply(c *pneumatics.Circuit) {
	s := l.Supply
	if s == nil {
		c.Supply = nil
		return
	}
	if c.Supply == nil {
		c.Supply = new(pneumatics.Supply)
	}
	c.Supply.Feeds, c.Supply.DeadHead, c.Supply.FreeAir = l.Node(s.Feeds), s.DeadHead.Nominal, s.FreeAir.Nominal
	c.Supply.Inlet = inletBore
	c.Supply.Curve = c.Supply.Curve[:0]
	share, stretch := s.share.or(1), s.stretch.or(1)
	for _, p := range s.Curve {
		c.Supply.Curve = append(c.Supply.Curve, pneumatics.SupplyPoint{Gauge: stretch * p.Gauge, FreeAir: share * p.FreeAir})
	}
}

// GasModel is the gas that the launcher is filled with.
func (l *Launcher) GasModel() flow.Gas {
	if l.Gas == "nitrogen" {
		return flow.Nitrogen()
	}
	return flow.Air()
}

// Node gives the circuit's node of a name in the design file.
func (l *Launcher) Node(name string) pneumatics.Node {
	switch name {
	case "atmosphere":
		return pneumatics.Atmosphere
	case "barrel":
		return pneumatics.BarrelNode
	}
	for i := range l.Volumes {
		if l.Volumes[i].Name == name {
			return pneumatics.Node(i)
		}
	}
	panic("limits: no volume " + name)
}

// Links gives the paths as a graph, in their order.
func (l *Launcher) Links() []graph.Link {
	out := make([]graph.Link, len(l.Paths))
	for i := range l.Paths {
		out[i] = graph.Link{From: l.Node(l.Paths[i].From), To: l.Node(l.Paths[i].To)}
	}
	return out
}

// OtherWay is the index of the other way of a path's body; -1: it has none.
func (l *Launcher) OtherWay(path int) int {
	if l.Paths[path].Other == "" {
		return -1
	}
	return l.PathIndex(l.Paths[path].Other)
}

// PathIndex is the index of the path of a name; -1: there is none.
func (l *Launcher) PathIndex(name string) int {
	return slices.IndexFunc(l.Paths, func(p PathSpec) bool { return p.Name == name })
}

// NodeName is the inverse of Node.
func (l *Launcher) NodeName(n pneumatics.Node) string {
	switch n {
	case pneumatics.Atmosphere:
		return "atmosphere"
	case pneumatics.BarrelNode:
		return "barrel"
	}
	return l.Volumes[n].Name
}

// Circle is the area [m2] of a circle of diameter d [m].
func Circle(d float64) float64 { return math.Pi * d * d / 4 }

// Across is the diameter [m] of a circle of an area [m2].
func Across(area float64) float64 { return math.Sqrt(4 * area / math.Pi) }

// LeakCd is the discharge coefficient of the gap around a projectile (from memory).
const LeakCd = 0.6

// hardly is a force that starts a projectile again where nothing holds it [N]: none at all would stand for the breakaway force.
const hardly = 1e-9

// BarrelAt gives the moving part. In the bore the gas acts on the bore's section; over a tube on the projectile's inner section.
func (l *Launcher) BarrelAt() pneumatics.Barrel {
	b, p := &l.Barrel, &l.Projectile
	out := pneumatics.Barrel{Present: true, Fit: b.Fit, LeakCd: LeakCd, DeadVolume: b.DeadVolume.Nominal,
		Mass: p.Mass.Nominal, Breakaway: p.Breakaway.Nominal, Restart: p.Restart.Nominal,
		Sliding: p.Sliding.Nominal, SinPitch: math.Sin(l.elevation.or(l.LowestElevation())), JetFactor: 1}
	if p.Restart.Set && out.Restart == 0 {
		out.Restart = hardly
	}
	inner, outer := l.FitDiameters()
	out.Area = Circle(inner)
	out.LeakArea = max(0, Circle(inner)-Circle(outer))
	if b.Fit == pneumatics.OverTube {
		out.Area = Circle(p.InsideDiameter.Nominal)
		out.ExitArea = Circle(b.TubeInnerDiameter.Nominal)
		out.Travel = b.Engagement.Nominal
		out.JetFactor = 2
	} else {
		out.ExitArea = out.Area
		out.Travel = b.Travel.Nominal
	}
	if p.Cup == Yes {
		out.JetFactor = 2
	}
	return out
}

// FitDiameters are the two diameters that enclose the gap: the outer part's
// inside and the inner part's outside. A stated clearance goes before the
// difference of the two.
func (l *Launcher) FitDiameters() (inner, outer float64) {
	b, p := &l.Barrel, &l.Projectile
	if b.Fit == pneumatics.OverTube {
		inner, outer = p.InsideDiameter.Nominal, b.TubeOuterDiameter.Nominal
	} else {
		inner, outer = b.Bore.Nominal, p.Diameter.Nominal
	}
	if p.Clearance.Set {
		outer = inner - p.Clearance.Nominal
	}
	return inner, outer
}

// ClosestFit gives the projectile the closest fit of its tolerances.
func (l *Launcher) ClosestFit() {
	b, p := &l.Barrel, &l.Projectile
	p.Clearance.Nominal = p.Clearance.Low
	p.Diameter.Nominal, b.Bore.Nominal = p.Diameter.High, b.Bore.Low
	p.InsideDiameter.Nominal, b.TubeOuterDiameter.Nominal = p.InsideDiameter.Low, b.TubeOuterDiameter.High
}

// Path is the path with nominal values, in a launcher's circuit.
func (p *PathSpec) Path(l *Launcher) pneumatics.Path {
	out := pneumatics.Path{Name: p.Name, From: l.Node(p.From), To: l.Node(p.To), Kind: p.Kind,
		Flow: p.Flow.Restriction(), OpenIn: p.OpenIn, Unpowered: p.Unpowered,
		OpeningTime: p.OpeningTime.Nominal, ClosingTime: p.ClosingTime.Nominal, Pulse: p.Pulse.Nominal,
		SetPressure: p.SetPressure.Nominal, FullFlowPressure: p.FullFlowPressure.Nominal,
		ReseatPressure: p.ReseatPressure.Nominal, CrackingPressure: p.CrackingPressure.Nominal, Droop: p.Droop.Nominal}
	if p.Kind == pneumatics.Regulator {
		out.SetPressure += p.Creep.Nominal
	}
	if p.Way == ThreeWayExhaust { // the pulse that opens the one way shuts the other
		out.Pulse, out.Reopens = 0, l.Paths[l.PathIndex(p.Other)].Pulse.Nominal
	}
	if p.SeatShare.Set {
		out.Balance = p.balance(l)
	}
	if h := p.Hose; h != nil {
		hose := flow.HoseFlow(h.Bore.Nominal, h.Length.Nominal)
		if h.Conductance.Set {
			hose = hose.Scaled(h.Conductance.Nominal)
		}
		if p.Kind == pneumatics.Hose {
			out.Flow = hose
		} else {
			out.Hose, out.HoseFirst = hose, h.Side == HoseBefore
		}
	}
	return out
}

// hoseSide names what a path's hose is one volume with.
func (p *PathSpec) hoseSide() string {
	if p.Hose.Side == HoseAfter {
		return p.To
	}
	return p.From
}

// addHose adds a hose's volume to the volume on its side of the path.
func (l *Launcher) addHose(c *pneumatics.Circuit, p *PathSpec) {
	if p.Hose == nil || p.Hose.Shared {
		return
	}
	volume := Circle(p.Hose.Bore.Nominal) * p.Hose.Length.Nominal
	switch n := l.Node(p.hoseSide()); n {
	case pneumatics.Atmosphere:
	case pneumatics.BarrelNode:
		c.Barrel.DeadVolume += volume
	default:
		c.Volumes[n].Volume += volume
	}
}

// Restriction is the flow with nominal values; zero where none is stated.
func (f *FlowSpec) Restriction() flow.Restriction {
	v := f.Value.Nominal
	switch f.Form {
	case SonicConductance:
		return flow.SonicConductance(v, f.CriticalRatio.Nominal)
	case FlowCv:
		return flow.FromCv(v, f.PressureDropRatio.Nominal, f.CriticalRatio.Nominal)
	case FlowKv:
		return flow.FromKv(v, f.PressureDropRatio.Nominal, f.CriticalRatio.Nominal)
	case NominalFlow:
		return flow.FromNominalFlow(v, f.CriticalRatio.Nominal)
	case OrificeBore, SeatBore:
		return flow.Nozzle(Circle(v), f.DischargeCoefficient.Nominal)
	case NoFlow:
		return flow.Restriction{}
	}
	panic(fmt.Sprintf("limits: flow form %d", f.Form))
}
