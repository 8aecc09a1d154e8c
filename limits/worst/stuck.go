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

// stuck looks for the worst stuck projectile: at each point of the box, start
// pressure apart, the highest start pressure at which it still stays in the
// barrel. Searching the whole box for it would have to walk along that edge,
// which is as thin as a step.
type stuck struct {
	e     *Evaluator
	full  []float64
	start int
	guess *edgeGuess // nil: none is made
	edge  float64    // how closely the start pressure is found from which the projectile leaves, in parts of it [-]
	lower int        // how many lower start pressures are tried where it has moved
	moved bool       // at the last edge
	near  []float64  // the point that ValueNear was last asked about, and
	known float64    // the logarithm of its edge, as a fraction of the highest; NaN: it has none
}

// The edge of a search, the one at its best point, and the shots in which it is looked for at most.
const (
	searchEdge = 0.02
	finalEdge  = 0.0005
	mostShots  = 20
)

// stuckShot is what comes of a shot from one start pressure.
type stuckShot struct {
	start float64 // as a fraction of the highest
	freed float64 // what a projectile that stays can gain [J]
	left  bool
	over  float64 // what it leaves with [J]; negative: roughly what it lacks to leave
	moved bool    // it stays further on than it sat
	holds float64 // work against all that holds it, from where it sat to the muzzle [J]
}

// Value gives what the stuck projectile could gain when a hand frees it [J]; u
// are the coordinates without the start pressure.
func (s *stuck) Value(u []float64) float64 { return s.from(u, s.guess.of(u)) }

// ValueNear is Value where the edge is known nearby: it is expected as much further as the guesses at both points are apart.
func (s *stuck) ValueNear(u, at []float64) float64 {
	if !slices.Equal(s.near, at) {
		s.near = append(s.near[:0], at...)
		s.known = s.edgeAt(at)
	}
	if math.IsNaN(s.known) {
		return s.Value(u)
	}
	expected := s.known
	if there := s.guess.of(at); there > 0 {
		expected += math.Log(s.guess.of(u) / there)
	}
	return s.from(u, math.Exp(expected))
}

// from is Value where the edge is expected at a fraction of the highest start pressure; 0: nowhere.
func (s *stuck) from(u []float64, expected float64) float64 {
	best := s.atEdge(u, expected)
	if edge := s.full[s.start]; s.moved {
		at := edge
		for i := range s.lower {
			if i > 0 && s.edge > finalEdge && best > negligible {
				break // what stays from between the two gains more only where next to nothing stays at the edge
			}
			start := edge * float64(i) / float64(s.lower)
			if one := s.at(start); one.freed > best {
				best, at = one.freed, start
			}
		}
		s.full[s.start] = at
	}
	return best
}

// atEdge is Value at the highest start pressure from which it stays. Where it has moved there it may gain more from a lower one: it
// stays further back, and a supply may bring what is behind it to the same pressure all the same.
func (s *stuck) atEdge(u []float64, expected float64) float64 {
	s.moved = false
	copy(s.full[:s.start], u[:s.start])
	copy(s.full[s.start+1:], u[s.start:])
	if expected > 0 {
		if low, high, found := s.bracket(expected); found {
			return s.narrow(low, high, stuckShot{})
		}
	}
	high := s.at(1)
	if !high.left {
		s.moved = high.moved
		return high.freed
	}
	low := s.at(0)
	if b := &s.e.Circuit.Barrel; low.left && b.Restart <= b.Breakaway { // it falls out, or a supply pushes it out, from whatever start
		return 0
	}
	if low.left { // where it has stopped on its way it may be held more firmly than where it sat
		low = stuckShot{}
	}
	return s.narrow(low, high, stuckShot{})
}

