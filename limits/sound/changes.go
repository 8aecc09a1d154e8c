package sound

import (
	"cmp"
	"context"
	"math"
	"slices"
	"strings"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// What is tried, each by itself: own rule of this project.
const (
	slower   = 2.0  // times the opening time of what feeds the barrel
	lower    = 0.8  // times the highest pressure
	longer   = 1.5  // times the travel, or the engagement on a tube
	further  = 2.0  // times the distance of every ear
	throttle = 0.25 // of the flow of an outlet, by a muffler
)

// trial is a change of the shot, to be computed.
type trial struct {
	what   finding.Text
	high   float64 // [Pa gauge]
	change func(l *launcher.Launcher)
}

// change computes what would make it quieter at the worse ear, where that is to be: each change of the shot by a
// search of its own from the loudest one on, all else as it is.
func (r *Report) change(ctx context.Context, in Input, w *worst.Case) error {
	l := in.Launcher
	now := r.worse(l, r.Sources)
	if math.IsInf(now, -1) || max(now, r.Near.Expected) < benchmark.BenchmarkOf(benchmark.SoundPeak).Value {
		return nil
	}
	if now > r.worse(l, slices.DeleteFunc(slices.Clone(r.Sources), func(s Source) bool { return s.Apart })) {
		return nil // what a shot does changes nothing of the pump
	}
	was := r.upper("burst")
	for _, t := range trials(l, in.High) {
		changed := l.Clone()
		t.change(changed)
		q := worst.EnergyQuestion(changed, t.high)
		b := worst.NewBox(changed, q)
		var seeds [][]float64
		for _, m := range w.Result.Maxima {
			seeds = append(seeds, b.Carry(w.Box.Labels, m.Point, 0.5))
		}
		o := search.Light(seeds...)
		o.Sketch = w.Tame() // it starts where the loudest shots were found
		c, err := loudest(ctx, in, changed, t.high, o)
		if err != nil {
			return err
		}
		if !c.Result.Found || c.Shot == nil {
			continue
		}
		var quiet Report // of whose notes nothing is said
		burst, column := quiet.loud(c, nil)
		if r.Recorded != nil { // as much below what was recorded as the model says
			burst += was - r.Recorded.Burst
		}
		r.try(t.what, now, r.worse(l, r.with(func(s *Source) {
			switch {
			case s.ID == "burst":
				s.Upper = min(was, burst)
			case s.ID == "column":
				s.Upper = min(s.Upper, column)
			case strings.HasPrefix(s.ID, "empty."):
				s.Upper += gain(t, in.High)
			}
		})))
	}
	before := len(r.Changes)
	r.try(finding.Words("every ear twice as far from the muzzle"), now, r.worse(l, r.with(func(s *Source) {
		if !s.Apart {
			s.Upper -= 20 * math.Log10(further)
		}
	})))
	if n := len(r.Changes); n > before {
		r.Changes[n-1].Distance = true
	}
	for _, s := range r.Sources {
		if p, ok := strings.CutPrefix(s.ID, "outlet."); ok && l.Paths[l.PathIndex(p)].Kind != pneumatics.Relief {
			r.try(finding.Say("a muffler on %s that passes a quarter of its flow, the time to empty judged with it", p), now,
				r.worse(l, r.with(func(o *Source) {
					if o.ID == s.ID {
						o.Upper += 20 * math.Log10(throttle)
					}
				})))
		}
	}
	slices.SortStableFunc(r.Changes, func(a, b Change) int { return cmp.Compare(a.Upper, b.Upper) })
	return nil
}

// gain is what a change of the shot does to a valve that opens with nothing loaded [dB]: no more than in proportion.
func gain(t trial, high float64) float64 { return 20 * math.Log10(t.high/high) }

// upper is the upper end of a source 1 m away [dB].
func (r *Report) upper(id string) float64 {
	for _, s := range r.Sources {
		if s.ID == id {
			return s.Upper
		}
	}
	return math.Inf(-1)
}

// try keeps a change that makes it quieter by what can be told.
func (r *Report) try(what finding.Text, now, upper float64) {
	const told = 0.5 // [dB]
	if upper < now-told {
		r.Changes = append(r.Changes, Change{What: what, Upper: upper})
	}
}

// trials are the changes of a shot that are tried.
func trials(l *launcher.Launcher, high float64) []trial {
	scaled := func(b *launcher.Band, by float64) { b.Low, b.Nominal, b.High = by*b.Low, by*b.Nominal, by*b.High }
	out := []trial{{finding.Say("a highest pressure of %s", finding.Bar(lower*high)), lower * high, func(*launcher.Launcher) {}}}
	if i := slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return intoBarrel(&p) && p.OpeningTime.Low > 0 }); i >= 0 {
		out = append(out, trial{finding.Words("a firing valve that takes twice as long to open"), high, func(l *launcher.Launcher) {
			for i := range l.Paths {
				if intoBarrel(&l.Paths[i]) {
					scaled(&l.Paths[i].OpeningTime, slower)
				}
			}
		}})
	}
	what, way := "a barrel half as long again", func(l *launcher.Launcher) *launcher.Band { return &l.Barrel.Travel }
	if l.Barrel.Fit == pneumatics.OverTube {
		what, way = "a rocket half as far again on its tube", func(l *launcher.Launcher) *launcher.Band { return &l.Barrel.Engagement }
	}
	if way(l).Set {
		out = append(out, trial{finding.Words(what), high, func(l *launcher.Launcher) { scaled(way(l), longer) }})
	}
	return out
}
