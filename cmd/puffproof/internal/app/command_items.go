package app

import (
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
)

// itemsCommand lists what people have to confirm, and writes down what they did.
func itemsCommand() *Command {
	return &Command{Name: "items", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runItems,
		Summary: "what people still have to confirm; write down what is done",
		Help: []string{
			"Lists the open items of the checklist of DESIGN in the order of doing them: what is looked at without air, then what limits, " +
				"shows and lets out the air, then shots. Each says what to expect and who does it; the first one also how.",
			"--done ID writes the answer down as commission does, dated today: into the record DESIGN.record, then into the [checklist] of " +
				"DESIGN. Comments, order and everything else in the file stay as they are; " +
				"an older answer to the same item is written over. Items are done " +
				"in the order of doing. An answer that would not close its item is refused, and why: a word where a figure is needed, a figure " +
				"that is not what is expected, nobody's initials, a day before that of an item which goes before it.",
			"An answer that stands in DESIGN and in no record was written by hand: it is shown as said, not recorded. Behind an open item, or " +
				"dated before an earlier one, it counts as open.",
			"An answer holds for 12 months (common practice, no source). It changes nothing else: safety file and card still describe the design.",
			"Exit status 0 means that no item is open and that the record has every answer, 1 that one is open or said, not recorded, also after " +
				"--done has written. Neither says that the design holds: that is the line below the first. --json lists all items, each with done.",
		},
		Options: []Option{
			{Name: "all", Help: "list the items that are done too"},
			{Name: "done", Value: "ID", Help: "write down that this item is done, into DESIGN"},
			{Name: "value", Value: "TEXT", Help: "with --done: what was read, each figure with its unit, such as \"9 s, 0.00 bar\""},
			{Name: "who", Value: "INITIALS", Help: "with --done: who did it and who watched"},
			{Name: "date", Value: "DATE", Help: "with --done: the day it was done, year-month-day; without it today"},
			{Name: "own-record", Help: "the record beside DESIGN is this launcher's, though DESIGN has none of its readings"},
			shotsOption("measured shots, which answer the item that asks for them"),
		},
		Examples: []Example{
			{"puffproof items whale.toml", "what is open, in the order of doing"},
			{"puffproof items whale.toml --done vent.test --value \"9 s, 0.02 bar\" --who \"AB\"", "write down what was read"},
			{"puffproof items whale.toml --all --json", "for another program"},
		},
	}
}

func runItems(ctx context.Context, call *Call) (status, error) {
	name, done := call.Args[0], call.flags.IsSet("done")
	given, err := call.givenAnswer(name, done)
	if err != nil {
		return 0, err
	}
	if done {
		return call.writeAnswer(ctx, name, given)
	}
	l, id, err := call.readDesign(ctx, name)
	if err != nil {
		return 0, err
	}
	found, err := call.shotsIfGiven(ctx, l)
	if err != nil {
		return 0, err
	}
	report, err := limits.Check(ctx, l, assessment.Options{Measured: found, Day: call.today()})
	if err != nil {
		return 0, err
	}
	return call.listItems(id, report, "")
}

// writeAnswer writes an answer down as commission does, and lists the items as they then are.
func (c *Call) writeAnswer(ctx context.Context, name string, given *proving.Reading) (status, error) {
	m, err := c.openCommission(ctx, name)
	if err != nil {
		return 0, err
	}
	if _, err := m.Take(ctx, given); err != nil {
		return 0, err
	}
	return c.listItems(idOf(m.Design().Launcher(), m.File()), m.Way.Report, given.Step)
}

// listItems shows the items; wrote is the one whose answer was just written, "" none.
func (c *Call) listItems(id show.DesignID, report limits.Report, wrote string) (status, error) {
	steps := checklist.InOrder(report.Items)
	doc, err := export.Items(id, report, steps, wrote)
	err = c.show(doc, err, &screen.ItemsScreen{Frame: c.frame(id), Report: report, Steps: steps, File: c.Args[0], Wrote: wrote,
		Done: whether(c, "all", screen.Listed, screen.Counted)})
	return heldStatus(report.OpenItems == 0 && report.Said == 0), err // what is only said proves nothing
}

// givenAnswer is what --done gives, held against everything that needs no design; nil: there is none.
func (c *Call) givenAnswer(name string, done bool) (*proving.Reading, error) {
	if !done {
		for _, flag := range []string{"value", "who", "date", "own-record"} {
			if c.flags.IsSet(flag) {
				return nil, inputErrorf("--%s goes with --done", flag)
			}
		}
		return nil, nil
	}
	text := func(flag string) string { return strings.TrimSpace(c.flags.String(flag)) }
	g := &proving.Reading{Step: text("done"), Value: text("value"), Who: text("who"), As: "--done", Failing: proving.Refused}
	if hint, known := design.KnownItem(g.Step); !known {
		return nil, inputErrorf("--done: no design has an item %q; %s", g.Step, hint)
	}
	return g, c.signed(g, name)
}