// narrow closes in on the edge between a start from which it stays (or none) and one from which it leaves, and gives the
// most that one that stays can gain [J].
func (s *stuck) narrow(low, high, last stuckShot) float64 {
	best, side := low.freed, 0
	var before stuckShot          // the one that stayed before the last
	var widths [mostShots]float64 // of the bracket
	for n := 0; n < mostShots && high.start-low.start > s.edge*high.start; n++ {
		widths[n] = high.start - low.start
		half := n >= 2 && low.start > 0 && widths[n] > 0.5*widths[n-2] // the line is no guide: where it breaks away the energy jumps
		next := s.at(between(low, high, last, half, s.edge))
		if next.left {
			high, last = next, high
			side = illinois(side, +1, &low.over)
		} else {
			before, low, best = low, next, max(best, next.freed)
			side = illinois(side, -1, &high.over)
		}
	}
	s.full[s.start], s.moved = low.start, low.moved
	if s.edge > finalEdge && informs(low, high) && low.freed == best {
		return best * low.growth(before, low.start+(high.start-low.start)*low.over/(low.over-high.over))
	}
	return best
}

// growth is how many times as much a projectile gains that stays from a start somewhat higher: as what it gains has grown
// from a shot before, or in proportion to the square.
func (low *stuckShot) growth(before stuckShot, start float64) float64 {
	power := 2.0
	if before.freed > 0 && before.start < low.start {
		power = min(max(math.Log(low.freed/before.freed)/math.Log(low.start/before.start), 0), 4)
	}
	return math.Pow(start/low.start, power)
}

// bracket looks for the edge around a start pressure at which it is expected.
func (s *stuck) bracket(p float64) (low, high stuckShot, found bool) {
	const first, widest = 0.01, 0.3
	at := s.at(min(p, 1))
	step := first
	if at.left {
		for high = at; step < widest; step *= 3 {
			if at = s.at(at.start / (1 + at.step(step, s.edge))); !at.left {
				return at, high, true
			}
			high = at
		}
		return low, high, false
	}
	for low = at; step < widest && low.start < 1; step *= 3 {
		if at = s.at(min(1, at.start*(1+at.step(step, s.edge)))); at.left {
			return low, at, true
		}
		low = at
	}
	return low, high, false
}

// step is by what share of its start the next one is tried beyond the edge: as far as its energy tells, half an edge further, but not
// below a least step, nor nine times that, for where it breaks away the energy jumps.
func (at *stuckShot) step(least, edge float64) float64 {
	const power = 1.5 // of the start, with which the work of the gas goes: between that of a large volume and of a small one
	step := least
	if done := at.holds + at.over; done > 0 && (at.left || at.moved) {
		step = math.Abs(math.Pow(done/at.holds, 1/power)-1) + 0.5*edge
	}
	return min(max(step, least), 9*least)
}

// informs tells that the energies at both ends say where between them the edge lies.
func informs(low, high stuckShot) bool { return low.over < 0 && high.over > 1e-6 }

// illinois is the rule of that name: where the same end of the bracket moves twice, the
// other's value counts half.
func illinois(before, now int, other *float64) int {
	if before == now {
		*other *= 0.5
	}
	return now
}

// between is the start pressure to try next: where a line through both ends has no energy
// (regula falsi), half an edge further towards the farther of the two, so that both come
// close; before one that stays is known, somewhat below where a line through the last two
// that left has none, or a quarter; half way in proportion where the energies are no guide.
func between(low, high, last stuckShot, half bool, edge float64) float64 {
	width := high.start - low.start
	at := low.start + 0.5*width
	switch {
	case low.start > 0 && (half || !informs(low, high)):
		at = math.Sqrt(low.start * high.start)
	case informs(low, high):
		at = low.start + width*low.over/(low.over-high.over)
		shift := 0.5 * edge * high.start
		if at-low.start > high.start-at {
			shift = -shift
		}
		at += shift
	case last.over > high.over && high.over > 0:
		at = max(0.25*high.start, high.start-(last.start-high.start)*high.over/(last.over-high.over)-4*edge*high.start)
	case last.left:
		at = 0.25 * high.start
	}
	return min(max(at, low.start+0.02*width), high.start-0.02*width)
}

