package view

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// HardRow is one line of how hard it shoots.
type HardRow struct{ Name, Speed, Energy, Note string }

// hardOf tells how the energy that is judged comes about.
func hardOf(st *State) []HardRow {
	var e *worst.EnergyReport
	found := "worst found so far"
	switch {
	case st.Full != nil:
		e, found = st.Full.Report.Energy, "worst over the tolerances"
	case st.First != nil:
		e = st.First.Energy
	}
	var out []HardRow
	u := st.Units
	row := func(name string, f worst.ShotFigures, up func(quantity.Kind, float64) string) {
		r := HardRow{Name: name, Speed: "-", Energy: "-", Note: f.Outcome}
		if f.Outcome != "" {
			r.Note = show.Joined(", ", r.Note, "from "+u.Near(quantity.Gauge, f.StartGauge))
		} else {
			r.Note = "not known"
		}
		if f.Outcome == show.OutcomeLeft {
			r.Speed, r.Energy = up(quantity.Speed, f.FinalSpeed), up(quantity.Energy, f.FinalEnergy)
			r.Note = "from " + u.Near(quantity.Gauge, f.StartGauge)
		}
		out = append(out, r)
	}
	if q := st.Quick; q != nil && q.Shot != nil {
		row("nominal", worst.ShotFigures{Outcome: q.Shot.Outcome, FinalSpeed: q.Shot.FinalSpeed, FinalEnergy: q.Shot.FinalEnergy,
			StartGauge: q.Start}, u.Near)
	} else if q != nil {
		out = append(out, HardRow{Name: "nominal", Speed: "-", Energy: "-", Note: q.NoShot})
	}
	if st.Full != nil && st.Full.Budget != nil && st.Full.Budget.Weakest.Known {
		out = append(out, weakestRow(u, st.Full.Budget.Weakest))
	}
	if e == nil {
		return out
	}
	row(found, e.Worst, u.Worst)
	if st.Full == nil || e.Basis == "" {
		return out
	}
	if e.MovingAt > 0 {
		out = append(out, HardRow{Name: "with the vehicle's " + u.Near(quantity.Speed, e.MovingAt),
			Energy: u.Worst(quantity.Energy, e.WorstEnergy)})
	}
	out = append(out, HardRow{Name: "model factor x " + quantity.Number(e.Factor, 3), Energy: u.Worst(quantity.Energy, e.Model)})
	if one := e.DecidingEntered(); one != nil {
		out = append(out, HardRow{Name: "shot by " + one.Does(), Energy: u.Worst(quantity.Energy, one.Judged)})
	}
	judged := HardRow{Name: "judged", Energy: u.Worst(quantity.Energy, e.Judged),
		Note: "of " + u.Near(quantity.Energy, e.Limit) + ", " + quantity.Margin(1-e.Judged/e.Limit)}
	if v, _ := st.Full.Report.Verdict(finding.EnergyTotal); v.Status == finding.Unknown {
		judged.Note = "not judged: " + finding.EnergyTotal + " is unknown"
	}
	return append(out, judged)
}

// weakestRow is the shot of the launcher that does least.
func weakestRow(u quantity.System, w worst.Weakest) HardRow {
	r := HardRow(show.Weakest(u, w))
	if !w.Leaves {
		r.Note += "; the button below the verdicts looks for changes with which it does"
	}
	return r
}

// Verdicts are the verdicts, those that keep it from holding first.
type Verdicts struct {
	Causes  []Cause
	List    []Verdict
	First   bool // of a first look: there are no others yet
	Passes  []Verdict
	Waiting bool
	Trying  bool // what to do is being tried
}

// Cause is what to do first.
type Cause struct {
	What, Do string
	Key      string // that it names, where it has a field; "" none
	Part     string // the id of the field
	Behind   int
	Advice   []Advice
}

// Verdict is one verdict.
type Verdict struct {
	ID, Title, Word, Tone, Figures, Why, Condition, Do, Mind, Basis, Source string
	Advice                                                                  []Advice
}

