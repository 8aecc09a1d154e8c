package show

import (
	"puffproof/limits/finding"
	"slices"
)

// Tone says how a text is meant, beside its words: no meaning rests on a colour.
type Tone uint8

const (
	Neutral Tone = iota
	Good
	Open
	Bad
	Faint
	Kept // good only while people keep a condition
)

// look is how a status is shown.
type look struct {
	word  string // on screens
	paper string // on paper; "": as on screens
	tone  Tone
	rank  int // worst first
}

// looks is the table of what a status looks like.
func looks(st finding.Status) look {
	switch st {
	case finding.Fail:
		return look{word: "FAIL", tone: Bad, rank: 0}
	case finding.OpenItem:
		return look{word: "OPEN", tone: Open, rank: 2}
	case finding.Conditional:
		return look{word: "CONDITIONAL", paper: "◊ conditional", tone: Kept, rank: 3}
	case finding.Pass:
		return look{word: "PASS", tone: Good, rank: 4}
	case finding.NotApplicable:
		return look{word: "n.a.", tone: Faint, rank: 5}
	case "": // not there
		return look{tone: Faint, rank: 6}
	}
	return look{word: "UNKNOWN", tone: Open, rank: 1} // what the program does not know is no pass
}

// Word is the word of a status on screens.
func Word(st finding.Status) string { return looks(st).word }

// PaperWord is the word of a status on paper, with its mark where it has one.
func PaperWord(st finding.Status) string {
	if l := looks(st); l.paper != "" {
		return l.paper
	}
	return Word(st)
}

// ToneOf is the tone that goes with the word.
func ToneOf(st finding.Status) Tone { return looks(st).tone }

// Rank orders statuses, the worst first; "" is that of a verdict that is not there.
func Rank(st finding.Status) int { return looks(st).rank }

// Judged tells whether a verdict compared figures: its value and limit count.
func Judged(v finding.Verdict) bool {
	return v.Status == finding.Pass || v.Status == finding.Conditional || v.Status == finding.Fail
}

// WithStatus are the verdicts that have one of some statuses, in their order.
func WithStatus(verdicts []finding.Verdict, statuses ...finding.Status) []finding.Verdict {
	var out []finding.Verdict
	for _, v := range verdicts {
		if slices.Contains(statuses, v.Status) {
			out = append(out, v)
		}
	}
	return out
}

// Troubled are the verdicts that keep a design from holding: those that fail and those
// that are unknown.
func Troubled(verdicts []finding.Verdict) []finding.Verdict {
	return WithStatus(verdicts, finding.Fail, finding.Unknown)
}

// Tally counts the verdicts of a status.
func Tally(verdicts []finding.Verdict, st finding.Status) int { return len(WithStatus(verdicts, st)) }
