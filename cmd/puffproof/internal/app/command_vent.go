package app

import (
	"context"
	"fmt"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/readings"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"strings"
	"time"
)

// ventCommand shows how a launcher empties.
func ventCommand() *Command {
	return &Command{
		Name:     "vent",
		Summary:  "does it empty: switched off, without power, by the stopwatch",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Empties the launcher of the design file DESIGN, switched off and without power, from every state and from the highest " +
				"pressure that the ladder allows. A volume without an open way out is TRAPPED; one that takes longer than [venting] " +
				"within is SLOW.",
			"The times are at most (coldest, narrowest, largest), expected (as stated, heat from the walls) and at least. The " +
				"stopwatch test starts where the supply stops by itself and lists the gauge readings to expect: print it, or write it with --csv.",
			"--log judges a real test: a CSV file whose first line names the columns with their units, \"time [s],gauge [bar]\". " +
				"An empty line or a column \"run\" parts several runs; gaps and a clock started some seconds late do no harm. Begin at the cut-out: air that fell fast from " +
				"more is colder and reads slower. A log that stops " +
				"before the target is never called good.",
			"--leak-log judges a leak-down: charged to the cut-out, armed, supply off, nothing loaded, read for some minutes in a file of the same " +
				"form. Air that was just pumped in is warm, and the reading falls as it cools: what is left after that is a leak. A log that stops " +
				"before the cooling is over is never called tight.",
			"Exit status 1 means that a verdict fails or is unknown, that the log does not agree, or that the leak-down is not tight.",
		},
		Options: []Option{
			{Name: "csv", Value: "FILE", Files: true, Help: "also write the stopwatch sheet as CSV, in SI units"},
			{Name: "plot", Value: "FILE.svg", Files: true, Help: "also draw the emptying without power"},
			{Name: "force", Help: "let --csv and --plot replace a file that exists"},
			{Name: "size", Help: "also say which vent each volume needs, as a drill, and what it costs the supply"},
			{Name: "log", Value: "FILE", Files: true, Help: "judge the readings of a real test"},
			{Name: "leak-log", Value: "FILE", Files: true, Help: "judge the readings of a leak-down"},
			{Name: "volume", Value: "NAME", Help: "the volume whose gauge the log is of; the gauge's own unless stated"},
		},
		Examples: []Example{
			{"puffproof vent whale.toml", "times, stopwatch sheet, verdicts"},
			{"puffproof vent whale.toml --csv sheet.csv --size", "with the sheet as a file and the vents to drill"},
			{"puffproof vent whale.toml --plot emptying.svg", "with a drawing"},
			{"puffproof vent whale.toml --log readings.csv", "what a real test says about the vent"},
			{"puffproof vent whale.toml --leak-log sealed.csv", "whether it holds its air, once it has cooled"},
		},
		Run: runVent,
	}
}

func runVent(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign()
	if err != nil {
		return statusInput, err
	}
	ask, err := call.ventAsk(l)
	if err != nil {
		return statusInput, err
	}
	if err := call.targets("csv", "plot"); err != nil {
		return statusInput, err
	}
	answer, err := call.services.vent(ctx, l, ask)
	if err != nil {
		return statusWithheld, err
	}
	doc, err := render.VentJSON(id, answer.report, answer.sizes, render.VentLogs{Vent: answer.log, Leak: answer.leak})
	if err != nil {
		return statusWithheld, err
	}
	if call.json {
		err = call.writeJSON(doc)
	} else {
		unit.Sentences(answer.report, call.style.Units)
		unit.Sentences(answer.log, call.style.Units)
		unit.Sentences(answer.leak, call.style.Units)
		screen := render.VentScreen{Style: call.style, Design: id, Report: answer.report, Sizes: answer.sizes, Log: answer.log, Leak: answer.leak}
		if call.quiet {
			screen.Detail = render.FindingOnly
		}
		err = screen.Write(call.Out)
	}
	if err != nil {
		return statusWithheld, err
	}
	if call.flags.IsSet("csv") {
		sheet, err := render.VentCSV(answer.report)
		if err != nil {
			return statusWithheld, err
		}
		if err := call.writeNew(ctx, call.flags.String("csv"), sheet); err != nil {
			return statusInput, err
		}
	}
	if call.flags.IsSet("plot") {
		svg, err := figure.LinesSVG(render.VentLines(id, answer.report, call.style.Units))
		if err != nil {
			return statusWithheld, fmt.Errorf("the figure: %w", err)
		}
		if st, err := call.writeFigure(ctx, call.flags.String("plot"), svg); err != nil {
			return st, err
		}
	}
	return answer.status(), nil
}

// ventAsk is what is asked beside the emptying.
func (c *Call) ventAsk(l *launcher.Launcher) (ask ventAsk, err error) {
	ask.size, ask.day = c.flags.Bool("size"), time.Now().Format(time.DateOnly)
	if !c.flags.IsSet("log") && !c.flags.IsSet("leak-log") && c.flags.IsSet("volume") {
		return ask, inputErrorf("--volume says which gauge a log is of; it needs --log or --leak-log")
	}
	if ask.log, err = c.readLog(l, "log"); err != nil {
		return ask, err
	}
	ask.leak, err = c.readLog(l, "leak-log")
	return ask, err
}

// readLog reads the file of an option; nil where it is not given.
func (c *Call) readLog(l *launcher.Launcher, option string) (*vent.Log, error) {
	if !c.flags.IsSet(option) {
		return nil, nil
	}
	name := c.flags.String(option)
	data, err := c.readFile(name)
	if err != nil {
		return nil, err
	}
	log, err := logFrom(l, name, data)
	if err != nil {
		return nil, err
	}
	said := name // the file may name it, as a filled-in sheet does
	if v := c.flags.String("volume"); v != "" {
		log.Volume, said = v, "--volume"
	}
	if log.Volume == "" {
		return &log, nil
	}
	var known []string
	for _, v := range l.Volumes {
		if v.Name == log.Volume {
			return &log, nil
		}
		known = append(known, v.Name)
	}
	return nil, inputErrorf("%s: no volume is named %q; there are %s", said, log.Volume, strings.Join(known, ", "))
}

// logFrom understands the text of a log.
func logFrom(l *launcher.Launcher, name string, data []byte) (vent.Log, error) {
	log, problems := readings.Read(name, data, l.Ambient.Pressure.Nominal)
	if len(problems) == 0 {
		return log, nil
	}
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n")
	}
	return log, &listedError{inputErrorf("%s", b.String())}
}

// status is the exit status of an answer.
func (a ventAnswer) status() status {
	if a.log != nil && a.log.Status != vent.LogAgrees || a.leak != nil && a.leak.Status != vent.LeakTight {
		return statusNotHeld
	}
	return verdictsStatus(a.report.Verdicts)
}

// verdictsStatus is the exit status of some verdicts.
func verdictsStatus(verdicts []finding.Verdict) status {
	for _, v := range verdicts {
		if v.Status == finding.Fail || v.Status == finding.Unknown {
			return statusNotHeld
		}
	}
	return statusOK
}
