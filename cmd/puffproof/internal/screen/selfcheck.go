package screen

import (
	"fmt"
	"io"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// SelfCheckScreen shows the check values on this machine.
type SelfCheckScreen struct {
	Frame
	Rows []selfcheck.Row
}

// selfCheckLine is the line of figures under the name of a check.
const selfCheckLine = "     %-15s %-17s %-10s %-9s"

// Write prints the screen.
func (sc *SelfCheckScreen) Write(w io.Writer) error {
	if failures := selfcheck.Failures(sc.Rows); failures == 0 {
		sc.println(sc.paint(green, fmt.Sprintf("All %d check values come out on this machine.", len(sc.Rows))))
	} else {
		sc.println(sc.paint(red, fmt.Sprintf("%d of %d check values DO NOT come out: trust no figure of this program here.", failures,
			len(sc.Rows))))
	}
	var sources sourceList
	subject := ""
	for _, r := range sc.Rows {
		if sc.Detail == FindingOnly && r.Status == selfcheck.Agrees {
			continue
		}
		if r.Subject != subject {
			subject = r.Subject
			sc.heading(subject)
			sc.println(fmt.Sprintf(sc.paint(faint, selfCheckLine+" reason"), "expected", "found", "difference", "tolerance"))
		}
		sc.writeRow(r, sources.number(r.Source))
	}
	if sc.Detail == Everything {
		sc.gap()
		sc.writeSourceList(sources)
	}
	return sc.flush(w)
}

// writeRow prints one check: its name and source, its figures under it.
func (sc *SelfCheckScreen) writeRow(r selfcheck.Row, source int) {
	st := finding.Pass
	if r.Status != selfcheck.Agrees {
		st = finding.Fail
	}
	name := r.What
	if r.Unit != "" {
		name += ", in " + r.Unit
	}
	sc.sayf(sc.paintTone(show.ToneOf(st), show.Word(st))+" ", "     ", "%s [%d]", name, source)
	expected := quantity.Exact(r.Expected)
	figures := fmt.Sprintf(selfCheckLine, expected, likeExpected(expected, r.Found), short(r.Difference), short(r.Tolerance))
	const reasonAt = "         "
	if show.Columns(figures)+1+show.Columns(r.Reason) <= sc.Width {
		sc.println(figures + " " + r.Reason)
		return
	}
	sc.println(strings.TrimRight(figures, " "))
	sc.say(reasonAt, reasonAt, r.Reason)
}

// likeExpected shows a figure with two more decimals than the expected one has.
func likeExpected(expected string, v float64) string {
	if math.IsNaN(v) {
		return "no figure"
	}
	_, decimals, _ := strings.Cut(expected, ".")
	return quantity.Fixed(v, min(len(decimals)+2, 15), quantity.Nearest)
}

// short shows a small figure with two digits.
func short(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return quantity.Short(v, 2)
}
