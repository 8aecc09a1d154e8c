// Package view writes the parts of the page: plain data in, HTML out, by the templates beside it. It computes nothing but the
// words and places of what is shown; figures are drawn by package figure, written by quantity and show.
//
// A part is a piece of the page with an id of its own, which is sent anew when it changes. Start reading at Parts.
package view

import (
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/page/answer"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// State is all that a page of one design shows, as it stands at one moment. Nothing in it changes any more.
type State struct {
	Units      quantity.System
	Generation int    // of the draft
	File       string // its name, as the command line has it
	Others     []Other
	Number     int    // of the design, from 1
	Text       string // of the draft
	Altered    bool   // the draft is not what the file says
	Key        string // of the link
	Day        string // today, an ISO date

	Tables     []design.FieldTable
	NoTOML     string // why there are none
	Problems   []problem.Problem
	Launcher   *launcher.Launcher  // what the draft says; nil: it has problems
	Before     *launcher.Launcher  // what the file says; nil likewise
	Changed    []design.Difference // between the file and the draft
	Undo, Redo string              // what they would do; "" nothing
	Outside    *Outside            // the file was changed meanwhile; nil: it was not
	Note       string              // what became of the last thing that was done

	Quick, QuickBefore *answer.Quick // of the draft and of the file; nil: not yet
	First              *answer.First
	Full               *answer.Full
	FullBefore         *answer.Full
	Settings           *answer.Settings
	Withheld           string       // why there is no answer
	Looking            finding.Text // what is being looked at; nil: nothing
	Search             Search
	Logs               []LogAnswer
	Compare            *Compared
}

// Other is another design of the same page.
type Other struct {
	Number int
	File   string
	This   bool
}

// Outside is what somebody else made of the file.
type Outside struct {
	Gone    bool // there is no such file any more
	Differs []design.Difference
	NoTOML  string
	ID      string // of what it says now: a choice is of that
}

// Search is the looking for a way that flies and holds.
type Search struct {
	Running bool
	At      finding.Text
	Found   []Way
	WhyNot  string
}

// Way is one way that was found.
type Way struct {
	Name    string
	Changes []WayChange
	Declare []WayChange // what only people can say
	Judged  string
}

// WayChange is one change of a way.
type WayChange struct{ Key, Old, New, Why string }

// LogAnswer is the judgement of a file of readings.
type LogAnswer struct {
	Name, Title string
	Good        bool
	Lines       []string
	Problems    []problem.Problem
}

// Compared is this design beside the other.
type Compared struct {
	A, B    string
	Keys    []design.Difference
	Results limits.Comparison
	Ready   bool
}
