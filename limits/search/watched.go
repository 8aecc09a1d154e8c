package search

import (
	"math"
	"sync"

	"puffproof/limits/finding"
	"puffproof/limits/progress"
)

// tellEvery is the number of evaluations of a worker after which it tells how far the
// search is: seldom enough to cost nothing, often enough for somebody who waits.
const tellEvery = 32

// watch is how far a search is, over all its workers.
type watch struct {
	mu     sync.Mutex
	to     *progress.Teller
	say    func(float64) finding.Text // nil: values are not shown
	done   int
	budget int
	best   float64
}

// watched is a worker that tells now and then how far the search is.
type watched struct {
	Objective
	all  *watch
	done int     // since it told
	best float64 // ever
}

// Value is that of the worker itself.
func (w *watched) Value(u []float64) float64 { return w.valued(w.Objective.Value(u)) }

// ValueNear is that of the worker itself.
func (w *watched) ValueNear(u, at []float64) float64 { return w.valued(valueNear(w.Objective, u, at)) }

// valued counts a value.
func (w *watched) valued(v float64) float64 {
	if defined(v) && v > w.best {
		w.best = v
	}
	if w.done++; w.done == tellEvery {
		w.all.note(w.done, w.best)
		w.done = 0
	}
	return v
}

// note counts what a worker has done.
func (a *watch) note(done int, best float64) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.done += done
	a.best = max(a.best, best)
	var found finding.Text
	if a.say != nil && !math.IsInf(a.best, -1) {
		found = a.say(a.best)
	}
	a.to.Tell(a.done, a.budget, found)
}

// watch lets the workers of a search tell how far it is, where somebody listens.
func (r *run) watch() {
	to := progress.Of(r.ctx)
	if to == nil {
		return
	}
	all := &watch{to: to, say: r.o.Say, budget: r.o.Budget, best: undefinedValue}
	for i, w := range r.workers {
		r.workers[i] = &watched{Objective: w, all: all, best: undefinedValue}
	}
}
