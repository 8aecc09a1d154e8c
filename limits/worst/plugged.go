package worst

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Plugged is the barrel with its muzzle closed: the larger of the feeding volumes'
// pressure and of the pressure on either side of a loaded projectile driven against
// it, at the highest pressure of normal operation and of every overcharging fault.
type Plugged struct {
	Value   float64      // highest pressure in the barrel [Pa gauge]
	Limit   float64      // its rating at the hottest temperature [Pa gauge]
	Unknown finding.Text // why there are no figures; "" there are
	Why     finding.Text
}

// Exceeds tells whether the barrel takes more than it is rated for.
func (p Plugged) Exceeds() bool { return len(p.Unknown) == 0 && p.Value > p.Limit }

// ComputePlugged computes it. normal is the worst case of normal operation, or nil. The
// error is the context's.
func ComputePlugged(ctx context.Context, l *launcher.Launcher, normal *Case) (Plugged, error) {
	p := launcher.Part{Name: "barrel", Rated: l.Barrel.RatedPressure, Material: l.Barrel.Material}
	start, ok := l.FaultHigh()
	feeds := l.BarrelFault()
	switch {
	case !p.Rated.Set:
		return Plugged{Unknown: finding.Words("missing: barrel.rated_pressure")}, nil
	case !ok || math.IsNaN(feeds.Fault):
		return Plugged{Unknown: finding.Say("the highest pressure at a fault is not known: %s", l.Overcharge().Why)}, nil
	}
	limit, note := l.Rating(p)
	b := Plugged{Value: feeds.Fault, Limit: limit, Why: finding.Say("the barrel fills to the pressure of what feeds it, %s", feeds.Why)}
	for _, one := range pluggedAt(l, start) {
		q := PluggedQuestion(one.l, one.start)
		w, err := Maximise(ctx, one.l, q, search.Light(SeedsFor(one.l, normal, q)...))
		if err != nil {
			return Plugged{}, err
		}
		if w.Undetermined() {
			return Plugged{Unknown: finding.Words("the plugged shot could not be computed over the whole tolerance box")}, nil
		}
		if w.Value > b.Value {
			b.Value = w.Value
			b.Why = finding.Words("a loaded projectile driven against the plug compresses the air ahead beyond the tank's pressure")
		}
	}
	b.Why = finding.Notes(b.Why, finding.Words(note))
	return b, nil
}

// pluggedCase is a launcher at a single fault, and the highest start pressure of its sensed volume then [Pa gauge].
type pluggedCase struct {
	l     *launcher.Launcher
	start float64
}

// pluggedAt lists the faults with which a barrel may be filled against a plug: the supply that is not stopped, and
// each regulator on the way failed open.
func pluggedAt(l *launcher.Launcher, overcharged float64) []pluggedCase {
	out := []pluggedCase{{l, overcharged}}
	high, ok := l.SoakedHigh()
	if !ok {
		return out
	}
	reach, normal := launcher.ReachOf(l), l.HighStart(high)
	for i := range l.Paths {
		if l.Paths[i].Kind != pneumatics.Regulator || !reach.Paths[i] {
			continue
		}
		w := l.Clone()
		w.Paths[i].Kind = pneumatics.Orifice
		out = append(out, pluggedCase{w, max(high, normal[l.Node(l.Paths[i].From)])})
	}
	return out
}

// PluggedQuestion asks for the highest pressure on either side of a projectile
// driven against a closed muzzle.
func PluggedQuestion(l *launcher.Launcher, startMax float64) Question {
	return Question{Name: "muzzle plugged", StartMax: startMax, Top: startMax, to: pneumatics.Firing, FromAll: l.StatesBefore(),
		Adjust: func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) { sc.MuzzleClosed = true },
		Measure: func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
			return max(r.AheadPeak, r.BarrelPeak) - c.Ambient.Pressure
		}}
}
