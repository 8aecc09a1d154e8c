package vent

import (
	"math"
	"slices"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Loading is what the volumes hold in state loading once their vents have done
// what they can: by the graph, and by the course with what the supply brings in
// that state.
type Loading struct {
	Known bool      // the highest pressures are known
	Rest  []float64 // stays in each volume [Pa gauge]; its highest pressure where it does not empty
	Empty []bool    // it comes down to the target and stays there
	// Alone is Empty where no exhaust of a part with two ways counts: one fault of that
	// part opens its inlet and shuts its exhaust. nil: there is no such part.
	Alone []bool
	Wait  float64  // of the volumes that have to come down, the longest time [s]; +Inf: not within an hour
	Names []string // those volumes
}

// loadingLasts is how long state loading is followed [s] (own rule of this
// project): nobody waits longer.
const loadingLasts = 3600.0

// LoadingOf computes what loading leaves in the volumes of a launcher of which so much
// counts as empty [Pa gauge]. A run that failed leaves every volume full, as does a supply
// that runs then and of which the design does not say what it delivers.
func LoadingOf(l *launcher.Launcher, target float64) *Loading {
	a := loadingOf(l, target)
	if w := l.WithoutExhausts(); w != nil {
		a.Alone = loadingOf(w, target).Empty
	}
	return a
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
			a.follow(s, high, target, runs)
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

// follow runs the course: a volume that is not down in an hour, or that the supply
// keeps up, is not empty.
func (a *Loading) follow(s *Setup, high []float64, target float64, runs bool) {
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
				a.Rest[i], a.Wait = high[i], math.Inf(1)
				a.waitFor(s.Circuit.Volumes[i].Name)
			}
			continue
		}
		if high[i] > target {
			a.Wait = max(a.Wait, wait)
			a.waitFor(s.Circuit.Volumes[i].Name)
		}
	}
}

// waitFor names a volume that has to come down.
func (a *Loading) waitFor(volume string) {
	if !slices.Contains(a.Names, volume) {
		a.Names = append(a.Names, volume)
	}
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
