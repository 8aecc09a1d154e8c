package advise

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sort"
	"strings"

	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Input is what is asked.
type Input struct {
	Design Design
	Goal   Goal
	Keep   []string // tables, parts or keys that the builder will not change
	Day    string   // ISO date
	Sketch bool     // the design was begun from nothing: what stands in it was nobody's

	// SoFar is given what is found whenever that is more than before; nil: nobody asks. A search that is stopped gives nothing else.
	SoFar func(Answer)

	narrow bool // what only narrows the tolerances may be declared as well
}

// Step is a change with what stood there.
type Step struct {
	Change
	Old  string       // "" nothing
	Buys finding.Text // of a declaration what is lost without it; "" not looked at
}

// Way is a design that holds, apart from what is to be declared, and flies.
type Way struct {
	Name         string
	Steps        []Step
	Declarations []Step
	Design       Design // with the changes
	Declared     Design // with the declarations too
	Report       limits.Report
	Written      limits.Report // of the design without the declarations
	Nominal      Shot
	Weakest      Shot
	Judged       float64 // energy [J]
	Limit        float64 // [J]
	Margin       float64 // the least of all verdicts that hold [-]
	Closest      string  // title of the verdict that has it
	Parts        []string
	Template     []string // keys whose figures are those of a template: the way is one for these
	Missed       float64  // how far from the goal, as a ratio's logarithm
}

// Shot is what flies.
type Shot struct {
	Leaves bool
	Speed  float64 // final [m/s]
	Apex   float64 // above the muzzle [m]
	Range  float64 // [m]
}

// Answer is what was found.
type Answer struct {
	Ways    []Way
	Goal    Goal
	Reaches bool           // a way comes within a tenth of the goal
	Short   finding.Text   // why no way comes nearer the goal; "" one reaches it, or none holds
	WhyNot  finding.Text   // "" a way was found
	Instead finding.Text   // what giving way would buy; "" nothing found
	Worth   []finding.Text // what measuring would buy beside the ways
	Tried   int            // ways that were looked at
	Stopped finding.Text   // how far a search came that is not at its end; "" it is
}

// mostWays is how many ways are given; one where shots take long.
const mostWays = 3

// ways is how many ways are given of a launcher. With a hose behind the barrel a way takes the time of some ten others.
func ways(l *launcher.Launcher) int {
	if p := fires(l); p != nil && p.Hose != nil {
		return 1
	}
	return mostWays
}

// Find looks for ways, each judged in full as it is found: first for such as take the widest of what is only assumed, and only where
// none of these comes near the goal for one that rests on declarations. A sketch, of which nothing is built yet, begins with these. The
// error is the context's, an own limit that cannot be used, or that of a computation that failed its own checks.
func Find(ctx context.Context, in Input) (Answer, error) {
	if why := wiringForbids(in.Design.Launcher()); len(why) > 0 {
		return Answer{Goal: in.Goal, WhyNot: why}, nil
	}
	if in.Sketch {
		in.Design = sketched{in.Design}
	}
	f := finder{in: in, most: ways(in.Design.Launcher())}
	if in.Sketch {
		f.declaring()
	}
	refused, err := f.look(ctx)
	if err == nil && !f.in.narrow && !f.enough() && f.wide {
		g := finder{in: in, out: Answer{Tried: f.out.Tried}, before: f.found}
		g.declaring()
		var no finding.Text
		if no, err = g.look(ctx); len(f.found) == 0 || g.missed() < f.missed()-near {
			f, refused = g, no
		}
	}
	f.out.Goal = in.Goal
	if err != nil {
		return f.out, err
	}
	f.sort()
	f.tell(finding.Words("what the declarations and measuring buy was not looked at"))
	if len(f.found) > 0 && !f.out.Reaches {
		f.out.Short = f.short(ctx, refused)
	}
	if len(f.out.Ways) == 0 {
		f.out.WhyNot = whyNot(ctx, f.bad, refused)
		f.out.Instead, err = instead(ctx, f.in, f.bad)
		return f.out, err
	}
	first := &f.out.Ways[0]
	best := f.found[slices.IndexFunc(f.found, func(w foundWay) bool { return doubled(w.way, *first) })]
	if err = first.priced(progress.Looking(ctx, finding.Words("what each declaration buys")), f.in, best.by); err == nil {
		f.out.Worth, err = worth(progress.Looking(ctx, finding.Words("what measuring would buy")), f.in, best)
	}
	for i := range f.out.Ways {
		w := &f.out.Ways[i]
		w.Design, w.Declared = written(w.Design), written(w.Declared)
	}
	return f.out, err
}

