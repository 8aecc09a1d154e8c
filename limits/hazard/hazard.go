package hazard

import (
	"slices"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Severity is how bad the harm is. The zero value is the least.
type Severity uint8

// The severities.
const (
	Slight  Severity = iota // first aid
	Serious                 // a doctor
	Lasting                 // an eye, an ear, a finger
	Deadly
)

// String is the word for a severity.
func (s Severity) String() string { return [...]string{"slight", "serious", "lasting", "deadly"}[s] }

// Likelihood is how likely the harm is in a season of use.
type Likelihood uint8

// The likelihoods.
const (
	Remote Likelihood = iota
	Unlikely
	Possible
	Likely
)

// String is the word for a likelihood.
func (l Likelihood) String() string {
	return [...]string{"remote", "unlikely", "possible", "likely"}[l]
}

// Risk is a severity with its likelihood.
type Risk struct {
	Severity   Severity
	Likelihood Likelihood
}

// Step is one of the three steps of ISO 12100:2010, in their order: a later one never makes an earlier one needless.
type Step uint8

// The steps.
const (
	Design Step = iota
	Guard
	Information
)

// String is the word for a step.
func (s Step) String() string { return [...]string{"design", "guard", "information"}[s] }

// Measure is one thing that is done about a hazard.
type Measure struct {
	Step     Step
	What     string
	Verdicts []string // that have to hold for it; one that does not apply says nothing
	Items    []string // of the checklist that show it; one that this design does not have says nothing
}

// Group is what a hazard comes from.
type Group uint8

// The groups.
const (
	OfTheShot Group = iota
	OfThePressure
	OfPeople
	OfThings
)

// Groups lists the groups in their order.
func Groups() []Group { return []Group{OfTheShot, OfThePressure, OfPeople, OfThings} }

// String says what a group of hazards comes from.
func (g Group) String() string {
	return [...]string{"what flies", "the air that is stored", "who is near", "what is not air"}[g]
}

// Hazard is one row of the log.
type Hazard struct {
	ID       string
	Group    Group
	What     string
	Who      string
	Harm     string
	Before   Risk
	Least    Severity // what is left of the severity once every design measure is in force
	Measures []Measure
	Remains  string // what stays, whatever is done

	where func(*launcher.Launcher) bool // nil: every launcher has it
}

// State is how far a measure has got.
type State uint8

// The states of a measure.
const (
	InForce State = iota
	Unproved
	Failing
)

// String is the word for a state.
func (s State) String() string { return [...]string{"in force", "not proved", "failing"}[s] }

// Held is a measure with what there is to show for it.
type Held struct {
	Measure
	State      State
	Shown      []string // verdicts that hold and items that are answered
	Conditions []string // verdicts that hold while people keep a condition
	Open       []string // items that are not answered, and verdicts that are not known
	Fails      []string // verdicts that fail
}

// Entry is a hazard of one launcher, with what is left of it.
type Entry struct {
	Hazard
	Held  []Held
	After Risk
}

// Log is the hazard log of a launcher from its verdicts and its checklist, the gravest first before anything is done.
func Log(l *launcher.Launcher, verdicts []finding.Verdict, items []finding.Item) []Entry {
	var out []Entry
	for _, h := range all() {
		if h.where != nil && !h.where(l) {
			continue
		}
		out = append(out, entryOf(h, verdicts, items))
	}
	slices.SortStableFunc(out, func(a, b Entry) int { return rank(b.Before) - rank(a.Before) })
	return out
}

// rank orders risks.
func rank(r Risk) int { return 4*int(r.Severity) + int(r.Likelihood) }

// entryOf weighs a hazard. Each measure in force takes one step off the likelihood; the severity falls to what the design leaves
// once every design measure is in force. A measure that fails or is not proved takes nothing off.
func entryOf(h Hazard, verdicts []finding.Verdict, items []finding.Item) Entry {
	e := Entry{Hazard: h, After: h.Before}
	designed, made := 0, 0
	for _, m := range h.Measures {
		held := holdingOf(m, verdicts, items)
		e.Held = append(e.Held, held)
		if m.Step == Design {
			designed++
		}
		if held.State != InForce {
			continue
		}
		if m.Step == Design {
			made++
		}
		if e.After.Likelihood > Remote {
			e.After.Likelihood--
		}
	}
	if designed > 0 && made == designed {
		e.After.Severity = min(e.After.Severity, h.Least)
	}
	return e
}

// holdingOf is how far a measure has got. One for which this launcher has neither verdict nor item is not proved: nothing shows it.
func holdingOf(m Measure, verdicts []finding.Verdict, items []finding.Item) Held {
	h := Held{Measure: m}
	for _, v := range verdicts {
		if !slices.Contains(m.Verdicts, v.ID) {
			continue
		}
		switch v.Status {
		case finding.Fail:
			h.Fails = append(h.Fails, v.ID)
		case finding.Unknown:
			h.Open = append(h.Open, v.ID)
		case finding.Pass:
			h.Shown = append(h.Shown, v.ID)
		case finding.Conditional:
			h.Conditions = append(h.Conditions, v.ID)
			for _, it := range items { // what people keep is shown by its items
				if it.Done == nil && slices.Contains(v.Items, it.ID) && !slices.Contains(m.Items, it.ID) {
					h.Open = append(h.Open, it.ID)
				}
			}
		}
	}
	for _, it := range items {
		switch {
		case !slices.Contains(m.Items, it.ID):
		case it.Done == nil:
			h.Open = append(h.Open, it.ID)
		default:
			h.Shown = append(h.Shown, it.ID)
		}
	}
	switch {
	case len(h.Fails) > 0:
		h.State = Failing
	case len(h.Open) > 0 || len(h.Shown)+len(h.Conditions) == 0:
		h.State = Unproved
	}
	return h
}
