package worst

import (
	"cmp"
	"context"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Case is the outcome of a search for the worst case.
type Case struct {
	Box     *Box
	Result  search.Result
	Value   float64      // the worst figure; NaN: none was found
	Narrow  finding.Text // what to state more narrowly; nil: every figure of the box is known
	point   Point
	Shot    *pneumatics.Result // the worst shot at full accuracy
	Circuit pneumatics.Circuit // at the worst point
	start   float64            // [Pa gauge] of the sensed volume
	seat    float64            // [m]
	tame    bool               // another search has shown it to be (Tame)
}

// Undetermined tells that somewhere in the box the figure could not be computed.
func (w *Case) Undetermined() bool { return !w.Result.Found || w.Result.Undefined > 0 }

// Energies are the energy of the worst shot of an energy question as computed [J], and what it is judged by: what counts
// more beyond the model's range (RangeExcess) and the model factor are in the second alone.
func (w *Case) Energies() (computed, judged float64) {
	computed = w.Value
	if w.Shot != nil {
		computed /= 1 + RangeExcess(&w.Circuit, w.Shot)
	}
	return computed, w.Value * ModelFactor
}

// Maximise searches a question's worst case and computes the shot there again
// at full accuracy.
func Maximise(ctx context.Context, l *launcher.Launcher, q Question, o search.Options) (*Case, error) {
	b := NewBox(l, q)
	if len(o.Seeds) > 0 && len(o.Seeds[0]) != b.Dim {
		o.Seeds = nil
	}
	b.Until(ctx)
	ctx, o.Say = progress.Looking(ctx, finding.Words(q.Name)), q.Say
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, o)
	if err != nil {
		return nil, err
	}
	w := &Case{Box: b, Result: res, Value: math.NaN()}
	if !res.Found {
		return w, nil
	}
	if err := w.refine(ctx, o); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil { // a shot may have been stopped
		return nil, err
	}
	w.Narrow = b.ToNarrow(w.Result.UndefinedAt, b.Evaluator())
	return w, nil
}

// exact is an evaluator at the accuracy of every figure shown, but for leaps over hops.
func (b *Box) exact() *Evaluator {
	e := b.Evaluator()
	e.Options = b.judging()
	e.Options.NoPeak, e.Options.Tolerance, e.Options.Leap = true, pneumatics.DefaultTolerance, true
	return e
}

// judging is how a shot is computed that counts: hop by hop, and to the hour where that matters.
func (b *Box) judging() pneumatics.Options {
	return pneumatics.Options{MaxSteps: exactSteps, Onward: mostSteps, OnlyLeaving: true, Later: ShotLimit, Worth: negligible, Stop: b.stop}
}

// fine is an evaluator at the accuracy of a search with hoses divided as in every figure shown.
func (b *Box) fine() *Evaluator {
	e := b.Evaluator()
	e.Options.Coarse = false
	return e
}

// exactSteps is the first run's number of steps at full accuracy.
const exactSteps = 20000

// refine judges the maxima of a search again at full accuracy: near a rest a shot at the
// search's accuracy can be wrong by a third, on either side. A long search then climbs on
// from the best of them at full accuracy. None of them is thrown away before all are
// judged: the best at the search's accuracy need not stay the best.
func (w *Case) refine(ctx context.Context, o search.Options) error {
	const most, long = 12, 2000 // maxima taken over; evaluations of a long search
	var points [][]float64
	for _, m := range w.Result.Maxima[:min(most, len(w.Result.Maxima))] {
		points = append(points, m.Point)
	}
	if len(points) == 0 {
		points = [][]float64{w.Result.Best.Point}
	}
	known := len(points)
	shots, err := w.shoot(ctx, points)
	if err != nil {
		return err
	}
	if (o.Budget == 0 || o.Budget >= long) && w.differs(shots, func(i int) float64 { return w.Result.Maxima[i].Value }) {
		on := search.Quick(points...) // in any number of dimensions, from these points alone
		on.FullCorners, on.Near, on.Far, on.Wander, on.Budget, on.Say = -1, 1, 0, 2, 200, w.Box.Question.Say
		climber := w.Box.exact
		if !w.differs(shots, func(i int) float64 { return shots[i].loose }) { // only the hoses were too coarse
			climber = w.Box.fine
		}
		res, err := search.Maximise(ctx, w.Box.Dim, func() search.Objective { return climber() }, on)
		if err != nil {
			return err
		}
		var more [][]float64
		for _, m := range res.Maxima {
			more = append(more, m.Point)
		}
		climbed, err := w.shoot(ctx, more)
		if err != nil {
			return err
		}
		shots = append(shots, climbed...)
	}
	w.settle(shots, known)
	return nil
}

