package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// This file asks what a design can do, so that no paper gives advice that the
// design cannot follow.

// notBefore says what has to be mended before anybody fills it; "" nothing.
func (b *builder) notBefore() string { return show.NotBefore(&b.in.Report) }

// hasGauge tells whether anything shows if it is empty.
func (b *builder) hasGauge() bool { return len(b.in.Launcher.Gauges) > 0 }

// zeroSign says how people see that it is empty: on its gauge, where it has one.
func (b *builder) zeroSign() string {
	if b.hasGauge() {
		return "the gauge has stood at zero for a minute"
	}
	return "somebody who knows pressure vessels has shown that it is empty (it has no gauge)"
}

// handVents names the valves to the atmosphere that a hand opens.
func (b *builder) handVents() (names []string) {
	for _, name := range drill.HandVents(b.in.Launcher) {
		names = append(names, document.AsGiven(name).String())
	}
	return names
}

// byHand says how a person can let the air out: by what the design has, and only
// where standing beside it is no danger of its own. "" there is no way.
func (b *builder) byHand() string {
	if b.notBefore() != "" {
		return ""
	}
	if vents := b.handVents(); len(vents) > 0 {
		return "from the side, open by hand: " + strings.Join(vents, ", ")
	}
	if v, ok := b.in.Report.Verdict("relief.rating"); ok && v.Status == finding.Pass && b.hasRelief() {
		return "from the side, lift its relief valve by hand"
	}
	return ""
}

// keepAway is the advice where nobody can let the air out.
const keepAway = "keep everybody away, behind a wall, and ask somebody who knows pressure vessels"

// emptyingLine says what should happen once it is off, and what to do if not.
func (b *builder) emptyingLine() string {
	hand := b.byHand()
	if hand == "" {
		hand = keepAway
	}
	slow, known := b.powerLost()
	if v, ok := b.in.Report.Verdict(finding.MeasuredEmptying); ok && v.Status != finding.Pass {
		known = false
		if !math.IsInf(slow.slow, 1) {
			return "A test on the real launcher showed that it does not empty as computed: wait until " + b.zeroSign() +
				". If that does not come: " + hand + "."
		}
	}
	switch {
	case math.IsInf(slow.slow, 1):
		return "It does NOT empty by itself: " + hand + "."
	case !b.hasGauge():
		t := "There is no gauge: nobody can see whether it is empty. Treat it as full: do not open it, do not approach its muzzle; " + keepAway +
			"."
		if known {
			t += " By the computation it is empty after " + b.in.seconds(slow.slow) + "; that shows nothing."
		}
		return t
	case !known:
		return "Wait for every gauge to reach zero. If one stays up: " + hand + "."
	}
	first := ""
	if e := b.in.Vent; e != nil && len(e.ByHand) > 0 {
		first = "Open by hand, from the side: " + strings.Join(b.handVents(), ", ") + ". "
	}
	return first + fmt.Sprintf("Every gauge should be near zero after %s, and at zero a minute later. If one is not: %s.",
		b.in.seconds(slow.slow), hand)
}

// jamLine is what to do with a projectile that is stuck.
func (b *builder) jamLine() string {
	if b.notBefore() != "" {
		return "Nobody goes near it: " + keepAway + "."
	}
	return b.text(drill.Jam(b.in.Launcher))
}

// tooNear names who stands, as the design states it, where a projectile can come
// down.
func (b *builder) tooNear() string {
	f := b.in.Flights
	if f == nil {
		return ""
	}
	var parts []string
	for _, s := range f.Standing {
		if s.Inside {
			parts = append(parts, document.AsGiven(s.Name).String()+", as near as "+b.in.asStated(quantity.Length, s.Distance))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return capital(strings.Join(parts, "; ")) + ": INSIDE the landing zone. Clear zone: " + b.in.Units.Worst(quantity.Length, f.ClearRadius) +
		" all round, for crew only."
}

// rider tells whether somebody is beside the launcher while it fires.
func (b *builder) rider() bool {
	e := b.in.Launcher.Event
	return e != nil && (e.EarToMuzzle.Set || e.EyeToMuzzle.Set)
}

// distanceRule is who may be where.
func (b *builder) distanceRule() string {
	f, in := b.in.Flights, b.in
	near, known := b.in.Launcher.Event.Nearest()
	crew := "the adult in charge and who loads"
	rider := ""
	if b.rider() {
		rider = " Who rides on it or beside it is not crew and is inside that zone all the same: for them the condition on people where it can " +
			"come down, below, is kept before each shot."
	}
	switch {
	case f != nil:
		t := "Nobody in front of the muzzle. The clear zone of part 4, " + in.Units.Worst(quantity.Length, f.ClearRadius) +
			" all round, is kept free of all but the crew: " + crew + ", each named here: ________."
		if known && near < f.ClearRadius {
			t += " The nearest person that the design states, as near as " + in.asStated(quantity.Length, near) +
				", is inside that zone: they go further away, or the condition on people where it can come down, below, is kept."
		}
		return t + rider + " The limits of energy are the same however far away people stand: the distance is kept besides."
	case known:
		return "Nobody in front of the muzzle; nobody nearer than " + in.asStated(quantity.Length, near) +
			" but the crew: " +
			crew + ", each named here: ________." + rider + " The limits of energy are the same however far away people stand: the distance is " +
			"kept besides."
	}
	return "Nobody in front of the muzzle, none but the crew within the distance that the adult in charge has set: ________. Crew are " +
		crew + ", each named here: ________." + rider
}

func (b *builder) hasRelief() bool {
	return slices.ContainsFunc(b.in.Launcher.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Relief })
}

// span is how long emptying takes, the fastest and the slowest [s].
type span struct{ fast, slow float64 }

// powerLost is the time to empty of all volumes without power, from any state;
// false where it is not known. A volume that keeps its air makes it endless.
func (b *builder) powerLost() (span, bool) {
	e := b.in.Vent
	s := span{fast: math.Inf(1)}
	if e == nil || len(e.Trouble) != 0 {
		return s, false
	}
	for _, c := range e.Cases {
		if c.Kind != vent.PowerLost || c.Start <= e.Target {
			continue
		}
		if c.Trapped || math.IsInf(c.Slowest, 1) || c.Status == vent.TimeRanOut {
			return span{math.Inf(1), math.Inf(1)}, false
		}
		if c.Fastest > 0 { // a volume that starts at the target takes no time
			s.fast = min(s.fast, c.Fastest)
		}
		s.slow = max(s.slow, c.Slowest)
	}
	return s, s.slow > 0
}

// stopwatch is the time from the cut-out to the target of all vessels, as the
// sheets of part 8 have it: the highest reading counts [s]. False where it is not
// known, and the time is endless where a vessel keeps its air.
func (b *builder) stopwatch() (float64, bool) {
	e := b.in.Vent
	if e == nil || len(e.Trouble) != 0 || len(e.Tests) == 0 {
		return 0, false
	}
	slow := 0.0
	for _, t := range e.Tests {
		if t.Trapped {
			return math.Inf(1), false
		}
		slow = max(slow, t.Slowest)
	}
	return slow, !math.IsInf(slow, 1)
}
