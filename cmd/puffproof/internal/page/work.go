package page

import (
	"context"
	"fmt"
	"sync"
	"time"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/progress"
	"puffproof/limits/search"
)

// work asks everything of one draft in turn, quickest first, and keeps each answer while that draft is the one that is shown.
func (sh *sheet) work(ctx context.Context, generation int, d, before *design.Editable) {
	// keep takes an answer over, unless a newer draft has come: false then.
	keep := func(take func(f *found)) bool {
		sh.mu.Lock()
		defer sh.mu.Unlock()
		if ctx.Err() != nil || sh.generation != generation {
			return false
		}
		take(sh.of(d.Bytes()))
		sh.show()
		return true
	}
	fail := func(err error) {
		if ctx.Err() == nil {
			keep(func(*found) { sh.withheld = err.Error() })
		}
	}
	defer func() {
		if p := recover(); p != nil {
			fail(fmt.Errorf("internal error, please report: %v at %s", p, search.Caught(p).Stack))
		}
	}()
	sh.mu.Lock()
	have := *sh.of(d.Bytes())
	sh.mu.Unlock()
	if have.quick == nil {
		q, err := answer.Nominal(ctx, d.Launcher())
		if err != nil || !keep(func(f *found) { f.quick = q }) {
			return
		}
	}
	if have.settings != nil {
		return
	}
	day := sh.server.options.Today()
	// Each of these takes its turn, so that of two designs none waits for all that is asked of the other.
	for _, ask := range []func(context.Context) error{
		func(ctx context.Context) (err error) {
			sh.nominalBefore(ctx, before)
			if have.full == nil {
				have.full, err = sh.judge(ctx, d, keep)
			}
			return err
		},
		func(ctx context.Context) (err error) {
			return improve(&have.full, !have.full.Tried, keep, func() (*answer.Full, error) { return answer.Try(ctx, d, day, have.full) })
		},
		func(ctx context.Context) (err error) {
			sh.beside()
			return improve(&have.full, have.full.Budget == nil, keep, func() (*answer.Full, error) { return answer.Weigh(ctx, have.full) })
		},
		func(ctx context.Context) error {
			set, err := answer.Set(ctx, d.Launcher(), day, have.full)
			if err == nil {
				keep(func(f *found) { f.settings = set })
			}
			return err
		},
	} {
		if err := sh.inTurn(ctx, generation, ask); err != nil {
			fail(err)
			return
		}
	}
}

// inTurn asks something as soon as no other search runs, and lets the page say what is looked at.
func (sh *sheet) inTurn(ctx context.Context, generation int, ask func(context.Context) error) error {
	release := sh.server.turn(ctx)
	if release == nil {
		return ctx.Err()
	}
	defer release()
	ctx, done := sh.tell(ctx, generation)
	defer done()
	if err := ask(ctx); err != nil {
		return err
	}
	return ctx.Err()
}

// judge takes first looks and then judges.
func (sh *sheet) judge(ctx context.Context, d *design.Editable, keep func(func(*found)) bool) (*answer.Full, error) {
	last := sh.last()
	if (last == nil || !answer.AnswersAlone(last, d.Launcher())) && !sh.look(ctx, d, keep) {
		return nil, ctx.Err()
	}
	f, err := answer.Judge(ctx, d, sh.server.options.Today(), last)
	if err == nil {
		keep(func(kept *found) { kept.full = f })
	}
	return f, err
}

// improve puts an answer that says more in the place of one, where it is wanted.
func improve(full **answer.Full, wanted bool, keep func(func(*found)) bool, more func() (*answer.Full, error)) error {
	if !wanted {
		return nil
	}
	f, err := more()
	if err != nil {
		return err
	}
	*full = f
	keep(func(kept *found) { kept.full = f })
	return nil
}

// last is what was judged last; nil: nothing was.
func (sh *sheet) last() *answer.Full {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	return sh.lastJudged()
}

// lastJudged is the same; the lock is held.
func (sh *sheet) lastJudged() *answer.Full {
	for i := len(sh.recent) - 1; i >= 0; i-- {
		if f := sh.found[sh.recent[i]]; f != nil && f.full != nil {
			return f.full
		}
	}
	return sh.older
}

// look takes first looks: at the energies, then at everything. What cannot be looked at is told by the whole judgement.
func (sh *sheet) look(ctx context.Context, d *design.Editable, keep func(func(*found)) bool) bool {
	for i, want := range []assessment.Stages{assessment.EnergyStage, 0} {
		if i > 0 {
			atRest(ctx)
		}
		first, err := answer.Look(ctx, d.Launcher(), sh.server.options.Today(), want)
		switch {
		case ctx.Err() != nil:
			return false
		case err == nil && !keep(func(f *found) { f.first = first }):
			return false
		}
	}
	return true
}

// hold is how long a figure must stand before what takes long is asked: while a hand moves, a search that the next move ends
// would only hold back the answers to that move, in the browser too.
const hold = 120 * time.Millisecond

// atRest waits until the draft has stood for so long, or has been superseded.
func atRest(ctx context.Context) {
	wait := time.NewTimer(hold)
	defer wait.Stop()
	select {
	case <-wait.C:
	case <-ctx.Done():
	}
}

// nominalBefore sees to it that the shot of the file itself is there, which stays behind that of the draft.
func (sh *sheet) nominalBefore(ctx context.Context, before *design.Editable) {
	if before == nil {
		return
	}
	sh.mu.Lock()
	have := sh.of(before.Bytes()).quick != nil
	sh.mu.Unlock()
	if have {
		return
	}
	if q, err := answer.Nominal(ctx, before.Launcher()); err == nil {
		sh.mu.Lock()
		sh.of(before.Bytes()).quick = q
		sh.show()
		sh.mu.Unlock()
	}
}

// turn waits until no other search runs: they would only slow each other down. nil: the context ended before.
func (s *server) turn(ctx context.Context) (release func()) {
	select {
	case s.searching <- struct{}{}:
		return func() { <-s.searching }
	case <-ctx.Done():
		return nil
	}
}

// aloud is how often the page says anew what is looked at.
const aloud = 400 * time.Millisecond

// tell gives a context below which what is being computed is told to the page, until done is called.
func (sh *sheet) tell(ctx context.Context, generation int) (_ context.Context, done func()) {
	var mu sync.Mutex
	var latest progress.Report
	over := make(chan struct{})
	sh.server.works.Go(func() {
		tick := time.NewTicker(aloud)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
				mu.Lock()
				at := latest
				mu.Unlock()
				sh.say(generation, words(at))
			case <-over:
				sh.say(generation, nil)
				return
			}
		}
	})
	told := progress.With(ctx, func(r progress.Report) {
		mu.Lock()
		defer mu.Unlock()
		latest = r
	})
	return told, func() { close(over) }
}

// say shows what is looked at for a draft.
func (sh *sheet) say(generation int, at finding.Text) {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	if sh.generation != generation {
		return
	}
	sh.looking = at
	select {
	case sh.asking <- struct{}{}:
	default:
	}
}

// words says what a computation is at.
func words(r progress.Report) finding.Text {
	if len(r.Looking) == 0 {
		return nil
	}
	t := finding.Join(r.Looking, ": ")
	if r.All > 0 {
		t = t.Say(", %d of %d", r.Done, r.All)
	}
	if len(r.Found) > 0 {
		t = t.Say(": %s", r.Found)
	}
	return t
}
