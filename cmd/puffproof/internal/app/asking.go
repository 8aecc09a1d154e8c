package app

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/interview"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
)

// howWord asks for the way to find an answer out.
const howWord = "how"

// asking is a conversation whose answers come line by line.
type asking struct {
	call  *Call
	from  <-chan typed // lines; closed at the end of the input
	line  int
	ended bool
	to    io.Writer // what is asked; nil: nobody sees it, and what is wrong is told at the end
	talk  *interview.Session
	bad   []problem.Problem
}

// typed is a line as it was read.
type typed struct {
	text string
	err  error // nil: the line could be read
}

// longestAnswer bounds a line of the answers in bytes.
const longestAnswer = 1 << 10

// ask makes a design file of what standard input answers. On a terminal each question is shown and a wrong answer is asked
// again; else all that is wrong is told at once.
func (c *Call) ask(ctx context.Context) ([]byte, error) {
	a := &asking{call: c, from: linesOf(c.Stdin), talk: interview.Begin(c.style.Units)}
	if f, is := c.Stdin.(*os.File); is {
		c.used("standard input", f)
		if term.IsTerminal(int(f.Fd())) {
			c.waiting.end() // who answers is not waited for aloud
			a.to = c.Stderr
		}
	}
	return a.converse(ctx)
}

// linesOf gives the lines of an input as they come. Nothing wakes a read that waits: it stays behind.
func linesOf(in io.Reader) <-chan typed {
	out := make(chan typed)
	go func() {
		defer close(out)
		lines := bufio.NewScanner(in)
		lines.Buffer(make([]byte, longestAnswer), longestAnswer)
		for lines.Scan() {
			out <- typed{text: lines.Text()}
		}
		if err := lines.Err(); err != nil {
			out <- typed{err: err}
		}
	}()
	return out
}

// converse asks until a file comes of the answers.
func (a *asking) converse(ctx context.Context) ([]byte, error) {
	a.tell("Each question takes one line: an answer, ? for don't know, or how for the way to find it out.")
	for {
		for q, more := a.talk.Next(); more; q, more = a.talk.Next() {
			if err := a.question(ctx, q); err != nil {
				return nil, err
			}
		}
		if err := a.leftOver(ctx); err != nil {
			return nil, err
		}
		data, problems := a.talk.Finish()
		a.bad = append(a.bad, problems...)
		switch {
		case len(a.bad) == 0:
			return data, nil
		case a.to == nil || a.ended:
			for i := range a.bad {
				a.bad[i].File = "standard input"
			}
			return nil, &fileError{a.bad}
		}
		a.again()
	}
}

// leftOver reads on to the end where nobody sees the questions: an answer too many stands behind one too few.
func (a *asking) leftOver(ctx context.Context) error {
	for a.to == nil && !a.ended {
		text, err := a.read(ctx)
		if err != nil {
			return err
		}
		if !a.ended && strings.TrimSpace(text) != "" {
			a.bad = append(a.bad, problem.Problem{Line: a.line, Column: 1, Message: "is an answer to no question", Found: text,
				Want: "one line for each question that is asked", Hint: "which are asked depends on the answers before"})
			return nil
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
func (a *asking) question(ctx context.Context, q interview.Question) error {
	a.tell("\n" + q.Ask)
	a.tell("  accepted: " + q.Accepts(a.call.style.Units))
	for {
		text, err := a.read(ctx)
		if err != nil {
			return err
		}
		if strings.EqualFold(strings.TrimSpace(text), howWord) {
			a.tell("  " + q.HowTo(a.call.style.Units))
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
		return interview.NotKnown, nil
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
			return interview.NotKnown, nil
		case next.err != nil:
			return "", inputErrorf("standard input: line %d: %s", a.line+1, next.err)
		}
		a.line++
		if strings.HasPrefix(next.text, "#") {
			return a.read(ctx)
		}
		return next.text, nil
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
	if a.to == nil || a.ended {
		return
	}
	lead := ""
	if strings.HasPrefix(text, "\n") {
		lead = "\n"
	}
	indent := strings.Repeat(" ", len(strings.TrimLeft(text, "\n"))-len(strings.TrimLeft(text, "\n ")))
	fmt.Fprintln(a.to, lead+screen.Wrap(show.Clean(strings.TrimSpace(text)), screen.DefaultWidth, indent, indent))
}
