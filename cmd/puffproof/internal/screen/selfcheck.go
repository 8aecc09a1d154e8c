package screen

import (
	"fmt"
	"io"
	"math"
	"strings"

	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// SelfCheckScreen shows the check values on this machine.
type SelfCheckScreen struct {
	Style  Style
	Rows   []selfcheck.Row
	Detail Detail
}

// selfCheckLine is the line of figures under the name of a check.
const selfCheckLine = "     %-15s %-17s %-10s %-9s"

// Write prints the screen.
func (sc *SelfCheckScreen) Write(w io.Writer) error {
	var b strings.Builder
	s := sc.Style
	failures := selfcheck.Failures(sc.Rows)
	if failures == 0 {
		fmt.Fprintln(&b, s.paint(green, fmt.Sprintf("All %d check values come out on this machine.", len(sc.Rows))))
	} else {
		fmt.Fprintln(&b, s.paint(red, fmt.Sprintf("%d of %d check values DO NOT come out: trust no figure of this program here.", failures,
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
			fmt.Fprintf(&b, "\n%s\n", s.paint(bold, subject))
			fmt.Fprintf(&b, s.paint(faint, selfCheckLine+" reason\n"), "expected", "found", "difference", "tolerance")
		}
		sc.writeRow(&b, r, sources.number(r.Source))
	}
	if sc.Detail == Everything {
		fmt.Fprintln(&b, "\nSources:")
		for i, t := range sources.list {
			s.say(&b, fmt.Sprintf("  [%d] ", i+1), "      ", t)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// writeRow prints one check: its name and source, its figures under it.
func (sc *SelfCheckScreen) writeRow(b *strings.Builder, r selfcheck.Row, source int) {
	st := finding.Pass
	if r.Status != selfcheck.Agrees {
		st = finding.Fail
	}
	name := r.What
	if r.Unit != "" {
		name += ", in " + r.Unit
	}
	sc.Style.sayf(b, sc.Style.paintTone(show.ToneOf(st), show.Word(st))+" ", "     ", "%s [%d]", name, source)
	expected := show.Exact(r.Expected)
	figures := fmt.Sprintf(selfCheckLine, expected, likeExpected(expected, r.Found), short(r.Difference), short(r.Tolerance))
	const reasonAt = "         "
	if Columns(figures)+1+Columns(r.Reason) <= sc.Style.Width {
		fmt.Fprintln(b, figures+" "+r.Reason)
		return
	}
	fmt.Fprintln(b, strings.TrimRight(figures, " "))
	sc.Style.say(b, reasonAt, reasonAt, r.Reason)
}

// likeExpected shows a figure with two more decimals than the expected one has.
func likeExpected(expected string, v float64) string {
	if math.IsNaN(v) {
		return "no figure"
	}
	_, decimals, _ := strings.Cut(expected, ".")
	return show.Fixed(v, min(len(decimals)+2, 15), show.Nearest)
}

// short shows a small figure with two digits.
func short(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return show.Short(v, 2)
}
