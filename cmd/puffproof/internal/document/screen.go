package document

import (
	"fmt"
	"io"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"strings"
)

// Verification is the answer of verify, as plain data.
type Verification struct {
	File     string
	Archive  *Archive
	Against  *Comparison  // with a design; nil: none was given
	Again    *Comparison  // the paper's own inputs, run again; nil: not done
	Altered  *bool        // the paper differs from what this program makes of its inputs; nil: not known
	NotKnown string       // why Altered is not known
	Cut      bool         // its end is missing
	Differs  []Difference // where it is not what its inputs give; only where Altered
	Own      string       // the finding that the paper's own inputs give; "" not made
	Expired  string       // the first date that is past; ""
	Date     string       // the day of the question
	DesignID render.DesignID
}

// Good tells whether the paper may still be relied on. What is not known counts
// against it: a paper whose words nobody can hold against its inputs is not good,
// whatever its inputs give.
func (v *Verification) Good() bool {
	switch {
	case v.Cut, v.FalseFinding(), v.Expired != "", v.Ahead(), v.Altered == nil || *v.Altered:
		return false
	case v.Against != nil:
		return v.Against.Describes && v.Against.Holds && len(v.Against.Verdicts) == 0
	}
	return v.Again != nil && v.Again.Holds && len(v.Again.Verdicts) == 0
}

// Ahead tells whether the paper is dated after the day of the question: one of
// the two dates is wrong.
func (v *Verification) Ahead() bool { return v.Archive.Date > v.Date }

// now is the run that counts: of the design, else of the paper's own inputs.
func (v *Verification) now() *Comparison {
	if v.Against != nil {
		return v.Against
	}
	return v.Again
}

// Finding is the answer in one line: whether the paper still fits, then what
// the inputs themselves are worth, since a paper that fits approves nothing.
func (v *Verification) Finding() string {
	if c := v.now(); c != nil && c.Finding != "" {
		return v.fits() + " As it is now: " + c.Finding
	}
	return v.fits()
}

// fits says whether the paper still fits its inputs.
func (v *Verification) fits() string {
	it := "The " + string(v.Archive.Paper)
	switch {
	case v.Cut:
		return it + " is CUT OFF: its end is missing. It is not to be relied on."
	case v.FalseFinding() && v.Altered != nil && *v.Altered:
		return it + " was ALTERED: its finding is NOT what its inputs give."
	case v.Altered != nil && *v.Altered && unnamedVersion(v.Archive.Version):
		return it + " was ALTERED, or another build of the program made it: it differs from what its own inputs give."
	case v.Altered != nil && *v.Altered:
		return it + " was ALTERED: it differs from what its own inputs give. Its words are not to be relied on."
	case v.Ahead():
		return fmt.Sprintf("%s is dated %s, AFTER %s: one of the two dates is wrong, so nothing is said of what has expired.", it, v.Archive.Date, v.Date)
	case v.Against != nil && !v.Against.Describes:
		return fmt.Sprintf("%s NO LONGER DESCRIBES the design: %s changed.", it, plural(len(v.Against.Changed), "key", "keys"))
	case v.Expired != "" && v.Against != nil:
		return it + " describes the design but EXPIRED on " + v.Expired + "."
	case v.Expired != "":
		return it + " EXPIRED on " + v.Expired + "."
	case v.Against != nil && len(v.Against.Verdicts) > 0:
		return it + " describes the design, but the answers have changed: the program has."
	case v.Against != nil && !v.Against.Holds:
		return it + " describes the design, which does not hold."
	case v.Against == nil && len(v.Again.Verdicts) > 0:
		return it + "'s own inputs no longer give its answers: the program has changed."
	case v.Against == nil && !v.Again.Holds:
		return it + "'s own inputs give its answers again: it does not hold."
	case v.Altered == nil && v.Against != nil:
		return it + "'s inputs describe the design, but whether its words were altered is NOT KNOWN."
	case v.Altered == nil:
		return it + "'s own inputs give its answers again, but whether its words were altered is NOT KNOWN."
	case v.Against != nil:
		return it + " still describes the design."
	}
	return it + "'s own inputs give its answers again."
}

// FalseFinding tells whether the finding that the paper carries is not the one
// that its own inputs give.
func (v *Verification) FalseFinding() bool {
	return v.Own != "" && v.Archive.Finding != v.Own
}

// unnamedVersion tells whether many builds share a version's name.
func unnamedVersion(version string) bool {
	return strings.HasPrefix(version, "development build") || strings.HasPrefix(version, "unknown version") || strings.Contains(version, "+dirty")
}

