package vent

import (
	"math"
	"slices"

	"puffproof/limits/dial"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Loading is what the volumes hold in state loading once their vents have done
// what they can: by the graph, and by the course with what the supply brings in
// that state.
type Loading struct {
	Known bool      // the highest pressures are known
	Rest  []float64 // stays in each volume [Pa gauge]; its highest pressure where it does not empty in time
	Empty []bool    // it comes down to the target within the time allowed, without its finest openings too, and stays there
	// Alone is Empty where no exhaust of a part with two ways counts: one fault of that
	// part opens its inlet and shuts its exhaust. nil: there is no such part.
	Alone []bool
	Wait  float64  // of the volumes that have to come down and do in the time allowed, the longest time [s]
	Names []string // those volumes
	// Late are the volumes that would come down but do not in the time allowed, LateBy the longest time [s]; +Inf: not within an hour, or
	// only by openings that may be blocked. They count as full.
	Late   []string
	LateBy float64
	Slow   []string // valves that are shut while loading and take longer than Moment to get there
	Shuts  float64  // the longest time that they take [s]
	Fine   []string // paths that would empty one and do not count, for a grain may block them (FinestWayOut); nil: none
}

// loadingLasts is how long state loading is followed [s] (own rule of this
// project), to say how long it would take.
const loadingLasts = 3600.0

// LongestWait is how long anybody waits for a volume to empty before loading where the design does not say [s]: the most that
// venting.within may be.
const LongestWait = 600.0

// Moment is the time that passes anyway between the state being set to loading and a hand at the muzzle [s] (common practice, no
// source): what takes longer somebody has to wait for.
const Moment = 2.0

// FinestWayOut is the smallest bore that counts on to let the air out before hands go to the muzzle [m] (own rule of this project, no
// source): smaller ones than SmallestVent clog unless the air is filtered, those below this one by a single grain of rust or dust.
// Where a gauge shows whether it emptied they count.
const FinestWayOut = 0.5e-3

// LoadingOf computes what loading leaves in the volumes of a launcher of which so much
// counts as empty [Pa gauge]. A run that failed leaves every volume full, as does a supply
// that runs then and of which the design does not say what it delivers.
func LoadingOf(l *launcher.Launcher, target float64) *Loading {
	a := loadingUnclogged(l, target)
	for i := range l.Paths {
		p := &l.Paths[i]
		moved := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		if moved && p.OpenIn != 0 && !p.OpenIn.Has(pneumatics.Loading) && p.ClosingTime.High > Moment {
			a.Slow, a.Shuts = append(a.Slow, p.Name), max(a.Shuts, p.ClosingTime.High)
		}
	}
	if w := l.WithoutExhausts(); w != nil {
		a.Alone = loadingUnclogged(w, target).Empty
	}
	return a
}

// loadingUnclogged counts a volume as empty only where it empties with its finest openings and without them.
func loadingUnclogged(l *launcher.Launcher, target float64) *Loading {
	a := loadingOf(l, target)
	w := l.Clone()
	var fine []string
	for i := range w.Paths {
		if p := &w.Paths[i]; tooFine(l, p) {
			fine = append(fine, p.Name)
			p.Flow = launcher.FlowSpec{}
		}
	}
	if len(fine) == 0 {
		return a
	}
	b := loadingOf(w, target)
	a.Wait, a.Names = b.Wait, slices.DeleteFunc(b.Names, func(name string) bool { return !a.Empty[l.Node(name)] })
	for i, empty := range a.Empty {
		if !empty || b.Empty[i] {
			continue
		}
		a.Empty[i], a.Rest[i], a.Fine = false, max(a.Rest[i], b.Rest[i]), fine
		if slices.Contains(b.Late, l.Volumes[i].Name) {
			a.late(l.Volumes[i].Name, b.LateBy)
		} else {
			a.late(l.Volumes[i].Name, math.Inf(1))
		}
	}
	return a
}

// tooFine tells that a path is a hole that a grain may block while no gauge on what it empties would show that. Of a valve that is known
// by its flow nobody knows the holes.
func tooFine(l *launcher.Launcher, p *launcher.PathSpec) bool {
	bore := p.Flow.Form == launcher.OrificeBore || p.Flow.Form == launcher.SeatBore
	return bore && p.Flow.Value.Set && p.Flow.Value.Nominal < FinestWayOut && dial.Showing(l, p.From, dial.HandsNear) == nil
}

func loadingOf(l *launcher.Launcher, target float64) *Loading {
	n := len(l.Volumes)
	a := &Loading{Rest: make([]float64, n), Empty: make([]bool, n)}
	high, ok := StartPressures(l)
	a.Known = ok
	if !ok {
		high = make([]float64, n)
	}
	runs := l.Supply != nil && l.Supply.RunsIn.Has(pneumatics.Loading)
	told := !runs || l.Supply.DeliveryKnown()
	for i := range a.Empty {
		a.Empty[i] = told
		if !told {
			a.Rest[i] = high[i]
		}
	}
	patience, waits := TimeAllowed(l), make([]float64, n)
	if math.IsNaN(patience) {
		patience = LongestWait
	}
	for _, w := range AtEndInAnyAir(l, NarrowStuck) {
		if runs {
			w.Supply.Strongest()
		}
		s := inLoading(w, high, target)
		s.scenario.SupplyRuns = runs
		left := s.Residual()[:n]
		for i, p := range left {
			a.keepByGraph(i, p, high[i], target)
		}
		if ok || runs {
			a.follow(s, high, waits, target, patience, runs)
		}
	}
	for i, wait := range waits {
		if a.Empty[i] && wait > 0 {
			a.Wait = max(a.Wait, wait)
			a.Names = append(a.Names, l.Volumes[i].Name)
		}
	}
	return a
}

// inLoading is the circuit of w after entering state loading from armed; the
// projectile that is in the barrel lets nothing past and relief valves stay shut.
func inLoading(l *launcher.Launcher, high []float64, target float64) *Setup {
	e := Emptier{Start: high, Target: target}
	s := e.entering(l, Scenario{Shutdown, pneumatics.Armed}, NarrowStuck, pneumatics.Loading)
	s.Circuit.Barrel.LeakArea = 0
	return s
}

// keepByGraph takes in what the graph says of volume i.
func (a *Loading) keepByGraph(i int, left, high, target float64) {
	a.Rest[i] = max(a.Rest[i], min(left, high))
	if left > target { // whatever it holds today
		a.Empty[i] = false
	}
}

// follow runs the course: a volume that is not down in the time allowed, or that the supply
// keeps up, is not empty.
func (a *Loading) follow(s *Setup, high, waits []float64, target, patience float64, runs bool) {
	e := Emptier{Start: high, Target: target}
	courses, err := e.SlowRuns(s, loadingLasts, 0)
	for i := range a.Empty {
		end, wait := math.Inf(-1), 0.0
		for _, r := range courses {
			end, wait = max(end, r.Volumes[i].Pressure-s.Circuit.Ambient.Pressure), max(wait, OrInf(r.WatchTimes[i]))
		}
		switch {
		case err != nil:
			a.Empty[i], a.Rest[i] = false, high[i]
			continue
		case runs:
			a.Rest[i] = max(a.Rest[i], end)
		}
		if !a.Empty[i] {
			continue
		}
		if end > target {
			a.Empty[i] = false
			a.Rest[i] = max(a.Rest[i], end)
			if !runs { // too slow, not kept up
				a.Rest[i] = high[i]
				a.late(s.Circuit.Volumes[i].Name, math.Inf(1))
			}
			continue
		}
		switch {
		case !(high[i] > target):
		case wait > patience:
			a.Empty[i], a.Rest[i] = false, max(a.Rest[i], high[i])
			a.late(s.Circuit.Volumes[i].Name, wait)
		default:
			waits[i] = max(waits[i], wait)
		}
	}
}

// late names a volume that comes down too late, or not at all.
func (a *Loading) late(volume string, by float64) {
	a.LateBy = max(a.LateBy, by)
	if !slices.Contains(a.Late, volume) {
		a.Late = append(a.Late, volume)
	}
}

// Until is how long a hand stays off the muzzle [s]: until the volumes are down, and the valves shut that are barriers then.
func (a *Loading) Until() float64 { return max(a.Wait, a.Shuts) }

// Unseen names the volumes that have to come down while loading and that no gauge shows then; nil: none.
func (a *Loading) Unseen(l *launcher.Launcher) []string {
	return dial.Unseen(l, a.Names, dial.HandsNear)
}

// RestIn is what a volume holds in a state [Pa gauge]; ok is false where nothing
// says that it has emptied. Only loading lasts long enough for that to count. Of air
// that was not computed (nil), and of a volume that a fault adds, nothing says so.
func (a *Loading) RestIn(s pneumatics.State, volume int) (rest float64, ok bool) {
	if a == nil || s != pneumatics.Loading || volume >= len(a.Empty) {
		return 0, false
	}
	return a.Rest[volume], a.Empty[volume]
}
