package app

import (
	"context"
	"errors"
	"slices"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
)

// compareCommand puts two designs side by side.
func compareCommand() *Command {
	return &Command{Name: "compare", Operands: "A B", Min: 2, Max: 2, Files: true, Run: runCompare,
		Summary: "two designs: what differs, and what comes of it",
		Help: []string{
			"Reads the design files A and B, such as one before and after a change, and lists every key that they do not write alike, in the " +
				"order of the file. The same quantity in other units counts as written otherwise.",
			"Then both are judged as check does and their results stand side by side: speed and energies, what a stuck projectile could do, " +
				"lung pressure, times to empty, highest pressures, and every verdict whose answer differs. --setpoint adds the highest set " +
				"pressures, which takes longer.",
			"The exit status is that of a check of B: 0 where B holds, 1 where a verdict of B fails or is unknown, whatever A does; 2 where " +
				"either file is wrong.",
		},
		Options: []Option{{Name: "setpoint", Help: "also find the highest cut-out, the cut-in and the relief valve's set pressure of both"}},
		Examples: []Example{
			{"puffproof compare whale.toml whale-small.toml", "what the smaller one changes"},
			{"puffproof compare whale.toml whale-small.toml --setpoint", "and how far each may be set"},
			{"puffproof compare --json old.toml new.toml", "for another program"},
		},
	}
}

func runCompare(ctx context.Context, call *Call) (status, error) {
	if call.Args[0] == "-" && call.Args[1] == "-" {
		return 0, inputErrorf("compare reads two files: only one of them can be standard input")
	}
	a, idA, errA := call.editableOf(ctx, call.Args[0])
	b, idB, errB := call.editableOf(ctx, call.Args[1])
	if err := firstOrBoth(errA, errB); err != nil {
		return 0, err
	}
	found, err := limits.Compare(ctx, a.Launcher(), b.Launcher(), call.today(),
		whether(call, "setpoint", limits.WithSetPressures, limits.WithoutSetPressures))
	if err != nil {
		return 0, err
	}
	var differs []show.KeyDifference
	for _, d := range design.Differences(a, b) {
		differs = append(differs, show.KeyDifference(d))
	}
	doc, err := export.Compare(idA, idB, differs, found)
	err = call.show(doc, err, &screen.CompareScreen{Frame: call.frame(idA), Second: idB, Differs: differs, Results: found})
	return checkStatus(found.B, false), err
}

// firstOrBoth is the first of two errors, or what is wrong inside of both files.
func firstOrBoth(a, b error) error {
	var one, two *fileError
	if errors.As(a, &one) && errors.As(b, &two) {
		return &fileError{slices.Concat(one.problems, two.problems)}
	}
	if a != nil {
		return a
	}
	return b
}