// declaring lets a search declare what narrows the tolerances. It gives one way: what is not needed of these takes long to find out.
func (f *finder) declaring() { f.in.narrow, f.most = true, 1 }

// enough tells that ways were found that need no declaration to be what is wanted.
func (f *finder) enough() bool { return len(f.found) > 0 && (f.in.Goal.Aim == Lively || f.out.Reaches) }

// missed is how far the nearest way is from the goal; without one infinitely.
func (f *finder) missed() float64 {
	least := math.Inf(1)
	for _, w := range f.found {
		least = math.Min(least, w.way.Missed)
	}
	return least
}

// look tries the attempts, and where none comes near the goal takes those that only hold. It gives why the reader of designs refuses
// what else would be tried.
func (f *finder) look(ctx context.Context) (refused finding.Text, err error) {
	all, refused, err := attempts(f.in)
	if err != nil {
		return nil, err
	}
	f.wide = slices.ContainsFunc(all, func(a *attempt) bool { return a.wide })
	f.soFar(0, len(all))
	if no, err := hopeless(ctx, all); no != nil || err != nil {
		f.bad = no
		return refused, err
	}
	for i, a := range all {
		if err := f.try(progress.Looking(ctx, finding.Say("ways, %d of at most %d", i+1, len(all))), a); err != nil {
			return nil, err
		}
		f.soFar(i+1, len(all))
		if f.unchanged || len(f.found) == f.most {
			break
		}
	}
	for _, a := range f.tight {
		if len(f.found) > 0 {
			break
		}
		if err := f.reached(ctx, a); err != nil {
			return nil, err
		}
	}
	if len(f.found) == 0 {
		f.out.Reaches = false
		err = f.nearest(ctx)
	}
	return refused, err
}

// nearer is by how much nearer the goal than the design as it stands a way has to be to be one, as a ratio's logarithm (own rule of this
// project): nobody builds otherwise for less.
const nearer = 0.02

// nearest takes the attempts that only hold, the nearest to the goal first. Where the design as it stands holds, what is no nearer is
// no way; where nothing is nearer, it is what is given. A sketch stands nowhere yet: it is an attempt like the others.
func (f *finder) nearest(ctx context.Context) error {
	goal, bar := f.in.Goal, math.Inf(1)
	if len(f.as) > 0 {
		bar = f.as[0].way.Missed
		f.stands = finding.Say("as it is it has %s", goal.figure(&f.as[0].way))
	}
	slices.SortStableFunc(rank(goal, f.far), func(a, b *attempt) int { return cmp.Compare(a.short(goal), b.short(goal)) })
	for _, a := range f.far {
		if len(f.found) == f.most || a.short(goal) > bar-nearer {
			break
		}
		if err := f.full(ctx, a); err != nil {
			return err
		}
	}
	f.found = slices.DeleteFunc(f.found, func(w foundWay) bool { return w.way.Missed > bar-nearer })
	if len(f.found) == 0 {
		f.found = f.as
	}
	return nil
}

// standing judges the design as it stands in full, where it seems to hold and is not near the goal: whoever looks for more has it in hand
// from then on. It is no end of the search.
func (f *finder) standing(ctx context.Context, a *attempt) error {
	found := f.found
	f.found = nil
	err := f.full(ctx, a)
	f.as, f.found, f.unchanged = f.found, found, false
	return err
}

