package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Shopping is what a launcher is made of, and what joins it: the parts, the hoses, and what needs current.
type Shopping struct {
	Parts []Part
	Hoses []Hose
	Wires []Wire
}

// Hose is a hose that the design states; a connection without one is a fitting, or as short as that.
type Hose struct {
	Of, From, To string // the part that it belongs to; what it joins
	Size, Rated  string // bore and length; its rating, "": not stated
	Spec         *launcher.HoseSpec
}

// Wire is a part that needs current.
type Wire struct {
	Part string
	// Powered are the states in which it has current; nil of one that is no valve. Pulsed: only to move it.
	Powered []pneumatics.State
	Pulsed  bool
	Does    string
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
			out.Wires = append(out.Wires, coilOf(p))
		}
	}
	if l.Supply != nil && l.Supply.Kind == launcher.Compressor {
		does := "runs while its switch is closed"
		if l.Switch != nil {
			does = "through the pressure switch, which opens at the cut-out"
		}
		out.Wires = append(out.Wires, Wire{Part: "compressor", Does: does})
	}
	return out
}

// coilOf is the wire of a solenoid valve.
func coilOf(p *launcher.PathSpec) Wire {
	w := Wire{Part: p.Name, Powered: []pneumatics.State{}, Does: "without current it is " + p.Unpowered.String()}
	if p.Unpowered == pneumatics.Stays {
		w.Pulsed, w.Does = true, "current moves it; without it stays where it is"
		return w
	}
	for _, s := range pneumatics.States() {
		if p.PoweredIn().Has(s) {
			w.Powered = append(w.Powered, s)
		}
	}
	return w
}

// Says is in which states a wire carries current, and what that does.
func (w Wire) Says() string {
	switch states := strings.ReplaceAll(strings.Trim(fmt.Sprint(w.Powered), "[]"), " ", ", "); {
	case states != "":
		return "current in " + states + "; " + w.Does
	case w.Powered != nil && !w.Pulsed:
		return "no current in any state; " + w.Does
	}
	return w.Does
}

// PartsList is the list as a paper, under its circuit diagram. It judges nothing.
func PartsList(in Input, s Shopping) (*document.Document, error) {
	b := &builder{in: &in, paper: "parts list"}
	c, words := Circuit(in.Launcher, in.Units)
	b.draw("Circuit diagram", words, c.Draw)
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
