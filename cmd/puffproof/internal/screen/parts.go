package screen

import (
	"io"

	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/show"
)

// PartsScreen lists what a launcher is made of, on a terminal or in a pipe.
type PartsScreen struct {
	Frame
	Shopping paper.Shopping
}

// Write prints the screen.
func (p *PartsScreen) Write(w io.Writer) error {
	s := &p.Shopping
	first := show.Plural(len(s.Parts), "part", "parts") + ", " + show.Plural(len(s.Hoses), "hose", "hoses") + ", " +
		show.Plural(len(s.Wires), "part needs", "parts need") + " current. What the design does not state is yours to choose, then to state."
	return p.write(w, p.lines(bold, "", "  ", first), p.design, p.parts, p.hoses, p.wires, p.cautions)
}

func (p *PartsScreen) parts() {
	p.heading("Parts, numbered as in the diagram")
	for _, one := range p.Shopping.Parts {
		p.say("  ", "    ", p.paint(bold, show.Clean(one.Name))+": "+show.Clean(show.Joined("; ", one.What, one.Figures)))
	}
}

func (p *PartsScreen) hoses() {
	p.heading("Hoses")
	for _, h := range p.Shopping.Hoses {
		rating := "rating not stated"
		if h.Rated != "" {
			rating = "rated " + h.Rated
		}
		p.say("  ", "    ", show.Clean(h.From+" to "+h.To+": "+h.Size+"; "+rating+show.Lead(", ", h.Spec.Material)))
	}
	p.say("  ", "    ", "Every other connection is a fitting: a hose in its place belongs into the design, since it changes the shot.")
}

func (p *PartsScreen) wires() {
	p.heading("Wires")
	for _, w := range p.Shopping.Wires {
		p.say("  ", "    ", show.Clean(w.Part+": "+w.Says()))
	}
}
