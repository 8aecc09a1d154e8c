package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An answer that says that nothing was done, or that the test failed, closes nothing; nor
// does one that nobody has signed. What is expected may well be told with a "no".
func TestAnAnswerThatDeniesClosesNothing(t *testing.T) {
	refused := func(value string) bool {
		return len(Refuses(&Item{ID: "x"}, &Confirmation{Item: "x", Who: "A. N.", Date: "2026-05-01", Value: value}, "")) != 0
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
