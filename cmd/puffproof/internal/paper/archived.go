package paper

import (
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits"
)

// archiveOf collects the archive of an input.
func archiveOf(p document.Paper, in Input, finding string) *document.Archive {
	a := &document.Archive{Format: document.ArchiveFormat, Paper: p, Version: in.Version, Date: in.Date, Units: string(in.Units),
		SHA256: in.Design.SHA256,
		Design: in.Text, Attached: append([]document.Attached{}, in.Attached...), Finding: finding, Verdicts: VerdictsOf(in.Report),
		Items: itemsOf(in.Report)}
	return a
}

// VerdictsOf is a report's verdicts as an archive keeps them.
func VerdictsOf(r limits.Report) []document.ArchiveVerdict {
	out := []document.ArchiveVerdict{}
	for _, v := range r.Verdicts {
		out = append(out, document.ArchiveVerdict{ID: v.ID, Title: v.Title, Status: v.Status, Value: v.Value, Limit: v.Limit,
			Unit: string(v.Unit), Margin: v.Margin})
	}
	return out
}

func itemsOf(r limits.Report) []document.ArchiveItem {
	out := []document.ArchiveItem{}
	for _, it := range r.Items {
		out = append(out, document.ArchiveItem{ID: it.ID, Title: it.Title.String(), Verdict: it.Verdict, Done: it.Done != nil})
	}
	return out
}