// hopeless looks once, where looking is dear or the tip is not proved soft, whether with all turned that may be turned the weakest
// launcher comes out within the limits; else with less turned it does not either. It gives the attempts where none comes out; nil: one
// does.
func hopeless(ctx context.Context, all []*attempt) ([]*attempt, error) {
	var most []*attempt
	for _, a := range all {
		if a.name == turning[len(turning)-1] {
			most = append(most, a)
		}
	}
	if len(most) == 0 || !most[0].unproved() && ways(most[0].base.l) > 1 {
		return nil, nil
	}
	for i, a := range most {
		ctx := progress.Looking(ctx, finding.Say("whether it can leave at all, %d of %d", i+1, len(most)))
		if err := a.round(ctx); err != nil || a.last.figures.weakest >= 0 {
			return nil, err
		}
	}
	return most, nil
}

// unproved tells that an attempt is held to what a hard tip may have, and that a press test could show otherwise.
func (a *attempt) unproved() bool {
	return slices.Contains(a.narrows, "projectile.tip_proof") && launcher.TipOf(a.base.l.Projectile) != launcher.ResilientTip
}

// finder is a search under way.
type finder struct {
	in        Input
	most      int
	out       Answer
	wide      bool         // some of what is assumed could be declared narrower
	unchanged bool         // the design holds as it is
	stands    finding.Text // what it then has of the goal, where it does not reach it
	bled      bool         // a way was in need of a hole in the barrel: others will be
	jams      bool         // a stuck projectile stood in the way of one
	snaps     bool         // a firing valve that opens faster than stated did
	found     []foundWay
	as        []foundWay // the design as it stands, where it holds and does not reach the goal
	before    []foundWay // that an earlier search found, and this one is to better
	far       []*attempt // seem to hold, and do not come near the goal
	tight     []*attempt // seem to hold and to reach it, with less room than was aimed at
	bad       []*attempt
}

// foundWay is a way and how it was found.
type foundWay struct {
	way Way
	by  *attempt
}

// try looks for one way.
func (f *finder) try(ctx context.Context, a *attempt) error {
	f.out.Tried++
	if f.bled && a.name != asItIs && a.bleedHole() == nil {
		a.bleed()
	}
	a.sieve.jams, a.sieve.snaps = f.jams, f.snaps
	ok, err := a.run(ctx)
	f.bled, f.jams, f.snaps = f.bled || a.bled, a.sieve.jams, a.sieve.snaps
	switch {
	case err != nil:
		return err
	case !ok:
		f.bad = append(f.bad, a)
		return nil
	case !a.reaches(f.in.Goal) && a.name == asItIs && !f.in.Sketch:
		return f.standing(ctx, a)
	case !a.reaches(f.in.Goal):
		f.far = append(f.far, a)
		return nil
	}
	if a.name != asItIs && !a.last.figures.eased() { // most of these do not hold in full, and what creeps takes long to be judged
		f.tight = append(f.tight, a)
		return nil
	}
	return f.reached(ctx, a)
}

// reached judges in full what comes near the goal.
func (f *finder) reached(ctx context.Context, a *attempt) error {
	f.out.Reaches = true
	return f.full(ctx, a)
}

// full judges a way in full, and keeps it where it holds.
func (f *finder) full(ctx context.Context, a *attempt) error {
	w, ok, err := a.inFull(progress.Looking(ctx, finding.Words("judging a way in full")), f.in)
	if err == nil && ok && f.in.narrow {
		w, err = a.lean(ctx, f.in, w)
	}
	if err != nil {
		return err
	}
	switch {
	case !ok:
		f.bad = append(f.bad, a)
	case !slices.ContainsFunc(f.found, func(o foundWay) bool { return doubled(o.way, w) }):
		f.found = append(f.found, foundWay{w, a})
	}
	f.unchanged = f.unchanged || ok && a.name == asItIs
	return nil
}

// tell gives who asks what is found so far, and how far that is.
func (f *finder) tell(how finding.Text) {
	if f.in.SoFar == nil {
		return
	}
	a := f.out
	a.Ways, a.Stopped = slices.Clone(a.Ways), how
	for i := range a.Ways {
		w := &a.Ways[i]
		w.Design, w.Declared = written(w.Design), written(w.Declared)
	}
	f.in.SoFar(a)
}

