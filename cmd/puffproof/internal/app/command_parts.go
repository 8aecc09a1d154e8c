package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
)

// partsCommand lists what a launcher is made of.
func partsCommand() *Command {
	return &Command{Name: "parts", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runParts,
		Summary: "what to buy, and what is joined to what",
		Help: []string{
			"Lists every part of the design with its figures and rating, every hose with bore and length, and what needs current in which " +
				"state. Numbers are those of the circuit diagram, which --plot draws; --wiring draws what [control] says.",
			"--format makes a paper of it for the workbench: circuit diagram, wiring, parts, hoses and wires.",
			"It judges nothing: check does, and a part that differs from the list belongs into the design first. The safety file has the same " +
				"list with room for nameplates and documents.",
		},
		Options: []Option{
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "draw the circuit diagram"},
			{Name: "wiring", Value: "FILE.svg", Files: true, Writes: true, Help: "draw the wiring, of a design that has [control]"},
			{Name: "o", Value: "FILE", Files: true, Writes: true, Many: true,
				Help: "write it as a paper; - is standard output; without it parts with the ending of the format"},
			{Name: "format", Value: "FORMAT", Choices: document.Formats(), Many: true,
				Help: "write it as a paper: html, pdf or md, several with commas; without it by the ending of FILE"},
			{Name: "force", Help: "let --plot, --wiring, -o and --format replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof parts whale.toml", "the list"},
			{"puffproof parts whale.toml --plot circuit.svg", "with the diagram"},
			{"puffproof parts soapbox.toml --wiring wiring.svg", "with the wiring"},
			{"puffproof parts whale.toml --format html", "writes parts.html"},
		},
	}
}

func runParts(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	wiring, stated := curve.Wiring(l.Control)
	if call.flags.IsSet("wiring") && !stated {
		return 0, inputErrorf("--wiring: the design states no wiring; puffproof keys control says how it is stated")
	}
	s := paper.ShoppingOf(l, call.style.Units)
	if call.flags.IsSet("o") || call.flags.IsSet("format") {
		return call.partsPaper(ctx, paper.Input{Launcher: l, Design: id, Units: call.style.Units, Date: call.today()}, s)
	}
	doc, err := export.Parts(id, s)
	if err := call.show(doc, err, &screen.PartsScreen{Frame: call.frame(id), Shopping: s}); err != nil {
		return 0, err
	}
	err = call.plot(ctx, func() ([]byte, error) {
		c, _ := paper.Circuit(l, call.style.Units)
		return svgOf(c.Draw())
	})
	if err != nil || !call.flags.IsSet("wiring") {
		return statusOK, err
	}
	svg, err := svgOf(wiring.Draw())
	if err != nil {
		return 0, err
	}
	return statusOK, call.writeNew(ctx, call.flags.String("wiring"), svg)
}

// svgOf is a drawing as a file, where it could be made.
func svgOf(d *figure.Drawing, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	return d.SVG()
}

// partsPaper writes the list as a paper.
func (c *Call) partsPaper(ctx context.Context, in paper.Input, s paper.Shopping) (status, error) {
	if c.flags.IsSet("plot") || c.flags.IsSet("wiring") || c.json {
		return 0, inputErrorf("--plot, --wiring and --json go without -o and --format: the paper has the diagrams")
	}
	targets, err := c.paperTargets("parts")
	if err != nil {
		return 0, err
	}
	doc, err := paper.PartsList(in, s)
	if err != nil {
		return 0, fmt.Errorf("a figure: %w", err)
	}
	for i := range targets {
		if targets[i].data, err = document.Write(doc, targets[i].format); err != nil {
			return 0, err
		}
	}
	if targets[0].file == "-" {
		c.Out.Write(targets[0].data)
		return statusOK, nil
	}
	if err := c.placeAll(ctx, targets); err != nil {
		return 0, err
	}
	for _, t := range targets {
		fmt.Fprintf(c.Out, "Wrote %s.\n", show.Clean(t.file))
	}
	return statusOK, nil
}