// at is what comes of a shot from a fraction of the highest start pressure. Close to the
// edge it creeps: one that is still on its way is followed, and is no stuck one.
func (s *stuck) at(start float64) stuckShot {
	s.full[s.start] = start
	s.e.prepare(s.full)
	s.e.sc.Parts.NoAfterMuzzle = true // one that has left is none, whatever the air does then
	o := s.e.Options
	// Where it stops is asked: a search that leapt over hops missed 98 % of what a random launcher's could gain (seed 16).
	o.OnlyLeaving, o.Onward, o.Leap, o.Later, o.FirstTurn = false, 0, false, 0, true
	b := &s.e.Circuit.Barrel
	holds := math.Abs(max(b.Breakaway, b.Sliding) + b.Weight())
	whole := holds * max(b.Travel-s.e.sc.Seat, 0)
	r := &pneumatics.Result{}
	for _, o.MaxSteps = range [...]int{500, longRun} {
		r = s.e.Box.known.Run(&s.e.sim, &s.e.Circuit, &s.e.sc, o)
		if r.Outcome != pneumatics.TimeRanOut || r.Idle || r.Time >= s.e.sc.Until {
			break
		}
	}
	if r.Outcome == pneumatics.Left {
		return stuckShot{start: start, left: true, over: r.MuzzleEnergy, holds: whole}
	}
	short := stuckShot{start: start, over: -holds * max(b.Travel-r.Position, 0), moved: r.Position > s.e.sc.Seat+1e-3*b.Travel, holds: whole}
	if r.Outcome != pneumatics.TimeRanOut || r.Speed == 0 && !b.Frictionless() { // without friction it bounces on
		short.freed = r.Freed
	}
	return short
}

// Stuck is the worst projectile that came to rest for good.
type Stuck struct {
	Freed float64 // what it can gain when a hand frees it [J]
	Start float64 // the start pressure that leaves it so [Pa gauge]
	// Unended tells that it is worst where the pulse of a timer does not end, or is given again and again.
	Unended bool
}

// stuckMargin is by how much more a longer search may find: 1.68 times in one of 39 random launchers whose climbs disagreed, 1.26 in the
// next; and 1.46 times where they came to the same (testdata/starts/whole-tank.toml).
const stuckMargin = 2

// WorstStuck searches the box for the worst stuck projectile: none where nothing holds it, for it then rests only where its weight holds
// all that is behind it, and gains nothing when it is lifted. What keeps the limit [J] narrowly is searched for longer, whether or not
// climbs from far apart came to the same. The error is the context's.
//
// A valve that shuts after a pulse keeps the air of its vessel from one that is stuck, until the pulse is given again: with a
// projectile that does not leave somebody tries again. It is searched without the pulse as well, which is a timer that fails, too.
func WorstStuck(ctx context.Context, l *launcher.Launcher, q Question, limit float64) (Stuck, error) {
	out, err := worstStuck(ctx, l, q, limit)
	held := withoutPulses(l)
	if err != nil || held == nil {
		return out, err
	}
	longer, err := worstStuck(ctx, held, q, limit)
	if longer.Freed > out.Freed {
		out = longer
		out.Unended = true
	}
	return out, err
}

// withoutPulses is a launcher whose valves to the barrel stay open as long as somebody fires; nil: they do.
func withoutPulses(l *launcher.Launcher) *launcher.Launcher {
	if !slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Pulse.Set }) {
		return nil
	}
	held := l.Clone()
	for i := range held.Paths {
		held.Paths[i].Pulse = launcher.Band{}
	}
	return held
}

