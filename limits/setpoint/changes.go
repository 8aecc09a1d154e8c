package setpoint

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// lever is one quantity that can be scaled to make a launcher weaker.
type lever struct {
	key, what string
	bands     func(l *launcher.Launcher) []*launcher.Band
	// weakest is the end of the scale looked at, which begins at 1 [-]: what is scaled
	// further is no sensible change. Above 1 more of the quantity is weaker.
	weakest float64
}

// levers lists what a builder can change, in the order of the advice.
func levers(l *launcher.Launcher) []lever {
	b := &l.Barrel
	travel := lever{key: "barrel.travel", what: "less travel: seat it further forward, or a shorter barrel", weakest: 0.1,
		bands: func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Barrel.Travel} }}
	if b.Fit == pneumatics.OverTube {
		travel = lever{key: "barrel.engagement", what: "less engagement on the tube", weakest: 0.1,
			bands: func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Barrel.Engagement} }}
	}
	out := []lever{travel}
	if i := doseVolume(l); i >= 0 {
		out = append(out, lever{key: "volumes." + l.Volumes[i].Name + ".volume", what: "a smaller dose", weakest: 0.1,
			bands: func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Volumes[i].Volume} }})
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) && p.Flow.Form != launcher.NoFlow {
			out = append(out, lever{key: p.Flow.Value.Key, what: "a smaller firing valve, or a restrictor behind it that leaves as much flow",
				weakest: 0.05, bands: func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Paths[i].Flow.Value} }})
		}
	}
	return append(out, lever{key: "projectile.mass", what: "a heavier projectile", weakest: 5,
		bands: func(l *launcher.Launcher) []*launcher.Band { return []*launcher.Band{&l.Projectile.Mass} }})
}

// doseVolume is the volume next to the firing valve; -1: none.
func doseVolume(l *launcher.Launcher) int {
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) && p.From != "atmosphere" {
			return int(l.Node(p.From))
		}
	}
	return -1
}

// scaled is a copy of the launcher with the lever's bands multiplied by f.
func (v *lever) scaled(l *launcher.Launcher, f float64) *launcher.Launcher {
	w := l.Clone()
	for _, b := range v.bands(w) {
		b.Low, b.Nominal, b.High = b.Low*f, b.Nominal*f, b.High*f
	}
	return w
}

// changes tells what would let the design's own cut-out work, or where the
// answer is below what ordinary parts can do, an ordinary part.
func (s *solver) changes() error {
	target, why := s.target()
	if math.IsNaN(target) {
		return nil
	}
	need := neededPressure(s.l, target)
	if math.IsNaN(need) || need > s.out.Top {
		return nil
	}
	if need > min(s.caps.rating, s.caps.blocked) {
		if need > s.caps.energy {
			return nil // better parts alone would not do
		}
		s.out.Notes = append(s.out.Notes, finding.Say("For %s it would take parts rated for %s.", why, finding.Bar(need)))
		return nil
	}
	if need <= s.caps.energy {
		if err := s.movedRelief(need, target); err != nil {
			return err
		}
	} else if err := s.tryLevers(need, target); err != nil {
		return err
	}
	if !s.out.Works || s.out.Stated != nil && target == *s.out.Stated { // else a part is looked for, not a way out
		if err := s.weakSource(); err != nil {
			return err
		}
	}
	if len(s.out.Changes) > 0 {
		s.out.Notes = append(s.out.Notes, finding.Say("The changes listed would let %s work.", why))
	} else {
		s.out.Notes = append(s.out.Notes, finding.Say("No single change of travel, dose, valve, mass or contact face was found that lets %s "+
			"work: start anew with puffproof size.", why))
	}
	return nil
}

// overLimit tells by how much the worst of the energy verdicts, single faults included,
// is over its limit on a changed launcher [-], with room for what the longer search of
// check may find: at most 1 where all hold, NaN where it is not known.
func (s *solver) overLimit(w *launcher.Launcher) (float64, error) {
	const room = 1.06 // the short searches were up to 4 % low (found by trying)
	v, share, err := s.faultsOf(w)
	switch {
	case err != nil || v != nil && v.Status == finding.Unknown:
		return math.NaN(), err
	case v != nil:
		return max(room*share, 1+strictly), nil
	}
	return room * share, nil
}

// setTo is a launcher with the relief valve and the switch set as high as a fault
// pressure allows; nil where no setting works.
func setTo(l *launcher.Launcher, fault float64) *launcher.Launcher {
	w := l.Clone()
	if i := w.ReliefOnSupply(); i >= 0 && w.Paths[i].SetPressure.Nominal < fault {
		MoveRelief(&w.Paths[i], fault)
	}
	c := solveChain(w, pressureCaps{energy: fault, rating: math.Inf(1), blocked: math.Inf(1)})
	if math.IsNaN(c.cutOut) {
		return nil
	}
	return c.launcher
}

