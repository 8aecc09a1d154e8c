package paper

import (
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
	powered := p.PoweredIn()
	for _, s := range pneumatics.States() {
		if powered.Has(s) {
			w.Powered = append(w.Powered, s)
		}
	}
	return w
}
