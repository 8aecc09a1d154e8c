package screen

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/show"
)

// writeDoFirst ends the screen: of a design that does not hold what takes away most of what
// stands above, of any the next command.
func (c *CheckScreen) writeDoFirst() {
	for i, cause := range c.Report.DoFirst() {
		if i == 0 {
			c.heading("Do first")
		}
		text := c.text(cause.What)
		if n := len(cause.Verdicts); n > 1 && !cause.Missing() {
			text += fmt.Sprintf(": behind %d verdicts", n)
		}
		c.say(fmt.Sprintf("  %d. ", i+1), "     ", show.Clean(text)+". "+c.text(cause.Do))
	}
	c.println(c.next())
}
