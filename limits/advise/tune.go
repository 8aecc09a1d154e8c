package advise

import (
	"context"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/optimize"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// turned is where the dials of a launcher stand, and what follows.
type turned struct {
	l       *launcher.Launcher
	values  []float64
	follows []follower
	figures figures
	loss    float64
}

// turn puts values on the dials of a copy of a launcher, and screens it.
func (s *sieve) turn(l *launcher.Launcher, dials []*dial, values []float64) turned {
	t := turned{l: l.Clone(), values: values}
	bands, strain := bandsOf(t.l), 0.0
	for i, d := range dials {
		v := math.Min(math.Max(values[i], d.low), d.high)
		strain += math.Abs(math.Log(v/values[i])) + d.costs(v, d.at(l))
		d.turn(bands, v)
	}
	t.follows = s.follow(t.l, bands)
	t.figures = s.figures(t.l)
	t.loss = s.loss(t.l, t.figures) + strain
	return t
}

// starts are where the search begins, as shares of the way from the low to the high end of a
// dial by their logarithms; the dials' own values begin one more.
var starts = [...]float64{0.35, 0.7}

// startsOf are the logarithms of the values that the search begins at: those it ended at
// before, where there are any.
func startsOf(l *launcher.Launcher, dials []*dial, last []float64) [][]float64 {
	within := func(d *dial, v float64) float64 { return math.Log(math.Min(math.Max(v, d.low), d.high)) }
	from := [][]float64{nil}
	for i, d := range dials {
		v := d.at(l)
		if last != nil {
			v = last[i]
		}
		from[0] = append(from[0], within(d, v))
	}
	if last != nil {
		return from
	}
	begin := func(share func(d *dial) float64) {
		var logs []float64
		for _, d := range dials {
			logs = append(logs, math.Log(d.low)+share(d)*math.Log(d.high/d.low))
		}
		from = append(from, logs)
	}
	for _, share := range starts {
		begin(func(*dial) float64 { return share })
	}
	if slices.ContainsFunc(dials, (*dial).isWay) { // from a long way nothing shows that a short one would do
		begin(func(d *dial) float64 {
			if d.isWay() {
				return 0
			}
			return 0.5
		})
	}
	return from
}

// isWay tells the dial of the way that the air pushes along.
func (d *dial) isWay() bool {
	return d.unit == finding.Millimetres && strings.HasPrefix(d.keys[0], "barrel.")
}

// mostShots is how often one search screens.
const mostShots = 110

// tune turns the dials until the loss is least: by the simplex method over their logarithms,
// then step by step over what there is.
func (s *sieve) tune(ctx context.Context, l *launcher.Launcher, dials []*dial, last []float64) (turned, error) {
	var best turned
	best.loss = math.Inf(1)
	at := func(logs []float64) turned {
		values := make([]float64, len(logs))
		for i := range logs {
			values[i] = math.Exp(logs[i])
		}
		return s.turn(l, dials, values)
	}
	for _, x := range startsOf(l, dials, last) {
		if err := ctx.Err(); err != nil {
			return best, err
		}
		res, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 { return at(x).loss }}, x,
			&optimize.Settings{FuncEvaluations: mostShots, Concurrent: 0}, &optimize.NelderMead{SimplexSize: 0.4})
		if res == nil || err != nil && res.X == nil {
			continue
		}
		if t := s.walk(l, dials, at(res.X).values); t.loss < best.loss {
			best = t
		}
	}
	return best, ctx.Err()
}

// walk rounds the values to what there is and goes on step by step while the loss falls.
func (s *sieve) walk(l *launcher.Launcher, dials []*dial, values []float64) turned {
	rounded := make([]float64, len(values))
	for i, d := range dials {
		rounded[i] = d.round(l, math.Min(math.Max(values[i], d.low), d.high))
	}
	best := s.turn(l, dials, rounded)
	for range 12 {
		better := false
		for i, d := range dials {
			for _, by := range [...]float64{0.97, 1.03, 0.9, 1.1, 0.75, 1.33} {
				try := append([]float64(nil), best.values...)
				try[i] = d.round(l, best.values[i]*by)
				if try[i] == best.values[i] || try[i] < d.low || try[i] > d.high {
					continue
				}
				if t := s.turn(l, dials, try); t.loss < best.loss-1e-9 {
					best, better = t, true
				}
			}
		}
		if !better {
			break
		}
	}
	return best
}
