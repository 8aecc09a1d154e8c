package record

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// State is what there is to say of the record beside a design.
type State struct {
	File     string // as it is named
	Log      *Log
	Restored []string // steps whose readings a run left in the record alone, and that the design's file lacks
	// Due tells of steps whose answers were given of another build what was changed since.
	Due map[string][]Changed
}

// Troubles are what there is to say of the record of a design, each with a word before it: what is wrong, and what became of a run that
// was cut off.
func (s *State) Troubles(design string) (out []string) {
	l := s.Log
	if l == nil {
		return nil
	}
	for _, a := range l.Altered {
		out = append(out, fmt.Sprintf("ALTERED: %s: %s. What it says proves nothing; do its step again.", s.File, a))
	}
	if l.Torn > 0 {
		out = append(out, fmt.Sprintf("Note: %s ends in the middle of a line (%s): a run was cut off while it wrote. Every line before it is whole; "+
			"that reading has to be given again.", s.File, show.Plural(l.Torn, "byte", "bytes")))
	}
	if n := s.Restored; len(n) > 0 {
		out = append(out, fmt.Sprintf("Note: a run was cut off before %s had the readings of %s. The record has them, and now the design has them "+
			"too.", design, strings.Join(n, ", ")))
	}
	return out
}

// Wrote is a reading that was just written down.
type Wrote struct {
	Step   string
	Result string       // Passed or Failed
	Says   finding.Text // why it did not pass, or what a series shows
}
