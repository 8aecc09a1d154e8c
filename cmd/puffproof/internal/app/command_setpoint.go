package app

import (
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/benchmark"
	"puffproof/limits/setpoint"
)

// setpointCommand finds the highest cut-out.
func setpointCommand() *Command {
	return &Command{Name: "setpoint", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runSetpoint,
		Summary: "the highest cut-out, the cut-in, the relief valve's window",
		Help: []string{
			"Finds the highest pressure at which the switch of the design DESIGN may cut out, so that the worst launcher within all tolerances " +
				"stays within the energy limits: in normal running, filled cold and left in the heat, and with the switch welded shut and the " +
				"relief valve at full flow. Every rating must hold and the ladder of pressures must stay in order.",
			"The order of solution is fixed: the highest pressure at a fault, from it the relief valve's set pressure, from it the cut-out, " +
				"from it the cut-in. A relief valve that the design has stays where it is unless it is set too high.",
			"The launcher can be fired at any pressure while it fills, and more pressure does not always mean more energy: the answer is the " +
				"lowest start pressure from which some launcher shoots too hard, with the shot that proves it.",
			"Every verdict that hangs on the pressures is judged at these settings, as check does, and they are lowered until all hold.",
			"Bench tests are inputs: raw readings in the table [bench] of the design replace assumed bands, and the answer says by how much it " +
				"moved.",
			"--shots adds the basis measured: bands narrow, normal running must stay within the measured bound as far as it can be carried, and " +
				"a fault rests on the model all the same.",
			"Exit status 1 means that no cut-out works, that the design's own is above the highest, that its relief valve is set too high or " +
				"missing, that it lacks a switch, that a fault fails at any cut-out, or that the answer is not known because an input is not stated.",
		},
		Options: []Option{
			shotsOption("take measured shots and bench tests in, as check does: normal running must stay within their bound too"),
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "also draw the ladder"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof setpoint whale.toml", "the answer, the ladder, how to set the switch"},
			{"puffproof setpoint whale.toml --plot ladder.svg", "with a drawing of the ladder"},
			{"puffproof setpoint whale.toml --shots shots.csv", "with measured shots"},
			{"puffproof setpoint --json whale.toml", "for another program"},
		},
	}
}

func runSetpoint(ctx context.Context, call *Call) (status, error) {
	l, id, found, err := call.readMeasured(ctx)
	if err != nil {
		return 0, err
	}
	answer, err := setpoint.Find(ctx, l, setpoint.Options{Measured: found, Day: call.today()})
	if err != nil {
		return 0, err
	}
	doc, err := export.Setpoint(id, answer)
	err = call.show(doc, err, &screen.SetpointScreen{Frame: call.frame(id), Setpoint: answer, Cautions: benchmark.Cautions()})
	if err != nil {
		return 0, err
	}
	err = call.plot(ctx, func() ([]byte, error) {
		f := curve.Ladder(answer.Ladder, call.style.Units) // that of the safety file
		f.Rows.Title, f.Rows.Wide = show.Clean(id.Title()), true
		if len(f.Beyond) > 0 {
			f.Rows.Note = "Beyond the right edge: " + strings.Join(f.Beyond, ", ")
		}
		d, err := f.Rows.Draw()
		if err != nil {
			return nil, err
		}
		return d.SVG()
	})
	return heldStatus(answer.Holds()), err
}
