package interview

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
)

// Session is one conversation: it knows what was answered, and what is to be asked next.
type Session struct {
	units   quantity.System
	answers Answers
	asked   map[string]int // the line of each answer; 0: none
}

// Begin opens a conversation in units of a system.
func Begin(units quantity.System) *Session {
	return &Session{units: units, answers: Answers{}, asked: map[string]int{}}
}

// Next is the question to ask now; false: all are answered.
func (s *Session) Next() (Question, bool) {
	for _, q := range Questions() {
		if _, has := s.answers[q.ID]; !has && (q.When == nil || q.When(s.answers)) {
			return q, true
		}
	}
	return Question{}, false
}

// Answer takes the answer of a question, which stands in a line of what is answered. Of one that cannot be read the
// problem says why; it counts as not known until it is asked again.
func (s *Session) Answer(q Question, text string, line int) *problem.Problem {
	kept, p := q.Read(text, s.units)
	s.asked[q.ID] = line
	if p != nil {
		kept = NotKnown
		p.Line, p.Column = line, 1
	}
	s.answers[q.ID] = kept
	return p
}

// Again forgets the answers of some questions, so that they are asked again.
func (s *Session) Again(ids ...string) {
	for _, id := range ids {
		delete(s.answers, id)
	}
}

// Finish gives the design file. What was not asked is not known. Where the answers contradict each other there is none, and
// each problem names a question, with the line of its answer.
func (s *Session) Finish() ([]byte, []problem.Problem) {
	data, asked := File(s.answers, s.units)
	_, found := design.Reader{Units: s.units}.Read("the answers", data)
	if len(found) == 0 {
		return data, nil
	}
	var out []problem.Problem
	for _, p := range found {
		id := asked[p.Key]
		if id == "" { // of a table: any answer in it
			id = asked[within(asked, p.Key)]
		}
		p.Line, p.Column, p.Key, p.File = s.asked[id], 1, id, ""
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, b problem.Problem) int { return a.Line - b.Line })
	return nil, out
}

// within is a key within a table, the first in order; "" none.
func within(asked map[string]string, table string) string {
	best := ""
	for key := range asked {
		if strings.HasPrefix(key, table) && (best == "" || key < best) {
			best = key
		}
	}
	return best
}
