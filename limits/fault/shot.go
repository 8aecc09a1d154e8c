package fault

import (
	"context"
	"fmt"
	"slices"
	"sync/atomic"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// faultSearch is the question of one fault whose shot has to be searched.
type faultSearch struct {
	st     *stage
	f      *fault
	w      *launcher.Launcher // the failed design
	start  float64            // highest start pressure [Pa gauge]
	result *Result
	sketch *worst.Case // what a sketch of the search found; nil: it was none, the search is over
	found  *worst.Case // what was found last
}

// run computes faults: each question once, the searches side by side.
func (st *stage) run(faults []fault) ([]Result, error) {
	results := make([]Result, len(faults))
	asked := make([]*faultSearch, len(faults))
	fresh := map[string]*faultSearch{}
	var searches []*faultSearch
	for i := range faults {
		s := st.readyFault(&faults[i], &results[i])
		if s == nil {
			continue
		}
		asked[i] = s
		if key := s.key(); st.answers[key] == nil && fresh[key] == nil {
			fresh[key] = s
			searches = append(searches, s)
		}
	}
	if err := st.searchAll(searches); err != nil {
		return nil, err
	}
	for _, s := range searches {
		copied := *s.result
		st.answers[s.key()], st.found[s.key()] = &copied, s.found
	}
	for i, s := range asked {
		if s == nil {
			continue
		}
		if s.f.asked = s.key(); fresh[s.f.asked] == s {
			continue
		}
		same := st.answers[s.f.asked]
		results[i].SameAs = same.ID
		results[i].answers(same)
	}
	for i := range faults {
		st.besideItsShot(&faults[i], &results[i])
	}
	return results, nil
}

// besideItsShot judges what a fault of the wiring does beside a shot that keeps the limit: with it the stop may not stop.
func (st *stage) besideItsShot(f *fault, r *Result) {
	switch {
	case len(f.electric) == 0 || !f.changes || r.Status != finding.Pass:
	case f.failing != nil:
		r.Status, r.Reason = finding.Fail, f.failing
	case f.heldBy != "":
		st.heldBy(r, finding.Item{ID: f.heldBy})
	}
}

// searchAll searches side by side: a sketch of each; of those that may count, among the shots that
// somebody fires and among those that nobody does, climbs from far away; and a search of those that come near to what decides.
func (st *stage) searchAll(searches []*faultSearch) error {
	sideBySide := func(some []*faultSearch, shoot func(s *faultSearch, ctx context.Context, workers int) error) error {
		workers := 0 // all cores for the only one
		if len(some) > 1 {
			workers = 1
		}
		var begun atomic.Int64
		return worst.SideBySide(len(some), func(i int) error {
			s := some[i]
			at := finding.Say("%d of %d, %s", begun.Add(1), len(some), s.result.Name())
			return shoot(s, progress.Looking(st.ctx, at), workers)
		})
	}
	if err := sideBySide(searches, (*faultSearch).shoot); err != nil {
		return err
	}
	top := map[kind]float64{}
	for _, s := range searches {
		top[s.kind()] = max(top[s.kind()], s.result.Judged)
	}
	limit := st.Limits.Total.Value
	if st.Roughly && max(top[kind{}], top[kind{unasked: true}]) > limit {
		return nil // a search finds no less: it fails
	}
	some := slices.DeleteFunc(slices.Clone(searches), func(s *faultSearch) bool {
		return s.sketch == nil || !s.mayCount(top[s.kind()], limit)
	})
	first, twins := twinsApart(some)
	decisive := func(s *faultSearch) bool {
		judged := s.result.Judged
		return s.asksMost() && judged*worst.Decisive > top[s.kind()] || worst.Nearly(judged, limit)
	}
	if err := sideBySide(first, func(s *faultSearch, ctx context.Context, workers int) error {
		if !decisive(s) {
			return s.confirm(ctx, workers)
		}
		return s.searchOn(ctx, workers)
	}); err != nil {
		return err
	}
	for twin, of := range twins {
		twin.result.answers(of.result)
		twin.found = of.found
	}
	return nil
}

// kind tells apart of which faults the hardest is asked: shots that somebody fires, those that nobody does, and those that an item keeps
// from being shot, which are hard by far and fail nothing.
type kind struct{ unasked, kept bool }

func (s *faultSearch) kind() kind { return kind{s.f.unasked, s.f.keptBy.ID != ""} }

// asksMost tells that it is asked which fault is the hardest. Of pairs it is only asked whether they keep the limit.
func (s *faultSearch) asksMost() bool { return !s.st.Roughly && s.f.parts == [2]*fault{} }

// mayCount tells whether a search may find the fault of a sketch to be the hardest, of which top is the greatest, or above the limit.
// The sketch of a pair began where its two faults are hardest.
func (s *faultSearch) mayCount(top, limit float64) bool {
	judged := s.result.Judged
	if s.f.parts != [2]*fault{} {
		return judged <= limit && worst.MayBeMost(judged, limit)
	}
	return s.asksMost() && worst.MayBeMost(judged, top) || worst.MayExceed(judged, limit)
}

// answers takes over what another fault's search found; the shots stay those that were made for this one.
func (r *Result) answers(same *Result) {
	r.Energy, r.Judged, r.Status, r.Basis, r.Reason = same.Energy, same.Judged, same.Status, same.Basis, same.Reason
	r.HeldBy = same.HeldBy
}

// twinsApart parts searches of which another asks the very same: a relay that welds and a switch that does have one shot. Their
// sketches agree in all digits of a place that some hundred shots led to.
func twinsApart(searches []*faultSearch) (first []*faultSearch, twins map[*faultSearch]*faultSearch) {
	twins = map[*faultSearch]*faultSearch{}
	known := map[string]*faultSearch{}
	for _, s := range searches {
		w := &s.sketch.Result
		key := fmt.Sprint(s.f.unasked, s.f.share == nil, s.sketch.Box.Labels, w.Evaluations, w.Best.Point, s.result.Energy, s.result.Judged)
		if of := known[key]; of != nil {
			twins[s] = of
			continue
		}
		known[key] = s
		first = append(first, s)
	}
	return first, twins
}

func (s *faultSearch) key() string { return s.f.question(s.start) }

// shoot sketches the worst shot with the fault, and searches it where a sketch does not tell; workers as in
// search.Options.
func (s *faultSearch) shoot(ctx context.Context, workers int) error {
	q, o := s.asks(workers)
	o.Sketch = s.st.Normal.Tame()
	w, err := worst.Maximise(ctx, s.w, q, o)
	if err != nil {
		return err
	}
	if w.Result.Sketched {
		s.sketch = w
	}
	o.Sketch = false
	return s.judge(ctx, w, q, o)
}

// searchOn searches the worst shot where the sketch was not enough.
func (s *faultSearch) searchOn(ctx context.Context, workers int) error {
	q, o := s.asks(workers)
	if err := s.sketch.SearchOn(ctx, o); err != nil {
		return err
	}
	if err := s.judge(ctx, s.sketch, q, o); err != nil {
		return err
	}
	judged, limit := s.result.Judged, s.st.Limits.Total.Value
	if !worst.Nearly(judged, limit) {
		return nil
	}
	if err := s.sketch.Surely(ctx, s.sketch.Value*limit/judged); err != nil {
		return err
	}
	return s.judge(ctx, s.sketch, q, o)
}

// confirm climbs from far away as well, and searches where that finds more than the sketch.
func (s *faultSearch) confirm(ctx context.Context, workers int) error {
	q, o := s.asks(workers)
	if err := s.sketch.Confirm(ctx, o); err != nil {
		return err
	}
	return s.judge(ctx, s.sketch, q, o)
}

// asks gives question and search.
func (s *faultSearch) asks(workers int) (worst.Question, search.Options) {
	q := s.st.faultQuestion(s.f, s.w, s.start)
	o := vent.Brief(s.st.faultSeeds(s.f, s.w, q)...)
	o.Workers = workers
	return q, o
}

// judge takes what a search found.
func (s *faultSearch) judge(ctx context.Context, found *worst.Case, q worst.Question, o search.Options) error {
	st, f, r := s.st, s.f, s.result
	s.found = found
	r.Shots = found.Result.Evaluations
	r.Basis, r.Reason = finding.OnModel, nil
	if found.Undetermined() {
		return st.unsettled(ctx, s, q, o)
	}
	r.Energy, r.Judged = found.Energies()
	if normal, judged := st.normalEnergy(); !f.unasked && f.share == nil && judged > r.Judged {
		r.Energy, r.Judged = normal, judged // the part may also work as it should
	}
	r.Status = finding.Pass
	switch {
	case f.keptBy.ID != "":
		st.kept(r, f)
	case r.Judged > st.Limits.Total.Value:
		r.Status, r.Reason = finding.Fail, finding.Say("above the limit of %s", finding.Joule(st.Limits.Total.Value))
		if found.Shot != nil && found.Shot.Outcome == pneumatics.TimeRanOut {
			r.Basis = finding.OnCeiling
			r.Reason = r.Reason.Say("; the projectile neither left nor came to rest for good, and this is the most that the air could still do")
		}
	}
	return nil
}

// question is what a fault asks: equal ones have equal answers.
func (f *fault) question(start float64) string {
	if f.pairOf != "" {
		return fmt.Sprint(f.pairOf, "|", start)
	}
	if f.apply == nil && f.adjust == nil && !f.letsGo { // only the pressure differs
		return fmt.Sprint("pressure ", start)
	}
	mode, part := f.mode, f.part
	if f.asks != "" {
		mode, part = StuckOpen, f.asks
	}
	switch mode {
	case LeakingValve, Energised, InletLost, PilotOpen, BleedBlocked, DiaphragmTorn:
		// Part of the same search: the opening runs from shut to full.
		mode = StuckOpen
	case SetTooHigh: // as if it never lifted
		mode = ReliefStuckShut
	case Creeps:
		mode = FailedOpen
	}
	return fmt.Sprint(part, "|", mode, "|", f.unasked, "|", f.state, "|", start)
}

// faultQuestion is the question of the energy verdicts on the failed design.
func (st *stage) faultQuestion(f *fault, w *launcher.Launcher, start float64) worst.Question {
	q := worst.EnergyQuestion(w, start)
	q.Name, q.Extra = "", f.extra // who asks has told which fault it is
	if f.unasked {
		q.FromAll = []pneumatics.State{f.state}
	}
	stopped := f.noRelief && !f.overcharges && st.endsByItself()
	runs := w.Supply != nil && w.Supply.RunsIn.Has(f.state)
	var letGo func(*pneumatics.Circuit, *pneumatics.Scenario, float64)
	if f.letsGo {
		q.Extra, letGo = append(slices.Clone(f.extra), "hold that gives way"), worst.LettingGo(w, st.Plugged)
	}
	q.Adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, u []float64) {
		if letGo != nil { // once all pressures are known
			defer func() { letGo(c, sc, u[len(f.extra)]) }()
		}
		if f.adjust != nil {
			f.adjust(c, u)
		}
		if stopped {
			// With the relief valve shut the switch, mark or timer is what limits the pressure:
			// it has stopped the supply. Start pressures reach up to the highest it allows.
			sc.SupplyRuns = false
		}
		if !f.unasked {
			return
		}
		sc.SupplyRuns = runs
		for i := range sc.Volumes { // where it has emptied, what is left
			rest, empty := st.Loading.RestIn(f.state, i)
			if empty && f.stands != nil {
				rest = f.stands.rest[i]
			}
			if empty {
				sc.Volumes[i].Pressure = min(sc.Volumes[i].Pressure, c.Ambient.Pressure+rest)
			}
		}
	}
	if f.share != nil {
		q.Measure = worst.ShareOfEnergy(st.Launcher, f.share)
	}
	return q
}