// shoot judges points at full accuracy.
func (w *Case) shoot(ctx context.Context, points [][]float64) ([]shot, error) {
	shots := make([]shot, len(points))
	err := SideBySide(len(points), func(i int) error {
		shots[i] = w.Box.shoot(points[i])
		return ctx.Err()
	})
	return shots, err
}

// differs tells that at one of the best maxima full accuracy sees another shot than the i-th value tells, that of the search: beside
// it there may be a worse one.
func (w *Case) differs(shots []shot, value func(i int) float64) bool {
	const same, near = 2e-4, 0.05
	for i, m := range w.Result.Maxima[:min(len(shots), len(w.Result.Maxima))] {
		best := w.Result.Best.Value
		if v := value(i); m.Value >= best-near*math.Abs(best) && !(math.Abs(shots[i].value-v) <= same*math.Abs(v)) {
			return true
		}
	}
	return false
}

// settle takes the worst of the shots at the maxima, the first of them those of the search
// itself.
func (w *Case) settle(shots []shot, known int) {
	r := &w.Result
	best := -1
	for i, s := range shots {
		if math.IsNaN(s.value) {
			r.Undefined++
			if r.UndefinedAt == nil {
				r.UndefinedAt = s.at
			}
			continue
		}
		if best < 0 || s.value > shots[best].value {
			best = i
		}
		if i < len(r.Maxima) && i < known {
			r.Maxima[i].Value = s.value
		}
	}
	if best < 0 {
		return
	}
	w.take(&shots[best])
	slices.SortStableFunc(r.Maxima, func(a, b search.Maximum) int { return cmp.Compare(b.Value, a.Value) })
	if len(r.Maxima) > 0 { // what a climb from the best of them found is on the same hill
		r.Maxima[0] = r.Best
	}
	if r.Gap = 0; len(r.Maxima) > 1 {
		r.Gap = r.Best.Value - r.Maxima[1].Value
	}
}

// take makes a shot the worst one.
func (w *Case) take(s *shot) {
	w.Value, w.Shot, w.Circuit, w.seat = s.value, s.result, s.circuit, s.seat
	w.Result.Best = search.Maximum{Point: s.at, Value: s.value}
	w.point = w.Box.Point(s.at)
	if w.Box.Start >= 0 {
		w.start = w.Box.Question.start(s.at[w.Box.Start])
	}
}

// shot is one shot of a box, as it is judged.
type shot struct {
	at      []float64
	value   float64 // NaN: it could not be computed
	result  *pneumatics.Result
	circuit pneumatics.Circuit
	seat    float64
	settled bool    // its end is not open
	loose   float64 // value at the accuracy of a search, hoses divided in full
}

// shoot computes the shot at u at the accuracy of every figure shown, and as the search
// did. Where the two disagree by more than accuracy explains, the larger counts: a rest
// that one of them sees and the other does not may be there or not on the next launcher
// beside this one. A shot that one of them followed to its end goes before a bound.
func (b *Box) shoot(u []float64) shot {
	const explained = 0.01
	best := b.shootWith(u, b.judging())
	loose := math.NaN()
	for _, tolerance := range [...]float64{1e-5, 1e-6} {
		o := b.fine().Options
		o.Tolerance = tolerance
		s := b.shootWith(u, o)
		if math.IsNaN(loose) {
			loose = s.value
		}
		switch {
		case math.IsNaN(s.value) || s.result.Withheld() != "":
		case math.IsNaN(best.value), s.settled && !best.settled, s.settled == best.settled && s.value > (1+explained)*best.value:
			best = s
		}
	}
	best.loose = loose
	return best
}

// shootWith computes the shot at u one way.
func (b *Box) shootWith(u []float64, o pneumatics.Options) shot {
	e := b.Evaluator()
	e.Options, e.judges = o, true
	r := e.Run(u)
	return shot{at: u, value: b.Question.Measure(&e.Circuit, r), result: r.Clone(), circuit: e.Circuit, seat: e.sc.Seat,
		settled: !unsettled(r)}
}
