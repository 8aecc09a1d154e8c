package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
)

// Parts is the document of parts.
func Parts(id show.DesignID, s paper.Shopping) (json.RawMessage, error) {
	band := func(b launcher.Band) *float64 { return onlyWhere(b.Set)(b.Nominal) }
	return show.Document(show.Fields("design", id, "parts", show.List(s.Parts, func(p paper.Part) show.Object {
		return show.Fields("name", p.Name, "what", p.What, "figures", p.Figures)
	}), "hoses", show.List(s.Hoses, func(h paper.Hose) show.Object {
		return show.Fields("of", h.Of, "from", h.From, "to", h.To, "bore_m", band(h.Spec.Bore), "length_m", band(h.Spec.Length),
			"rated_gauge_Pa", band(h.Spec.RatedPressure), "material", show.Said(h.Spec.Material))
	}), "wires", show.List(s.Wires, func(w show.Wire) show.Object {
		states := []string{}
		for _, st := range w.Powered {
			states = append(states, st.String())
		}
		return show.Fields("part", w.Part, "powered_in", states, "pulsed", w.Pulsed, "does", w.Does, "through", show.Said(w.Through))
	})))
}
