// Package dial says which gauge shows what a volume holds, by how the valves stand: on a volume that is shut off from it, or that lets its
// own air out faster than the way between brings it, a gauge at zero says nothing. What it shows, and how finely, is the launcher's own
// (launcher.GaugeSpec). Start reading at Showing.
package dial

import (
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Moment is how the valves stand: settled in state To, come from state From, or without power.
type Moment struct {
	From, To  pneumatics.State
	PowerLost bool
}

// The moments at which people go by a gauge.
var (
	Filling     = Moment{From: pneumatics.Charging, To: pneumatics.Charging}
	Ready       = Moment{From: pneumatics.Armed, To: pneumatics.Armed}
	SwitchedOff = Moment{From: pneumatics.Armed, To: pneumatics.Off}
	PlugPulled  = Moment{From: pneumatics.Armed, To: pneumatics.Off, PowerLost: true}
	HandsNear   = Moment{From: pneumatics.Armed, To: pneumatics.Loading}
)

// leastPassage is how many times what lets air out on the gauge's side the way between has to pass for the gauge to show the volume behind
// it [-] (own rule of this project, no source). Of two nozzles in series, both subsonic, with a pressure drop so small that the density
// stays the same, the gauge between then reads 1 - 1/(1 + 10^2), 99 %, of the volume; where one is choked it reads more.
const leastPassage = 10.0

// Showing is a gauge that shows what a volume holds; nil: none does. It is on the volume itself, or joined to it through volumes alone by
// what is open at that moment and passes both ways: no check valve, no regulator, no relief valve, nothing that a pressure opens. What may
// let air out on its side of that way, at the wide ends, is at most a tenth of what the way passes at its narrow end.
func Showing(l *launcher.Launcher, volume string, m Moment) *launcher.GaugeSpec {
	if g := l.GaugeOn(volume); g != nil {
		return g
	}
	at := node(l, volume)
	if at < 0 || len(l.Gauges) == 0 {
		return nil
	}
	w := newWays(l, m)
	passes := graph.NewPerNode(len(l.Volumes), 0.0)
	passes.Set(at, math.Inf(1))
	graph.Reach(w.links, passes, launcher.Higher, func(i int, _ graph.Way, before float64) float64 {
		if !w.joins(i) {
			return 0
		}
		return min(before, w.passage(i, narrow))
	})
	for i := range l.Gauges {
		g := &l.Gauges[i]
		on := node(l, g.On)
		if on < 0 || l.GaugeOn(g.On) != g || !(passes.At(on) > 0) {
			continue
		}
		if passes.At(on) >= leastPassage*w.out(on, at) {
			return g
		}
	}
	return nil
}

// node is a rigid volume by its name; the atmosphere where there is none.
func node(l *launcher.Launcher, volume string) graph.Node {
	if i := slices.IndexFunc(l.Volumes, func(v launcher.VolumeSpec) bool { return v.Name == volume }); i >= 0 {
		return graph.Node(i)
	}
	return graph.Atmosphere
}

// Unseen names those of some volumes that no gauge shows; nil: none.
func Unseen(l *launcher.Launcher, volumes []string, m Moment) []string {
	return slices.DeleteFunc(slices.Clone(volumes), func(name string) bool { return Showing(l, name, m) != nil })
}

// Ever tells that a gauge shows a volume at one moment at least: while it is filled, or later.
func Ever(l *launcher.Launcher, volume string) bool {
	return slices.ContainsFunc([]Moment{Filling, Ready, SwitchedOff, PlugPulled}, func(m Moment) bool { return Showing(l, volume, m) != nil })
}

// ways are the paths of a launcher at a moment.
type ways struct {
	l     *launcher.Launcher
	c     pneumatics.Circuit
	links []graph.Link
	at    pneumatics.Scenario
}

func newWays(l *launcher.Launcher, m Moment) *ways {
	w := &ways{l: l, at: pneumatics.Scenario{From: m.From, To: m.To, PowerLost: m.PowerLost}}
	l.Fill(&w.c)
	w.links = w.c.Links()
	return w
}

// joins tells that path i is open and passes both ways between two volumes, whatever their pressures.
func (w *ways) joins(i int) bool {
	p := &w.l.Paths[i]
	switch p.Kind {
	case pneumatics.Orifice, pneumatics.Hose:
	case pneumatics.Valve, pneumatics.HandValve:
		if p.Piloted || p.MinDifferential.Set || p.SeatShare.Set || p.Pulse.Set {
			return false
		}
	default:
		return false
	}
	return w.links[i].BetweenVolumes() && w.c.Paths[i].OpeningAtLast(&w.at) >= 1
}

// out is what may let air out of a volume, or of what is joined to it, by other ways than through the volume that is to be shown, all
// together and at the wide ends [m3/(s Pa)]. What lifts at a pressure far above zero does not count.
func (w *ways) out(of, but graph.Node) (sum float64) {
	side := graph.Reached(w.links, len(w.l.Volumes), of, func(i int, _ graph.Way) bool {
		return w.joins(i) && w.links[i].From != but && w.links[i].To != but
	})
	on := func(n graph.Node) bool { return n >= 0 && side.At(n) }
	for i, link := range w.links {
		from, to := on(link.From), on(link.To)
		kind := w.l.Paths[i].Kind
		switch {
		case from == to, link.From == but, link.To == but, kind == pneumatics.Relief:
		case to && (kind.OneWay() || kind == pneumatics.QuickExhaust):
		case w.c.Paths[i].OpeningAtLast(&w.at) > 0:
			sum += w.passage(i, wide)
		}
	}
	return sum
}

// end is an end of the bands of a flow figure.
type end uint8

const (
	narrow end = iota
	wide
)

// passage is what a path passes at an end of its bands, hose included: its sonic conductance [m3/(s Pa)]. Of a path without a figure it is
// next to nothing at the narrow end, and without bound at the wide one.
func (w *ways) passage(i int, e end) float64 {
	p := &w.l.Paths[i]
	spec := p.Flow
	for _, b := range []*launcher.Band{&spec.Value, &spec.DischargeCoefficient} {
		if b.Nominal = b.Low; e == wide {
			b.Nominal = b.High
		}
	}
	most := math.Inf(1)
	if h := p.Hose; h != nil {
		hose := w.c.Paths[i].Hose
		if p.Kind == pneumatics.Hose {
			hose = w.c.Paths[i].Flow
		}
		most, _ = hose.Conductance(w.c.Gas)
	}
	if p.Kind == pneumatics.Hose {
		return most
	}
	r := spec.Restriction()
	if r.IsZero() {
		if e == narrow {
			return min(most, math.SmallestNonzeroFloat64)
		}
		return most
	}
	c, _ := r.Conductance(w.c.Gas)
	return min(most, c)
}
