package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/manual"
)

// keysCommand prints the reference of the design file.
func keysCommand() *Command {
	return &Command{Name: "keys", Operands: "[TABLE]", Max: 1, Words: manual.TableNames(), Run: runKeys,
		Summary: "every key of the design file, what it means, how to measure it",
		Help: []string{
			"Prints the reference of the design file: each table with its keys, an example of each, what it is and how to measure it at home, " +
				"what it may hold, what is assumed without it, the tolerance that is taken where you state none, and what builders call it. TABLE " +
				"is one table, such as volumes or pressure_switch; top is what stands above the first one.",
			"--schema prints a JSON schema (draft 2020-12) of the file instead. An editor that knows schemas then completes keys and marks " +
				"unknown ones while you type. Units and values are judged by the program only.",
		},
		Options: []Option{{Name: "schema", Help: "print the JSON schema of the whole file, for editors"}},
		Examples: []Example{
			{"puffproof keys | less", "all keys"},
			{"puffproof keys pressure_switch", "those of one table"},
			{"puffproof keys --schema > puffproof.schema.json", "for an editor"},
			{"puffproof keys --json supply", "for another program"},
		},
	}
}

func runKeys(_ context.Context, call *Call) (status, error) {
	tables := manual.Reference(call.words())
	switch {
	case call.flags.Bool("schema") && len(call.Args) > 0:
		return 0, inputErrorf("--schema is of the whole file: puffproof keys --schema")
	case call.flags.Bool("schema"):
		call.Out.Write(manual.Schema(call.words()))
		return statusOK, nil
	case len(call.Args) > 0:
		one, err := manual.Table(call.Args[0], call.words())
		if err != nil {
			return 0, inputErrorf("%v", err)
		}
		tables = []manual.TableReference{one}
	}
	if call.json {
		return statusOK, call.writeJSON(map[string]any{"version": keys.Version, "tables": tables})
	}
	manual.WriteReference(call.Out, tables)
	return statusOK, nil
}