// tryLevers tries every lever; where the design works as it is and only an ordinary part is looked for, until one does.
func (s *solver) tryLevers(need, target float64) error {
	luxury := s.out.CutOut != nil && (s.out.Stated == nil || *s.out.CutOut >= *s.out.Stated)
	for _, v := range levers(s.l) {
		if err := s.tryLever(v, target); err != nil || luxury && len(s.out.Changes) > 0 {
			return err
		}
	}
	return s.widerContact(need, target)
}

// movedRelief is the relief valve set so that the target works without any other
// change: the energy holds at the pressure it needs.
func (s *solver) movedRelief(need, target float64) error {
	i := s.l.ReliefOnSupply()
	if i < 0 {
		return nil
	}
	w := s.l.Clone()
	MoveRelief(&w.Paths[i], need)
	caps := s.caps
	caps.energy = need
	c := solveChain(w, caps)
	if math.IsNaN(c.set) || c.cutOut < target*(1-strictly) {
		return nil
	}
	if over, err := s.overLimit(c.launcher); err != nil || !(over <= 1) {
		return err
	}
	from := s.l.Paths[i].SetPressure.Nominal
	what := finding.Say("the relief valve set higher, %s; the energy still holds there", fullFlowWords(&c.launcher.Paths[i]))
	if needs := gaugeFor(c.launcher); len(needs) > 0 {
		what = what.And(finding.Words("; ")).And(needs)
	}
	s.out.Changes = append(s.out.Changes, Change{Key: s.l.Paths[i].SetPressure.Key, From: &from, To: &c.set, CutOut: target, What: what})
	return nil
}

// target is the cut-out that changes should make possible; NaN: none is needed.
func (s *solver) target() (cutOut float64, why finding.Text) {
	reached := 0.0
	if s.out.CutOut != nil {
		reached = *s.out.CutOut
	} else if s.out.Works {
		return math.NaN(), nil
	}
	switch {
	case s.out.Stated != nil && reached < *s.out.Stated:
		return *s.out.Stated, finding.Say("the stated cut-out of %s", finding.Bar(*s.out.Stated))
	case reached < ordinaryPart:
		return ordinaryPart, finding.Say("an ordinary switch at %s", finding.Bar(ordinaryPart))
	}
	return math.NaN(), nil
}

// neededPressure is the fault pressure that must hold for a cut-out, with the
// relief valve as low as it may be; NaN where no ladder has that cut-out.
func neededPressure(l *launcher.Launcher, cutOut float64) float64 {
	top := flow.MaxGauge
	reaches := func(p float64) bool {
		caps := pressureCaps{energy: p, rating: math.Inf(1), blocked: math.Inf(1)}
		w := l.Clone()
		if i := w.ReliefOnSupply(); i >= 0 && w.Paths[i].SetPressure.Nominal < p {
			MoveRelief(&w.Paths[i], p) // the relief valve too may be set anew
		}
		return solveChain(w, caps).cutOut >= cutOut
	}
	if !reaches(top) {
		return math.NaN()
	}
	_, p := halving.Between(0, top, 18, reaches) // to 4 Pa
	return p
}

// tryLever finds how far one lever must be moved so that every shot holds up to the
// pressure that the target needs, and enters the change. The worst shots found so
// far decide where to go; a search there confirms it or finds a worse one.
func (s *solver) tryLever(v lever, target float64) error {
	threshold := s.allowed / worst.ModelFactor
	var worst [][]float64
	f := 1.0
	for range 6 {
		w := v.scaled(s.l, f)
		need := neededPressure(w, target) // a smaller vessel overshoots more
		if math.IsNaN(need) {
			return nil
		}
		o := search.Quick(fitting(w, need, worst)...)
		if f != 1 {
			o.Budget, o.Starts = 3000, 8 // it may be the answer
		}
		res, err := s.worstAt(w, need, o)
		if err != nil {
			return err
		}
		switch {
		case res.Undefined > 0 || !res.Found:
			return nil
		case res.Best.Value <= threshold && f == 1:
			return nil
		case res.Best.Value <= threshold:
			next, err := s.confirm(v, w, f, need, target)
			if err != nil || math.IsNaN(next) {
				return err
			}
			f = next
			continue
		}
		for i, m := range res.Maxima {
			if i < 3 {
				worst = append(worst, m.Point)
			}
		}
		next := s.scaleFor(v, need, worst, threshold)
		if math.IsNaN(next) {
			return nil // no sensible amount of it suffices
		}
		if v.weakest < 1 {
			next = min(next, 0.99*f)
		} else {
			next = max(next, 1.01*f)
		}
		f = next
	}
	return nil
}

