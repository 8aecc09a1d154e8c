package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/argument"
	"puffproof/limits/finding"
	"puffproof/limits/hazard"
)

// argument shows what was shown, and by what: as a figure, as trees, as a list.
func (b *builder) argument() {
	top := argument.Of(b.in.Launcher, b.in.Report.Verdicts, b.in.Report.Items)
	b.section("Claims, and what shows them")
	b.say("In the notation of GSN, the GSN Community Standard (version 3 of 2021; from memory): a rectangle is a claim, a parallelogram " +
		"says over what it is argued, a circle is what shows it, a rounded box the context; a full arrow leads to what supports a claim. A " +
		"diamond below a claim says that it is undeveloped: nothing shows it yet. It is made of the hazard log, the verdicts and the checklist.")
	b.draw("The argument in one view: each claim stands for all measures against the hazard that it names. A diamond: something below it is "+
		"undeveloped, which the trees that follow show.",
		"Argument. "+b.text(top.Says)+" The list below has every claim and what shows it.",
		func() (*figure.Drawing, error) { return b.overview(&top) })
	var trees []figure.Claim
	for i := range top.Below {
		if s := &top.Below[i]; s.ID == "S1" {
			for k := range s.Below {
				trees = append(trees, b.claimOf(&s.Below[k]))
			}
		} else {
			trees = append(trees, b.claimOf(s))
		}
	}
	const pageHigh = 212 // [mm]: with its caption it fits on a page, of Letter size too, which is lower and makes it wider
	drawings, err := figure.ClaimTrees(trees, pageHigh)
	for i, d := range drawings {
		b.draw(fmt.Sprintf("The argument in full, %d of %d: each claim, and to its right what supports it.", i+1, len(drawings)),
			"A part of the argument. The list below has the same in words.", func() (*figure.Drawing, error) { return d, err })
	}
	b.claimList(&top)
}

// overview is the argument from the top down, the claims about hazards in columns by what they come from.
func (b *builder) overview(top *argument.Element) (*figure.Drawing, error) {
	shape := func(e *argument.Element) figure.Claim {
		c := b.claimOf(e)
		c.Below, c.Undeveloped = nil, e.State == argument.Undeveloped
		if e.About != "" {
			c.Text = e.About
		}
		return c
	}
	var columns []figure.ClaimColumn
	for _, g := range hazard.Groups() {
		columns = append(columns, figure.ClaimColumn{Heading: "Of " + g.String()})
	}
	var strategy, further figure.Claim
	for i := range top.Below {
		s := &top.Below[i]
		if s.ID == "S1" {
			strategy = shape(s)
			strategy.Undeveloped = false // its claims are, each by itself
			for k := range s.Below {
				for j, g := range hazard.Groups() {
					if g.String() == s.Below[k].Group {
						columns[j].Claims = append(columns[j].Claims, shape(&s.Below[k]))
					}
				}
			}
			continue
		}
		further = shape(s)
	}
	head := shape(top)
	head.Undeveloped = false
	in := b.in
	context := []string{"C1: design file " + in.Design.Fingerprint() + ", " + in.Date,
		"C2: published benchmarks, used voluntarily, each with its source in the table of limits; local law goes first"}
	return figure.ClaimOverview(head, strategy, further, context, columns)
}

// claimOf is an element to draw, with all that is below it.
func (b *builder) claimOf(e *argument.Element) figure.Claim {
	c := figure.Claim{ID: e.ID, Text: b.claimText(e), Against: e.State == argument.Refuted}
	switch e.Kind {
	case argument.Strategy:
		c.Shape = figure.StrategyShape
	case argument.Solution:
		c.Shape = figure.SolutionShape
	}
	c.Undeveloped = e.State == argument.Undeveloped && len(e.Below) == 0
	for i := range e.Below {
		c.Below = append(c.Below, b.claimOf(&e.Below[i]))
	}
	return c
}

// claimText is what an element says, a verdict with its figures.
func (b *builder) claimText(e *argument.Element) string {
	if e.Evidence == argument.NoEvidence {
		return b.text(e.Says)
	}
	t := e.Evidence.String() + " " + e.Of + ": " + b.text(e.Says)
	if v, ok := b.in.Report.Verdict(e.Of); ok && e.Evidence == argument.Verdict {
		if a := b.in.against(v); a != "" {
			t += ": " + a
		}
		switch v.Status {
		case finding.Fail:
			t = "FAILS: " + t
		case finding.Conditional:
			t = "on a condition, " + t
		case finding.Unknown:
			t = "not known, " + t
		}
	}
	return t
}

// claimList is the tree as a list: a row for each claim, with what supports it.
func (b *builder) claimList(top *argument.Element) {
	t := document.Table{Caption: "The same as a list: claims with what supports them. Undeveloped: nothing shows it yet.",
		Head: []string{"No.", "Claim or strategy", "Supported by", "State"}, Widths: []int{8, 32, 46, 14}}
	var walk func(e *argument.Element)
	walk = func(e *argument.Element) {
		var by []string
		for i := range e.Below {
			switch s := &e.Below[i]; {
			case !s.Leaf():
				by = append(by, s.ID)
			case s.State == argument.Undeveloped:
				by = append(by, s.ID+" ◊ undeveloped: "+b.claimText(s))
			default:
				by = append(by, s.ID+" "+b.claimText(s))
			}
		}
		if !e.Leaf() || len(e.Below) == 0 && e.Evidence == argument.NoEvidence {
			t.AddToned(claimTone(e.State), e.ID, b.text(e.Says), dash(strings.Join(by, "; ")), e.State.String())
		}
		for i := range e.Below {
			walk(&e.Below[i])
		}
	}
	walk(top)
	b.add(t)
}

// claimTone is the tone of a state.
func claimTone(s argument.State) show.Tone {
	return map[argument.State]show.Tone{argument.Shown: show.Good, argument.Kept: show.Kept, argument.Undeveloped: show.Open,
		argument.Refuted: show.Bad}[s]
}
