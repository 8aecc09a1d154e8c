package paper

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
)

// Verification is the answer of verify, as plain data.
type Verification struct {
	File     string
	Archive  *document.Archive
	Against  *Comparison           // with a design; nil: none was given
	Again    *Comparison           // the paper's own inputs, run again; nil: not done
	Altered  *bool                 // the paper differs from what this program makes of its inputs; nil: not known
	NotKnown string                // why Altered is not known
	Cut      bool                  // its end is missing
	After    bool                  // something follows its end; it is Altered
	Differs  []document.Difference // where it is not what its inputs give; only where Altered
	Own      string                // the finding that the paper's own inputs give; "" not made
	Expired  string                // the first date that is past; ""
	Date     string                // the day of the question
	// Withdraw are the verdicts that fail now on the paper's own inputs and did not fail
	// in it.
	Withdraw []VerdictChange
	// Known tells that the paper is one whose inputs were run before, and were not again.
	Known bool
}

// Unchanged tells that a run of the paper's inputs by the program that made it gave every
// letter of it.
func (v *Verification) Unchanged() bool {
	return v.Again != nil && v.Again.OtherWork == "" && len(v.Again.Verdicts) == 0 && v.Altered != nil && !*v.Altered && !v.Cut &&
		!v.FalseFinding()
}

// Good tells whether the paper may still be relied on. What is not known counts
// against it: a paper whose words nobody can hold against its inputs is not good,
// whatever its inputs give.
func (v *Verification) Good() bool {
	switch {
	case len(v.Withdraw) > 0, v.Cut, v.FalseFinding(), v.Expired != "", v.Ahead(), v.Altered == nil || *v.Altered:
		return false
	case v.Against != nil:
		return v.Against.Holds && !v.Against.Due()
	}
	return v.Again != nil && v.Again.Holds && len(v.Again.Verdicts) == 0
}

// Ahead tells whether the paper is dated after the day of the question: one of
// the two dates is wrong.
func (v *Verification) Ahead() bool { return v.Archive.Date > v.Date }

// Now is the run that counts: of the design, else of the paper's own inputs.
func (v *Verification) Now() *Comparison {
	if v.Against != nil {
		return v.Against
	}
	return v.Again
}

// Finding is the answer in one line: what fails now, for which the paper is to be
// withdrawn, whether the paper still fits, then what
// the inputs themselves are worth, since a paper that fits approves nothing.
func (v *Verification) Finding() string {
	out := v.withdraw() + v.fits()
	if c := v.Now(); c != nil && c.Finding != "" {
		out += " As it is now: " + c.Finding
	}
	return out
}

// withdraw says what fails now on the paper's own inputs; "" nothing that did not.
func (v *Verification) withdraw() string {
	var ids []string
	for _, c := range v.Withdraw {
		ids = append(ids, c.ID)
	}
	switch len(ids) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("WITHDRAW IT: %s fails now, and did not in this %s. ", ids[0], v.Archive.Paper)
	}
	return fmt.Sprintf("WITHDRAW IT: %s fail now, and did not in this %s. ", strings.Join(ids, ", "), v.Archive.Paper)
}

// fits says whether the paper still fits its inputs.
func (v *Verification) fits() string {
	it := "The " + string(v.Archive.Paper)
	switch {
	case v.Cut:
		return it + " is CUT OFF: its end is missing. It is not to be relied on."
	case v.FalseFinding() && v.Altered != nil && *v.Altered:
		return it + " was ALTERED: its finding is NOT what its inputs give."
	case v.After:
		return it + " was ALTERED: something follows its end; what stands before that may be whole. It is not to be relied on."
	case v.Altered != nil && *v.Altered && UnnamedVersion(v.Archive.Version):
		return it + " was ALTERED, or another build of the program made it: it differs from what its own inputs give."
	case v.Altered != nil && *v.Altered:
		return it + " was ALTERED: it differs from what its own inputs give. Its words are not to be relied on."
	case v.Ahead():
		return fmt.Sprintf("%s is dated %s, AFTER %s: one of the two dates is wrong, so nothing is said of what has expired.", it,
			v.Archive.Date, v.Date)
	case v.Against != nil && !v.Against.Describes:
		return it + " NO LONGER DESCRIBES the design: " + v.Against.Lost() + "."
	case v.Expired != "" && v.Against != nil:
		return it + " describes the design but EXPIRED on " + v.Expired + "."
	case v.Expired != "":
		return it + " EXPIRED on " + v.Expired + "."
	case v.Against != nil && v.Against.Due():
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
func (v *Verification) FalseFinding() bool { return v.Own != "" && v.Archive.Finding != v.Own }

// UnnamedVersion tells whether many builds share a version's name.
func UnnamedVersion(version string) bool {
	return strings.HasPrefix(version, "development build") || strings.HasPrefix(version, "unknown version") ||
		strings.Contains(version, "+dirty")
}
