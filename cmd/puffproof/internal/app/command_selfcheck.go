package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/cmd/puffproof/internal/show"
)

// selfCheckCommand runs the check values.
func selfCheckCommand() *Command {
	return &Command{Name: "self-check", Run: runSelfCheck,
		Summary: "run check values, each with its source, on this machine",
		Help: []string{
			"Computes figures that were made elsewhere (tables of handbooks, exact solutions, experiments) with this program on this machine, " +
				"and prints each with its source, what was expected and found, the difference, and the tolerance with its reason.",
			"It says that the program computes what its equations say. It does not say that the equations fit your launcher: only measured " +
				"shots do.",
			"Exit status 3 means that a value does not come out: trust no figure of the program then.",
		},
		Examples: []Example{
			{"puffproof self-check", "the table"},
			{"puffproof self-check --quiet", "one line, and what fails"},
			{"puffproof self-check --json > checks.json", "for another program"},
		},
	}
}

func runSelfCheck(ctx context.Context, call *Call) (status, error) {
	rows, err := selfcheck.Run(ctx)
	if err != nil {
		return 0, err
	}
	doc, err := export.SelfCheck(rows)
	err = call.show(doc, err, &screen.SelfCheckScreen{Frame: call.frame(show.DesignID{}), Rows: rows})
	if selfcheck.Failures(rows) > 0 {
		return statusWithheld, err
	}
	return statusOK, err
}
