package vent

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// RunsOnOf finds where a supply that runs on keeps a launcher of which so much counts as
// empty [Pa gauge], with the supply at its strong end, the vents at their narrow one,
// relief valves shut, and a projectile in the barrel that lets nothing past; nil where no
// supply runs by itself. Valves stand as they do in state off, with power and without.
func RunsOnOf(l *launcher.Launcher, target float64) *RunsOn {
	if s := l.Supply; s == nil || s.Kind == launcher.HandPump {
		return nil
	}
	r := &RunsOn{Rest: make([]float64, len(l.Volumes)), Most: math.Inf(1), Volume: l.Supply.Feeds}
	high, ok := StartPressures(l)
	if !ok || !l.Supply.DeadHead.Set {
		return r
	}
	r.Known = true
	for _, kind := range []Kind{Shutdown, PowerLost} {
		for _, w := range AtEndInAnyAir(l, NarrowStuck) {
			r.follow(w, l, high, kind)
		}
	}
	r.Most = math.Inf(-1)
	for i, p := range r.Rest {
		if p > r.Most {
			r.Most, r.Volume = p, l.Volumes[i].Name
		}
	}
	r.Empty = r.Most <= target
	return r
}

// follow takes in the course of w, a slow end of l, from the highest pressures on. None
// comes to more than they are: they are those of a supply that nothing stops. A supply of
// which no delivery is stated keeps all of them up.
func (r *RunsOn) follow(w, l *launcher.Launcher, high []float64, kind Kind) {
	w.Supply.Strongest()
	e := Emptier{Start: high}
	s := e.entering(w, Scenario{kind, pneumatics.Armed}, NarrowStuck, pneumatics.Off)
	s.Circuit.Barrel.LeakArea, s.scenario.SupplyRuns = 0, true
	run, err := e.Run(s, warmAir, loadingLasts, 0) // at rest the heat makes no difference
	for i, top := range high {
		end := top
		if err == nil && l.Supply.DeliveryKnown() {
			end = min(run.Volumes[i].Pressure-s.Circuit.Ambient.Pressure, top)
		}
		r.Rest[i] = max(r.Rest[i], end)
	}
}
