package screen

import (
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// VerifyScreen shows whether a paper still fits, on a terminal or in a pipe.
type VerifyScreen struct {
	Frame
	Verification *paper.Verification
}

// Write prints the screen.
func (vs *VerifyScreen) Write(w io.Writer) error {
	v := vs.Verification
	line := func(indent, t string) { vs.say(indent, indent+"  ", show.Clean(t)) }
	line("", v.Finding())
	if vs.Detail == Everything {
		line("", fmt.Sprintf("A %s, made on %s by puffproof %s; it said: %s", v.Archive.Paper, v.Archive.Date, v.Archive.Version,
			v.Archive.Finding))
		if v.FalseFinding() {
			line("", "That is NOT what its inputs give. They give: "+v.Own)
		}
		if len(v.Differs) > 0 {
			line("", "Altered:")
			for _, d := range v.Differs {
				line("  ", d.String())
			}
		}
		if v.Altered == nil {
			line("", "Whether its words were altered is not known: "+v.NotKnown+". Make it again, or ask the program that made it.")
		}
		if v.Known {
			line("", "Its own inputs were not run again: this program made or verified this very file on this machine before; --recompute does.")
		}
		vs.changes(line, v.Now())
	}
	return vs.flush(w)
}

func (vs *VerifyScreen) changes(line func(indent, t string), c *paper.Comparison) {
	v := vs.Verification
	if c.OtherWork != "" {
		line("", "Another version of the program made it ("+c.OtherWork+"): answers may change for that reason alone.")
	}
	if len(c.Changed) == 0 && !c.SameBytes {
		line("", "Comments, order or blanks of the design file differ; no key does.")
	}
	if len(c.Changed) > 0 {
		line("", "Changed since:")
		for _, k := range c.Changed {
			line("  ", k.Key+": "+absent(k.Before)+" -> "+absent(k.After))
		}
	}
	if len(c.Verdicts) > 0 {
		line("", "Answers that changed"+show.Lead(", ", byAnswers(c))+":")
		for _, d := range c.Verdicts {
			before, after := changedAnswers(vs.Units, d)
			line("  ", d.ID+": "+before+" -> "+after)
		}
	}
	if len(c.Signatures) > 0 {
		line("", "Void, to be signed again: "+strings.Join(c.Signatures, "; ")+".")
	}
	if len(c.Items) > 0 {
		line("", "Void, to be tested again:")
		for _, it := range c.Items {
			line("  ", vs.text(it.Title)+" ("+it.ID+")")
		}
	}
	if c.Due() {
		line("", remedy(v.Archive.Paper))
	}
	if v.Expired != "" {
		line("", "A date in it is past: "+v.Expired+", seen on "+v.Date+".")
	}
}

// byAnswers says that nothing but the checklist changed what a verdict says; "" something else did.
func byAnswers(c *paper.Comparison) string {
	if c.ByAnswers {
		return "by answers of the checklist alone"
	}
	return ""
}

// remedy says what to do with a paper that no longer fits.
func remedy(p document.Paper) string {
	if p == document.CardPaper {
		return "Take the card off the launcher and make it again with puffproof card."
	}
	return "Make the file again with puffproof dossier, and have it signed."
}

func absent(s string) string {
	if s == "" {
		return "(not there)"
	}
	return s
}

// changedAnswers are the answer before and after, rounded as on the other screens.
// Two figures that differ never look the same.
func changedAnswers(u quantity.System, d paper.VerdictChange) (before, after string) {
	towards, q := quantity.Up, quantity.OfVerdict(finding.Quantity(d.Unit))
	if d.Lower {
		towards = quantity.Down
	}
	text := func(st finding.Status, value *float64) string {
		switch {
		case st == "":
			return "(not there)"
		case value == nil:
			return show.Word(st)
		}
		return show.Word(st) + " " + u.Words(q, *value, towards)
	}
	before, after = text(d.Before, d.ValueBefore), text(d.After, d.ValueAfter)
	if before == after && d.ValueBefore != nil && d.ValueAfter != nil {
		a, b := u.Apart(q, *d.ValueBefore, *d.ValueAfter)
		return show.Word(d.Before) + " " + a, show.Word(d.After) + " " + b
	}
	return before, after
}
