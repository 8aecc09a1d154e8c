package argument

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/hazard"
	"puffproof/limits/launcher"
)

// Kind is what an element of the tree is.
type Kind uint8

// The kinds of elements.
const (
	Goal     Kind = iota // a claim
	Strategy             // over what a claim is argued
	Solution             // what shows a claim
)

// State is what there is to show for an element and all below it, the best first.
type State uint8

// The states.
const (
	Shown       State = iota
	Kept              // shown while people keep a condition
	Undeveloped       // something that would show it is missing
	Refuted           // something speaks against it
)

// String is the word for a state.
func (s State) String() string {
	return [...]string{"shown", "shown while people keep a condition", "undeveloped", "refuted"}[s]
}

// Evidence is what a leaf rests on.
type Evidence uint8

// The kinds of evidence.
const (
	NoEvidence Evidence = iota
	Verdict             // of the program, by its figures
	Test                // that people did and wrote down
	Procedure           // that people confirmed they keep
)

// String is the word for a kind of evidence.
func (e Evidence) String() string { return [...]string{"", "verdict", "test", "procedure"}[e] }

// Element is one element of the tree. Each is supported by those below it.
type Element struct {
	Kind  Kind
	ID    string       // G1, S1, Sn1: unique in the tree
	Says  finding.Text // the claim, the strategy or what shows it
	State State

	Evidence Evidence // of a leaf
	Of       string   // the identifier of its verdict or item
	Group    string   // of a goal about a hazard: what the hazard comes from
	About    string   // likewise: the hazard in its own words

	Below []Element
}

// Leaf tells whether an element is a leaf: what shows a claim, or what is missing for that.
func (e *Element) Leaf() bool { return e.Evidence != NoEvidence || e.Kind == Goal && len(e.Below) == 0 }

// Of makes the tree of a launcher: over every hazard of its log by the measures against it, and over every question and
// item that no hazard names.
func Of(l *launcher.Launcher, verdicts []finding.Verdict, items []finding.Item) Element {
	b := &maker{verdicts: verdicts, items: items, used: map[string]bool{}}
	log := hazard.Log(l, verdicts, items)
	top := Element{Kind: Goal, ID: "G1"}
	byHazard := Element{Kind: Strategy, ID: "S1",
		Says: finding.Words("Over each hazard of the log, by the measures against it in the three steps of ISO 12100: design, guard, " +
			"information")}
	for _, g := range hazard.Groups() {
		for i := range log {
			if log[i].Group == g {
				byHazard.add(b.hazard(&log[i]))
			}
		}
	}
	top.add(byHazard)
	if rest := b.rest(); len(rest.Below) > 0 {
		top.add(rest)
	}
	top.Says = b.claim(top.State, len(log))
	return top
}

// add puts an element below; the worst state below is that of the whole.
func (e *Element) add(below Element) {
	e.Below = append(e.Below, below)
	e.State = max(e.State, below.State)
}

// maker numbers the elements.
type maker struct {
	verdicts         []finding.Verdict
	items            []finding.Item
	goals, solutions int
	used             map[string]bool // verdicts and items that stand in the tree
}

func (b *maker) goal(says finding.Text) Element {
	b.goals++
	return Element{Kind: Goal, ID: fmt.Sprintf("G%d", b.goals+1), Says: says}
}

func (b *maker) solution(says finding.Text, e Evidence, of string, state State) Element {
	b.solutions++
	b.used[of] = true
	return Element{Kind: Solution, ID: fmt.Sprintf("Sn%d", b.solutions), Says: says, Evidence: e, Of: of, State: state}
}

// hazard is the claim about one hazard: a goal for each measure, what shows it below.
func (b *maker) hazard(e *hazard.Entry) Element {
	g := b.goal(finding.Words("Every measure against this is in force: " + lower(e.What)))
	g.Group, g.About = e.Group.String(), e.What
	for i := range e.Held {
		m := &e.Held[i].Measure
		goal := b.goal(finding.Words(m.Step.String() + ": " + m.What))
		for _, id := range m.Verdicts {
			if v, ok := b.verdict(id); ok {
				goal.add(b.ofVerdict(&v))
				for _, it := range v.Items { // what people keep, on which the verdict rests
					if v.Status == finding.Conditional && !slices.Contains(m.Items, it) {
						b.addItem(&goal, it)
					}
				}
			}
		}
		for _, id := range m.Items {
			b.addItem(&goal, id)
		}
		if len(goal.Below) == 0 { // nothing of this launcher shows it
			goal.State = Undeveloped
		}
		g.add(goal)
	}
	return g
}

