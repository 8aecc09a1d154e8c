package setpoint

import (
	"context"
	"math"
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// A descent looks for the lowest start pressure from which some launcher of the
// tolerance box exceeds a threshold. A single shot's energy may fall as the
// pressure rises (the projectile rests and hops), so no root is sought on it.
// The descent goes down from above on what is certain:
//
//   - a computed shot above the threshold proves that the crossing is not higher
//     than its start pressure;
//   - the start pressure of every offending shot is lowered along its own curve
//     until it just exceeds the threshold; below that a new search is made;
//   - searches get thorough in stages; it ends where the last one, over the box and
//     every start pressure up to there, finds no offending shot.
//
// So the crossing is the first from below, between low and high. No proof of a
// global maximum is claimed for the last search: see ModelFactor.
type descent struct {
	ctx       context.Context
	l         *launcher.Launcher
	q         worst.Question
	objective func(b *worst.Box) search.Objective
	threshold float64
	stages    []stage
	seeds     []worst.StartSeed
	out       crossing
}

// stage is one kind of search of a descent and the share by which the start
// pressure is lowered below an offending shot that it found [-].
type stage struct {
	options func(seeds ...[]float64) search.Options
	step    float64
}

// thoroughStages end with the search of a check. The energy has many small humps,
// so a thorough search nearly always finds a shot that is a little harder: the
// steps grow lest one search follow another.
func thoroughStages() []stage {
	return []stage{
		{search.Quick, 0.005},
		{func(seeds ...[]float64) search.Options { return search.Options{Seeds: seeds, FinestStep: 1.0 / 4096} }, 0.015},
	}
}

// shortStages are for figures that rise smoothly with all that matters.
func shortStages() []stage { return []stage{{search.Quick, 0.002}} }

// crossing is where an envelope first exceeds its threshold.
type crossing struct {
	low   float64    // no shot from up to here exceeds it [Pa gauge]
	high  float64    // a computed shot from here does [Pa gauge]; +Inf: none up to the top
	box   *worst.Box // of the last search; its start pressures end at low
	at    []float64
	point worst.Point // of the shot at high; nil: none
	runs  int
	// hardest are the hardest shots that the searches found.
	hardest []worst.StartSeed
	tame    bool         // climbs of the last search from far apart came to the same
	bad     int          // shots that could not be computed; then nothing above is known
	narrow  finding.Text // what to state more narrowly then
}

// unknown says what of a crossing could not be computed, and what would help.
func (c *crossing) unknown(what string) string {
	return finding.Notes(finding.Words(what+" could not be computed"), c.narrow).String()
}

// The steps of a descent [-]. reserve is what the answer stays below the last
// search: another search of the same strength, that of check, may find a slightly
// harder shot. Step and reserve together stay within the 2 % to which the answer
// is sharp.
const (
	reserve      = 0.003
	belowWitness = 0.0195 // below the proven offending start; searches of equal strength differed by 0.1 %
	lowerFactor  = 0.8
	lowerSteps   = 24 // 0.8^24 is 1/200: no lower crossing is looked for below
	halvings     = 12 // to 5e-5; the energy jumps in places, and nobody is served by a shot on the very edge
	mostDescents = 60
	leastStart   = 100 // [Pa]
)

// firstCrossing runs the descent from top [Pa gauge].
func firstCrossing(ctx context.Context, l *launcher.Launcher, d descent, top float64) (crossing, error) {
	d.ctx, d.l = progress.Looking(ctx, finding.Words("the highest start pressure by "+d.q.Name)), l
	d.out.high = math.Inf(1)
	s, at := top, 0
	if top < leastStart {
		return d.out, nil
	}
	for range mostDescents {
		res, err := d.search(s, d.stages[at])
		switch {
		case err != nil:
			return d.out, err
		case !res.Found || res.Undefined > 0:
			d.out.bad = max(1, res.Undefined)
			d.out.narrow = d.out.box.ToNarrow(res.UndefinedAt, d.objective(d.out.box))
			return d.out, nil
		case res.Best.Value > d.threshold:
			if s = min(s, d.lowerAll(res)) * (1 - d.stages[at].step); s < leastStart {
				return d.out, nil // nothing is left below
			}
		case at == len(d.stages)-1:
			d.out.low, d.out.tame = s, res.Met || res.Tame
			if !math.IsInf(d.out.high, 1) {
				d.out.low = min(d.out.low*(1-reserve), d.out.high*(1-belowWitness))
			}
			return d.out, nil
		default:
			at++
		}
	}
	return d.out, &worst.WithheldError{What: "the highest start pressure", Reason: "the search did not come to an end"}
}

// search looks for the worst shot from start pressures up to s.
func (d *descent) search(s float64, st stage) (search.Result, error) {
	d.q.StartMax = s
	b := worst.NewBox(d.l, d.q)
	b.Until(d.ctx)
	var seeds [][]float64
	for _, seed := range d.seeds {
		seeds = append(seeds, seed.In(b))
	}
	o := st.options(seeds...)
	if o.Near == 0 { // a short search screens where it has no seeds, and climbs from the best of them alone
		o.Seeds = append(o.Seeds, b.Hills()...)
	}
	o.Enough, o.Say = &d.threshold, d.q.Say
	res, err := search.Maximise(d.ctx, b.Dim, func() search.Objective { return d.objective(b) }, o)
	d.out.runs += res.Evaluations
	d.out.box = b
	for i, m := range res.Maxima {
		if i < 3 {
			d.seeds = append(d.seeds, worst.StartSeed{Labels: b.Labels, U: m.Point, Start: m.Point[b.Start] * s})
		}
	}
	if n := len(d.seeds); n > 9 {
		d.seeds = d.seeds[n-9:]
	}
	d.out.hardest = d.seeds
	return res, err
}

// lowerAll lowers the start pressures of the offending maxima and gives the
// lowest from which a shot still exceeds the threshold [Pa gauge].
func (d *descent) lowerAll(res search.Result) float64 {
	b := d.out.box
	var offending [][]float64
	for i, m := range res.Maxima {
		if i >= 5 || m.Value <= d.threshold {
			break
		}
		offending = append(offending, slices.Clone(m.Point))
	}
	lowered := make([]lowering, len(offending))
	_ = worst.SideBySide(len(offending), func(i int) error { // none of them fails
		lowered[i] = d.lower(d.objective(b), b, offending[i])
		return nil
	})
	for i, low := range lowered {
		d.out.runs += low.runs
		if low.proved && low.start < d.out.high {
			u := offending[i]
			u[b.Start] = low.start / b.Question.StartMax
			d.out.high, d.out.at, d.out.point = low.start, u, b.Point(u)
			d.seeds = append(d.seeds, worst.StartSeed{Labels: b.Labels, U: u, Start: low.start})
		}
	}
	return d.out.high
}

// lowering is the lowest start pressure [Pa gauge] at which an offending point
// was found to offend still; not proved: it does not offend at all.
type lowering struct {
	start  float64
	proved bool
	runs   int
}

// lower moves one offending point down its own curve: the lowest of a row of
// start pressures that still exceeds the threshold, then by halving the bracket
// between it and the next lower one, which does not. All at the accuracy of the
// search, which is that of check.
func (d *descent) lower(f search.Objective, b *worst.Box, u []float64) (out lowering) {
	exceeds := func(p float64) bool {
		u[b.Start] = p / b.Question.StartMax
		out.runs++
		return f.Value(u) > d.threshold
	}
	p := u[b.Start] * b.Question.StartMax
	high := p
	out.proved = exceeds(p)
	for range lowerSteps {
		p *= lowerFactor
		if exceeds(p) {
			high, out.proved = p, true
		}
	}
	if !out.proved {
		return out
	}
	_, out.start = halving.Between(lowerFactor*high, high, halvings, exceeds)
	return out
}

// energyOf asks a box's own question.
func energyOf(b *worst.Box) search.Objective { return b.Evaluator() }

// energyCrossing is the start pressure up to which every shot of the tolerance
// box, times the model factor, stays within an energy [J].
func energyCrossing(ctx context.Context, l *launcher.Launcher, allowed, top float64, seeds []worst.StartSeed) (crossing, error) {
	return firstCrossing(ctx, l, descent{q: worst.EnergyQuestion(l, top), threshold: allowed / worst.ModelFactor, stages: thoroughStages(),
		seeds: seeds, objective: energyOf}, top)
}

// ceilingCrossing is the same on the thermodynamic bound. The bound is smooth
// and rises with every volume and pressure: a short search finds its maximum.
func ceilingCrossing(ctx context.Context, l *launcher.Launcher, allowed, top float64) (crossing, error) {
	q := worst.EnergyQuestion(l, top)
	q.Name, q.Say = "what the air could do at most", nil
	return firstCrossing(ctx, l, descent{q: q, threshold: allowed, stages: shortStages(),
		objective: func(b *worst.Box) search.Objective { return &worst.CeilingAt{Evaluator: b.Evaluator()} }}, top)
}

// blockedCrossing is the start pressure up to which a barrel, plugged or behind a
// projectile that does not move, stays within a pressure [Pa gauge].
func blockedCrossing(ctx context.Context, l *launcher.Launcher, q worst.Question, rating, top float64) (crossing, error) {
	return firstCrossing(ctx, l, descent{q: q, threshold: rating, stages: shortStages(), objective: energyOf}, top)
}
