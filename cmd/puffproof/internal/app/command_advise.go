package app

import (
	"bytes"
	"context"
	"strings"
	"sync"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/cmd/puffproof/internal/wish"
	"puffproof/limits/advise"
	"puffproof/limits/finding"
)

// adviseCommand finds what to change in a design.
func adviseCommand() *Command {
	return &Command{Name: "advise", Operands: "[DESIGN]", Max: 1, Files: true, Run: runAdvise,
		Summary: "find what to change so that it flies and holds",
		Help: []string{
			"Looks for changes of the design DESIGN with which the projectile leaves the barrel, in the weakest launcher of the tolerances too, " +
				"and every verdict of check holds. It turns what can be turned, drilled or bought: the cut-out, the relief valve, the air of one " +
				"shot, the travel, the firing valve, the projectile, holes to empty it. Up to three ways, that with the fewest parts changed first; " +
				"one where a hose leads to the barrel, whose shots take long.",
			"What only people can say is never invented: it is listed with the line that says it, and the ways hold only if it proves true. " +
				"What is only assumed counts at its widest; only where no way comes near the goal so is it listed too, to be measured, and one " +
				"way is given. Each line says what is lost without it. " +
				"--declare writes those lines too, as declared: what rests on them is then conditional, never a pass. A figure that is still the " +
				"template's is declared as it stands: build or buy it so, or put yours in its place.",
			"-o FILE writes the first way, with your comments and your order; check of that file says the same. Without DESIGN a design is begun " +
				"from nothing: its figures are a sketch's, to be replaced by your own.",
			"It may take minutes; a terminal shows what it is at. An interrupt (ctrl-c), or the end of --within, ends it with the best found " +
				"so far and what was tried; an interrupt writes no file.",
			"Exit status 1 means that no way was found, or none that comes within a tenth of the goal; it then says what stands in the way, " +
				"and with a goal gives the nearest that holds. What is no nearer than the design as it is, where that holds, is no way.",
		},
		Options: []Option{
			{Name: "goal", Value: "GOAL", Help: "what is wanted: \"apex 3 m\", \"speed 8 m/s\" or \"range 6 m\"; without it as lively as holds"},
			{Name: "keep", Value: "NAMES", Help: "tables, parts or keys that stay as they are, with commas: \"barrel, projectile.mass\""},
			{Name: "bore", Value: "LENGTH", Help: "without DESIGN: the bore to begin from, such as \"41 mm\" (the default)"},
			{Name: "within", Value: "TIME", Help: "stop looking after that long, such as \"90 s\", and take the best found so far"},
			{Name: "declare", Help: "write what only you can say into FILE too, as declared"},
			{Name: "o", Value: "FILE", Files: true, Writes: true, Help: "write the first way as a design file"},
			{Name: "force", Help: "let FILE replace one that exists"},
		},
		Examples: []Example{
			{"puffproof advise whale.toml", "what to change, and what then flies"},
			{"puffproof advise whale.toml --goal \"apex 2 m\" --keep barrel -o livelier.toml", "towards a goal, into a new file"},
			{"puffproof advise --goal \"apex 1 m\" --bore \"41 mm\" --declare -o new.toml", "from nothing"},
		},
	}
}

func runAdvise(ctx context.Context, call *Call) (status, error) {
	in := advise.Input{Day: call.today(), Sketch: len(call.Args) == 0}
	var err error
	if in.Goal, err = wish.Goal(call.flags.String("goal"), call.style.Units); err != nil {
		return 0, inputErrorf("--goal: %v", err)
	}
	target := call.flags.String("o")
	if call.flags.IsSet("o") {
		if err := call.target(target); err != nil { // better now than after the computing
			return 0, err
		}
	}
	d, id, err := call.editable(ctx)
	if err != nil {
		return 0, err
	}
	in.Design = d
	if in.Keep, err = wish.Kept(call.flags.String("keep"), d); err != nil {
		return 0, inputErrorf("--keep: %v", err)
	}
	declare := whether(call, "declare", show.WithDeclarations, show.WithoutDeclarations)
	put := func(to *Call, answer advise.Answer, target string) error {
		doc, err := export.Advise(id, answer, declare)
		return to.show(doc, err, &screen.AdviseScreen{Frame: call.frame(id), Answer: answer, Declare: declare,
			File: strings.Join(call.Args, ""), Asked: call.askedAgain("goal", "keep", "bore", "within"), Written: target})
	}
	within, err := wish.Within(call.flags.String("within"), call.style.Units)
	if err != nil {
		return 0, inputErrorf("--within: %v", err)
	}
	var latest advise.Answer
	var told sync.Mutex
	in.SoFar = func(a advise.Answer) {
		told.Lock()
		defer told.Unlock()
		part := &Call{Host: call.Host, Out: new(bytes.Buffer), style: call.style, json: call.json, quiet: call.quiet}
		if latest = a; put(part, a, "") == nil {
			call.soFar.Is(part.Out.Bytes())
		}
	}
	looking, end := ctx, context.CancelFunc(func() {})
	if within > 0 {
		looking, end = context.WithTimeout(ctx, within)
	}
	answer, err := advise.Find(looking, in)
	end()
	if err != nil && ctx.Err() == nil && looking.Err() != nil { // its time is over, and what it has is the answer
		told.Lock()
		answer, err = latest, nil
		told.Unlock()
		if len(answer.Stopped) == 0 {
			answer.Stopped = finding.Words("stopped before anything was tried")
		}
	}
	if err != nil {
		return 0, err
	}
	if err := put(call, answer, target); err != nil {
		return 0, err
	}
	st := statusOK
	if len(answer.Ways) == 0 || !answer.Reaches {
		st = statusNotHeld
	}
	if len(answer.Ways) == 0 || target == "" {
		return st, nil
	}
	chosen := answer.Ways[0].Design
	if declare == show.WithDeclarations {
		chosen = answer.Ways[0].Declared
	}
	return st, call.place(ctx, target, chosen.(*design.Editable).Bytes())
}

// askedAgain are options as they may be typed again, each behind a blank; "" none was given.
func (c *Call) askedAgain(names ...string) (words string) {
	for _, name := range names {
		if c.flags.IsSet(name) {
			words += " --" + name + " " + show.InShell(c.flags.String(name))
		}
	}
	return words
}

// editable is the design that the line names, or a sketch.
func (c *Call) editable(ctx context.Context) (*design.Editable, show.DesignID, error) {
	switch {
	case len(c.Args) > 0 && c.flags.IsSet("bore"):
		return nil, show.DesignID{}, inputErrorf("--bore goes without a design: the one named has its own")
	case len(c.Args) > 0:
		return c.editableOf(ctx, c.Args[0])
	}
	bore := 0.041
	if c.flags.IsSet("bore") {
		q, err := c.quantityOf(c.flags.String("bore"), unit.Length)
		switch {
		case err != nil:
			return nil, show.DesignID{}, inputErrorf("--bore: %v", err)
		case !(q.Nominal >= 0.01 && q.Nominal <= 0.15):
			return nil, show.DesignID{}, inputErrorf("--bore: %q is outside %s to %s", c.flags.String("bore"),
				c.style.Units.Words(quantity.Length, 0.01, quantity.Up), c.style.Units.Words(quantity.Length, 0.15, quantity.Down))
		}
		bore = q.Nominal
	}
	return c.openDesign("sketch.toml", manual.Sketch(bore), nil)
}
