package show

import (
	"fmt"
	"strings"

	"puffproof/limits/control"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Wire is a part that needs current.
type Wire struct {
	Part string
	// Powered are the states in which it has current; nil of one that is no valve. Pulsed: only to move it.
	Powered []pneumatics.State
	Pulsed  bool
	Does    string
	Through string // what its current passes, from the fuse on; "" the design does not say
}

// CoilOf is the wire of a solenoid valve.
func CoilOf(l *launcher.Launcher, p *launcher.PathSpec) Wire {
	w := Wire{Part: p.Name, Powered: []pneumatics.State{}, Does: "without current it is " + p.Unpowered.String(),
		Through: through(l.Control, p.Name)}
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

// OtherWires are those of the compressor and of the relays.
func OtherWires(l *launcher.Launcher) (out []Wire) {
	if l.Supply != nil && l.Supply.Kind == launcher.Compressor {
		does := "runs while its switch is closed"
		if l.Switch != nil {
			does = "through the pressure switch, which opens at the cut-out"
		}
		out = append(out, Wire{Part: "compressor", Does: does, Through: through(l.Control, control.Supply)})
	}
	if l.Control == nil {
		return out
	}
	for i := range l.Control.Parts {
		if p := &l.Control.Parts[i]; p.Kind == control.Relay {
			out = append(out, Wire{Part: "relay " + p.Name, Does: "pulls in while it has current", Through: l.Control.Way(p)})
		}
	}
	return out
}

// through is what the current of what a load moves passes.
func through(w *control.Wiring, name string) string {
	if p := w.LoadOf(name); p != nil {
		return w.Way(p)
	}
	return ""
}

// Says is in which states a wire carries current, what that does, and what it passes.
func (w Wire) Says() string {
	way := Lead("; in series: ", w.Through)
	switch states := strings.ReplaceAll(strings.Trim(fmt.Sprint(w.Powered), "[]"), " ", ", "); {
	case states != "":
		return "current in " + states + "; " + w.Does + way
	case w.Powered != nil && !w.Pulsed:
		return "no current in any state; " + w.Does + way
	}
	return w.Does + way
}
