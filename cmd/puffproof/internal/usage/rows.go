package usage

import (
	"fmt"
	"io"

	"puffproof/cmd/puffproof/internal/show"
)

// Rows is a list of names with what each is, in columns.
type Rows struct {
	Rows  [][2]string
	Width int // of the terminal in columns
}

// Write prints the list. The error is the writer's.
func (r Rows) Write(w io.Writer) error {
	wide := 0
	for _, row := range r.Rows {
		wide = max(wide, show.Columns(row[0]))
	}
	for _, row := range r.Rows {
		if _, err := fmt.Fprintln(w, show.Wrap(row[1], r.Width, fmt.Sprintf("%-*s  ", wide, row[0]), "    ")); err != nil {
			return err
		}
	}
	return nil
}
