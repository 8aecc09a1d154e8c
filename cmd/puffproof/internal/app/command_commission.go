package app

import (
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/screen"
)

// commissionCommand takes a launcher from built to signed.
func commissionCommand() *Command {
	return &Command{Name: "commission", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runCommission,
		Summary: "from a built launcher to a signed file, step by step",
		Help: []string{
			"Leads through the tests of the launcher of DESIGN in the only safe order, one step at a time: papers, water, the relief valve on a " +
				"bench, stop and key without air, venting at a low pressure, leak-down, the switch, faults, drills, shots from weak to strong, the " +
				"clear zone, a second person. Each step says why, who stands where, what to do, what to write down, what to expect on this launcher, " +
				"and what to do when it is otherwise.",
			"On a terminal it asks; in a pipe it prints the next step. --step ID with --reading and --who writes one reading down. It is " +
				"judged at once. A step that did not pass is written down too, and stops all later ones until it passes. No step can be " +
				"skipped; those that this launcher does not have are left out, and --all says why. A step whose doing yields a figure " +
				"takes no word for it; where something is under pressure two people are asked.",
			"Every reading goes into the record DESIGN.record, a file that only grows: one line a reading, with date, initials, program " +
				"and design. The answer goes into the [checklist] of DESIGN, where every other command finds it: a step is done when its " +
				"item of the checklist is. Each answer names the reading it came from: where the record lacks that, was altered or says " +
				"something else, its step is open for every command, until the file is back or the step is done again. The safety file " +
				"prints the record.",
			"A record of whose readings DESIGN has none is that of another design, or of another launcher: it is told, and nothing is added to it " +
				"without --own-record.",
			"An answer counts for the build of which it was given: where a key that it rests on is changed, its step is due again.",
			"There is no step for a launcher whose vessels, relief valve, venting or dates fail or are not known, as check says, and none with " +
				"air while any other verdict fails.",
			"Exit status 0 means that nothing is open and that the record has every answer, 1 that something is open, is said, not recorded, or " +
				"did not pass, 2 that the line is wrong or that a " +
				"reading cannot be what is asked: then nothing was written.",
		},
		Options: []Option{
			{Name: "step", Value: "ID", Help: "write a reading of this step down"},
			{Name: "reading", Value: "TEXT", Help: "with --step: what was read or seen, each figure with its unit, such as \"0.35, 0.37 bar\""},
			{Name: "log", Value: "FILE", Files: true, Help: "with --step vent.test or leak-down: a file of readings, as of vent --log"},
			{Name: "who", Value: "INITIALS", Help: "with --step: who did it, and who watched"},
			{Name: "date", Value: "DATE", Help: "with --step: the day it was done, year-month-day; without it today"},
			{Name: "ask", Help: "ask for readings in a pipe too: each is a line of standard input, the initials the next one; the first that is " +
				"refused ends it"},
			{Name: "own-record", Help: "the record beside DESIGN is this launcher's, though DESIGN has none of its readings"},
			{Name: "all", Help: "list every step with its status, and those that are left out"},
			shotsOption("measured shots, which answer the steps that ask for them"),
		},
		Examples: []Example{
			{"puffproof commission whale.toml", "what is to be done now"},
			{"puffproof commission whale.toml --step vent.low --reading \"3 s\" --who \"AB, CD\"", "write down what was read"},
			{"puffproof commission whale.toml --all", "all steps"},
		},
	}
}

func runCommission(ctx context.Context, call *Call) (status, error) {
	name := call.Args[0]
	given, err := call.givenStep(name)
	if err != nil {
		return 0, err
	}
	c, err := call.openCommission(ctx, name)
	if err != nil {
		return 0, err
	}
	if given == nil && !call.json && name != "-" {
		if err := c.finish(ctx); err != nil {
			return 0, err
		}
	}
	switch {
	case given != nil:
		if given.Log, given.Source, err = call.stepLog(ctx, c.Design().Launcher(), c.Way.Run.Step(given.Step)); err != nil {
			return 0, err
		}
		if err := c.take(ctx, given); err != nil {
			return 0, err
		}
	case call.asks():
		return c.dialogue(ctx)
	}
	s := c.screen()
	s.Steps = whether(call, "all", screen.Listed, screen.Counted)
	doc, err := export.Commission(s.Design, s.Report, s.Run, &s.Record, s.Wrote)
	return heldStatus(c.Way.Run.Complete), call.show(doc, err, s)
}

// asks tells whether readings are asked for, one after the other.
func (c *Call) asks() bool {
	return c.flags.Bool("ask") || c.Interactive && !c.json && !c.quiet && !c.flags.Bool("all")
}

// givenStep is what --step gives, held against everything that needs no design; nil: there is none.
func (c *Call) givenStep(name string) (*proving.Reading, error) {
	if c.flags.Bool("ask") {
		for _, flag := range []string{"step", "all", "json", "quiet"} {
			if c.flags.IsSet(flag) {
				return nil, inputErrorf("--ask and --%s exclude each other", flag)
			}
		}
		if name == "-" {
			return nil, inputErrorf("--ask reads the answers from standard input; name the design's file")
		}
	}
	if !c.flags.IsSet("step") {
		for _, flag := range []string{"reading", "log", "who", "date"} {
			if c.flags.IsSet(flag) {
				return nil, inputErrorf("--%s goes with --step", flag)
			}
		}
		return nil, nil
	}
	text := func(flag string) string { return strings.TrimSpace(c.flags.String(flag)) }
	g := &proving.Reading{Step: text("step"), Value: text("reading"), Who: text("who"), As: "--step"}
	if hint, known := design.KnownItem(g.Step); !known {
		return nil, inputErrorf("--step: no launcher has a step %q; %s", g.Step, hint)
	}
	switch {
	case g.Value == "" && !c.flags.IsSet("log"):
		return nil, inputErrorf("--step needs --reading, what was read or seen")
	case g.Value != "" && c.flags.IsSet("log"):
		return nil, inputErrorf("--reading and --log both say what was read; give one of them")
	}
	return g, c.signed(g, name)
}
