package record

import "puffproof/limits/finding"

// State is what there is to say of the record beside a design.
type State struct {
	File     string // as it is named
	Log      *Log
	Restored []string // steps whose readings a run left in the record alone, and that the design's file lacks
	// Due tells of steps whose answers were given of another build what was changed since.
	Due map[string][]Changed
}

// Wrote is a reading that was just written down.
type Wrote struct {
	Step   string
	Result string       // Passed or Failed
	Says   finding.Text // why it did not pass, or what a series shows
}
