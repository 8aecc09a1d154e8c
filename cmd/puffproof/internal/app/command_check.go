package app

import (
	"context"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/worst"
	"time"
)

// checkCommand judges a design.
func checkCommand() *Command {
	return &Command{
		Name:     "check",
		Summary:  "judge a design: every verdict on one screen, worst first",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Reads the design file DESIGN and asks every question a careful adult would: how hard can it shoot at the " +
				"worst combination of tolerances, can a vessel burst, what if the muzzle is plugged or a pebble lies in the barrel.",
			"Each answer is PASS, FAIL, UNKNOWN (an input is missing: that is not a pass) or n.a. (not applicable). " +
				"Failures and unknowns come first, with what to change.",
			"An energy rests on one of three bases. The ceiling is what the air could do at most, whatever the valve. " +
				"The model is the worst computed shot, times a factor. Measured is a bound from at least 5 real shots. " +
				"A pass on the model does not mean that anyone may play: the screen says which items are still open.",
			"Exit status 1 means that some verdict fails or is unknown. Open items do not change it; --require-confirmed makes them count.",
		},
		Options: []Option{
			{Name: "sources", Help: "print the list of sources that the numbers in brackets mean"},
			{Name: "assumed", Help: "list every value the design did not state and the band assumed for it"},
			{Name: "thorough", Help: "also run the worst shot in the wave model, one-dimensional gas dynamics; takes some seconds"},
			shotsOption("judge on the measured basis: the shots and bench tests of calibrate"),
			{Name: "require-confirmed", Help: "exit status 1 unless measured shots confirm it and no item is open"},
		},
		Examples: []Example{
			{"puffproof check whale.toml", "the verdicts"},
			{"puffproof check whale.toml --units us --sources", "in psi and ft/s, with the sources"},
			{"puffproof check --json whale.toml > verdicts.json", "for another program"},
		},
		Run: runCheck,
	}
}

func runCheck(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign()
	if err != nil {
		return statusInput, err
	}
	found, err := call.shotsIfGiven(ctx, l)
	if err != nil {
		return statusInput, err
	}
	today := time.Now().Format(time.DateOnly)
	report, err := call.services.check(ctx, l, assessment.Options{Measured: found, Depth: depthOf(call.flags.Bool("thorough")), Day: today})
	if err != nil {
		return statusWithheld, err
	}
	report.Notes = append(report.Notes, dueNotes(l, today)...)
	// The document is made for the screen too: a figure that is no number
	// withholds both.
	doc, err := render.CheckJSON(id, report)
	if err != nil {
		return statusWithheld, err
	}
	if call.json {
		if err := call.writeJSON(doc); err != nil {
			return statusWithheld, err
		}
		return call.checkStatus(report), nil
	}
	unit.Sentences(&report, call.style.Units)
	screen := render.CheckScreen{
		Style:       call.style,
		Design:      id,
		Report:      report,
		Scope:       benchmark.Scope(),
		Cautions:    benchmark.Cautions(),
		DimensionOf: call.services.dimensionOf,
	}
	if call.quiet {
		screen.Detail = render.FindingOnly
	}
	screen.Sources = shown(call.flags.Bool("sources"))
	screen.Assumed = shown(call.flags.Bool("assumed"))
	if err := screen.Write(call.Out); err != nil {
		return statusWithheld, err
	}
	return call.checkStatus(report), nil
}

func depthOf(thorough bool) worst.Depth {
	if thorough {
		return worst.Thorough
	}
	return worst.Quick
}

func shown(flag bool) render.Listing {
	if flag {
		return render.Listed
	}
	return render.Counted
}

// checkStatus is the exit status of a report.
func (c *Call) checkStatus(r limits.Report) status {
	if !r.Holds || (c.flags.Bool("require-confirmed") && !r.Confirmed) {
		return statusNotHeld
	}
	return statusOK
}
