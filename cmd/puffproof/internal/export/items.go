package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/checklist"
)

// Items is the document of items: all of them, in the order of doing.
func Items(id show.DesignID, r limits.Report, steps []checklist.Step, wrote string) (json.RawMessage, error) {
	return show.Document(show.Fields("design", id, "open_items", r.OpenItems, "holds", r.Holds, "confirmed", r.Confirmed,
		"wrote", show.Said(wrote), "items", show.List(steps, itemStepFields)))
}

func itemStepFields(s checklist.Step) show.Object {
	var date, value *string
	if d := s.Done; d != nil {
		date, value = show.Said(d.Date), show.Said(d.Says().String())
	}
	return show.Fields("id", s.ID, "title", s.Title, "expect", s.Expect, "who", s.Who, "done", s.Done != nil, "date", date, "value", value,
		"how", s.How, "why", s.Why, "verdict", s.Verdict, "open_why", s.OpenWhy)
}
