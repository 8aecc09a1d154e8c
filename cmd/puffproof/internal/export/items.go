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
		"said_not_recorded", r.Said, "record_altered", r.Altered, "answers_without_their_record", r.Unproved,
		"wrote", show.Said(wrote), "items", show.List(steps, itemStepFields)))
}

func itemStepFields(s checklist.Step) show.Object {
	var date, value *string
	var recorded *bool
	if d := s.Done; d != nil {
		date, value, recorded = show.Said(d.Date), show.Said(d.Says().String()), &d.Recorded
	}
	return show.Fields("id", s.ID, "title", s.Title, "expect", s.Expect, "who", s.Who, "done", s.Done != nil, "date", date, "value", value,
		"recorded", recorded, "write", show.Said(s.Write().String()),
		"how", s.How, "why", s.Why, "verdict", s.Verdict, "open_why", s.OpenWhy)
}
