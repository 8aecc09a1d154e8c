package limits

import (
	"math"
	"slices"

	"puffproof/pneumatics"
)

// loadingAir is what the volumes hold in state loading once their vents have done
// what they can: by the graph, and by the course with what the supply brings in
// that state.
type loadingAir struct {
	known bool      // the highest pressures are known
	rest  []float64 // stays in each volume [Pa gauge]; its highest pressure where it does not empty
	empty []bool    // it comes down to the target and stays there
	wait  float64   // of the volumes that have to come down, the longest time [s]; +Inf: not within an hour
	names []string  // those volumes
}

// loadingLasts is how long state loading is followed [s] (own rule of this
// project): nobody waits longer.
const loadingLasts = 3600.0

// loadingOf computes what loading leaves in the volumes of a launcher of which so much
// counts as empty [Pa gauge]. A run that failed leaves every volume full.
func loadingOf(l *Launcher, target float64) *loadingAir {
	n := len(l.Volumes)
	a := &loadingAir{rest: make([]float64, n), empty: make([]bool, n)}
	high, ok := l.ventPressures()
	a.known = ok
	if !ok {
		high = make([]float64, n)
	}
	runs := l.Supply != nil && l.Supply.RunsIn.Has(pneumatics.Loading)
	for i := range a.empty {
		a.empty[i] = true
	}
	for _, w := range l.ventLaunchers(narrowStuck) {
		if runs {
			strongest(w, l)
		}
		s := w.inLoading(high, target)
		s.sc.SupplyRuns = runs
		left := pneumatics.Residual(&s.c, &s.sc)[:n]
		for i, p := range left {
			a.keeps(i, p, high[i], target)
		}
		if ok || runs {
			a.follow(s, high, target, runs)
		}
	}
	return a
}

// strongest moves the supply of w to the strong end of its bands.
func strongest(w, l *Launcher) {
	s := w.Supply
	s.FreeAir.Nominal, s.DeadHead.Nominal = s.FreeAir.High, s.DeadHead.High
	for i := range s.Curve {
		s.Curve[i].FreeAir *= l.Supply.curveShare()
	}
}

// inLoading is the circuit of w after entering state loading from armed; the
// projectile that is in the barrel lets nothing past and relief valves stay shut.
func (l *Launcher) inLoading(high []float64, target float64) *ventSetup {
	e := emptier{start: high, target: target}
	s := e.entering(l, ventScenario{Shutdown, pneumatics.Armed}, narrowStuck, pneumatics.Loading)
	s.c.Barrel.LeakArea = 0
	return s
}

// keeps takes in what the graph says of volume i.
func (a *loadingAir) keeps(i int, left, high, target float64) {
	a.rest[i] = max(a.rest[i], min(left, high))
	if left > target { // whatever it holds today
		a.empty[i] = false
	}
}

// follow runs the course: a volume that is not down in an hour, or that the supply
// keeps up, is not empty.
func (a *loadingAir) follow(s *ventSetup, high []float64, target float64, runs bool) {
	e := emptier{start: high, target: target}
	r, err := e.run(s, pneumatics.Isothermal, loadingLasts, 0)
	for i := range a.empty {
		switch {
		case err != nil:
			a.empty[i], a.rest[i] = false, high[i]
			continue
		case runs:
			a.rest[i] = max(a.rest[i], r.Volumes[i].Pressure-s.c.Ambient.Pressure)
		}
		if !a.empty[i] {
			continue
		}
		if end := r.Volumes[i].Pressure - s.c.Ambient.Pressure; end > target {
			a.empty[i] = false
			a.rest[i] = max(a.rest[i], end)
			if !runs { // too slow, not kept up
				a.rest[i], a.wait = high[i], math.Inf(1)
				a.name(s.c.Volumes[i].Name)
			}
			continue
		}
		if high[i] > target {
			a.wait = max(a.wait, orInf(r.WatchTimes[i]))
			a.name(s.c.Volumes[i].Name)
		}
	}
}

func (a *loadingAir) name(volume string) {
	if !slices.Contains(a.names, volume) {
		a.names = append(a.names, volume)
	}
}

// restIn is what a volume holds in a state [Pa gauge]; ok is false where nothing
// says that it has emptied. Only loading lasts long enough for that to count. Of air
// that was not computed (nil) nothing says so.
func (a *loadingAir) restIn(s pneumatics.State, volume int) (rest float64, ok bool) {
	if a == nil || s != pneumatics.Loading {
		return 0, false
	}
	return a.rest[volume], a.empty[volume]
}