// rest is what no hazard names.
func (b *maker) rest() Element {
	s := Element{Kind: Strategy, ID: "S2", Says: finding.Words("Over each further question that was asked, and each further item of the " +
		"checklist")}
	for i := range b.verdicts {
		if v := &b.verdicts[i]; !b.used[v.ID] && v.Status != finding.NotApplicable {
			s.add(b.ofVerdict(v))
		}
	}
	for i := range b.items {
		if id := b.items[i].ID; !b.used[id] {
			b.addItem(&s, id)
		}
	}
	return s
}

func (b *maker) verdict(id string) (finding.Verdict, bool) {
	for _, v := range b.verdicts {
		if v.ID == id && v.Status != finding.NotApplicable {
			return v, true
		}
	}
	return finding.Verdict{}, false
}

// ofVerdict is a verdict as a leaf. What is not known shows nothing: it is a claim that stays undeveloped.
func (b *maker) ofVerdict(v *finding.Verdict) Element {
	title := finding.Words(v.Title)
	switch v.Status {
	case finding.Pass:
		return b.solution(title, Verdict, v.ID, Shown)
	case finding.Conditional:
		return b.solution(title, Verdict, v.ID, Kept)
	case finding.Fail:
		return b.solution(title, Verdict, v.ID, Refuted)
	}
	return b.open(title, Verdict, v.ID)
}

// open is a leaf that is missing.
func (b *maker) open(says finding.Text, e Evidence, of string) Element {
	g := b.goal(says)
	g.Evidence, g.Of, g.State = e, of, Undeveloped
	b.used[of] = true
	return g
}

// addItem puts an item of the checklist below, where this launcher has it: a test where its answer brings a figure, else a
// procedure.
func (b *maker) addItem(to *Element, id string) {
	i := finding.IndexOfItem(b.items, id)
	if i < 0 {
		return
	}
	it, kind := &b.items[i], Procedure
	if it.Figure != nil || it.May != nil || len(it.Parts) > 0 {
		kind = Test
	}
	says := it.Title.TrimEnd(". ")
	if d := it.Done; d != nil {
		when := d.Date
		if d.Said() {
			when += "; said, not recorded"
		}
		to.add(b.solution(says.Say(" (%s)", when), kind, id, Shown))
		return
	}
	to.add(b.open(says, kind, id))
}

// claim is the top claim, worded as what was shown.
func (b *maker) claim(state State, hazards int) finding.Text {
	how := "by calculation"
	for _, v := range b.verdicts {
		if v.ID == finding.EnergyTotal && v.Basis == finding.OnMeasured {
			how = "on measured shots"
		}
	}
	count := map[finding.Status]int{}
	for _, v := range b.verdicts {
		count[v.Status]++
	}
	done := 0
	for _, it := range b.items {
		if it.Done != nil {
			done++
		}
	}
	proof := fmt.Sprintf("%d of %d tests and procedures are on record", done, len(b.items))
	within := fmt.Sprintf("it was shown, %s, that %d of %d questions asked pass", how, count[finding.Pass],
		len(b.verdicts)-count[finding.NotApplicable])
	if n := count[finding.Conditional]; n > 0 {
		within += fmt.Sprintf(" and %d more hold only while people keep a condition", n)
	}
	switch state {
	case Shown, Kept:
		return finding.Say("Of this launcher, as the design file describes it, %s; %s; every measure against the %d hazards of the log is in "+
			"force.",
			within, proof, hazards)
	case Refuted:
		return finding.Say("Of this launcher it was shown that it does NOT do what is asked: %d of its questions have the wrong answer.",
			count[finding.Fail])
	}
	return finding.Say("Of this launcher, as the design file describes it, %s; %s. No more than that was shown: what is drawn as "+
		"undeveloped has nothing yet that shows it.", within, proof)
}

// lower begins a sentence in the middle of another; a word in capitals stays.
func lower(s string) string {
	if len(s) < 2 || strings.ToUpper(s[:2]) == s[:2] && s[1] != ' ' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
