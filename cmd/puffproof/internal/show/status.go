package show

import "puffproof/limits/finding"

// Tone says how a text is meant, beside its words: no meaning rests on a colour.
type Tone uint8

// The tones.
const (
	Neutral Tone = iota
	Good
	Open
	Bad
	Faint
)

// look is how a status is shown.
type look struct {
	word string // on screens and on paper
	tone Tone
	rank int // worst first
}

// looks is the table of what a status looks like.
func looks(st finding.Status) look {
	switch st {
	case finding.Fail:
		return look{"FAIL", Bad, 0}
	case finding.OpenItem:
		return look{"OPEN", Open, 2}
	case finding.Pass:
		return look{"PASS", Good, 3}
	case finding.NotApplicable:
		return look{"n.a.", Faint, 4}
	case "": // not there
		return look{"", Faint, 5}
	}
	return look{"UNKNOWN", Open, 1} // what the program does not know is no pass
}

// Word is the word of a status.
func Word(st finding.Status) string { return looks(st).word }

// ToneOf is the tone that goes with the word.
func ToneOf(st finding.Status) Tone { return looks(st).tone }

// Rank orders statuses, the worst first; "" is that of a verdict that is not there.
func Rank(st finding.Status) int { return looks(st).rank }

// Troubled are the verdicts that keep a design from holding: those that fail and those
// that are unknown.
func Troubled(verdicts []finding.Verdict) []finding.Verdict {
	var out []finding.Verdict
	for _, v := range verdicts {
		if v.Status == finding.Fail || v.Status == finding.Unknown {
			out = append(out, v)
		}
	}
	return out
}

// Tally counts the verdicts of a status.
func Tally(verdicts []finding.Verdict, st finding.Status) int {
	n := 0
	for _, v := range verdicts {
		if v.Status == st {
			n++
		}
	}
	return n
}
