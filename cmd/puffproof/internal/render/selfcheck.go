package render

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"puffproof/cmd/puffproof/internal/selfcheck"
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
		fmt.Fprintln(&b, s.paint(red, fmt.Sprintf("%d of %d check values DO NOT come out: trust no figure of this program here.", failures, len(sc.Rows))))
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
			fmt.Fprintln(&b, Wrap(t, s.Width, fmt.Sprintf("  [%d] ", i+1), "      "))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// writeRow prints one check: its name and source, its figures under it.
func (sc *SelfCheckScreen) writeRow(b *strings.Builder, r selfcheck.Row, source int) {
	word, colour := "PASS", green
	if r.Status != selfcheck.Agrees {
		word, colour = "FAIL", red
	}
	name := r.What
	if r.Unit != "" {
		name += ", in " + r.Unit
	}
	fmt.Fprintln(b, Wrap(fmt.Sprintf("%s [%d]", name, source), sc.Style.Width, sc.Style.paint(colour, word)+" ", "     "))
	expected := strconv.FormatFloat(r.Expected, 'f', -1, 64)
	figures := fmt.Sprintf(selfCheckLine, expected, likeExpected(expected, r.Found), short(r.Difference), short(r.Tolerance))
	const reasonAt = "         "
	if Columns(figures)+1+Columns(r.Reason) <= sc.Style.Width {
		fmt.Fprintln(b, figures+" "+r.Reason)
		return
	}
	fmt.Fprintln(b, strings.TrimRight(figures, " "))
	fmt.Fprintln(b, Wrap(r.Reason, sc.Style.Width, reasonAt, reasonAt))
}

// likeExpected shows a figure with two more decimals than the expected one has.
func likeExpected(expected string, v float64) string {
	if math.IsNaN(v) {
		return "no figure"
	}
	_, decimals, _ := strings.Cut(expected, ".")
	return strconv.FormatFloat(v, 'f', min(len(decimals)+2, 15), 64)
}

// short shows a small figure with two digits.
func short(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return strconv.FormatFloat(v, 'g', 2, 64)
}

type selfCheckDoc struct {
	Agrees   bool              `json:"agrees"`
	Failures int               `json:"failures"`
	Checks   []selfCheckRowDoc `json:"checks"`
}

type selfCheckRowDoc struct {
	Subject    string   `json:"subject"`
	What       string   `json:"what"`
	Source     string   `json:"source"`
	Unit       string   `json:"unit"`
	Expected   float64  `json:"expected"`
	Found      *float64 `json:"found"`
	Difference *float64 `json:"difference"`
	Tolerance  float64  `json:"tolerance"`
	Reason     string   `json:"reason"`
	Status     string   `json:"status"`
}

// SelfCheckJSON is the document of self-check. Found and difference are null
// where nothing was found.
func SelfCheckJSON(rows []selfcheck.Row) (any, error) {
	doc := selfCheckDoc{Failures: selfcheck.Failures(rows), Checks: []selfCheckRowDoc{}}
	doc.Agrees = doc.Failures == 0
	for _, r := range rows {
		doc.Checks = append(doc.Checks, selfCheckRowDoc{r.Subject, r.What, r.Source, r.Unit, r.Expected, known(r.Found), known(r.Difference),
			r.Tolerance, r.Reason, string(r.Status)})
	}
	return doc, finite(doc)
}
