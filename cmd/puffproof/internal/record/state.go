package record

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// State is what there is to say of the record beside a design.
type State struct {
	File     string // as it is named
	Log      *Log
	Foreign  bool     // its readings are of another design, as far as can be told
	Restored []string // steps whose readings a run left in the record alone, and that the design's file lacks
	// Due tells of steps whose answers were given of another build what was changed since.
	Due map[string][]Changed
}

// ForeignWords say of a record, a file of that name, that it is foreign beside a design, and what to do.
func (l *Log) ForeignWords(file, design string) string {
	return fmt.Sprintf("%s has %s, and %s has none of them: it is the record of another design, or of another launcher, and nothing is "+
		"added to it. Move it away; or, where it is this launcher's and the design was taken back, say so: puffproof commission with "+
		"--own-record.", file,
		show.Plural(len(l.Readings()), "reading", "readings"), design)
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
	if s.Foreign {
		out = append(out, "FOREIGN: "+l.ForeignWords(s.File, design))
	}
	if n := l.Hurried(); n > 0 && len(l.Altered) == 0 {
		out = append(out, fmt.Sprintf("Note: %s has %s written down sooner after the one before than the step takes. Whoever looks at "+
			"all of it asks when that was read.", s.File, show.Plural(n, "reading that was", "readings that were")))
	}
	if l.Torn > 0 {
		out = append(out, fmt.Sprintf("Note: %s ends in the middle of a line (%s): a run was cut off while it wrote. Every line before it is "+
			"whole; that reading has to be given again.", s.File, show.Plural(l.Torn, "byte", "bytes")))
	}
	if n := s.Restored; len(n) > 0 {
		out = append(out, fmt.Sprintf("Note: a run was cut off before %s had the readings of %s. The record has them, and now the "+
			"design has them too.", design, strings.Join(n, ", ")))
	}
	return out
}

// Wrote is a reading that was just written down.
type Wrote struct {
	Step   string
	Result string       // Passed or Failed
	Says   finding.Text // why it did not pass, or what a series shows
	Note   finding.Text // what is odd about it all the same; nil: nothing
}

// Told is what there is to say of it; nothing of none.
func (w *Wrote) Told() (out []finding.Text) {
	if w == nil {
		return nil
	}
	return slices.DeleteFunc([]finding.Text{w.Says, w.Note}, func(t finding.Text) bool { return len(t) == 0 })
}
