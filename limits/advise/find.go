package advise

import (
	"context"
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
}

// Step is a change with what stood there.
type Step struct {
	Change
	Old string // "" nothing
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
	Reaches bool         // a way comes within a tenth of the goal
	WhyNot  finding.Text // "" a way was found
	Instead finding.Text // what giving way would buy; "" nothing found
	Tried   int          // ways that were looked at
}

// mostWays is how many ways are given.
const mostWays = 3

// Find looks for ways. The error is the context's, an own limit that cannot be used, or that of a computation that
// failed its own checks.
func Find(ctx context.Context, in Input) (Answer, error) {
	out := Answer{Goal: in.Goal}
	all, err := attempts(in)
	if err != nil {
		return out, err
	}
	var good, bad []*attempt
	for i, a := range all {
		ok, err := a.run(progress.Looking(ctx, finding.Say("ways, %d of at most %d", i+1, len(all))))
		if err != nil {
			return out, err
		}
		if ok && a.name == asItIs && in.Goal.Aim == Lively {
			good = append(good, a) // nothing needs to change
			break
		}
		ok = ok && (a.name != asItIs || a.reaches(in.Goal))
		out.Tried++
		if !ok {
			bad = append(bad, a)
			continue
		}
		if good = append(good, a); len(good) == mostWays {
			break
		}
	}
	for i, a := range rank(in.Goal, good) {
		w, ok, err := a.inFull(progress.Looking(ctx, finding.Say("judging way %d of %d in full", i+1, len(good))), in)
		if err != nil {
			return out, err
		}
		if ok && !doubled(out.Ways, w) {
			out.Ways = append(out.Ways, w)
		}
		if len(out.Ways) == mostWays {
			break
		}
	}
	for _, w := range out.Ways {
		out.Reaches = out.Reaches || in.Goal.Aim == Lively || w.Missed < 0.1
	}
	if len(out.Ways) == 0 {
		out.WhyNot = whyNot(bad, good)
		out.Instead, err = instead(ctx, in)
	}
	return out, err
}

// doubled tells that a way changes the same as one before.
func doubled(ways []Way, w Way) bool {
	return slices.ContainsFunc(ways, func(o Way) bool {
		return slices.EqualFunc(o.Steps, w.Steps, func(a, b Step) bool { return a.Key == b.Key && a.To.Text() == b.To.Text() })
	})
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
func (a *attempt) reaches(g Goal) bool {
	return g.Aim == Lively || g.missed(a.last.figures.speed, a.sieve.wanted) < 0.1
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

// attempts lists what is tried, that with the fewest changes first.
func attempts(in Input) (out []*attempt, err error) {
	l := in.Design.Launcher()
	if fires(l) == nil {
		return nil, nil
	}
	layouts := []layout{asBuilt}
	if wholeTank(l) && electric(l) {
		layouts = []layout{withDose, asBuilt}
	}
	as, err := newAttempt(in, asBuilt, asItIs)
	if err != nil {
		return nil, err
	}
	if as != nil {
		out = append(out, as)
	}
	for _, turns := range []string{"pressure", "pressure and volume",
		"pressure, volume and travel", "pressure, volume, travel and valve", "all"} {
		for _, how := range layouts {
			a, err := newAttempt(in, how, turns)
			if err != nil {
				return nil, err
			}
			if a != nil {
				out = append(out, a)
			}
		}
	}
	return out, nil
}

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
		a.base = b
		return a, nil
	}
	lay(b, how)
	if err := b.apply(&a.laid); err != nil {
		return nil, nil // a layout that the reader refuses is no way
	}
	a.base = b
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
	a.sieve.wanted = in.Goal.speedFor(b.l)
	return a, nil
}

// inFull judges an attempt at full strength; where that finds more than the light one did it is
// tuned again, twice at most.
func (a *attempt) inFull(ctx context.Context, in Input) (Way, bool, error) {
	for range 3 {
		j, err := judge(ctx, a.design.Launcher(), in.Day)
		if err != nil {
			return Way{}, false, softened(err)
		}
		a.judged = j
		if j.good() {
			w, err := a.way(ctx, in)
			return w, err == nil, err
		}
		a.held = troubleWords(a)
		if !a.mend(&j) {
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
		s := Step{c, strings.Trim(in.Design.Stated(c.Key), `"`)}
		if c.Sort == Declaration {
			w.Declarations = append(w.Declarations, s)
			continue
		}
		w.Steps = append(w.Steps, s)
		without = append(without, c)
		if c.Part != "" && !slices.Contains(w.Parts, c.Part) && !(a.layout == withDose && strings.HasPrefix(c.Part, "vessel in")) {
			w.Parts = append(w.Parts, c.Part)
		}
	}
	for _, v := range j.report.Verdicts {
		if holds(v) && v.Margin != nil && *v.Margin >= 0 && v.Unit != finding.InCount && v.ID != finding.LadderOrder {
			w.Margin = min(w.Margin, *v.Margin)
		}
	}
	l := a.design.Launcher()
	r := j.nominal.Result
	w.Nominal = shotOf(l, r.FinalSpeed, r.Outcome == pneumatics.Left)
	w.Weakest = shotOf(l, j.weakest.Speed, j.weakest.Leaves)
	w.Missed = in.Goal.missed(r.FinalSpeed, a.sieve.wanted)
	d, err := in.Design.With(without)
	if err != nil {
		return w, err
	}
	w.Design, w.Template = d, d.Launcher().Template
	w.Written = j.report
	if len(w.Declarations) > 0 {
		weak, err := judge(search.WithStrength(ctx, light*search.Strength(ctx)), d.Launcher(), in.Day)
		if err != nil {
			return w, softened(err)
		}
		w.Written = weak.report
	}
	return w, nil
}

func shotOf(l *launcher.Launcher, speed float64, leaves bool) Shot {
	s := Shot{Leaves: leaves, Speed: speed}
	if leaves {
		s.Apex = apexOf(l, speed)
		s.Range = Goal{Aim: Range}.reached(l, speed)
	}
	return s
}
