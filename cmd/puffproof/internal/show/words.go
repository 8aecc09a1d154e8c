package show

import (
	"slices"
	"strconv"
	"strings"
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