// Advice is a change that was tried.
type Advice struct {
	Proof, Generation int
	Says              string
	verdict           string // the title of the one that it was tried for
	mends             bool
	key               string // what is changed
}

// fewest are the changes to offer for a cause: each once, those that mend something; without one the first that helps.
func fewest(all []Advice) (out []Advice) {
	const most = 3
	for _, a := range all {
		if a.mends && len(out) < most && !slices.ContainsFunc(out, func(o Advice) bool { return o.key == a.key }) {
			out = append(out, a)
		}
	}
	if len(out) == 0 && len(all) > 0 {
		return all[:1]
	}
	return out
}

func verdictsOf(st *State) Verdicts {
	f := st.Full
	if f == nil {
		out := Verdicts{Waiting: true}
		if st.First != nil {
			out.First = true
			for _, v := range append(append([]finding.Verdict{}, st.First.Fails...), st.First.Unknown...) {
				out.List = append(out.List, verdictOf(st, v))
			}
		}
		return out
	}
	out := Verdicts{Trying: !f.Tried && !f.Report.Holds}
	for _, c := range f.Report.DoFirst() {
		if out.Trying { // advice is tried before it is given
			break
		}
		one := Cause{What: st.text(c.What), Do: st.text(c.Do)}
		one.Key, one.Part = fieldIn(st, one.What)
		if len(c.Verdicts) > 1 && !c.Missing() {
			one.Behind = len(c.Verdicts)
		}
		for _, id := range c.Verdicts {
			one.Advice = append(one.Advice, adviceFor(st, id)...)
		}
		if len(c.Verdicts) > 1 { // it need not mend all that the cause is behind
			for i := range one.Advice {
				one.Advice[i].Says = one.Advice[i].verdict + ": " + one.Advice[i].Says
			}
		}
		one.Advice = fewest(one.Advice)
		out.Causes = append(out.Causes, one)
	}
	for _, v := range f.Report.Verdicts {
		if one := verdictOf(st, v); v.Status == finding.Pass || v.Status == finding.NotApplicable {
			out.Passes = append(out.Passes, one)
		} else {
			out.List = append(out.List, one)
		}
	}
	return out
}

// fieldIn finds the first word of a text that is a key with a field.
func fieldIn(st *State, text string) (key, part string) {
	for _, word := range strings.Fields(text) {
		word = strings.Trim(word, ",.;:()")
		if strings.Contains(word, ".") {
			if part = st.partOf(word); part != "" {
				return word, part
			}
		}
	}
	return "", ""
}

// verdictOf is one verdict in words.
func verdictOf(st *State, v finding.Verdict) Verdict {
	out := Verdict{ID: v.ID, Title: v.Title, Word: show.Word(v.Status), Tone: toneClass(show.ToneOf(v.Status)), Why: st.text(v.Why),
		Condition: show.Condition(st.Units, v), Do: st.text(v.Advice), Mind: st.text(v.Caveat), Basis: string(v.Basis), Source: v.Source}
	if show.Judged(v) {
		value, limit := show.Figures(st.Units, v)
		out.Figures = show.OfLimit(v, value, limit)
		if v.Margin != nil {
			out.Figures = show.Joined(", ", out.Figures, show.MarginOf(v))
		}
	}
	if st.Full != nil {
		out.Advice = adviceFor(st, v.ID)
	}
	if st.Full == nil || !st.Full.Tried {
		out.Do = ""
	}
	return out
}

// adviceFor are the changes that were tried for a verdict and help.
func adviceFor(st *State, id string) (out []Advice) {
	of, _ := st.Full.Report.Verdict(id)
	for i := range st.Full.Proofs {
		if p := &st.Full.Proofs[i]; p.Verdict == id && p.Helps() {
			key := ""
			for _, c := range p.Changes {
				key += c.Key + "=" + c.To.Text() + ";"
			}
			out = append(out, Advice{i, st.Generation, st.text(p.Say()), of.Title, p.Mends(), key})
		}
	}
	return out
}
