package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/screen"
)

// partsCommand lists what a launcher is made of.
func partsCommand() *Command {
	return &Command{Name: "parts", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runParts,
		Summary: "what to buy, and what is joined to what",
		Help: []string{
			"Lists every part of the design with its figures and rating, every hose with bore and length, and what needs current in which " +
				"state. Numbers are those of the circuit diagram, which --plot draws.",
			"It judges nothing: check does, and a part that differs from the list belongs into the design first. The safety file has the same " +
				"list with room for nameplates and documents.",
		},
		Options: []Option{
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "draw the circuit diagram"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof parts whale.toml", "the list"},
			{"puffproof parts whale.toml --plot circuit.svg", "with the diagram"},
		},
	}
}

func runParts(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	s := paper.ShoppingOf(l, call.style.Units)
	doc, err := export.Parts(id, s)
	if err := call.show(doc, err, &screen.PartsScreen{Frame: call.frame(id), Shopping: s}); err != nil {
		return 0, err
	}
	return statusOK, call.plot(ctx, func() ([]byte, error) {
		c, _ := paper.Circuit(l, call.style.Units)
		d, err := c.Draw()
		if err != nil {
			return nil, err
		}
		return d.SVG()
	})
}
