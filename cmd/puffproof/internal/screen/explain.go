package screen

import (
	"io"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// ExplainScreen shows one verdict or item.
type ExplainScreen struct {
	Frame
	show.Explained
}

// Write prints the screen.
func (x *ExplainScreen) Write(w io.Writer) error {
	switch {
	case x.Verdict == nil:
		return x.write(w, x.itemFinding(), x.ofDesign, x.wholeItems)
	case x.Explained.Design == nil:
		return x.write(w, x.paint(bold, show.Clean(x.Verdict.Title)+" ("+x.ID+")"), x.question, x.heldAgainst, x.moves)
	case x.Answer == nil:
		return x.write(w, x.lines(faint, "", "  ", show.Clean(x.Verdict.Title)+" ("+x.ID+"): not asked of this design."), x.ofDesign, x.question,
			x.heldAgainst, x.moves)
	}
	v := *x.Answer
	return x.write(w, x.paintTone(show.ToneOf(v.Status), show.Word(v.Status)+": "+show.Clean(v.Title)+" ("+x.ID+")."), x.ofDesign, x.answer,
		x.madeOf, x.items(x.Items), x.question, x.heldAgainst, x.moves, x.cautions)
}

// ofDesign names the design.
func (x *ExplainScreen) ofDesign() {
	if x.Explained.Design != nil {
		x.design()
	}
}

// answer is what the design makes of the question.
func (x *ExplainScreen) answer() {
	v, figures := *x.Answer, ""
	if show.Judged(v) {
		if value, limit := show.Figures(x.Units, v); value != "" {
			figures = show.OfLimit(v, value, limit)
		}
		if v.Margin != nil {
			figures = show.Joined(", ", figures, show.MarginOf(v))
		}
	}
	x.heading("In this design")
	for _, line := range []string{show.Joined("; ", figures, show.Lead("basis ", show.Clean(string(v.Basis)))), x.text(v.Why),
		show.Clean(show.Condition(x.Units, v)), show.Lead("Do: ", x.text(v.Advice)), show.Lead("Mind: ", x.text(v.Caveat)),
		show.Lead("Source: ", show.Clean(v.Source))} {
		if line != "" {
			x.say("  ", "  ", line)
		}
	}
}

// madeOf takes the energy apart.
func (x *ExplainScreen) madeOf() { x.writeBudget(x.Budget) }

// question is what is asked, how it is answered, and when it is not.
func (x *ExplainScreen) question() {
	for _, part := range []struct {
		title string
		text  finding.Text
	}{{"What it asks", x.Verdict.Asks}, {"How it is answered", x.Verdict.Way}, {"Not applicable", x.Verdict.Not}} {
		x.heading(part.title)
		x.say("  ", "  ", x.text(part.text))
	}
}

// heldAgainst lists the published figures and rules.
func (x *ExplainScreen) heldAgainst() {
	x.heading("Held against")
	for _, b := range x.Verdict.Marks {
		mind := show.Lead(". Mind: ", show.Clean(b.Caveat))
		x.say("  ", "    ", show.Clean(b.What)+": "+show.Benchmark(x.Units, b)+". "+show.Clean(b.Source())+mind+".")
	}
	if x.Verdict.Source != "" {
		x.say("  ", "    ", show.Clean(x.Verdict.Source)+".")
	}
}

// moves lists the keys that move the answer.
func (x *ExplainScreen) moves() {
	x.heading("What moves it")
	x.say("  ", "  ", strings.Join(x.Verdict.Moves, ", ")+".")
	var tables []string
	for _, key := range x.Verdict.Moves {
		if table, _, _ := strings.Cut(key, "."); !slices.Contains(tables, table) {
			tables = append(tables, table)
		}
	}
	x.sayf("  ", "  ", "What each means: puffproof keys TABLE, with TABLE any of %s.", strings.Join(tables, ", "))
}

// itemFinding says what an item is, in one sentence.
func (x *ExplainScreen) itemFinding() string {
	switch {
	case x.Explained.Design == nil:
		return x.lines("", "", "  ", x.ID+" is an item of the checklist: something that only people can do and confirm. What it asks, and the "+
			"figure to expect, depend on the design: puffproof explain "+x.ID+" DESIGN.")
	case len(x.Items) == 0:
		return x.lines(faint, "", "  ", x.ID+" is an item of the checklist that this design does not need.")
	case x.Items[0].Done == nil:
		return x.lines(yellow, "", "  ", "OPEN: "+x.text(x.Items[0].Title)+" ("+x.ID+").")
	}
	return x.lines(green, "", "  ", "DONE: "+x.text(x.Items[0].Title)+" ("+x.ID+").")
}

// wholeItems prints items with why and how.
func (x *ExplainScreen) wholeItems() {
	for _, it := range x.Items {
		x.gap()
		for _, line := range []string{show.Lead("Why: ", x.text(it.Why)), show.Lead("How: ", x.text(it.How)),
			show.Lead("Expect: ", x.text(it.Expect)), show.Lead("The verdict that rests on it: ", it.Verdict),
			show.Lead("Source: ", show.Clean(it.Source)), show.Lead("Still open: ", x.text(it.OpenWhy))} {
			if line != "" {
				x.say("  ", "    ", line)
			}
		}
	}
}
