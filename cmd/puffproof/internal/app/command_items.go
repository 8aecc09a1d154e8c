package app

import (
	"bytes"
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
	"puffproof/limits/finding"
)

// itemsCommand lists what people have to confirm, and writes down what they did.
func itemsCommand() *Command {
	return &Command{Name: "items", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runItems,
		Summary: "what people still have to confirm; write down what is done",
		Help: []string{
			"Lists the open items of the checklist of DESIGN in the order of doing them: what is looked at without air, then what limits, " +
				"shows and lets out the air, then shots. Each says what to expect and who does it; the first one also how.",
			"--done ID writes the answer into the [checklist] of DESIGN, dated today. Comments, order and everything else in the file stay as " +
				"they are; an older answer to the same item is written over. An answer that would not close its item is refused, and why: a " +
				"word where a figure is needed, a figure that is not what is expected, nobody's initials.",
			"An answer holds for 12 months (common practice, no source). It changes nothing else: safety file and card still describe the design.",
			"Exit status 0 means that no item is open, 1 that one is, also after --done has written. Neither says that the design holds: that " +
				"is the line below the first. --json lists all items, each with done.",
		},
		Options: []Option{
			{Name: "all", Help: "list the items that are done too"},
			{Name: "done", Value: "ID", Help: "write down that this item is done, into DESIGN"},
			{Name: "value", Value: "TEXT", Help: "with --done: what was read, each figure with its unit, such as \"9 s, 0.00 bar\""},
			{Name: "who", Value: "INITIALS", Help: "with --done: who did it and who watched"},
			{Name: "date", Value: "DATE", Help: "with --done: the day it was done, year-month-day; without it today"},
			shotsOption("measured shots, which answer the item that asks for them"),
		},
		Examples: []Example{
			{"puffproof items whale.toml", "what is open, in the order of doing"},
			{"puffproof items whale.toml --done vent.test --value \"9 s\" --who \"AB, CD\"", "write down what was read"},
			{"puffproof items whale.toml --all --json", "for another program"},
		},
	}
}

func runItems(ctx context.Context, call *Call) (status, error) {
	name, done := call.Args[0], call.flags.IsSet("done")
	if err := call.checkItemFlags(name, done); err != nil {
		return 0, err
	}
	data, err := call.readFile(ctx, name)
	if err != nil {
		return 0, err
	}
	d, _, err := call.openDesign(name, data)
	if err != nil {
		return 0, err
	}
	if d, err = call.withPending(name, d); err != nil {
		return 0, err
	}
	if done {
		if d, err = call.answered(d); err != nil {
			return 0, err
		}
	}
	found, err := call.shotsIfGiven(ctx, d.Launcher())
	if err != nil {
		return 0, err
	}
	report, err := limits.Check(ctx, d.Launcher(), assessment.Options{Measured: found, Day: call.today()})
	if err != nil {
		return 0, err
	}
	wrote := ""
	if done {
		wrote = call.flags.String("done")
		if err := call.closes(report.Items, wrote, "--done"); err != nil {
			return 0, err
		}
		if err := call.confirm(ctx, name, data, d, report.Items); err != nil {
			return 0, err
		}
	}
	id := idOf(d.Launcher(), d.Bytes())
	steps := checklist.InOrder(report.Items)
	doc, err := export.Items(id, report, steps, wrote)
	err = call.show(doc, err, &screen.ItemsScreen{Frame: call.frame(id), Report: report, Steps: steps, File: name, Wrote: wrote,
		Done: whether(call, "all", screen.Listed, screen.Counted)})
	return heldStatus(report.OpenItems == 0), err
}

// confirm writes a design with one answer more; where a commissioning keeps a record beside it, that gets the answer first.
func (c *Call) confirm(ctx context.Context, name string, data []byte, d *design.Editable, items []finding.Item) error {
	m, err := c.openDesignAndRecord(ctx, name)
	if err != nil {
		return err
	}
	if len(m.log.Entries) == 0 && m.log.Torn == 0 || !bytes.Equal(m.file, data) {
		return c.rewrite(ctx, name, data, d.Bytes())
	}
	if err := recordError(recordName(name), tryRecord(name)); err != nil {
		return err
	}
	if m.d, err = c.answered(m.d); err != nil {
		return err
	}
	it := items[finding.IndexOfItem(items, c.flags.String("done"))]
	e := record.Entry{Kind: record.Reading, File: fingerprintOf(m.file), Step: it.ID, Title: it.Title.String(), Expect: it.Expect.String(),
		Reading: it.Done.Value, Who: it.Done.Who, Date: it.Done.Date, Result: record.Passed, Value: it.Done.Value, Build: it.Done.Build}
	return m.write(ctx, e)
}

// checkItemFlags finds what is wrong with the line before anything is read.
func (c *Call) checkItemFlags(name string, done bool) error {
	if !done {
		for _, flag := range []string{"value", "who", "date"} {
			if c.flags.IsSet(flag) {
				return inputErrorf("--%s goes with --done", flag)
			}
		}
		return nil
	}
	id := c.flags.String("done")
	if hint, known := design.KnownItem(id); !known {
		return inputErrorf("--done: no design has an item %q; %s", id, hint)
	}
	if finding.Declared(c.flags.String("who")) == "" {
		return inputErrorf("--done needs --who, the initials of who did it and of who watched")
	}
	return c.rewritable(name)
}

// answered is the design with the answer of the line, not yet written.
func (c *Call) answered(d *design.Editable) (*design.Editable, error) {
	day, err := c.day()
	if err != nil {
		return nil, err
	}
	text := func(flag string) string { return strings.TrimSpace(c.flags.String(flag)) }
	with, err := d.Answered(text("done"), text("who"), day, text("value"))
	if err != nil {
		return nil, inputErrorf("--done: %v; nothing was written", err)
	}
	return with, nil
}

// closes tells whether the answer just given closes its item; the error says why it does not. flag is the one that gave it.
func (c *Call) closes(items []finding.Item, id, flag string) error {
	i := finding.IndexOfItem(items, id)
	if i < 0 {
		return inputErrorf("%s: this design does not ask for %q; puffproof items lists what it asks for; nothing was written", flag, id)
	}
	it := &items[i]
	switch {
	case it.Done != nil && it.Done.Shows == nil:
		return nil
	case it.Done != nil:
		return inputErrorf("%s %s: the answer does not close it, %s does; nothing was written", flag, id, it.Done.Who)
	}
	why, expect := it.OpenWhy, ""
	if len(why) == 0 {
		why = it.Why
	}
	if len(it.Expect) > 0 {
		expect = "; expected is: " + c.words().Text(it.Expect)
	}
	return inputErrorf("%s %s: %s%s; nothing was written", flag, id, strings.TrimRight(c.words().Text(why), "."), expect)
}
