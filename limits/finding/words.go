package finding

import (
	"slices"
	"strings"
	"unicode"
)

// Declared is a declaration without surrounding blanks; "" where it only says
// that there is none, or that it is still to come.
func Declared(text string) string {
	t := strings.TrimSpace(text)
	bare := strings.ToLower(strings.Trim(t, " .-?!"))
	switch bare {
	case "", "none", "no", "nobody", "nothing", "tba", "n/a", "n.a", "na", "unknown", "false", "x", "xxx":
		return ""
	}
	if says(bare, "to be", "will be", "todo", "to do", "tbd", "fixme", "planned", "plan to", "later", "pending", "not yet", "soon", "missing",
		"under construction", "ordered") {
		return ""
	}
	return t
}

// People counts the different names of an answer's "AB, CD", whatever their case.
func People(who string) int {
	names := map[string]bool{}
	apart := strings.ReplaceAll(who, " and ", ",")
	for _, n := range strings.FieldsFunc(apart, func(r rune) bool { return strings.ContainsRune(",;&+/", r) }) {
		if n = strings.ToLower(strings.Trim(n, " .")); n != "" {
			names[n] = true
		}
	}
	return len(names)
}

// denies tells of an answer that it says that nothing was done, or that the test failed.
func denies(text string) bool {
	return strings.TrimSpace(text) != "" && (Declared(text) == "" ||
		says(strings.ToLower(text), "fail", "fails", "failed", "failing", "failure",
			"not done", "not tested", "not passed", "not ok", "not resilient", "did not", "does not", "could not", "untested", "undone",
			"nope", "did nothing", "does nothing") || complains(strings.ToLower(text)))
}

// complains tells whether a text in lower case names a trouble of the part that was looked at, unless a word before it denies it: "no
// leak" is no complaint. A text that is misread so leaves its item open, which hurts nobody.
func complains(text string) bool {
	troubles := []string{"never", "stuck", "sticks", "jammed", "broken", "broke", "cracked", "crack", "leaks", "leaking", "unreadable",
		"illegible", "burst", "blocked", "iced", "loose", "torn", "bent", "wrong"}
	denied := 0 // how many words more a denial reaches
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if slices.Contains([]string{"no", "not", "nothing", "none", "without", "nowhere", "nobody"}, word) {
			denied = 3
			continue
		}
		if slices.Contains(troubles, word) && denied == 0 {
			return true
		}
		denied = max(denied-1, 0)
	}
	return false
}

// Telling counts the words of an answer that say something of what was seen: "all fine" has none, for it says as much of a launcher
// that nobody looked at. Numbers and what stands alone as a letter are no words.
func Telling(text string) (n int) {
	empty := []string{"ok", "okay", "fine", "good", "great", "well", "done", "yes", "yep", "seen", "saw", "checked", "check", "looked",
		"looks",
		"look", "tested", "test", "passed", "pass", "works", "worked", "all", "it", "is", "was", "are", "were", "the", "and", "as", "expected",
		"everything", "perfect", "perfectly", "right", "correct", "correctly", "super", "true", "sure", "very", "really", "just"}
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		letters := strings.ContainsFunc(word, unicode.IsLetter) && !strings.ContainsFunc(word, unicode.IsDigit)
		if letters && len([]rune(word)) > 1 && !slices.Contains(empty, word) {
			n++
		}
	}
	return n
}

// says tells whether a text in lower case has one of some words, as whole words.
func says(text string, some ...string) bool {
	words := " " + strings.Join(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
	return slices.ContainsFunc(some, func(s string) bool { return strings.Contains(words, " "+s+" ") })
}
