package document

import (
	"puffproof/limits"
)

// Make builds the paper of that kind. The errors are those of Build and Card.
func (p Paper) Make(in Input) (*Document, error) {
	if p == CardPaper {
		return Card(in)
	}
	return Build(in)
}

// archiveOf collects the archive of an input.
func archiveOf(p Paper, in Input, finding string) *Archive {
	a := &Archive{Format: archiveFormat, Paper: p, Version: in.Version, Date: in.Date, Units: string(in.Units), SHA256: in.Design.SHA256,
		Design: in.Text, Attached: append([]Attached{}, in.Attached...), Finding: finding, Verdicts: VerdictsOf(in.Report),
		Items: itemsOf(in.Report)}
	return a
}

// VerdictsOf is a report's verdicts as an archive keeps them.
func VerdictsOf(r limits.Report) []ArchiveVerdict {
	out := []ArchiveVerdict{}
	for _, v := range r.Verdicts {
		out = append(out, ArchiveVerdict{v.ID, v.Title, v.Status, v.Value, v.Limit, string(v.Unit), v.Margin})
	}
	return out
}

func itemsOf(r limits.Report) []ArchiveItem {
	out := []ArchiveItem{}
	for _, it := range r.Items {
		out = append(out, ArchiveItem{it.ID, it.Title.String(), it.Verdict, it.Done != nil})
	}
	return out
}
