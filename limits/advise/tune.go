package advise

import (
	"context"
	"fmt"
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
	return s.turnBelow(l, dials, values, math.Inf(1))
}

// turnBelow is turn where only a loss below bound is asked for: of what loses as much or more not all figures are known.
func (s *sieve) turnBelow(l *launcher.Launcher, dials []*dial, values []float64, bound float64) turned {
	s.turns++
	t := turned{l: l.Clone(), values: values}
	bands, strain := bandsOf(t.l), 0.0
	for i, d := range dials {
		v := math.Min(math.Max(values[i], d.low), d.high)
		strain += math.Abs(math.Log(v/values[i])) + d.costs(v, d.at(l))
		d.turn(bands, v)
	}
	t.follows = s.follow(t.l, bands)
	t.figures = s.figures(t.l, strain, bound)
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

// settled is when a simplex has come to rest: it lost no more than within over so many of its steps for each dial, beside a few. What is
// finer is lost where values are rounded to what there is.
const (
	settledWithin = 0.003
	settledSteps  = 4
)

// settled is that of so many dials.
func settled(dials int) optimize.Converger {
	return &optimize.FunctionConverge{Absolute: settledWithin, Iterations: 6 + settledSteps*dials}
}

// tune turns the dials until the loss is least: by the simplex method over their logarithms,
// then step by step over what there is.
func (s *sieve) tune(ctx context.Context, l *launcher.Launcher, dials []*dial, last []float64) (turned, error) {
	var best turned
	best.loss = math.Inf(1)
	w := walk{s: s, l: l, dials: dials, seen: map[string]float64{}}
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
			&optimize.Settings{FuncEvaluations: mostShots, Converger: settled(len(dials))}, &optimize.NelderMead{SimplexSize: 0.4})
		if res == nil || err != nil && res.X == nil {
			continue
		}
		if t, better := w.from(res.X, best.loss); better {
			best = t
		}
	}
	return best, ctx.Err()
}

// walk goes step by step over what there is, and screens nothing twice.
type walk struct {
	s     *sieve
	l     *launcher.Launcher
	dials []*dial
	seen  map[string]float64 // the loss of what was screened, or one that it is not below
}

// below screens values where their loss may be below a bound.
func (w *walk) below(values []float64, bound float64) (turned, bool) {
	at := fmt.Sprint(values)
	if known, seen := w.seen[at]; seen && known >= bound {
		return turned{}, false
	}
	t := w.s.turnBelow(w.l, w.dials, values, bound)
	w.seen[at] = t.loss
	return t, t.loss < bound
}

// from rounds the values with some logarithms to what there is and goes on step by step while the loss falls; false where it does not
// fall below a bound.
func (w *walk) from(logs []float64, bound float64) (best turned, found bool) {
	rounded := make([]float64, len(logs))
	for i, d := range w.dials {
		rounded[i] = d.round(w.l, math.Min(math.Max(math.Exp(logs[i]), d.low), d.high))
	}
	best, _ = w.below(rounded, math.Inf(1))
	for range 12 {
		better := false
		for i, d := range w.dials {
			for _, by := range [...]float64{0.97, 1.03, 0.9, 1.1, 0.75, 1.33} {
				try := append([]float64(nil), best.values...)
				try[i] = d.round(w.l, best.values[i]*by)
				if try[i] == best.values[i] || try[i] < d.low || try[i] > d.high {
					continue
				}
				if t, falls := w.below(try, best.loss-1e-9); falls {
					best, better = t, true
				}
			}
		}
		if !better {
			break
		}
	}
	return best, best.loss < bound
}
