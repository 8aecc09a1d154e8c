package interview

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
)

// howWord asks for the way to find an answer out.
const howWord = "how"

// asking is a conversation whose answers come line by line.
type asking struct {
	units quantity.System
	from  <-chan inputfile.Line // lines; closed at the end of the input
	line  int
	said  bool // some line tells something, be it that it is not known
	ended bool
	to    io.Writer // what is asked; nil: nobody sees it, and the first wrong answer ends it
	aside io.Writer // where how is answered while nobody sees the questions
	talk  *Session
	bad   []problem.Problem
}

// longestAnswer bounds a line of the answers in bytes.
const longestAnswer = 1 << 10

// Converse makes a design file of the answers in an input, one line each, in units of a system. Where to is not nil each
// question is shown there and a wrong answer is asked again; else the first wrong answer ends it, as a problem with its line:
// which question the lines behind it answer is not known. The way to find an answer out, which how asks for, is then told on aside,
// with its question; the next line answers it. At the end of the input the rest is not known. The error is the context's, that of
// a line that cannot be read, or ErrNothingSaid.
func Converse(ctx context.Context, in io.Reader, to, aside io.Writer, units quantity.System) ([]byte, []problem.Problem, error) {
	a := &asking{units: units, from: inputfile.Lines(in, longestAnswer), to: to, aside: aside, talk: Begin(units)}
	return a.converse(ctx)
}

// ErrNothingSaid tells that an input ended with no answer in it: a file of that would be nobody's.
var ErrNothingSaid = errors.New("no question was answered, so nothing is written; accepted: one line for each question, such as ball, " +
	"or ? for don't know; puffproof init FILE, without --ask, writes the file to fill in")

// converse asks until a file comes of the answers.
func (a *asking) converse(ctx context.Context) ([]byte, []problem.Problem, error) {
	a.tell("Each question takes one line: an answer, ? for don't know, or how for the way to find it out.")
	for {
		for q, more := a.talk.Next(); more; q, more = a.talk.Next() {
			if err := a.question(ctx, q); err != nil {
				return nil, nil, err
			}
			if a.ended && !a.said {
				return nil, nil, ErrNothingSaid
			}
			if a.to == nil && len(a.bad) > 0 {
				return nil, a.placed(), nil
			}
		}
		if err := a.leftOver(ctx); err != nil {
			return nil, nil, err
		}
		data, problems := a.talk.Finish()
		a.bad = append(a.bad, problems...)
		switch {
		case len(a.bad) == 0:
			return data, nil, nil
		case a.to == nil || a.ended:
			return nil, a.placed(), nil
		}
		a.again()
	}
}

// placed is all that is wrong, with the name of the input.
func (a *asking) placed() []problem.Problem {
	for i := range a.bad {
		a.bad[i].File = "standard input"
	}
	return a.bad
}

// How many lines too many are read, and how many of them are told: an input may never end.
const (
	mostSurplus = 1000
	mostTold    = 20
)

// leftOver reads on to the end where nobody sees the questions: an answer too many stands behind one too few. A line that tells
// nothing, blank or "?", is none.
func (a *asking) leftOver(ctx context.Context) error {
	for n := 0; a.to == nil && !a.ended && n < mostSurplus && len(a.bad) < mostTold; n++ {
		text, err := a.read(ctx)
		if err != nil {
			return err
		}
		if said := strings.TrimSpace(text); !a.ended && said != "" && said != NotKnown {
			a.bad = append(a.bad, problem.Problem{Line: a.line, Column: 1, Message: "is an answer to no question", Found: text,
				Want: "one line for each question that is asked", Hint: "which are asked depends on the answers before"})
		}
	}
	return nil
}

// again asks anew what contradicts.
func (a *asking) again() {
	for _, p := range a.bad {
		a.complain(p)
		a.talk.Again(p.Key)
	}
	a.bad = nil
}

// question asks one question until its answer can be read; where nobody sees it, once.
func (a *asking) question(ctx context.Context, q Question) error {
	a.tell("\n" + q.Ask)
	a.tell("  accepted: " + q.Accepts(a.units))
	for {
		text, err := a.read(ctx)
		if err != nil {
			return err
		}
		if strings.EqualFold(strings.TrimSpace(text), howWord) {
			if a.to == nil {
				paragraph(a.aside, q.Ask)
				paragraph(a.aside, "  "+q.HowTo(a.units))
			}
			a.tell("  " + q.HowTo(a.units))
			continue
		}
		p := a.talk.Answer(q, text, a.line)
		switch {
		case p == nil:
			return nil
		case a.to == nil || a.ended:
			a.bad = append(a.bad, *p)
			return nil
		}
		a.complain(*p)
	}
}

// read is the next line; at the end of the input nothing more is known.
func (a *asking) read(ctx context.Context) (string, error) {
	if a.ended {
		return NotKnown, nil
	}
	if a.to != nil {
		fmt.Fprint(a.to, "> ")
	}
	select {
	case next, more := <-a.from:
		switch {
		case !more:
			a.tell("\nThe rest is not known.")
			a.ended = true
			return NotKnown, nil
		case next.Err != nil:
			return "", fmt.Errorf("line %d: %w", a.line+1, next.Err)
		}
		a.line++
		if strings.HasPrefix(next.Text, "#") {
			return a.read(ctx)
		}
		a.said = a.said || strings.TrimSpace(next.Text) != ""
		return next.Text, nil
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

// complain says what is wrong with an answer.
func (a *asking) complain(p problem.Problem) {
	text := p.Message
	if p.Found != "" {
		text += fmt.Sprintf(": %q", problem.Clip(p.Found))
	}
	a.tell("  not taken: " + text + show.Lead("; accepted: ", p.Want) + show.Lead("; ", p.Hint))
}

// tell shows a paragraph to whoever answers.
func (a *asking) tell(text string) {
	if a.to != nil && !a.ended {
		paragraph(a.to, text)
	}
}

// paragraph writes a text wrapped to the width of a screen, indented as it begins.
func paragraph(to io.Writer, text string) {
	lead := ""
	if strings.HasPrefix(text, "\n") {
		lead = "\n"
	}
	indent := strings.Repeat(" ", len(strings.TrimLeft(text, "\n"))-len(strings.TrimLeft(text, "\n ")))
	fmt.Fprintln(to, lead+show.Wrap(show.Clean(strings.TrimSpace(text)), screen.DefaultWidth, indent, indent))
}
