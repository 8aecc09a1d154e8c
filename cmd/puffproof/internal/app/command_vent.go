package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/launcher"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
)

// ventCommand shows how a launcher empties.
func ventCommand() *Command {
	return &Command{Name: "vent", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runVent,
		Summary: "does it empty: switched off, without power, by the stopwatch",
		Help: []string{
			"Empties the launcher of the design file DESIGN, switched off and without power, from every state and from the highest pressure " +
				"that the ladder allows. A volume without an open way out is TRAPPED; one that takes longer than [venting] within is SLOW.",
			"The times are at most (coldest, narrowest, largest), expected (as stated, heat from the walls) and at least. The stopwatch test " +
				"starts where the supply stops by itself and lists the gauge readings to expect: print it, or write it with --sheet, fill it in " +
				"and give it to --log (--csv writes all tests in SI units).",
			"--log judges a real test: a CSV file whose first line names the columns with their units, \"time [s],gauge [bar]\". An empty line " +
				"or a column \"run\" parts several runs; gaps and a clock started some seconds late do no harm. Begin at the cut-out: air that " +
				"fell fast from more is colder and reads slower. A log that stops before the target is never called good.",
			"--leak-log judges a leak-down: charged to the cut-out, armed, supply off, nothing loaded, read for some minutes in a file of the " +
				"same form. Air that was just pumped in is warm, and the reading falls as it cools: what is left after that is a leak. A log that " +
				"stops before the cooling is over is never called tight.",
			"Exit status 1 means that a verdict fails or is unknown, that the log does not agree, or that the leak-down is not tight.",
		},
		Options: []Option{
			{Name: "csv", Value: "FILE", Files: true, Writes: true, Help: "also write the stopwatch sheet as CSV, in SI units"},
			sheetOption("the stopwatch test of one gauge in its own unit, which --log reads back"),
			{Name: "leak-sheet", Value: "FILE.csv", Files: true, Writes: true, Help: "the same of the leak-down, which --leak-log reads back"},
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "also draw the emptying without power"},
			{Name: "force", Help: "let --csv, the sheets and --plot replace a file that exists"},
			{Name: "size", Help: "also say which vent each volume needs, as a drill, and what it costs the supply"},
			{Name: "log", Value: "FILE", Files: true, Help: "judge the readings of a real test"},
			{Name: "leak-log", Value: "FILE", Files: true, Help: "judge the readings of a leak-down"},
			{Name: "volume", Value: "NAME", Help: "the volume whose gauge the log or the sheet is of; the gauge's own unless stated"},
		},
		Examples: []Example{
			{"puffproof vent whale.toml", "times, stopwatch sheet, verdicts"},
			{"puffproof vent whale.toml --csv sheet.csv --size", "with the sheet as a file and the vents to drill"},
			{"puffproof vent whale.toml --sheet tank.csv --volume tank", "a blank sheet of the test, to fill in"},
			{"puffproof vent whale.toml --plot emptying.svg", "with a drawing"},
			{"puffproof vent whale.toml --log readings.csv", "what a real test says about the vent"},
			{"puffproof vent whale.toml --leak-log sealed.csv", "whether it holds its air, once it has cooled"},
		},
	}
}

func runVent(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	if f := call.flags; f.IsSet("volume") && !f.IsSet("log") && !f.IsSet("leak-log") && !f.IsSet("sheet") && !f.IsSet("leak-sheet") {
		return 0, inputErrorf("--volume says which gauge a log or a sheet is of; it needs --log, --leak-log, --sheet or --leak-sheet")
	}
	log, err := call.logIfGiven(ctx, l, "log")
	if err != nil {
		return 0, err
	}
	leak, err := call.logIfGiven(ctx, l, "leak-log")
	if err != nil {
		return 0, err
	}
	a, err := call.emptying(ctx, l, log, leak)
	if err != nil {
		return 0, err
	}
	if err := call.prove(ctx, nil, a.report.Verdicts); err != nil {
		return 0, err
	}
	doc, err := export.Vent(id, a.report, a.sizes, export.Logs{Vent: a.log, Leak: a.leak})
	err = call.show(doc, err, &screen.VentScreen{Frame: call.frame(id), Report: a.report, Sizes: a.sizes, Log: a.log, Leak: a.leak})
	if err != nil {
		return 0, err
	}
	if call.flags.IsSet("csv") {
		sheet, err := export.VentCSV(a.report)
		if err != nil {
			return 0, err
		}
		if err := call.writeNew(ctx, call.flags.String("csv"), sheet); err != nil {
			return 0, err
		}
	}
	for i, of := range [...]export.BlankSheet{export.EmptyingSheet, export.LeakSheet} {
		flag := [...]string{"sheet", "leak-sheet"}[i]
		if err = call.blankSheet(ctx, flag, l, func(v string, u unit.Unit) ([]byte, error) { return of(a.report, v, u) }); err != nil {
			return 0, err
		}
	}
	err = call.plot(ctx, func() ([]byte, error) { return figure.LinesSVG(curve.Vent(id, a.report, call.style.Units)) })
	return a.status(), err
}

// emptied is all that vent shows.
type emptied struct {
	report *vent.Report
	sizes  []vent.Size
	log    *stopwatch.Answer
	leak   *vent.LeakAnswer
}

// emptying computes how a launcher empties, the vents to drill with --size, and
// what the logs say; nil: none was given.
func (c *Call) emptying(ctx context.Context, l *launcher.Launcher, log, leak *vent.Log) (a emptied, err error) {
	if a.report, err = limits.Empty(ctx, l, c.today()); err != nil {
		return a, err
	}
	if c.flags.Bool("size") {
		if a.sizes, err = vent.Sizes(l, a.report.Target); err != nil {
			return a, err
		}
	}
	if log != nil {
		if a.log, err = stopwatch.Judge(l, *log, c.today()); err != nil {
			return a, err
		}
	}
	if leak != nil {
		a.leak, err = vent.JudgeLeakDown(l, *leak)
	}
	return a, err
}

// status is the exit status of an answer.
func (a emptied) status() status {
	return heldStatus((a.log == nil || a.log.Status == stopwatch.Agrees) && (a.leak == nil || a.leak.Status == vent.LeakTight) &&
		len(show.Troubled(a.report.Verdicts)) == 0)
}
