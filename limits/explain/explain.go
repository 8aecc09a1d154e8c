// Package explain says of each verdict, in plain English, what it asks, how it is answered, when the question does not
// arise, what it is held against and which keys of a design move it. It computes nothing.
//
// Start reading at Of; the texts stand in one file a family.
package explain

import (
	"slices"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/verdict"
)

// Explanation is what there is to say of one verdict, whatever the design.
type Explanation struct {
	ID     string
	Title  string                // as the verdict has it
	Asks   finding.Text          // the question in a sentence or two
	Way    finding.Text          // how it is answered: its basis and what is computed
	Not    finding.Text          // when it is not applicable, or not asked
	Marks  []benchmark.Benchmark // the published figures that it rests on
	Source string                // what it rests on besides; "" nothing
	Moves  []string              // keys of the design that move it, the strongest first as a rule
}

// text is an explanation as it is written down.
type text struct {
	id             string
	asks, way, not finding.Text
	marks          []benchmark.BenchmarkID
	source         string
	moves          []string
}

// keys joins lists of keys, each key once.
func keys(lists ...[]string) (all []string) {
	for _, key := range slices.Concat(lists...) {
		if !slices.Contains(all, key) {
			all = append(all, key)
		}
	}
	return all
}

// always is said of a verdict that is asked of every launcher.
func always() finding.Text { return finding.Words("Never: every launcher is asked this.") }

// ownRule is the source of what no document asks for.
const ownRule = "own rule of this project"

// texts lists every text, in no order that matters.
func texts() []text {
	return slices.Concat(ofEnergies(), ofStandstill(), ofVessels(), ofPressures(), ofRelief(), ofBody(), ofEmptying(), ofGauges(), ofFaults(),
		ofPeople(), ofSound(), ofPapers())
}

// All explains every verdict, in the order of verdict.Table.
func All() []Explanation {
	written := map[string]text{}
	for _, t := range texts() {
		written[t.id] = t
	}
	var out []Explanation
	for _, q := range verdict.Table() {
		t := written[q.ID]
		e := Explanation{ID: q.ID, Title: q.Title, Asks: t.asks, Way: t.way, Not: t.not, Source: t.source, Moves: t.moves}
		for _, id := range t.marks {
			e.Marks = append(e.Marks, benchmark.BenchmarkOf(id))
		}
		out = append(out, e)
	}
	return out
}

// Of explains the verdict of an identifier; false: no verdict has it.
func Of(id string) (Explanation, bool) {
	all := All()
	i := slices.IndexFunc(all, func(e Explanation) bool { return e.ID == id })
	if i < 0 {
		return Explanation{}, false
	}
	return all[i], true
}
