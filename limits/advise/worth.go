package advise

import (
	"context"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
)

// What knowing more buys: of each declaration what is lost without it, of what is only assumed what comes of measuring it.

// told is how many names a sentence gives.
const told = 2

// without judges a way lightly without some of its declarations; why is what the reader of designs says against it.
func (w *Way) without(ctx context.Context, in Input, drop ...string) (j judged, why string, err error) {
	var list []Change
	for _, s := range append(slices.Clone(w.Steps), w.Declarations...) {
		if !slices.Contains(drop, s.Key) {
			list = append(list, s.Change)
		}
	}
	d, err := in.Design.With(list)
	if err != nil {
		return j, err.Error(), nil
	}
	j, err = judge(search.WithStrength(ctx, light*search.Strength(ctx)), d.Launcher(), in.Day)
	return j, "", err
}

// lean leaves out of an attempt what narrows a tolerance and is not needed: without it every verdict holds as well, and the weakest
// launcher leaves. What is left is judged in full; where all that seems not to be needed fails so, halves of it are tried.
func (a *attempt) lean(ctx context.Context, in Input, w Way) (Way, error) {
	spare, err := a.spare(ctx, in, w)
	if err != nil || len(spare) == 0 {
		return w, err
	}
	a.needs = map[string]finding.Text{}
	const most = 6 // each costs a whole judgement
	var gone []string
	queue := [][]string{spare}
	for range most {
		if len(queue) == 0 {
			break
		}
		set := queue[0]
		queue = queue[1:]
		way, ok, err := a.leaner(ctx, in, append(slices.Clone(gone), set...))
		switch {
		case err != nil:
			return w, err
		case ok:
			w, gone = way, append(gone, set...)
		case len(set) == 1:
			a.needs[set[0]] = a.missed
		default:
			queue = append(queue, set[:len(set)/2], set[len(set)/2:])
		}
	}
	return w, nil
}

// spare are the keys of what narrows a tolerance without which, all together, a way still holds when it is judged lightly.
func (a *attempt) spare(ctx context.Context, in Input, w Way) (drop []string, err error) {
	for _, s := range w.Declarations {
		if !slices.Contains(a.narrows, s.Key) {
			continue
		}
		try := append(slices.Clone(drop), s.Key)
		switch j, why, err := w.without(ctx, in, try...); {
		case Softened(err) != nil:
			return nil, err
		case err == nil && why == "" && j.good():
			drop = try
		}
	}
	return drop, nil
}

// leaner is the way without some of its declarations, judged in full; false where it does not hold.
func (a *attempt) leaner(ctx context.Context, in Input, drop []string) (Way, bool, error) {
	lean := *a
	lean.found = slices.DeleteFunc(slices.Clone(a.found), func(c Change) bool { return slices.Contains(drop, c.Key) })
	d, err := in.Design.With(lean.found)
	if err != nil {
		return Way{}, false, nil
	}
	lean.design = d
	if lean.judged, err = judge(ctx, d.Launcher(), in.Day); err != nil || !lean.judged.good() {
		if err == nil && len(drop) > 0 {
			a.missed = lost(a.judged.report.Verdicts, &lean.judged)
		}
		return Way{}, false, Softened(err)
	}
	w, err := lean.way(ctx, in)
	return w, err == nil, err
}

// priced says of each declaration of a way, found by an attempt, what is lost without it.
func (w *Way) priced(ctx context.Context, in Input, by *attempt) error {
	for i := range w.Declarations {
		s := &w.Declarations[i]
		if s.Buys = by.needs[s.Key]; len(s.Buys) > 0 || s.Begun { // without one of these nothing holds
			continue
		}
		j, why, err := w.without(ctx, in, s.Key)
		switch {
		case Softened(err) != nil:
			return err
		case err != nil:
			s.Buys = finding.Words("without it no result: " + err.Error())
		case why != "":
			s.Buys = finding.Words("without it the file is refused")
		default:
			s.Buys = lost(w.Report.Verdicts, &j)
		}
	}
	return nil
}

