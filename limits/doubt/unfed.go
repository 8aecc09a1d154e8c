package doubt

import (
	"fmt"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// NeverFilled is a volume whose air gets into the barrel when it is fired, and into which none ever comes; Why tells what keeps it out,
// "" where no path leads to it.
type NeverFilled struct{ Name, Why string }

// Unfed are those volumes: neither what the supply feeds, nor what comes filled, nor the open reaches them over paths that are open in
// some state, one after the other, in the direction in which they pass air. A volume that only takes air out of the barrel (a path from
// it) is reached so. Empty, it would shoot nothing, and everything that is judged from its pressure would hold. Names must be known.
// Where the design tells of nothing that fills anything there is none.
func Unfed(l *launcher.Launcher) (unfed []NeverFilled) {
	source := l.Source()
	if source == "" && l.Switch != nil {
		source = l.Switch.Senses // something fills it, up to the cut-out
	}
	if source == "" {
		return nil
	}
	links, n := l.Links(), len(l.Volumes)
	feeds := graph.Reached(links, n, pneumatics.BarrelNode, func(i int, way graph.Way) bool {
		p := &l.Paths[i] // the walk goes against the air
		return p.Kind != pneumatics.Relief && p.Feeds() && (way == graph.Against || !p.Kind.OneWay())
	})
	filled := graph.NewPerNode(n, false)
	filled.Set(l.Node(source), true)
	filled.Set(pneumatics.Atmosphere, true)
	graph.Reach(links, filled, graph.FirstTime, func(i int, way graph.Way, at bool) bool {
		return at && fills(&l.Paths[i], way, links[i].Start(way))
	})
	for i := range l.Volumes {
		if node := pneumatics.Node(i); feeds.At(node) && !filled.At(node) {
			unfed = append(unfed, NeverFilled{l.Volumes[i].Name, keptOut(l, l.Volumes[i].Name)})
		}
	}
	return unfed
}

// fills tells whether a path passes air from one of its ends in some state. What the open and the barrel give they give only over a path
// that is stated to lead from them: a vent lets nothing in, and a barrel does not charge what shoots it.
func fills(p *launcher.PathSpec, way graph.Way, from pneumatics.Node) bool {
	switch {
	case p.Kind == pneumatics.Relief, neverOpens(p):
		return false
	case way == graph.Along:
		return true
	}
	return !p.Kind.OneWay() && from != pneumatics.Atmosphere && from != pneumatics.BarrelNode
}

// neverOpens tells of a valve that it is open in no state.
func neverOpens(p *launcher.PathSpec) bool {
	return (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve) && p.OpenIn == 0
}

// keptOut says why no path lets air into a volume.
func keptOut(l *launcher.Launcher, volume string) string {
	for i := range l.Paths {
		p := &l.Paths[i]
		switch {
		case p.From != volume && p.To != volume, p.From == "atmosphere", p.To == "atmosphere", p.From == "barrel", p.To == "barrel":
		case neverOpens(p) && p.Kind == pneumatics.HandValve:
			return fmt.Sprintf("paths.%s has open_in = []: name the states in which somebody turns it open", p.Name)
		case neverOpens(p):
			return fmt.Sprintf("paths.%s has open_in = []: name the states in which it is open", p.Name)
		case p.Kind.OneWay() && p.From == volume:
			return fmt.Sprintf("paths.%s passes air only from %s to %s: are its ends mixed up?", p.Name, p.From, p.To)
		}
	}
	return ""
}