// soFar tells of a search that is at one of its attempts: the ways that hold, or what holds back the nearest that was tried.
func (f *finder) soFar(at, of int) {
	part := finder{in: f.in, found: slices.Clone(f.found), out: f.out}
	for _, had := range [][]foundWay{f.as, f.before} {
		if len(part.found) == 0 {
			part.found = slices.Clone(had)
		}
	}
	part.out.Ways, part.out.Goal = nil, f.in.Goal
	part.sort()
	how := finding.Say("stopped after %d of at most %d kinds of change", at, of)
	switch {
	case len(part.found) > 0:
	case at == 0:
		how = finding.Words("stopped before anything was judged to its end: whether it holds as it is, check tells")
	default:
		how = how.Say("; none of them holds so far")
		if _, nearest := nearestOf(f.bad); nearest != nil {
			how = how.Say(". Of the nearest ").And(nearest.backwards())
		}
	}
	part.tell(how)
}

// backwards is what holds an attempt back, in a few words.
func (a *attempt) backwards() finding.Text {
	switch f, stands := a.last.figures, troubleWords(a); {
	case len(stands) > 0:
		return finding.Words("there fails ").And(stands)
	case !(f.speed > 0):
		return finding.Words("nothing leaves the barrel within the limits")
	case f.hardest > 1:
		return finding.Say("the hardest launcher has %.2f times the energy allowed", f.hardest)
	case f.weakest < worst.Creep:
		return finding.Words("the weakest launcher does not leave")
	}
	return finding.Words("the burst is too loud for the nearest ear")
}

// sort puts the ways into the answer, that with the fewest parts changed first.
// Where none reaches the goal the nearest is first.
func (f *finder) sort() {
	for _, a := range rank(f.in.Goal, by(f.found)) {
		for i := range f.found {
			if w := &f.found[i]; w.by == a {
				f.out.Ways = append(f.out.Ways, w.way)
			}
		}
	}
	f.out.Reaches = slices.ContainsFunc(f.out.Ways, func(w Way) bool { return w.Missed < near })
	if !f.out.Reaches {
		slices.SortStableFunc(f.out.Ways, func(a, b Way) int { return cmp.Compare(a.Missed, b.Missed) })
	}
}

func by(list []foundWay) (out []*attempt) {
	for _, w := range list {
		out = append(out, w.by)
	}
	return out
}

// near is how near a goal counts as reached, as a ratio's logarithm: within a tenth.
const near = 0.1

// doubled tells that two ways change the same.
func doubled(a, b Way) bool {
	return slices.EqualFunc(a.Steps, b.Steps, func(a, b Step) bool { return a.Key == b.Key && a.To.Text() == b.To.Text() })
}

// rank orders attempts: fewest parts changed, then nearest the goal.
func rank(g Goal, list []*attempt) []*attempt {
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		ga, gb := a.reaches(g), b.reaches(g)
		if ga != gb {
			return ga
		}
		if pa, pb := partsChanged(a.found), partsChanged(b.found); pa != pb {
			return pa < pb
		}
		return a.last.loss < b.last.loss
	})
	return list
}

// reaches tells that an attempt comes near the goal.
func (a *attempt) reaches(g Goal) bool { return a.short(g) < near }

// short is how far an attempt is from the goal as it was screened, as a ratio's logarithm; infinite where nothing was.
func (a *attempt) short(g Goal) float64 {
	if a.last.l == nil {
		return math.Inf(1)
	}
	return g.short(a.last.l, a.last.figures.speed)
}

// partsChanged counts the tables that changes touch.
func partsChanged(list []Change) int {
	seen := map[string]bool{}
	for _, c := range list {
		if c.Sort != Declaration && c.Sort != Wish {
			seen[c.Key[:max(strings.LastIndexByte(c.Key, '.'), 0)]] = true
		}
	}
	return len(seen)
}

