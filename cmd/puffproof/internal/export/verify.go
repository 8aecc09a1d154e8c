package export

import (
	"encoding/json"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/show"
)

// Verify is the document of verify. The finding in "paper_finding" is that of the
// paper's archive, the one in "finding_now" that of its inputs, or of the design.
func Verify(v *paper.Verification) (json.RawMessage, error) {
	c := v.Now()
	var notKnown *string
	if v.Altered == nil {
		notKnown = &v.NotKnown
	}
	var describes *bool
	if v.Against != nil {
		describes = &c.Describes
	}
	var items []string
	for _, it := range c.Items {
		items = append(items, it.ID)
	}
	withdraw := []string{}
	for _, w := range v.Withdraw {
		withdraw = append(withdraw, w.ID)
	}
	return show.Document(show.Fields("verify", show.Fields("file", v.File,
		"paper", v.Archive.Paper, "good", v.Good(), "finding", v.Finding(), "paper_finding", v.Archive.Finding,
		"finding_now", c.Finding, "holds", c.Holds, "confirmed", c.Confirmed, "open_items", c.OpenItems, "made_on", v.Archive.Date,
		"made_by", v.Archive.Version, "altered", v.Altered, "cut_off", v.Cut, "something_follows_its_end", v.After,
		"finding_is_not_its_inputs", v.FalseFinding(),
		"altered_places", show.List(v.Differs, differenceFields), "altered_not_known", notKnown, "withdraw", withdraw,
		"recomputed", !v.Known, "dated_ahead", v.Ahead(),
		"expired", show.Said(v.Expired), "describes", describes, "changed", show.List(c.Changed, func(k paper.Change) show.Object {
			return show.Fields("key", k.Key, "before", k.Before, "after", k.After)
		}),
		"verdicts", show.List(c.Verdicts, func(x paper.VerdictChange) show.Object {
			return show.Fields("id", x.ID, "before", x.Before, "after", x.After, "value_before", x.ValueBefore, "value_after", x.ValueAfter,
				"unit", x.Unit)
		}),
		"verdicts_changed_by_answers_alone", c.ByAnswers,
		"void_items", items, "void_signatures", c.Signatures)))
}

func differenceFields(d document.Difference) show.Object {
	return show.Fields("place", d.Place, "is", d.Is, "should", d.Should)
}
