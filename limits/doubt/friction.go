package doubt

import "puffproof/limits/launcher"

// firmest is how many times as firmly as it slides a foam projectile is held at rest. Dry, the two are near each other; after a night in
// the bore a rubber seal takes three to four times its running friction to start (both from memory, common practice, no source).
const firmest = 4.0

// Friction lets what holds a projectile at rest, and what it slides with, begin lower where the two exclude each other. What slides
// with more than starts it does not exist: at rest dry friction is at least that in motion (any handbook of mechanics). What
// starts with far more than it slides with is stuck or gripped, and the next one that is loaded may not be. The smaller counts
// from where the other begins: a projectile that is held less, or not braked, may be shot harder.
func Friction(l *launcher.Launcher) {
	p := &l.Projectile
	if !p.Sliding.Set || !p.Breakaway.Set {
		return
	}
	rest := []*launcher.Band{&p.Breakaway}
	if p.Restart.Set {
		rest = append(rest, &p.Restart)
	}
	said := []*launcher.Said{&p.BreakawaySaid, &p.RestartSaid}
	slides := p.Sliding
	for i, hold := range rest {
		switch {
		case slides.Low > hold.High:
			p.SlidingSaid.Keep(slides)
			p.Sliding.Low = min(p.Sliding.Low, hold.Low)
		case hold.Low > firmest*slides.High:
			said[i].Keep(*hold)
			hold.Low = slides.Low
		}
	}
}

// WidestSqueeze is how many times as wide as its bore a foam projectile may be that is still pressed in (own rule of this project): beyond
// it one of the two figures is a slip.
const WidestSqueeze = 1.5

// HeldByNothing are the forces that are stated as zero, without a tolerance that reaches above it: what is squeezed into its bore rubs on
// it, and such a force does not exist there.
func HeldByNothing(l *launcher.Launcher) (out []launcher.Band) {
	for _, b := range frictions(l) {
		if b.Set && b.Line != 0 && b.Nominal == 0 && (b.Assumed || b.High == 0) {
			out = append(out, *b)
		}
	}
	return out
}

// Held gives a copy of the launcher whose projectile may be held as little as not at all: where no shot of it leaves, its friction is what
// keeps every limit, and nobody can rely on that.
func Held(l *launcher.Launcher) *launcher.Launcher {
	w := l.Clone()
	Loosen(w)
	w.Projectile.HeldFast = true
	return w
}

// Loosen lets everything that holds or brakes a projectile begin at nothing.
func Loosen(l *launcher.Launcher) {
	for _, b := range frictions(l) {
		b.Low = 0
	}
}

// Rubs tells whether the least of what is stated still holds a projectile at rest or brakes it.
func Rubs(l *launcher.Launcher) bool {
	for _, b := range frictions(l) {
		if b.Set && b.Low > 0 {
			return true
		}
	}
	return false
}

func frictions(l *launcher.Launcher) []*launcher.Band {
	p := &l.Projectile
	return []*launcher.Band{&p.Breakaway, &p.Restart, &p.Sliding}
}
