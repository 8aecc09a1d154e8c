package advise

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// What follows from where the dials stand: the cut-in below the cut-out, the relief valve above
// what heat makes of it.

// follower is a figure that follows.
type follower struct {
	key              string
	value, tolerance float64 // [Pa]
	why              string
	part             string // to be bought; "" nothing
}

// room is what stays between two rungs of the ladder [Pa].
const room = 0.02e5

// spring is how closely a relief valve keeps to what it is set to [Pa].
type spring struct {
	band float64 // to both sides of its set pressure
	wide float64 // above it, at full flow
}

// The springs of relief valves as they are sold, and of one that is adjusted against a gauge on a bench and let off ten
// times (common practice, no source).
var (
	sold    = spring{springBand, 0.2e5}
	benched = spring{reliefBand, 0.06e5}
)

// springOf is that of a relief valve: its own, where the design states it closer than one that is sold.
func (s *sieve) springOf(p *launcher.PathSpec) (of spring, part string) {
	of = sold
	if s.fine {
		of, part = benched, "relief valve with a soft spring, set on a bench"
	}
	closer := func(own float64, stated bool, is *float64) {
		if stated && own > 0 && own < *is {
			*is = own
		}
	}
	set, full := p.SetPressure, p.FullFlowPressure
	closer((set.High-set.Low)/2, set.Set && !set.Assumed, &of.band)
	closer(full.Nominal-set.Nominal, full.Line > 0 && set.Set, &of.wide)
	return of, part
}

// follow puts the followers into a launcher, by its bands, and gives them.
func (s *sieve) follow(l *launcher.Launcher, b bands) (out []follower) {
	put := func(f follower) {
		if keeps(s.keep, f.key) {
			return
		}
		b.put(f.key, f.value, f.tolerance)
		out = append(out, f)
	}
	defer reseat(l)
	if s := l.Switch; s != nil {
		gap := 0.06e5
		if s.Differential.Set {
			gap = s.Differential.High
		}
		if in := downTo(s.CutOut.Low-gap-switchBand, 0.01e5); s.CutIn.High > s.CutOut.Low-gap || s.CutIn.Nominal < 0.3*s.CutOut.Nominal {
			put(follower{s.CutIn.Key, math.Max(in, 0.03e5), switchBand, "far enough below the cut-out", ""})
		}
	}
	if l.Supply == nil {
		return out
	}
	normal, known := l.NormalHigh() // neither cut-in nor a relief valve that stands above it moves it
	if !known {
		return out
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind != pneumatics.Relief || p.From != l.Supply.Feeds {
			continue
		}
		const opens = "a spring that opens wide soon above its set pressure"
		if l.Stops() == launcher.StopRelief || l.Switch == nil && l.Supply.Kind == launcher.HandPump {
			put(follower{p.FullFlowPressure.Key, p.SetPressure.Nominal + benched.wide, reliefBand, opens, ""})
			continue
		}
		is, part := s.springOf(p)
		needs := l.SealedSoak(normal) + is.band + room + s.more
		at := upTo(needs, 0.05e5)
		if s.fine {
			at = upTo(needs, 0.01e5)
		}
		full := at + is.wide
		if p.SetPressure.Low > needs-is.band-room && p.FullFlowHigh() <= full+is.band+s.spare() {
			continue // it serves as it is
		}
		put(follower{p.SetPressure.Key, at, is.band, "above what heat makes of the filled launcher, and no higher", part})
		put(follower{p.FullFlowPressure.Key, full, is.band, opens, part})
	}
	return out
}

// spare is how much higher than it would be set [Pa] a relief valve may open wide and still be left as it is.
func (s *sieve) spare() float64 {
	if s.fine {
		return 0.05e5
	}
	return 0.4e5
}

// reseat lets an assumed reseat pressure go with its set pressure, as the reader of designs has it.
func reseat(l *launcher.Launcher) {
	const share = 0.85
	for i := range l.Paths {
		p := &l.Paths[i]
		if s := p.SetPressure; p.Kind == pneumatics.Relief && p.ReseatPressure.Assumed {
			p.ReseatPressure.Nominal, p.ReseatPressure.Low, p.ReseatPressure.High = share*s.Nominal, share*s.Low, share*s.High
		}
	}
}

// changes are those that put the followers into a design, where they differ from it.
func followed(list []follower, d *launcher.Launcher) (out []Change) {
	for _, f := range list {
		b := bandOf(d, f.key)
		if b != nil && math.Abs(b.Nominal-f.value) < 1 && math.Abs(b.High-f.value-f.tolerance) < 1 && math.Abs(f.value-f.tolerance-b.Low) < 1 {
			continue
		}
		c := Change{Key: f.key, To: number(f.value, finding.Bars, f.tolerance), Why: f.why, Part: f.part}
		if f.part != "" {
			c.Sort = Bought
		}
		out = append(out, c)
	}
	return out
}
