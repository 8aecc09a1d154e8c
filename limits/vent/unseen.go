package vent

import (
	"math"
	"slices"

	"puffproof/limits/dial"
	"puffproof/limits/launcher"
)

// Unseen names the volumes that hold more than the target before an emptying of a kind and that no gauge shows while they empty, and how
// long the slowest of them takes [s]; +Inf: it does not get there. nil: there are none.
func (e *Report) Unseen(l *launcher.Launcher, kind Kind) (names []string, slowest float64) {
	for i := range e.Cases {
		c := &e.Cases[i]
		if c.Kind != kind || !(c.Start > e.Target) || l.Node(c.Volume) < 0 {
			continue
		}
		if dial.Showing(l, c.Volume, kind.Moment()) != nil {
			continue
		}
		slowest = max(slowest, c.Slowest)
		if !slices.Contains(names, c.Volume) {
			names = append(names, c.Volume)
		}
	}
	return names, slowest
}

// Unread names the volumes of the stopwatch tests that no gauge shows as they empty, and how long the slowest of them takes [s]; nil:
// there are none.
func (e *Report) Unread() (names []string, slowest float64) {
	for i := range e.Tests {
		if t := &e.Tests[i]; t.High > e.Target && t.Unseen {
			names, slowest = append(names, t.Volume), max(slowest, t.Slowest)
		}
	}
	return names, slowest
}

// Moment is how the valves stand in an emptying of a kind, from state armed.
func (k Kind) Moment() dial.Moment {
	if k == PowerLost {
		return dial.PlugPulled
	}
	return dial.SwitchedOff
}

// Wait is how long is waited by a clock once everything is switched off, for no gauge shows all that empties [s]; 0: a gauge shows it, or
// no wait is long enough.
func (e *Report) Wait(l *launcher.Launcher) float64 {
	if _, slowest := e.Unseen(l, Shutdown); !math.IsInf(slowest, 1) {
		return math.Ceil(slowest)
	}
	return 0
}
