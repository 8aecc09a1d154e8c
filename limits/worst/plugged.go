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
// it, or behind one that does not move, at the highest pressure of normal operation and
// of every overcharging fault.
type Plugged struct {
	Value   float64      // highest pressure in the barrel [Pa gauge]
	Behind  float64      // highest behind a projectile that does not move, where a hose leads to it [Pa gauge]; 0: none, or not known
	Limit   float64      // its rating at the hottest temperature [Pa gauge]
	Unknown finding.Text // why there is no verdict; nil: there is one
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
	if !ok || math.IsNaN(feeds.Fault) {
		why := finding.Say("the highest pressure at a fault is not known: %s", l.Overcharge().Why)
		if !p.Rated.Set {
			why = missingRating()
		}
		return Plugged{Unknown: why}, nil
	}
	b := Plugged{Value: feeds.Fault, Why: finding.Say("the barrel fills to the pressure of what feeds it, %s", feeds.Why)}
	limit, note := l.Rating(p)
	b.Limit = limit
	for _, one := range pluggedAt(l, start) {
		if err := b.take(ctx, one, normal, p.Rated.Set); err != nil {
			return Plugged{}, err
		}
	}
	b.addWave(l, feeds.Fault)
	if !p.Rated.Set {
		b.Unknown = missingRating()
	}
	b.Why = finding.Notes(b.Why, finding.Words(note))
	return b, nil
}

// missingRating says that the barrel's is.
func missingRating() finding.Text {
	return finding.Say("missing: %s", finding.Key("barrel.rated_pressure"))
}

// addWave adds what the wave of a valve that opens at once stands above what feeds the barrel [Pa gauge]:
// the fast model has none in the barrel itself. Behind a hose the wave of its line counts already.
func (b *Plugged) addWave(l *launcher.Launcher, feeds float64) {
	if over := l.BaseWave(feeds) - feeds; !l.Rushes() && over > 0 {
		b.Value += over
		b.Why = b.Why.Say("; the firing valve opens at once and its wave is thrown back: %s more", finding.Bar(over))
	}
}

// take adds what one case makes of the barrel: behind a projectile that does not move,
// and where the barrel is rated, so that a verdict is asked for, with the muzzle plugged.
func (b *Plugged) take(ctx context.Context, one pluggedCase, normal *Case, rated bool) error {
	behind, err := b.highestBehind(ctx, one, normal)
	if err != nil {
		return err
	}
	b.Behind = max(b.Behind, behind)
	if peak := Peak(behind, one.start); peak > b.Value {
		b.Value = peak
		b.Why = finding.Say("the air of the hose rushes in behind a projectile that does not move and overshoots what feeds it: %s "+
			"computed, the rest is the model factor", finding.WorstBar(behind))
	}
	if !rated {
		return nil
	}
	q := PluggedQuestion(one.l, one.start)
	q.Unfed = FeedsSlowly(one.l)
	// Quick climbs missed a tenth (random launcher 107, as varied for the adversary). Behind a hose a search of shots that take long
	// is first a sketch: the air that rushes in behind a projectile that does not move is mostly the higher pressure.
	o := search.Light(SeedsFor(one.l, normal, q)...)
	w, err := SketchFirst(ctx, one.l, q, o, one.l.Rushes() && normal.Tame(), func(found float64) bool { return FarBelow(found, b.Limit) })
	if err == nil {
		err = w.Surely(ctx, b.Limit)
	}
	switch {
	case err != nil:
		return err
	case w.Undetermined():
		b.Unknown = finding.Words("the plugged shot could not be computed over the whole tolerance box")
	case w.Value > b.Value:
		b.Value = w.Value
		b.Why = finding.Words("a loaded projectile driven against the plug compresses the air ahead beyond the tank's pressure")
	}
	return nil
}

// Peak is the highest pressure that is judged behind a projectile that does not move
// [Pa gauge], of the computed one: times the model factor, since the front of a wave is
// sharper in gas dynamics (testdata/wave/README.md), but not more than the wave of a line can
// make of the pressure before it.
func Peak(behind, feeds float64) float64 { return min(ModelFactor*behind, launcher.Rush*feeds) }

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

// highestBehind is the highest pressure behind a projectile that does not move [Pa gauge];
// 0 where no hose leads to it. What it comes to in a jam is not held against the rating alone, so a sketch of it is not enough.
func (b *Plugged) highestBehind(ctx context.Context, one pluggedCase, normal *Case) (float64, error) {
	if !one.l.Rushes() {
		return 0, nil
	}
	q := JammedQuestion(one.l, one.start)
	// Quick climbs missed 2.6 % of the front's height (the soapbox cart).
	w, err := Maximise(ctx, one.l, q, search.Light(SeedsFor(one.l, normal, q)...))
	switch {
	case err != nil:
		return 0, err
	case w.Undetermined():
		return launcher.Rush * one.start, nil
	}
	return w.Value, nil
}

// FeedsSlowly tells that a supply brings little while a projectile is driven against a plug: in a quarter of a second less than a tenth of
// the volume that it feeds. What it brings later fills the barrel to what feeds it (Plugged.Value is no less), in a hundred
// times the steps.
func FeedsSlowly(l *launcher.Launcher) bool {
	const rush, little = 0.25, 0.1 // [s], [-]
	s := l.Supply
	if s == nil || !s.DeliveryKnown() {
		return false
	}
	n := l.Node(s.Feeds)
	return n >= 0 && s.MostFreeAir()*rush < little*l.Volumes[n].Volume.Low
}

// PluggedQuestion asks for the highest pressure on either side of a projectile
// driven against a closed muzzle.
func PluggedQuestion(l *launcher.Launcher, startMax float64) Question {
	return Question{Name: "muzzle plugged", StartMax: startMax, Top: startMax, to: pneumatics.Firing, FromAll: l.StatesBefore(),
		Say: sayPressure, Fine: true,
		Adjust: func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) { sc.MuzzleClosed = true },
		Measure: func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
			return max(r.AheadPeak, r.BarrelPeak) - c.Ambient.Pressure
		}}
}

// JammedQuestion asks for the highest pressure behind a projectile that jams anywhere in
// the barrel. What a running supply adds comes later than the rush of a hose's air, and
// ends at the pressures that the start may have.
func JammedQuestion(l *launcher.Launcher, startMax float64) Question {
	return Question{Name: "jammed", StartMax: startMax, to: pneumatics.Firing, FromAll: l.StatesBefore(), FixedSeat: true, Say: sayPressure,
		Extra: []string{"place of the jam"},
		Adjust: func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u []float64) {
			sc.Jammed, sc.SupplyRuns, sc.Seat = true, false, u[0]*c.Barrel.Travel
		},
		Measure: func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
			if r.Outcome != pneumatics.Stalled { // not followed to its end: the bound
				highest := 0.0
				for i := range r.Volumes {
					highest = max(highest, r.Volumes[i].Pressure)
				}
				return launcher.Rush * (max(highest, r.BarrelPeak) - c.Ambient.Pressure)
			}
			return r.BarrelPeak - c.Ambient.Pressure
		}}
}
