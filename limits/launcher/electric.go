package launcher

import (
	"slices"

	"puffproof/pneumatics"
)

// Electric tells that something of the launcher has current: a valve that it moves, a pump or a switch, or wiring that is stated.
func (l *Launcher) Electric() bool {
	return l.Control != nil || l.Switch != nil || l.Supply != nil && l.Supply.Kind == Compressor ||
		slices.ContainsFunc(l.Paths, func(p PathSpec) bool { return p.Kind == pneumatics.Valve })
}