// Screen is the answer of verify on a terminal.
func (v *Verification) Screen(w io.Writer, s render.Style, detail render.Detail) error {
	var b strings.Builder
	line := func(indent, t string) { fmt.Fprintln(&b, render.Wrap(render.Clean(t), s.Width, indent, indent+"  ")) }
	line("", v.Finding())
	if detail == render.Everything {
		line("", fmt.Sprintf("A %s, made on %s by puffproof %s; it said: %s", v.Archive.Paper, v.Archive.Date, v.Archive.Version, v.Archive.Finding))
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
		v.changes(line, v.now(), s)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (v *Verification) changes(line func(indent, t string), c *Comparison, s render.Style) {
	if c.OtherWork != "" {
		line("", "Another version of the program made it ("+c.OtherWork+"): answers may change for that reason alone.")
	}
	if c.Describes && !c.SameBytes {
		line("", "Comments, order or blanks of the design file differ; no key does.")
	}
	if len(c.Changed) > 0 {
		line("", "Changed since:")
		for _, k := range c.Changed {
			line("  ", k.Key+": "+absent(k.Before)+" -> "+absent(k.After))
		}
	}
	if len(c.Verdicts) > 0 {
		line("", "Answers that changed:")
		for _, d := range c.Verdicts {
			before, after := d.texts(s)
			line("  ", d.ID+": "+before+" -> "+after)
		}
	}
	if len(c.Signatures) > 0 {
		line("", "Void, to be signed again: "+strings.Join(c.Signatures, "; ")+".")
	}
	if len(c.Items) > 0 {
		line("", "Void, to be tested again:")
		for _, it := range c.Items {
			line("  ", it.Title+" ("+it.ID+")")
		}
	}
	if !c.Describes || len(c.Verdicts) > 0 {
		line("", v.remedy())
	}
	if v.Expired != "" {
		line("", "A date in it is past: "+v.Expired+", seen on "+v.Date+".")
	}
}

// remedy says what to do with a paper that no longer fits.
func (v *Verification) remedy() string {
	if v.Archive.Paper == CardPaper {
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

// texts are the answer before and after, rounded as on the screens. Two figures
// that differ never look the same.
func (d *VerdictChange) texts(s render.Style) (before, after string) {
	towards := unit.Up
	if d.Lower {
		towards = unit.Down
	}
	text := func(st finding.Status, value *float64) string {
		switch {
		case st == "":
			return "(not there)"
		case value == nil:
			return render.StatusWord(st)
		case finding.Quantity(d.Unit) == finding.InCount:
			return render.StatusWord(st) + " " + render.Number(*value, 4)
		}
		return render.StatusWord(st) + " " + s.Rounded(render.DimensionOf(finding.Quantity(d.Unit)), *value, towards)
	}
	before, after = text(d.Before, d.ValueBefore), text(d.After, d.ValueAfter)
	if before == after && d.ValueBefore != nil && d.ValueAfter != nil {
		a, b := s.Apart(render.DimensionOf(finding.Quantity(d.Unit)), *d.ValueBefore, *d.ValueAfter)
		return render.StatusWord(d.Before) + " " + a, render.StatusWord(d.After) + " " + b
	}
	return before, after
}

type verifyDoc struct {
	File     string          `json:"file"`
	Paper    string          `json:"paper"`
	Good     bool            `json:"good"`
	Finding  string          `json:"finding"`
	Said     string          `json:"paper_finding"` // as the paper's archive has it
	Now      string          `json:"finding_now"`   // as its inputs, or the design, give it
	Holds    bool            `json:"holds"`
	Confirm  bool            `json:"confirmed"`
	Open     int             `json:"open_items"`
	MadeOn   string          `json:"made_on"`
	MadeBy   string          `json:"made_by"`
	Altered  *bool           `json:"altered"`
	Cut      bool            `json:"cut_off"`
	False    bool            `json:"finding_is_not_its_inputs"`
	Differs  []Difference    `json:"altered_places"`
	NotKnown *string         `json:"altered_not_known"`
	Ahead    bool            `json:"dated_ahead"`
	Expired  *string         `json:"expired"`
	Describe *bool           `json:"describes"`
	Changed  []changeDoc     `json:"changed"`
	Verdicts []verdictChange `json:"verdicts"`
	Items    []string        `json:"void_items"`
	Signed   []string        `json:"void_signatures"`
}

type changeDoc struct {
	Key    string `json:"key"`
	Before string `json:"before"`
	After  string `json:"after"`
}

type verdictChange struct {
	ID          string   `json:"id"`
	Before      string   `json:"before"`
	After       string   `json:"after"`
	ValueBefore *float64 `json:"value_before"`
	ValueAfter  *float64 `json:"value_after"`
	Unit        string   `json:"unit"`
}

// JSON is the document of verify.
func (v *Verification) JSON() any {
	c := v.now()
	d := verifyDoc{Cut: v.Cut, False: v.FalseFinding(), Differs: append([]Difference{}, v.Differs...), Said: v.Archive.Finding, Now: c.Finding, Holds: c.Holds, Confirm: c.Confirmed, Open: c.OpenItems,
		File: v.File, Paper: string(v.Archive.Paper), Ahead: v.Ahead(), Good: v.Good(), Finding: v.Finding(), MadeOn: v.Archive.Date, MadeBy: v.Archive.Version, Altered: v.Altered,
		Changed: []changeDoc{}, Verdicts: []verdictChange{}, Items: []string{}, Signed: []string{}}
	if v.Expired != "" {
		d.Expired = &v.Expired
	}
	if v.Altered == nil {
		d.NotKnown = &v.NotKnown
	}
	if v.Against != nil {
		d.Describe = &c.Describes
	}
	for _, k := range c.Changed {
		d.Changed = append(d.Changed, changeDoc(k))
	}
	for _, x := range c.Verdicts {
		d.Verdicts = append(d.Verdicts, verdictChange{x.ID, string(x.Before), string(x.After), x.ValueBefore, x.ValueAfter, x.Unit})
	}
	for _, it := range c.Items {
		d.Items = append(d.Items, it.ID)
	}
	d.Signed = append(d.Signed, c.Signatures...)
	return map[string]any{"verify": d}
}
