package app

import (
	"context"
	"fmt"
	"io"
	"runtime"

	"puffproof/cmd/puffproof/internal/build"
)

// versionCommand names the program.
func versionCommand() *Command {
	return &Command{Name: "version", Run: runVersion,
		Summary: "the program's version",
		Help: []string{
			"Prints the version of the program, as --version does. Papers name it with the kind of processor that they were made on; --json " +
				"gives both.",
		},
		Examples: []Example{
			{"puffproof version", "one line"},
			{"puffproof version --json", "for another program"},
		},
	}
}

func runVersion(_ context.Context, call *Call) (status, error) {
	if call.json {
		return statusOK, call.writeJSON(map[string]any{"version": build.Version(), "processor": runtime.GOARCH})
	}
	writeVersion(call.Out)
	return statusOK, nil
}

// writeVersion prints the version in one line.
func writeVersion(w io.Writer) { fmt.Fprintln(w, "puffproof", build.Version()) }
