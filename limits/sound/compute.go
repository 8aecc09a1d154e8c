package sound

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/sound"
)

// Input is what the sound of a launcher is computed from.
type Input struct {
	Launcher *launcher.Launcher
	Normal   *worst.Case      // the hardest shot of normal operation
	High     float64          // highest start pressure [Pa gauge] of the sensed volume
	Entered  []*worst.Entered // shots that a change of state lets off: they are normal operation too
}

// Compute gives how loud the shots of normal operation are. The nominal shot is what is expected. The upper end is
// that of the loudest shot over the tolerances, start pressures, seats and elevations, looked for from the
// hardest shot on, from a projectile that sits before the muzzle, and from far away: what is left behind a projectile is
// most where it leaves early, which is not where it leaves fastest. The error is the context's.
func Compute(ctx context.Context, in Input) (*Report, error) {
	r := &Report{Excess: math.NaN(), Most: math.NaN()}
	l := in.Launcher
	w, err := loudest(ctx, in, l, in.High, search.Quick())
	if err != nil {
		return nil, err
	}
	r.Runs = w.Result.Evaluations
	c, sc, shot := nominal(l)
	r.Radius = math.Sqrt(c.Barrel.Area / math.Pi)
	expected := Levels{math.NaN(), math.NaN()}
	column := sound.Level(expectedColumn(c, sc, shot))
	if b, ok := burstOf(c, shot); ok {
		r.Excess = b.Excess
		expected.Expected, expected.Upper = sound.Level(expectedBurst(b)), sound.Level(mostBurst(b, 0))
	} else {
		column = math.NaN()
		r.Notes = append(r.Notes, finding.Words("the nominal shot does not leave the barrel: nothing is expected of it, the upper end is "+
			"that of the tolerances"))
	}
	heard := []*worst.Case{w, in.Normal}
	for _, e := range in.Entered {
		one, err := loudestEntered(ctx, e.Found())
		if err != nil {
			return nil, err
		}
		heard = append(heard, one, e.Found())
	}
	burst, mostPushed := r.loud(heard...)
	r.Sources = append([]Source{
		{ID: "burst", Name: finding.Words("the burst of what is left behind the projectile"), Levels: Levels{expected.Expected, burst}},
		{ID: "column", Name: finding.Words("the air that the projectile pushes out ahead of it"), Levels: Levels{column, mostPushed}},
	}, outlets(l, in.High)...)
	if s, ok := pump(l); ok {
		r.Sources = append(r.Sources, s)
	} else if l.Supply != nil && l.Supply.Kind == launcher.Compressor {
		r.Notes = append(r.Notes, finding.Words("supply.noise_level is not known: the compressor's own sound is not in these figures"))
	}
	r.listen(l)
	r.record(l, burst, expected.Upper)
	r.listen(l)
	if err := r.change(ctx, in, w); err != nil {
		return nil, err
	}
	return r, nil
}

// loudest looks for the loudest shot of a launcher from up to a pressure [Pa gauge].
func loudest(ctx context.Context, in Input, l *launcher.Launcher, high float64, o search.Options) (*worst.Case, error) {
	q := worst.EnergyQuestion(l, high)
	q.Name, q.Measure = "the loudest shot", loudness
	q.Adjust = func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) {
		sc.Parts.NoAfterMuzzle = true // what pushes it further is heard no more
	}
	q.Say = func(v float64) finding.Text { return finding.Say("up to %s at 1 m", finding.Decibel(sound.Level(v))) }
	if len(o.Seeds) == 0 {
		b := worst.NewBox(l, q)
		o.Seeds = worst.SeedsFor(l, in.Normal, q)
		for _, seat := range [...]float64{0, 0.9} { // of the travel: it leaves late, and early
			u := b.Carry(nil, nil, 0.5)
			if b.Start >= 0 {
				u[b.Start] = 1
			}
			if b.Seat >= 0 {
				u[b.Seat] = seat
			}
			o.Seeds = append(o.Seeds, u)
		}
	}
	return worst.Maximise(ctx, l, q, o)
}

// loudestEntered looks for the loudest shot of those that a change of state lets off, from the hardest of them on.
func loudestEntered(ctx context.Context, hardest *worst.Case) (*worst.Case, error) {
	l, q := hardest.Box.Launcher, hardest.Box.Question
	adjust := q.Adjust
	q.Name, q.Measure = "the loudest shot", loudness
	q.Adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u []float64) {
		if adjust != nil {
			adjust(c, sc, u)
		}
		sc.Parts.NoAfterMuzzle = true
	}
	return worst.Maximise(ctx, l, q, search.Quick(worst.SeedsFor(l, hardest, q)...))
}

// loud gives the upper ends of burst and column 1 m away [dB], the column's of the loudest shots and of the hardest.
func (r *Report) loud(shots ...*worst.Case) (burst, column float64) {
	burst, column = math.Inf(-1), 0
	for _, one := range shots {
		if one == nil || !one.Result.Found || one.Shot == nil {
			continue
		}
		c, sc := one.Box.Evaluator().Setup(one.Result.Best.Point)
		if b, ok := burstOf(c, one.Shot); ok {
			if level := sound.Level(mostBurst(b, 0)); level > burst {
				burst, r.Most = level, b.Excess
			}
			most, shock := mostColumn(c, sc, one.Shot)
			column = max(column, most)
			if shock {
				r.Notes = append(r.Notes, finding.Words("the air ahead is pushed so fast that its wave may become a shock in the barrel: "+
					"louder than these figures"))
			}
		}
	}
	return burst, sound.Level(column)
}

// intoBarrel tells whether a path leads into the barrel.
func intoBarrel(p *launcher.PathSpec) bool {
	return p.To == "barrel" && (p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve)
}

// worse is the upper end at the worse ear [dB(C)], of sources; -Inf: no ear is stated.
func (r *Report) worse(l *launcher.Launcher, sources []Source) float64 {
	most := math.Inf(-1)
	for _, e := range r.ears(l) {
		most = max(most, hear(e, sources).Upper)
	}
	return most
}

// with gives the sources with others in the place of those of the same id.
func (r *Report) with(change func(s *Source)) []Source {
	out := slices.Clone(r.Sources)
	for i := range out {
		change(&out[i])
	}
	return out
}
