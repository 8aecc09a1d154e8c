package launcher

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// InTurn counts a valve that a hand turns as open before a shot, where it lies in series with another that opens for the shot alone, and
// gives the launcher: whoever turns one and then works the other has the first one open, the volume between full. Opened both at the same
// moment, as the file says, the slow one would throttle the fast one. Of two that hands turn, or that current opens, it is the first one;
// two that one and the same press gives current open at the same moment. Where no wiring says so nobody knows that they do. The other
// orders are tried beside this one (worst/turns.go).
func (l *Launcher) InTurn() *Launcher {
	for i := range l.Paths {
		for k := range l.Paths {
			a, b := &l.Paths[i], &l.Paths[k]
			if i == k || !a.opensForShot() || !b.opensForShot() || !l.LeadsOn(i, k) {
				continue
			}
			if a.Kind != pneumatics.HandValve && b.Kind == pneumatics.HandValve {
				a, b = b, a
			}
			if a.Kind == pneumatics.HandValve || a.Kind == pneumatics.Valve && b.Kind == pneumatics.Valve && !l.Control.Together(a.Name, b.Name) {
				a.OpenIn |= pneumatics.SetOf(pneumatics.Armed)
				a.OpensFirst = true
				if a.Other != "" {
					l.Paths[l.PathIndex(a.Other)].OpenIn &^= pneumatics.SetOf(pneumatics.Armed)
				}
			}
		}
	}
	return l
}

// opensForShot tells of a part that current or a hand moves that it opens for a shot and not before.
func (p *PathSpec) opensForShot() bool {
	return p.OpenIn.Has(pneumatics.Firing) && !p.OpenIn.Has(pneumatics.Armed)
}

// LeadsOn tells that what comes through a path, by index, meets another one on its way, where all else that is open in a shot is passed.
func (l *Launcher) LeadsOn(path, another int) bool {
	to, from := l.Node(l.Paths[path].To), l.Node(l.Paths[another].From)
	if to < 0 || from < 0 {
		return false
	}
	links := l.Links()
	reached := graph.Reached(links, len(l.Volumes), to, func(i int, _ graph.Way) bool {
		return i != path && i != another && links[i].BetweenVolumes() && l.Paths[i].Kind != pneumatics.Relief && l.Paths[i].Feeds()
	})
	return reached.At(from)
}
