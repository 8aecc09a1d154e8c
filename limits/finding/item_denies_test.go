package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An answer that says that nothing was done, or that the test failed, closes nothing; nor
// does one that nobody has signed. What is expected may well be told with a "no".
func TestAnAnswerThatDeniesClosesNothing(t *testing.T) {
	refused := func(value string) bool {
		return len(Refuses(&Item{ID: "x"}, &Confirmation{Item: "x", Who: "A. N.", Date: "2026-05-01", Value: value}, "2026-06-01")) != 0
	}
	for _, value := range []string{"FAILED: hard lump felt, not resilient", "no", "not yet",
		"NOT done, failed", "todo", "it does not shut", "n/a"} {
		assert.True(t, refused(value), value)
	}
	for _, value := range []string{"", "no bubble at the muzzle", "nothing hard felt under it", "two initials",
		"done", "0.02 bar after a minute"} {
		assert.False(t, refused(value), value)
	}
	for who, signed := range map[string]bool{"A. N. and B. M.": true, "?": false, "tbd": false, "nobody": false, " ": false} {
		assert.Equal(t, signed, (&Confirmation{Who: who, Date: "2026-05-01"}).Signed(), who)
	}
}

// An answer counts from its date until it has to be given again, the days themselves
// included, and on no day that is none.
func TestAnAnswerCountsBetweenItsDates(t *testing.T) {
	for _, c := range []struct{ date, until, day, why string }{
		{"2026-05-01", "", "2026-04-30", "dated 2026-05-01, which is still to come"},
		{"2026-05-01", "", "2026-05-01", ""},
		{"2026-05-01", "", "2027-05-01", ""},
		{"2026-05-01", "", "2027-05-02", "its answer of 2026-05-01 held until 2027-05-01"},
		{"2026-05-01", "2026-05-09", "2026-05-09", ""},
		{"2026-05-01", "2026-05-09", "2026-05-10", "held until 2026-05-09"},
		{"2026-05-01", "2030-05-09", "2030-05-09", ""},
		{"2026-05-01", "", "", "names no day"},
		{"2026-05-01", "", "some day", "names no day"},
		{"in spring", "", "2026-05-01", "not both are dates"},
		{"2026-05-01", "soon", "2026-05-01", "not both are dates"},
		{"in spring", "2027-05-01", "2026-05-01", "not both are dates"},
	} {
		why := Refuses(&Item{ID: "x"}, &Confirmation{Item: "x", Who: "A. N.", Date: c.date, ValidUntil: c.until}, c.day).String()
		if c.why == "" {
			assert.Empty(t, why, c)
		} else {
			assert.Contains(t, why, c.why, c)
		}
	}
}