// attempts lists what is tried, that with the fewest changes first, and why the reader of designs refuses what else would be.
func attempts(in Input) (out []*attempt, refused finding.Text, err error) {
	l := in.Design.Launcher()
	if fires(l) == nil {
		return nil, finding.Words("no path leads into the barrel"), nil
	}
	first, then := layouts(l)
	as, err := newAttempt(in, asBuilt, asItIs)
	if err != nil {
		return nil, nil, err
	}
	if as != nil {
		out = append(out, as)
	}
	for _, group := range [][]layout{first, then} {
		for _, turns := range turning {
			if ways(l) == 1 && !slices.Contains(dearTurning, turns) {
				continue
			}
			for _, how := range group {
				a, err := newAttempt(in, how, turns)
				switch no := err.(type) {
				case *refusal:
					said, _, _ := strings.Cut(no.Error(), "\n")
					refused = finding.Words(said)
					continue
				case nil:
				default:
					return nil, nil, err
				}
				if a != nil {
					out = append(out, a)
				}
			}
		}
	}
	return out, refused, nil
}

// layouts are those that are tried first, and those where all else fails.
func layouts(l *launcher.Launcher) (first, then []layout) {
	switch {
	case deadHeadStops(l):
		return []layout{weakly}, nil
	case !wholeTank(l) || !electric(l):
		return []layout{asBuilt}, nil
	case volumeNamed(l, fires(l).From).Volume.Nominal > largeDose:
		return []layout{withDose}, []layout{asBuilt}
	}
	return []layout{asBuilt, withDose}, nil
}

// turning are the dials that are turned, by the words of their names, the fewest first.
var turning = [...]string{"pressure", "pressure and volume", "pressure, volume and travel", "pressure, volume, travel and valve", "all"}

// dearTurning are those of them that are turned where shots take long.
var dearTurning = []string{"pressure", "pressure, volume and travel", "all"}

// largeDose is the volume [m3] above which one that the firing valve opens is rather a tank than the air of one shot (own rule of
// this project).
const largeDose = 0.6e-3

// refusal is why the reader of designs would not take a layout.
type refusal struct{ error }

// asItIs is the attempt that changes nothing: the declarations apart.
const asItIs = "as it is"

// newAttempt lays a layout and takes the dials by the words of their names; nil where one of
// them is not there to be turned.
func newAttempt(in Input, how layout, turns string) (*attempt, error) {
	a := &attempt{name: turns, day: in.Day, sieve: sieve{goal: in.Goal, factor: worst.ModelFactor, keep: in.Keep, day: in.Day}}
	b := newDraft(in.Design, in.Keep)
	declarations(b)
	if err := b.apply(&a.laid); err != nil {
		return nil, err
	}
	if turns == asItIs {
		return a, a.narrowed(b, in)
	}
	lay(b, how)
	if err := b.apply(&a.laid); err != nil {
		return nil, &refusal{err}
	}
	if err := a.narrowed(b, in); err != nil {
		return nil, err
	}
	add := func(d *dial) bool {
		if d == nil || d.at(b.l) != d.at(b.l) || slices.ContainsFunc(d.keys, func(k string) bool { return keeps(in.Keep, k) }) {
			return false
		}
		a.dials = append(a.dials, d)
		return true
	}
	full := turns == "all"
	a.layout = how
	add(pressureDial(b.l))
	if full || strings.Contains(turns, "volume") {
		if d := volumeDial(b.l); !add(d) && turns == "pressure and volume" {
			return nil, nil // the same as before
		}
	} else if how == withDose {
		return nil, nil // its volume is open
	}
	if full || strings.Contains(turns, "travel") {
		if !add(travelDial(b.l)) && !full && !strings.Contains(turns, "valve") {
			return nil, nil
		}
	}
	if full || strings.Contains(turns, "valve") {
		if !add(valveDial(b.l)) && !full {
			return nil, nil
		}
	}
	if full && !add(massDial(b.l)) {
		return nil, nil
	}
	if len(a.dials) == 0 {
		return nil, nil
	}
	return a, nil
}

