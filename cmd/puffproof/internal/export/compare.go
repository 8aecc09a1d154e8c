package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
)

// Compare is the document of compare.
func Compare(a, b show.DesignID, differs []show.KeyDifference, c limits.Comparison) (json.RawMessage, error) {
	one := func(id show.DesignID, r *limits.Report) show.Object {
		return show.Fields("design", id, "holds", r.Holds, "confirmed", r.Confirmed)
	}
	return show.Document(show.Fields("a", one(a, &c.A), "b", one(b, &c.B),
		"design", show.List(differs, func(d show.KeyDifference) show.Object { return show.Fields("key", d.Key, "a", d.A, "b", d.B) }),
		"results", show.List(c.Figures, func(f limits.Compared) show.Object {
			return show.Fields("name", f.Name, "a", f.A, "b", f.B, "unit", f.Unit)
		}),
		"verdicts", show.List(c.Verdicts, func(v limits.ComparedStatus) show.Object {
			return show.Fields("id", v.ID, "title", v.Title, "a", show.Said(string(v.A)), "b", show.Said(string(v.B)))
		})))
}
