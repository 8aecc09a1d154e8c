package show

import (
	"slices"
	"strconv"
	"strings"

	"puffproof/limits/finding"
)

// Plural counts things: "1 item", "3 items".
func Plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Joined joins what there is of texts.
func Joined(between string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(p string) bool { return p == "" }), between)
}

// Lead is a text behind its lead; no text has none.
func Lead(lead, text string) string {
	if text == "" {
		return ""
	}
	return lead + text
}

// FilmIt says how readings are taken that follow each other faster than a person reads them.
func FilmIt() string {
	return "Too fast to read by eye: film gauge and stopwatch together, and read both off the pictures."
}

// WhyUnknown says in three lines at most why the first verdict that is unknown is so, where no step is told that would mend it, and none
// fails; nil: there is nothing to say.
func WhyUnknown(verdicts []finding.Verdict, steps []string, text func(finding.Text) string, width int) []string {
	const most = 3
	unknown := WithStatus(verdicts, finding.Unknown)
	if len(steps) > 0 || len(unknown) == 0 || Tally(verdicts, finding.Fail) > 0 {
		return nil
	}
	lines := strings.Split(Wrap("Unknown: "+text(unknown[0].Why)+".", width, "", "  "), "\n")
	if len(lines) > most {
		lines = append(lines[:most-1], Shorten(strings.Join(lines[most-1:], " "), width))
	}
	return lines
}