// narrowed takes a draft as what the attempt begins from, with what narrows the tolerances where that may be declared.
func (a *attempt) narrowed(b *draft, in Input) error {
	a.base = b
	narrower(b)
	a.wide = len(b.list) > 0
	for _, c := range b.list {
		if !slices.Contains(in.Design.Launcher().Template, c.Key) { // which is declared in any case
			a.narrows = append(a.narrows, c.Key)
		}
	}
	if !in.narrow {
		b.list = nil
	}
	return b.apply(&a.laid)
}

// inFull judges an attempt at full strength; where that finds more than the light one did it is
// tuned again, some times.
func (a *attempt) inFull(ctx context.Context, in Input) (Way, bool, error) {
	for range 5 {
		j, err := judge(ctx, a.design.Launcher(), in.Day)
		if err != nil {
			return Way{}, false, Softened(err)
		}
		a.judged = j
		if j.good() {
			w, err := a.way(ctx, in)
			return w, err == nil, err
		}
		a.held = troubleWords(a)
		if a.name == asItIs || !a.mend(&j) {
			return Way{}, false, nil
		}
		if ok, err := a.run(ctx); err != nil || !ok {
			return Way{}, false, err
		}
	}
	return Way{}, false, nil
}

// way writes an attempt down.
func (a *attempt) way(ctx context.Context, in Input) (Way, error) {
	j := &a.judged
	w := Way{Name: a.name, Declared: a.design, Report: j.report, Judged: j.report.Energy.Judged, Limit: j.report.Energy.Limit, Margin: 1}
	var without []Change
	for _, c := range a.found {
		s := Step{Change: c, Old: strings.Trim(in.Design.Stated(c.Key), `"`)}
		if c.Sort == Declaration {
			w.Declarations = append(w.Declarations, s)
			continue
		}
		if s.Old == c.To.Text() {
			continue // what would be bought anew is as good as what is there
		}
		if in.Sketch {
			s.Change, s.Old = unshown(c), ""
		}
		w.Steps = append(w.Steps, s)
		without = append(without, c)
		if c.Part != "" && !slices.Contains(w.Parts, c.Part) {
			w.Parts = append(w.Parts, c.Part)
		}
	}
	slices.SortStableFunc(w.Steps, func(a, b Step) int { return cmp.Compare(aside(a.Key), aside(b.Key)) })
	all := slices.Clone(w.Parts)
	w.Parts = slices.DeleteFunc(w.Parts, func(p string) bool { // "firing valve" is on the list as "firing valve, direct-acting"
		return slices.ContainsFunc(all, func(o string) bool { return strings.HasPrefix(o, p+",") })
	})
	for _, v := range j.report.Verdicts {
		set := v.ID == finding.LadderOrder || v.ID == finding.SwitchBand // as near as they can be
		if holds(v) && v.Margin != nil && *v.Margin >= 0 && v.Unit != finding.InCount && !set {
			if *v.Margin < w.Margin {
				w.Margin, w.Closest = *v.Margin, v.Title
			}
		}
	}
	l := a.design.Launcher()
	r := j.nominal.Result
	w.Nominal = shotOf(l, r.FinalSpeed, r.Outcome == pneumatics.Left)
	w.Weakest = shotOf(l, j.weakest.Speed, j.weakest.Leaves)
	w.Missed = in.Goal.short(l, r.FinalSpeed)
	d, err := in.Design.With(without)
	if err != nil {
		return w, err
	}
	w.Design, w.Template = d, d.Launcher().Template
	w.Written = j.report
	if len(w.Declarations) > 0 {
		weak, err := judge(search.WithStrength(ctx, light*search.Strength(ctx)), d.Launcher(), in.Day)
		if err != nil {
			return w, Softened(err)
		}
		w.Written = weak.report
	}
	return w, nil
}

// aside puts where outlets blow behind all else: the reason of a part's first change is told for the whole part.
func aside(key string) int {
	if strings.HasSuffix(key, ".points") {
		return 1
	}
	return 0
}

func shotOf(l *launcher.Launcher, speed float64, leaves bool) Shot {
	s := Shot{Leaves: leaves, Speed: speed}
	if leaves {
		s.Apex = apexOf(l, speed)
		s.Range = Goal{Aim: Range}.reached(l, speed)
	}
	return s
}
