package curve

import (
	"strings"

	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/limits/control"
	"puffproof/pneumatics"
)

// WiringFigure is the wiring of a design as the data of its figure.
type WiringFigure struct {
	figure.Wiring
	Caption, Words string
}

// Wiring turns the wiring of a design into the data of its figure; false where the design states none.
func Wiring(w *control.Wiring) (WiringFigure, bool) {
	out := WiringFigure{Caption: "Wiring: the ways of the current, drawn without current, switched off, with nothing pressed; a contact " +
		"whose part is a relay moves with that relay. Symbols after IEC 60617 (from memory). It is what the design says, no plan to wire by: " +
		"sizes of wires, plugs and returns are not on it."}
	if w == nil {
		return out, false
	}
	var words []string
	for _, i := range w.Consumers() {
		p := &w.Parts[i]
		way := figure.WiringWay{End: figure.WiringEnd{Name: p.Name, Kind: figure.RelayCoil, Note: "relay"}}
		if p.Kind == control.Load {
			way.End.Kind, way.End.Note = figure.ValveCoil, "moves "+strings.Join(p.Moves, ", ")
			if w.LoadOf(control.Supply) == p {
				way.End.Kind = figure.Motor
			}
		}
		for _, step := range p.Through {
			var beside figure.WiringStep
			for _, c := range step {
				beside = append(beside, contactOf(w, c))
			}
			way.Steps = append(way.Steps, beside)
		}
		out.Ways = append(out.Ways, way)
		words = append(words, p.Name+" through "+w.Way(p))
	}
	out.Words = "Ways of the current: " + strings.Join(words, "; ") + "."
	return out, len(out.Ways) > 0
}

// contactOf is a contact as it is drawn.
func contactOf(w *control.Wiring, c control.Contact) figure.WiringContact {
	out := figure.WiringContact{Name: strings.TrimPrefix(w.Numbered(c), "not "), Closed: c.Not}
	i := w.Index(c.Part)
	if i < 0 {
		return out
	}
	p := &w.Parts[i]
	out.Closed = out.Closed || p.ClosedIn.Has(pneumatics.Off)
	switch p.Kind {
	case control.Fuse:
		out.Kind, out.Closed = figure.FuseSymbol, true
	case control.Stop:
		out.Kind, out.Closed = figure.MushroomContact, true
	case control.KeySwitch:
		out.Kind = figure.KeyContact
	case control.StartButton, control.Button:
		out.Kind = figure.PushContact
	case control.Remote:
		out.Kind = figure.RemoteContact
	case control.Timer:
		out.Kind, out.Closed = figure.TimerContact, true // until its time is over
	case control.Switch:
		out.Kind = figure.MovedContact
	case control.PressureSwitch:
		out.Kind, out.Closed = figure.PressureContact, true // until the cut-out
	}
	return out
}
