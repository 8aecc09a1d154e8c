package worst

import (
	"context"

	"puffproof/limits/launcher"
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
}

// edge is how closely the start pressure is found from which the projectile leaves, in
// parts of it [-], within bisections at most.
const (
	edge       = 0.004
	bisections = 12
)

// Value gives what the stuck projectile could gain when a hand frees it [J]; u
// are the coordinates without the start pressure.
func (s *stuck) Value(u []float64) float64 {
	copy(s.full[:s.start], u[:s.start])
	copy(s.full[s.start+1:], u[s.start:])
	freed := s.at(1)
	if freed >= 0 {
		return freed
	}
	low, high := s.unmoved(), 1.0
	best := s.at(low)
	if best < 0 {
		low, best = 0, 0
	}
	try := func(start float64) bool {
		f := s.at(start)
		if f < 0 {
			high = start
			return false
		}
		low, best = start, max(best, f)
		return true
	}
	// The edge is mostly close above what the rest holds.
	for step := 2 * edge; low > 0 && low*(1+step) < high && try(low*(1+step)); step *= 3 {
	}
	for n := 0; n < bisections && high-low > edge*high; n++ {
		try(0.5 * (low + high))
	}
	s.full[s.start] = low
	return best
}

// unmoved is the fraction of the highest start pressure at which no volume's pressure
// breaks the rest, if all of them rise with it in proportion.
func (s *stuck) unmoved() float64 {
	c, highest := &s.e.Circuit, 0.0
	for i := range s.e.sc.Volumes {
		highest = max(highest, s.e.sc.Volumes[i].Pressure-c.Ambient.Pressure)
	}
	b := &c.Barrel
	holds := (max(b.Breakaway, b.Sliding) + b.Weight()) / b.Area
	if !(holds > 0) || highest <= holds {
		return 0
	}
	return holds / highest
}

// at is what can be freed after a shot from a fraction of the highest start
// pressure; -1 where the projectile leaves. Close to the edge it creeps: one that is
// still on its way is followed, and is no stuck one.
func (s *stuck) at(start float64) float64 {
	s.full[s.start] = start
	s.e.prepare(s.full)
	o := s.e.Options
	o.OnlyLeaving = false // where it stops is asked
	r := &pneumatics.Result{}
	for _, o.MaxSteps = range [...]int{500, longRun} {
		r = s.e.sim.Run(&s.e.Circuit, &s.e.sc, o)
		if r.Outcome != pneumatics.TimeRanOut || r.Idle || r.Time >= s.e.sc.Until {
			break
		}
	}
	switch {
	case r.Outcome == pneumatics.Left:
		return -1
	case r.Outcome == pneumatics.TimeRanOut && r.Speed != 0:
		return 0
	}
	return r.Freed
}

// Stuck is the worst projectile that came to rest for good.
type Stuck struct {
	Freed float64 // what it can gain when a hand frees it [J]
	Start float64 // the start pressure that leaves it so [Pa gauge]
}

// WorstStuck searches the box for the worst stuck projectile. The error is the
// context's.
func WorstStuck(ctx context.Context, l *launcher.Launcher, q Question) (Stuck, error) {
	b := NewBox(l, q)
	if b.Start < 0 {
		return Stuck{}, nil
	}
	worker := func() *stuck { return &stuck{e: b.Evaluator(), full: make([]float64, b.Dim), start: b.Start} }
	o := search.Light()
	o.Budget, o.Starts, o.Settle = 400, 4, 20
	res, err := search.Maximise(ctx, b.Dim-1, func() search.Objective { return worker() }, o)
	if err != nil || !res.Found {
		return Stuck{}, err
	}
	w := worker()
	freed := w.Value(res.Best.Point)
	return Stuck{Freed: freed, Start: w.full[b.Start] * q.StartMax}, nil
}