// worstStuck is WorstStuck of a launcher as it is.
func worstStuck(ctx context.Context, l *launcher.Launcher, q Question, limit float64) (Stuck, error) {
	b := NewBox(l, q)
	if p := &l.Projectile; b.Start < 0 || max(p.Breakaway.High, p.Restart.High, p.Sliding.High) == 0 {
		return Stuck{}, nil
	}
	worker := func(edge float64, guess *edgeGuess) *stuck {
		return &stuck{e: b.Evaluator(), full: make([]float64, b.Dim), start: b.Start, edge: edge, guess: guess, lower: 2}
	}
	b.Until(ctx)
	ctx = progress.Looking(ctx, finding.Words("stuck projectile"))
	guess, err := guessEdge(ctx, b.Dim-1, func() *stuck { return worker(searchEdge, nil) })
	if err != nil {
		return Stuck{}, err
	}
	searcher := func() search.Objective { return worker(searchEdge, guess) }
	res, err := search.Maximise(ctx, b.Dim-1, searcher, stuckOptions(3)) // with one look from far away a random launcher was a third low
	if err != nil || !res.Found {
		return Stuck{}, err
	}
	out, err := judgeStuck(ctx, res.Maxima, worker(finalEdge, guess), q.StartMax)
	if err != nil || out.Freed > limit || out.Freed*stuckMargin < limit {
		return out, err
	}
	maxima, err := b.longerStuck(ctx, searcher, res)
	if err != nil {
		return Stuck{}, err
	}
	more, err := judgeStuck(ctx, maxima, worker(finalEdge, guess), q.StartMax)
	if more.Freed > out.Freed {
		out = more
	}
	return out, err
}

// stuckOptions are those of a search for a stuck projectile, each point of which takes several shots, with some looks from far away. With
// four random steps a coordinate in the place of ten, one of sixty random launchers was found three quarters low (seed 27).
func stuckOptions(far int, seeds ...[]float64) search.Options {
	o := search.Quick(seeds...)
	o.Budget, o.Starts, o.Settle, o.Far, o.Wander = 400, 4, 20, far, 10
	return o
}

// longerStuck searches for what a first search missed: of launchers whose stuck projectile has many hills (valves that pulse, reliefs on
// the barrel) it was up to a fifth low. A search three times as long from other points found them, or
// climbs from the other kinds of shot; where climbs came to the same the latter found nothing.
func (b *Box) longerStuck(ctx context.Context, searcher func() search.Objective, before search.Result) ([]search.Maximum, error) {
	const times = 3
	without := func(u []float64) []float64 { return slices.Delete(slices.Clone(u), b.Start, b.Start+1) }
	res, err := search.Maximise(search.WithStrength(ctx, min(times*search.Strength(ctx), 100)), b.Dim-1, searcher, stuckOptions(0))
	if err != nil {
		return nil, err
	}
	if !res.Found || before.Best.Value > res.Best.Value {
		res.Best = before.Best
	}
	found := append(res.Maxima, before.Best)
	hills := b.OtherHills(slices.Insert(slices.Clone(res.Best.Point), b.Start, 1))
	if before.Met {
		hills = nil
	}
	for _, hill := range hills {
		o := stuckOptions(0, without(hill))
		o.Near = 1
		one, err := search.Maximise(ctx, b.Dim-1, searcher, o)
		if err != nil {
			return nil, err
		}
		found = append(found, one.Maxima...)
	}
	slices.SortStableFunc(found, func(a, b search.Maximum) int { return cmp.Compare(b.Value, a.Value) })
	return found, nil
}

// judgeStuck is the worst of a search's best maxima, with the edge found closely and hoses divided in full: what the
// search took them for was expected, not computed.
func judgeStuck(ctx context.Context, maxima []search.Maximum, w *stuck, top float64) (out Stuck, err error) {
	const judged, lower = 3, 10
	w.e.Options.Coarse, w.lower = false, lower
	for _, m := range maxima[:min(judged, len(maxima))] {
		if freed := w.Value(m.Point); freed > out.Freed {
			out = Stuck{Freed: freed, Start: w.full[w.start] * top}
		}
	}
	return out, ctx.Err() // a shot may have been stopped
}