// endsByItself tells that something stops the supply, neither a relief valve nor its own weakness.
func (st *stage) endsByItself() bool {
	switch st.Launcher.Stops() {
	case launcher.StopSwitch, launcher.StopMark, launcher.StopTimer:
		return true
	}
	return false
}

// faultSeeds carries the maxima of normal operation over to the box of a
// failed design, coordinate by coordinate; new coordinates start at five levels. A pair starts from those of its two faults.
func (st *stage) faultSeeds(f *fault, w *launcher.Launcher, q worst.Question) [][]float64 {
	if st.Normal == nil || !st.Normal.Result.Found {
		return nil
	}
	b := worst.NewBox(w, q)
	out := st.pairSeeds(f, b)
	if len(out) > 0 {
		return out
	}
	for _, m := range st.Normal.Result.Maxima {
		for _, fresh := range []float64{1, 0.75, 0.5, 0.25, 0} {
			for _, full := range []bool{false, true} {
				seed := b.Carry(st.Normal.Box.Labels, m.Point, fresh)
				if b.Start >= 0 && full {
					seed[b.Start] = 1
				}
				out = append(out, seed)
			}
		}
	}
	for _, fresh := range []float64{1, 0} {
		out = append(out, b.OtherHills(b.Carry(st.Normal.Box.Labels, st.Normal.Result.Best.Point, fresh))...)
	}
	return out
}