// lost says which verdicts hold in a report and do no more when a launcher is judged again.
func lost(before []finding.Verdict, after *judged) finding.Text {
	held := map[string]bool{}
	for _, v := range before {
		held[v.ID] = v.Status != finding.Fail && v.Status != finding.Unknown
	}
	var names []finding.Text
	for _, v := range after.troubles() {
		if !held[v.ID] {
			continue
		}
		said := finding.Say("%s unknown", v.Title)
		if v.Status == finding.Fail {
			said = finding.Say("%s fails", v.Title)
			switch {
			case v.Unit != finding.InJoule || v.Value == nil || v.Limit == nil:
			case *v.Limit == 0:
				said = said.Say(" (%s, none allowed)", finding.WorstJoule(*v.Value))
			default:
				said = said.Say(" (%s of %s)", finding.WorstJoule(*v.Value), finding.Joule(*v.Limit))
			}
		}
		names = append(names, said)
	}
	switch {
	case len(names) > told:
		return finding.Say("without it %s, and %d more", finding.Join(names[:told], ", "), len(names)-told)
	case len(names) > 0:
		return finding.Say("without it %s", finding.Join(names, ", "))
	case !after.good():
		return finding.Words("without it the weakest launcher of the tolerances does not leave")
	}
	return finding.Say("without it every verdict holds too, with %s judged", finding.WorstJoule(after.report.Energy.Judged))
}

// worth says what measuring would buy beside the ways: of the figures of a template and of what is declared what their tolerances cost
// of the judged energy; of what is only assumed what would fly with it declared closer.
func worth(ctx context.Context, in Input, best foundWay) (out []finding.Text, err error) {
	w := &best.way
	if b := w.Report.Budget; b != nil {
		for _, s := range b.Shares {
			template := slices.Contains(w.Template, s.Key)
			declared := slices.ContainsFunc(w.Declarations, func(d Step) bool { return d.Key == s.Key })
			if (template || declared) && s.Energy > 0 && !strings.HasPrefix(s.Key, "ambient.") && len(out) < 2*told {
				out = append(out, finding.Say("%s known exactly: up to %s less of the %s judged", s.Key, finding.Joule(s.Energy),
					finding.WorstJoule(w.Judged)))
			}
		}
	}
	if in.narrow || !best.by.wide || in.Goal.Aim != Lively && w.Missed < near {
		return out, nil
	}
	in.narrow = true
	layout, turns := best.by.layout, best.by.name
	a, err := newAttempt(in, layout, turns)
	if a == nil || err != nil {
		return out, nil
	}
	ok, err := a.run(ctx)
	if err != nil || !ok || !(a.last.figures.speed > 1.05*w.Nominal.Speed) {
		return out, Softened(err)
	}
	var lines []string
	for _, c := range a.laid {
		if slices.Contains(a.narrows, c.Key) {
			lines = append(lines, c.Key+" = "+c.To.Line())
		}
	}
	return append(out, finding.Say("%s: then about %s instead of %s", strings.Join(lines, "; "), finding.Speed(a.last.figures.speed),
		finding.Speed(w.Nominal.Speed))), nil
}

// supposed is a design of which something is supposed that no change of a key says.
type supposed struct {
	Design
	that func(*launcher.Launcher)
	l    *launcher.Launcher
}

func suppose(d Design, that func(*launcher.Launcher)) supposed {
	l := d.Launcher().Clone()
	that(l)
	return supposed{d, that, l}
}

// Launcher is what the design says, and what is supposed.
func (s supposed) Launcher() *launcher.Launcher { return s.l }

// With is the design with changes, the same being supposed of it.
func (s supposed) With(list []Change) (Design, error) {
	d, err := s.Design.With(list)
	if err != nil {
		return nil, err
	}
	return suppose(d, s.that), nil
}

// closely is how much closer to its nominal value a figure is once it was measured [-].
const closely = 0.25

// knownCloser supposes that some figures were measured.
func knownCloser(keys []string) func(*launcher.Launcher) {
	return func(l *launcher.Launcher) {
		bands := bandsOf(l)
		for _, k := range keys {
			if b := bands[k]; b != nil {
				b.Low, b.High = b.Nominal-closely*(b.Nominal-b.Low), b.Nominal+closely*(b.High-b.Nominal)
			}
		}
	}
}

// atTheBarrel supposes that the firing valve sits at the barrel, and no hose between.
func atTheBarrel(l *launcher.Launcher) {
	if p := fires(l); p != nil {
		p.Hose = nil
	}
}
