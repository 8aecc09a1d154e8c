package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/usage"
)

// completionCommand prints a script that completes commands and flags.
func completionCommand() *Command {
	return &Command{Name: "completion", Operands: "SHELL", Min: 1, Max: 1, Words: shells(), Run: runCompletion,
		Summary: "print a script that completes commands and flags in a shell",
		Help: []string{
			"Prints a script for bash, zsh or fish. With it the Tab key completes commands, flags and file names.",
		},
		Examples: []Example{
			{"source <(puffproof completion bash)", "for this shell only; put the line into ~/.bashrc to keep it"},
			{"puffproof completion zsh > ~/.zsh/_puffproof", "where ~/.zsh is in fpath"},
			{"puffproof completion fish > ~/.config/fish/completions/puffproof.fish", "for every fish"},
		},
	}
}

func shells() []string { return []string{"bash", "zsh", "fish"} }

func runCompletion(_ context.Context, call *Call) (status, error) {
	reg := newRegistry()
	switch call.Args[0] {
	case "bash":
		fmt.Fprint(call.Out, reg.Bash())
	case "zsh":
		fmt.Fprint(call.Out, reg.Zsh())
	case "fish":
		fmt.Fprint(call.Out, reg.Fish())
	default:
		if near := usage.Nearest(call.Args[0], shells(), nil); near != "" {
			return 0, inputErrorf("unknown shell %q; did you mean %s?", call.Args[0], near)
		}
		return 0, inputErrorf("unknown shell %q; there is a script for bash, zsh or fish", call.Args[0])
	}
	return statusOK, nil
}
