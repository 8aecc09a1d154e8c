package paper

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Shopping is what a launcher is made of, and what joins it: the parts, the hoses, and what needs current.
type Shopping struct {
	Parts []Part
	Hoses []Hose
	Wires []show.Wire
}

// Hose is a hose that the design states; a connection without one is a fitting, or as short as that.
type Hose struct {
	Of, From, To string // the part that it belongs to; what it joins
	Size, Rated  string // bore and length; its rating, "": not stated
	Spec         *launcher.HoseSpec
}

// ShoppingOf lists what a launcher is made of. The numbers of parts are those of its circuit diagram.
func ShoppingOf(l *launcher.Launcher, units quantity.System) Shopping {
	in := &Input{Units: units}
	out := Shopping{Parts: in.parts(l)}
	for _, part := range partsOf(l) {
		p := part.path
		if h := p.Hose; h != nil {
			from, to := p.From, p.Name
			switch {
			case p.Kind == pneumatics.Hose:
				to = p.To
			case h.Side == launcher.HoseAfter:
				from, to = p.Name, p.To
			}
			out.Hoses = append(out.Hoses, Hose{Of: p.Name, From: from, To: to, Size: in.hoseSize(h), Rated: in.stated("", h.RatedPressure,
				quantity.Gauge), Spec: h})
		}
		if p.Kind == pneumatics.Valve {
			out.Wires = append(out.Wires, show.CoilOf(l, p))
		}
	}
	out.Wires = append(out.Wires, show.OtherWires(l)...)
	return out
}

// PartsList is the list as a paper, under its circuit diagram. It judges nothing.
func PartsList(in Input, s Shopping) (*document.Document, error) {
	b := &builder{in: &in, paper: "parts list"}
	c, words := Circuit(in.Launcher, in.Units)
	b.draw("Circuit diagram", words, c.Draw)
	b.wiring()
	parts := document.Table{Caption: "Parts, numbered as in the diagram", Head: []string{"Part", "What", "Figures"}, Widths: []int{16, 38, 46}}
	for _, p := range s.Parts {
		parts.Add(document.AsGiven(p.Name), p.What, p.Figures)
	}
	hoses := document.Table{Caption: "Hoses; every other connection is a fitting", Head: []string{"From", "To", "Bore and length", "Rated"}}
	for _, h := range s.Hoses {
		hoses.Add(document.AsGiven(h.From), document.AsGiven(h.To), h.Size, h.Rated)
	}
	wires := document.Table{Caption: "Wires", Head: []string{"Part", "Current"}, Widths: []int{22, 78}}
	for _, w := range s.Wires {
		wires.Add(document.AsGiven(w.Part), w.Says())
	}
	if b.add(parts); len(s.Hoses) > 0 {
		b.add(hoses)
	}
	b.add(wires)
	return &document.Document{Title: "Parts list: " + b.named(), Heading: "Parts list of the design named " + b.named(),
		Running: "What the design states. It judges nothing: check does.", Date: in.Date,
		Foot: fmt.Sprintf("%s; %s; file %s", b.named(), in.Date, in.Design.Fingerprint()), Blocks: b.blocks}, b.err
}
