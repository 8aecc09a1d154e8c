package launcher

import "puffproof/pneumatics"

// Reach tells which parts can bear on a shot: those with a path to the barrel
// that is open while firing, or was open before and takes time to close.
type Reach struct {
	Volumes, Paths []bool // by index
	Opens, Closes  []bool // paths that move on firing
	Supply         bool
}

// ReachOf walks the paths of a launcher from the barrel.
func ReachOf(l *Launcher) Reach {
	n := len(l.Paths)
	r := Reach{Paths: make([]bool, n), Opens: make([]bool, n), Closes: make([]bool, n)}
	carries := make([]bool, n)
	for i := range l.Paths {
		p := &l.Paths[i]
		before := p.OpenIn.Has(pneumatics.Charging) || p.OpenIn.Has(pneumatics.Armed)
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		firing := p.OpenIn.Has(pneumatics.Firing)
		switch {
		case !valve:
			carries[i] = p.Kind != pneumatics.Relief
		case firing:
			carries[i] = true
			r.Opens[i] = true
		case before:
			carries[i] = p.ClosingTime.High > 0
			r.Closes[i] = true
		}
	}
	links := l.Links()
	reached := pneumatics.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, _ pneumatics.Way) bool { return carries[i] })
	for i, k := range links {
		r.Paths[i] = carries[i] && (reached.At(k.From) || reached.At(k.To))
	}
	r.Volumes = reached.Volumes()
	r.Supply = l.Supply != nil && l.SupplyFires() && r.Volumes[l.Node(l.Supply.Feeds)]
	return r
}

// SupplyFires tells whether the supply may run during a shot: yes, unless the
// design says in which states it runs and firing is not one of them.
func (l *Launcher) SupplyFires() bool {
	return l.Supply != nil && (!l.Supply.RunsInStated || l.Supply.RunsIn.Has(pneumatics.Firing))
}

// StatesBefore lists the states a shot may start from as far as they differ:
// armed always; charging where a valve that is shut while armed is still open.
func (l *Launcher) StatesBefore() []pneumatics.State {
	reach := ReachOf(l)
	for i := range l.Paths {
		p := &l.Paths[i]
		if reach.Paths[i] && p.OpenIn.Has(pneumatics.Charging) != p.OpenIn.Has(pneumatics.Armed) {
			return []pneumatics.State{pneumatics.Armed, pneumatics.Charging}
		}
	}
	return []pneumatics.State{pneumatics.Armed}
}
