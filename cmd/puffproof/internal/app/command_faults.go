package app

import (
	"context"
	"slices"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
)

// faultsCommand runs every single fault.
func faultsCommand() *Command {
	return &Command{Name: "faults", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runFaults,
		Summary: "every single fault of every part, what it does, worst first",
		Help: []string{
			"Makes every single fault that the parts of the design file DESIGN can have: valves stuck, leaking or energised unasked, a relief " +
				"valve stuck shut, a switch welded, a gauge that reads low, a restrictor missing, power lost, a projectile that sticks. The list " +
				"follows from the parts; a path more has its faults too.",
			"Where a fault can change the shot, its worst case over all tolerances is searched. Faults that cannot, by the circuit, are listed " +
				"with the reason and without a search.",
			"A fault that nobody notices is there when the next one happens. Such pairs rest on a test of the checklist that is to find the " +
				"first before: until it is done, a pair above the limit is OPEN. --pairs computes every pair, worst first. That takes a while.",
			"Exit status 1 means that a single fault, or with --pairs a pair, exceeds the limits or is unknown, or that a verdict does not hold.",
		},
		Options: []Option{{Name: "pairs", Help: "also compute every pair of faults, worst first"}},
		Examples: []Example{
			{"puffproof faults whale.toml", "single faults, worst first"},
			{"puffproof faults whale.toml --pairs", "and every pair of them"},
			{"puffproof faults --json whale.toml", "for another program"},
		},
	}
}

func runFaults(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	pairs := whether(call, "pairs", fault.EveryPair, fault.LatentPairs)
	report, err := limits.Faults(ctx, l, call.today(), pairs)
	if err != nil {
		return 0, err
	}
	if err := call.prove(ctx, nil, report.Verdicts); err != nil {
		return 0, err
	}
	doc, err := export.Faults(id, report)
	err = call.show(doc, err, &screen.FaultsScreen{Frame: call.frame(id), Report: report})
	fails := func(r fault.Result) bool { return r.Status == finding.Fail || r.Status == finding.Unknown }
	fail := slices.ContainsFunc(report.Faults, fails) || report.AllPairs && slices.ContainsFunc(report.Pairs, fails)
	return heldStatus(!fail && len(show.Troubled(report.Verdicts)) == 0), err
}
