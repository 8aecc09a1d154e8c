package screen

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/show"
)

// writeDoFirst ends the screen of a design that does not hold: what takes away most of what
// stands above, and the command that looks for a way.
func (c *CheckScreen) writeDoFirst() {
	causes := c.Report.DoFirst()
	if len(causes) == 0 {
		return
	}
	c.heading("Do first")
	for i, cause := range causes {
		text := c.text(cause.What)
		if n := len(cause.Verdicts); n > 1 && !cause.Missing() {
			text += fmt.Sprintf(": behind %d verdicts", n)
		}
		c.say(fmt.Sprintf("  %d. ", i+1), "     ", show.Clean(text)+". "+c.text(cause.Do))
	}
	c.say("next: ", "  ", "puffproof advise, which looks for changes with which it flies and holds")
}
