package limits

import (
	"context"

	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Plugged is the barrel with its muzzle closed: the larger of the feeding volumes'
// pressure and of the pressure on either side of a loaded projectile driven against
// it, at the highest pressure of normal operation and of every overcharging fault.
type Plugged struct {
	Value   float64 // highest pressure in the barrel [Pa gauge]
	Limit   float64 // its rating at the hottest temperature [Pa gauge]
	Unknown string  // why there are no figures; "" there are
	Why     string
}

// Exceeds tells whether the barrel takes more than it is rated for.
func (p Plugged) Exceeds() bool { return p.Unknown == "" && p.Value > p.Limit }

// plugged computes it. normal is the worst case of normal operation, or nil. The
// error is the context's.
func (l *Launcher) plugged(ctx context.Context, normal *worst) (Plugged, error) {
	p := part{name: "barrel", rated: l.Barrel.RatedPressure, material: l.Barrel.Material}
	top, ok := l.faultHigh()
	switch {
	case !p.rated.Set:
		return Plugged{Unknown: "missing: barrel.rated_pressure"}, nil
	case !ok:
		return Plugged{Unknown: "the highest pressure at a fault is not known: " + l.Overcharge().Why}, nil
	}
	q := l.pluggedQuestion(top)
	w, err := l.maximise(ctx, q, search.Light(seedsFor(l, normal, q)...))
	if err != nil {
		return Plugged{}, err
	}
	if w.undetermined() {
		return Plugged{Unknown: "the plugged shot could not be computed over the whole tolerance box"}, nil
	}
	limit, note := l.rating(p)
	b := Plugged{Value: max(w.value, top), Limit: limit}
	if w.value > top {
		b.Why = joinNotes("a loaded projectile driven against the plug compresses the air ahead beyond the tank's pressure", note)
	} else {
		b.Why = joinNotes("the barrel fills to the pressure of what feeds it, "+l.Overcharge().Why, note)
	}
	return b, nil
}

// pluggedQuestion asks for the highest pressure on either side of a projectile
// driven against a closed muzzle.
func (l *Launcher) pluggedQuestion(startMax float64) question {
	return question{name: "muzzle plugged", startMax: startMax, to: pneumatics.Firing, fromAll: l.statesBefore(),
		adjust: func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) { sc.MuzzleClosed = true },
		measure: func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
			return max(r.AheadPeak, r.BarrelPeak) - c.Ambient.Pressure
		}}
}
