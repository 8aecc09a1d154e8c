package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/usage"
)

// Command is one command of the program. To add one, write a file that returns
// a Command and add its line to newRegistry.
type Command = usage.Command[runner]

// Option and Example are those of a command.
type (
	Option  = usage.Option
	Example = usage.Example
)

// runner does a command's work. The status counts where there is no error; an error has
// its own.
type runner = func(ctx context.Context, call *Call) (status, error)

// registry is the list of commands of one run.
type registry = usage.Registry[runner]

// newRegistry lists the commands in the order of the overview.
func newRegistry() registry {
	return registry{Commands: []*Command{initCommand(),
		keysCommand(), checkCommand(), explainCommand(), adviseCommand(), compareCommand(), shotCommand(), setpointCommand(), sizeCommand(),
		ventCommand(), faultsCommand(), calibrateCommand(), flightCommand(), planCommand(), partsCommand(), itemsCommand(), commissionCommand(),
		pageCommand(),
		dossierCommand(), cardCommand(), verifyCommand(), selfCheckCommand(),
		completionCommand(), versionCommand()}}
}
