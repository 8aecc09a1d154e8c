package design

import (
	"fmt"

	"puffproof/limits/launcher"
)

// The most of each kind that a design may have. A launcher has far fewer; what is
// accepted is computed in bounded time: each part adds faults, and each fault a search.
const (
	mostVolumes  = 12
	mostPaths    = 24
	mostWays     = 32 // of all paths together: a valve with an exhaust has two
	mostHoses    = 8  // each adds gas and resistance to every run: twice as many take eight times as long
	mostGauges   = 12
	mostObjects  = 20
	mostPoints   = 50  // of a delivery curve
	mostControls = 10  // of what gets into the barrel
	mostReadings = 100 // of one bench test
	mostControl  = 40  // parts of the wiring
	mostContacts = 20  // in the way of one of them
)

// bounded refuses more than so many entries; offset is the place of the first that is too much.
func (r *reader) bounded(most, n int, key string, offset int) {
	if n > most {
		r.Fault(offset, Problem{Key: key, Message: fmt.Sprintf("has %d entries", n), Want: fmt.Sprintf("at most %d", most),
			Hint: "each one takes its time to compute; is the file made by a program, or are these several launchers?"})
	}
}

// waysBounded counts the ways and the hoses of all paths.
func (r *reader) waysBounded(l *launcher.Launcher) {
	if n := len(l.Paths); n > mostWays {
		name := l.Paths[mostWays].Name
		if l.Paths[mostWays].Way.Exhausts() { // it may stand nowhere by itself
			name = l.Paths[mostWays].Other
		}
		r.bounded(mostWays, n, "paths", r.positions["paths."+name])
	}
	n, first := 0, ""
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Hose == nil || p.Hose.Shared {
			continue
		}
		if n++; n == mostHoses+1 {
			first = "paths." + p.Name + ".hose"
		}
	}
	r.bounded(mostHoses, n, "paths.*.hose", r.positions[first])
}
