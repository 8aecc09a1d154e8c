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
}

// room is what stays between two rungs of the ladder [Pa].
const room = 0.02e5

// follow puts the followers into a launcher and gives them. more is how much higher than it
// seems to need the relief valve is set [Pa].
func follow(l *launcher.Launcher, keep []string, more float64) (out []follower) {
	set := func(key string, v, tolerance float64, why string) {
		if keeps(keep, key) {
			return
		}
		put(l, key, v, tolerance)
		out = append(out, follower{key, v, tolerance, why})
	}
	defer reseat(l)
	if s := l.Switch; s != nil {
		gap := 0.06e5
		if s.Differential.Set {
			gap = s.Differential.High
		}
		if in := downTo(s.CutOut.Low-gap-switchBand, 0.01e5); s.CutIn.High > s.CutOut.Low-gap || s.CutIn.Nominal < 0.3*s.CutOut.Nominal {
			set(s.CutIn.Key, math.Max(in, 0.03e5), switchBand, "far enough below the cut-out")
		}
	}
	if l.Supply == nil {
		return out
	}
	normal, known := l.NormalHigh()
	if !known {
		return out
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Kind != pneumatics.Relief || p.From != l.Supply.Feeds {
			continue
		}
		if l.Working().By == launcher.StopRelief || l.Switch == nil && l.Supply.Kind == launcher.HandPump {
			set(p.FullFlowPressure.Key, p.SetPressure.Nominal+0.06e5, reliefBand, "a spring that opens wide soon above its set pressure")
			continue
		}
		needs := l.SealedSoak(normal) + springBand + room + more
		if low := p.SetPressure.Low; low > needs-springBand-room && p.SetPressure.Nominal < needs+0.4e5 {
			continue // it serves as it is
		}
		at := upTo(needs, 0.05e5)
		set(p.SetPressure.Key, at, springBand, "above what heat makes of the filled launcher, and no higher")
		set(p.FullFlowPressure.Key, at+0.2e5, springBand, "a spring that opens wide soon above its set pressure")
	}
	return out
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
		out = append(out, Change{Key: f.key, To: number(f.value, finding.Bars, f.tolerance), Why: f.why})
	}
	return out
}
