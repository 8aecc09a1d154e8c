package show

import (
	"fmt"
	"strings"
	"time"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/progress"
)

// WaitLine is the line for somebody who waits for a command: how long it is at work, what
// it looks at, how far that is, what it found so far; no wider than a number of columns.
// Where not all fits, the parts between the whole and the innermost go first, then what
// is looked at is cut; what was found stays.
func WaitLine(u quantity.System, command string, since time.Duration, r progress.Report, columns int) string {
	var looking []string
	for _, t := range r.Looking {
		looking = append(looking, Clean(u.Text(t)))
	}
	far := ""
	if r.All > 0 {
		far = fmt.Sprintf(", %d %%", 100*r.Done/r.All)
	}
	if len(r.Found) > 0 {
		far += ", " + Clean(u.Text(r.Found))
	}
	head := fmt.Sprintf("%s, %d s", Clean(command), int(since.Seconds()))
	for {
		at := strings.Join(append([]string{head}, looking...), ": ")
		room := columns - Columns(far)
		switch {
		case Columns(at) <= room:
			return at + far
		case len(looking) > 2:
			looking = append(looking[:1:1], looking[2:]...)
		case room > Columns(head):
			return Shorten(at, room) + far
		default:
			return Shorten(at+far, columns)
		}
	}
}
