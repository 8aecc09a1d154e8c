package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// checkCommand judges a design.
func checkCommand() *Command {
	return &Command{Name: "check", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runCheck,
		Summary: "judge a design on one screen, worst verdict first",
		Help: []string{
			"Reads the design file DESIGN and asks every question a careful adult would: how hard can it shoot at the worst combination of " +
				"tolerances, can a vessel burst, what if the muzzle is plugged or a pebble lies in the barrel.",
			"Each answer is PASS, CONDITIONAL (it holds only while people keep the condition shown: that is not a pass), FAIL, UNKNOWN (an " +
				"input is missing: that is not a pass) or n.a. (not applicable). Failures and unknowns come first, each in one line, then what to do " +
				"first; --full prints every verdict with its reasons and what to change.",
			"An energy rests on one of three bases. The ceiling is what the air could do at most, whatever the valve. The model is the worst " +
				"computed shot, times a factor. Measured is a bound from at least 5 real shots. A pass on the model does not mean that anyone may " +
				"play: the screen says which items are still open.",
			"Exit status 1 means that some verdict fails or is unknown. Open items do not change it; --require-confirmed makes them count.",
		},
		Options: []Option{
			{Name: "full", Help: "print every verdict whole, with reasons, advice and sources; the cautions whole"},
			{Name: "sources", Help: "print the list of sources that the numbers in brackets mean"},
			{Name: "assumed", Help: "list every value the design did not state and the band assumed for it"},
			{Name: "thorough", Help: "also run the worst shot in the wave model, one-dimensional gas dynamics; takes some seconds"},
			shotsOption("judge on the measured basis: the shots and bench tests of calibrate"),
			{Name: "require-confirmed", Help: "exit status 1 unless measured shots confirm it, no item is open and every answer is recorded"},
		},
		Examples: []Example{
			{"puffproof check whale.toml", "the finding, what is not passed, what to do first"},
			{"puffproof check whale.toml --full", "every verdict with its reasons"},
			{"puffproof check whale.toml --units us --sources", "in psi and ft/s, with the sources"},
			{"puffproof check --json whale.toml > verdicts.json", "for another program"},
		},
	}
}

func runCheck(ctx context.Context, call *Call) (status, error) {
	l, id, found, err := call.readMeasured(ctx)
	if err != nil {
		return 0, err
	}
	day := call.today()
	depth := whether(call, "thorough", worst.Thorough, worst.Quick)
	report, err := limits.Check(ctx, l, assessment.Options{Measured: found, Depth: depth, Day: day})
	if err != nil {
		return 0, err
	}
	frame := call.frame(id)
	if frame.Detail == screen.Everything && !call.flags.Bool("full") {
		frame.Detail = screen.OneScreen
	}
	if frame.Detail != screen.OneScreen || call.json { // else no advice is shown but that of what to do first
		if err := call.prove(ctx, found, report.Verdicts); err != nil {
			return 0, err
		}
	}
	report.Readvise()
	if report.InTurn, err = call.inTurn(ctx, found, &report); err != nil {
		return 0, err
	}
	report.Notes = append(report.Notes, finding.AllWords(dueNotes(l, day))...)
	doc, err := export.Check(id, report)
	err = call.show(doc,
		err, &screen.CheckScreen{Frame: frame, Report: report, File: call.Args[0], Scope: benchmark.Scope(), Cautions: benchmark.Cautions(),
			Sources: whether(call, "sources", screen.Listed, screen.Counted), Assumed: whether(call, "assumed", screen.Listed, screen.Counted)})
	return checkStatus(report, call.flags.Bool("require-confirmed")), err
}

// checkStatus is the exit status of a report; confirmed says that open items
// count too.
func checkStatus(r limits.Report, confirmed bool) status {
	return heldStatus(r.Holds && (r.Confirmed || !confirmed))
}

// dueNotes says what of a design's own dates is past on a day, and which comes
// next. The yearly inspection counts from the day of a safety file, so it is
// left to that. Days are ISO dates.
func dueNotes(l *launcher.Launcher, day string) []string {
	var out []string
	for _, d := range l.DueDates(day) {
		switch {
		case d.Kind == launcher.YearlyFile:
		case d.Date < day:
			out = append(out, fmt.Sprintf("EXPIRED on %s: %s. Not to be used until that is done.", d.Date, d.What))
		default:
			return append(out, fmt.Sprintf("Next date: %s, %s.", d.Date, d.What))
		}
	}
	return out
}