// confirm judges the single faults of a changed launcher and enters the change where
// they hold. Where they do not it gives the next scale to try; NaN: none.
func (s *solver) confirm(v lever, w *launcher.Launcher, f, need, target float64) (next float64, err error) {
	set := setTo(w, need)
	if set == nil {
		return math.NaN(), nil
	}
	over, err := s.overLimit(set)
	switch {
	case err != nil || math.IsNaN(over):
		return math.NaN(), err
	case over <= 1:
		s.enter(v, f, target)
		return math.NaN(), nil
	}
	// The energy goes with about the first power of what is changed.
	if next = f / (1.05 * over); v.weakest > 1 {
		next = f * 1.05 * over
	}
	if v.weakest < 1 && next < v.weakest || v.weakest > 1 && next > v.weakest {
		return math.NaN(), nil
	}
	return next, nil
}

// fitting are the points that belong to the box of a launcher.
func fitting(l *launcher.Launcher, high float64, points [][]float64) [][]float64 {
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	var out [][]float64
	for _, u := range points {
		if len(u) == b.Dim {
			out = append(out, u)
		}
	}
	return out
}

// worstAt searches for the worst shot of a launcher from up to high.
func (s *solver) worstAt(l *launcher.Launcher, high float64, o search.Options) (search.Result, error) {
	b := worst.NewBox(l, worst.EnergyQuestion(l, high))
	b.Until(s.ctx)
	o.Say = b.Question.Say
	ctx := progress.Looking(s.ctx, finding.Words("changes that would help"))
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, o)
	s.out.Runs += res.Evaluations
	return res, err
}

// scaleFor is the factor at which none of the worst shots exceeds the threshold,
// with 2 % to spare; NaN: even the weakest one does.
func (s *solver) scaleFor(v lever, need float64, hardest [][]float64, threshold float64) float64 {
	holds := func(f float64) bool {
		w := v.scaled(s.l, f)
		b := worst.NewBox(w, worst.EnergyQuestion(w, need))
		e := b.Evaluator()
		for _, u := range hardest {
			if len(u) == b.Dim && e.Value(u) > threshold {
				return false
			}
		}
		return true
	}
	if !holds(v.weakest) {
		return math.NaN()
	}
	_, weak := halving.OnScale(1, v.weakest, 9, holds)
	if v.weakest < 1 {
		return max(v.weakest, weak*0.98)
	}
	return min(v.weakest, weak*1.02)
}

// enter lists a change.
func (s *solver) enter(v lever, f, target float64) {
	from := v.bands(s.l)[0].Nominal
	to := from * f
	s.out.Changes = append(s.out.Changes, Change{Key: v.key, What: finding.Words(v.what), From: &from, To: &to, CutOut: target})
}

// widerContact is the contact print at which the energy per area no longer binds.
func (s *solver) widerContact(need, target float64) error {
	c := s.l.Projectile.ContactDiameter
	if s.out.AllowedWhy != "energy.area" || !c.Set || s.energy.box == nil {
		return nil
	}
	res, err := s.worstAt(s.l, need, search.Quick())
	if err != nil || !res.Found || res.Best.Value*worst.ModelFactor > s.limits.Total.Value {
		return err
	}
	low := math.Sqrt(4 * res.Best.Value * worst.ModelFactor / (math.Pi * s.limits.Area.Value))
	from, to := c.Nominal, low+(c.Nominal-c.Low)
	if s.l.Projectile.Diameter.Set && to > s.l.Projectile.Diameter.Nominal {
		return nil
	}
	set := setTo(s.l, need)
	if set == nil {
		return nil
	}
	set.Projectile.ContactDiameter.Low, set.Projectile.ContactDiameter.Nominal = low, to
	set.Projectile.ContactDiameter.High = max(c.High, to)
	if over, err := s.overLimit(set); err != nil || !(over <= 1) {
		return err
	}
	s.out.Changes = append(s.out.Changes, Change{Key: "projectile.contact_diameter",
		What: finding.Words("a projectile with a larger contact face"),
		From: &from, To: &to, CutOut: target})
	return nil
}

// weakSource is the supply that cannot exceed the limit, single faults included: a
// weaker one is tried where they ask for it.
func (s *solver) weakSource() error {
	l := s.l
	limit := unsoak(l, min(s.caps.lowestCap(), s.out.Top))
	if limit < leastStart || l.Supply == nil || l.Supply.Regulated() || !l.Supply.DeadHead.Set || s.out.Source.Limited {
		return nil
	}
	d := l.Supply.DeadHead
	for range 4 {
		share := limit / d.High
		w := l.Clone()
		w.Switch = nil
		w.Supply.DeadHead.Low, w.Supply.DeadHead.Nominal, w.Supply.DeadHead.High = d.Low*share, d.Nominal*share, d.High*share
		over, err := s.overLimit(w)
		switch {
		case err != nil || math.IsNaN(over):
			return err
		case over <= 1:
			from, to := d.Nominal, settingStep*math.Floor(d.Nominal*share/settingStep)
			s.out.Changes = append(s.out.Changes, Change{Key: "supply.dead_head",
				What: finding.Words("a source that cannot exceed the limit; delete the pressure switch and the relief valve from the design then"),
				From: &from, To: &to, CutOut: to})
			return nil
		}
		limit /= 1.05 * over * over
	}
	return nil
}
