package app

import (
	"context"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/explain"
	"puffproof/limits/finding"
)

// explainCommand explains one verdict.
func explainCommand() *Command {
	return &Command{Name: "explain", Operands: "[ID [DESIGN]]", Max: 2, Words: verdictIDs(), Run: runExplain,
		Summary: "one verdict: question, way, figures, source, what moves it",
		Help: []string{
			"Explains the verdict ID, such as energy.total: the question, how it is answered, when it does not arise, the published figures " +
				"that it is held against, with document and clause, and the keys of the design that move it.",
			"With a design file DESIGN it also judges that design as check does, and shows what it makes of the question: status, figures, " +
				"margin, the case that decides, the condition with its items, and what to do.",
			"An item of the checklist, such as vent.test, is explained too: what to do, why, how and what to expect all come from the DESIGN. " +
				"What a single fault does, puffproof faults says.",
			"Without an ID it lists the verdicts, each with its title.",
			"With a DESIGN, exit status 1 means that this verdict fails or is unknown, or that the item is open.",
		},
		Options: []Option{shotsOption("judge on the measured basis, as check does")},
		Examples: []Example{
			{"puffproof explain", "the verdicts"},
			{"puffproof explain muzzle.sealed", "what the verdict on lung pressure is about"},
			{"puffproof explain energy.total whale.toml", "and what this design makes of it"},
			{"puffproof explain vent.test whale.toml", "an item of the checklist"},
			{"puffproof explain --json energy.area", "for another program"},
		},
	}
}

// verdictIDs lists the identifiers of all verdicts.
func verdictIDs() (ids []string) {
	for _, e := range explain.All() {
		ids = append(ids, e.ID)
	}
	return ids
}

// listVerdicts lists the verdicts with their titles.
func listVerdicts(call *Call) error {
	var rows [][2]string
	var list []show.Object
	for _, e := range explain.All() {
		rows = append(rows, [2]string{e.ID, e.Title})
		list = append(list, show.Fields("id", e.ID, "title", e.Title))
	}
	doc, err := show.Document(show.Fields("verdicts", list))
	return call.show(doc, err, usage.Rows{Rows: rows, Width: call.style.Width})
}

func runExplain(ctx context.Context, call *Call) (status, error) {
	if len(call.Args) < 2 && call.flags.IsSet("shots") {
		return 0, inputErrorf("--shots needs a design: puffproof explain ID DESIGN --shots FILE")
	}
	if len(call.Args) == 0 {
		return statusOK, listVerdicts(call)
	}
	said := show.Explained{ID: call.Args[0]}
	if x, ok := explain.Of(said.ID); ok {
		said.Verdict = &x
	} else if !finding.IsItem(said.ID) {
		return 0, unknownID(said.ID)
	}
	st, frame := statusOK, call.frame(show.DesignID{})
	if len(call.Args) > 1 {
		report, id, err := call.checked(ctx, call.Args[1])
		if err != nil {
			return 0, err
		}
		frame = call.frame(id)
		said.Design = &id
		st = heldStatus(answered(&said, &report))
	}
	doc, err := export.Explain(said)
	return st, call.show(doc, err, &screen.ExplainScreen{Frame: frame, Explained: said})
}

// checked judges the design of a name as check does.
func (c *Call) checked(ctx context.Context, name string) (limits.Report, show.DesignID, error) {
	l, id, err := c.readDesign(ctx, name)
	if err != nil {
		return limits.Report{}, id, err
	}
	found, err := c.shotsIfGiven(ctx, l)
	if err != nil {
		return limits.Report{}, id, err
	}
	report, err := limits.Check(ctx, l, assessment.Options{Measured: found, Day: c.today()})
	return report, id, err
}

// answered adds what a report says of a verdict or an item, and tells whether it holds.
func answered(said *show.Explained, r *limits.Report) bool {
	wanted := []string{said.ID}
	holds := true
	if said.Verdict != nil {
		wanted = nil
		if v, ok := r.Verdict(said.ID); ok {
			said.Answer, wanted = &v, v.Items
			if v.ID == finding.EnergyTotal {
				said.Budget = r.Budget
			}
			holds = v.Status != finding.Fail && v.Status != finding.Unknown
		}
	}
	for _, it := range r.Items {
		if slices.Contains(wanted, it.ID) {
			said.Items = append(said.Items, it)
			holds = holds && (said.Verdict != nil || it.Done != nil)
		}
	}
	return holds
}

// unknownID refuses an identifier that is none, and says what was probably meant.
func unknownID(id string) error {
	if strings.HasSuffix(id, ".toml") {
		return inputErrorf("explain needs the verdict before the design: puffproof explain ID %s; puffproof explain lists them",
			show.InShell(id))
	}
	known := verdictIDs()
	all := append(known, finding.ItemIDs()...)
	near := usage.Nearest(id, all, nil)
	part := func(k string) bool { return len(id) > 2 && strings.Contains(k, strings.ToLower(id)) }
	if at := slices.IndexFunc(all, part); near == "" && at >= 0 {
		near = all[at]
	}
	if near != "" {
		return inputErrorf("no verdict and no item of the checklist is named %q; did you mean %s?", id, near)
	}
	return inputErrorf("no verdict and no item of the checklist is named %q; puffproof explain lists the verdicts; what a fault does, "+
		"puffproof faults says", id)
}
