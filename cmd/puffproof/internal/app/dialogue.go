package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// dialogue asks for one reading after the other, each written down before the next is asked. An empty line, or the end of the
// input, leaves; what was written stays.
func (m *commissioning) dialogue(ctx context.Context) (status, error) {
	m.call.waiting.End()
	in, who := inputfile.Lines(m.call.Stdin, longestReading), ""
	for asked := screen.First; ; asked = screen.Again {
		s := m.screen()
		if s.Asked = asked; m.Way.Run.Complete {
			s.Asked = screen.NotAsked
		}
		if err := s.Write(m.call.Stdout); err != nil {
			return 0, inputErrorf("the output could not be written: %v", err)
		}
		open := m.Way.Run.Open()
		if open == nil || len(m.Way.Run.Mend()) != 0 || !finding.IsItem(open.ID) {
			return heldStatus(m.Way.Run.Complete), nil
		}
		g := &proving.Reading{Step: open.ID, Date: m.call.today(), As: "--step"}
		var err error
		if g.Value, err = m.ask(ctx, in, s, "reading (empty: leave)"); err != nil || g.Value == "" {
			return left(err)
		}
		prompt := "initials of who did it"
		if open.People > 1 {
			prompt += ", and of who watched"
		}
		if who != "" {
			prompt += " (empty: " + who + ")"
		}
		if g.Who, err = m.ask(ctx, in, s, prompt); err != nil {
			return left(err)
		}
		if g.Who == "" {
			g.Who = who
		}
		if err := m.taken(ctx, g); err != nil {
			return 0, err
		}
		who = show.Clean(g.Who)
	}
}

// longestReading bounds a line of a dialogue in bytes.
const longestReading = 1 << 16

// left is how a dialogue ends before its last step: at the end of the input, or with what is wrong with it.
func left(err error) (status, error) {
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return heldStatus(false), err
}

// taken takes a reading; what cannot be one is told, and asked again. In a pipe nobody is there to be asked: what stands behind it
// may be an answer to anything, so it ends there.
func (m *commissioning) taken(ctx context.Context, g *proving.Reading) error {
	m.wrote = nil
	err := error(nil)
	if finding.Declared(g.Who) == "" {
		err = inputErrorf("%s %s: nobody's initials; nothing was written", g.As, g.Step)
	} else if err = proving.Try(m.name); err == nil {
		err = m.take(ctx, g)
	}
	var input *inputError
	if errors.As(err, &input) && !m.call.Interactive {
		return inputErrorf("%s; what was written before stays, and no line behind this one was read", input.Error())
	}
	if errors.As(err, &input) {
		fmt.Fprintln(m.call.Stdout, show.Clean(input.Error()))
		return nil
	}
	return err
}

// ask prints a prompt and waits for a line. The error is io.EOF where there is none, that of a line that cannot be read, or the
// context's.
func (m *commissioning) ask(ctx context.Context, in <-chan inputfile.Line, s *screen.CommissionScreen, what string) (string, error) {
	fmt.Fprint(m.call.Stdout, s.Asks(what))
	select {
	case line, ok := <-in:
		if !m.call.Interactive { // nobody's own end of the line stands there
			fmt.Fprintln(m.call.Stdout)
		}
		switch {
		case !ok:
			return "", io.EOF
		case line.Err != nil:
			return "", inputErrorf("a line of standard input cannot be read: %v; what was written stays", line.Err)
		}
		return strings.TrimSpace(line.Text), nil
	case <-ctx.Done():
		return "", ctx.Err()
	}
}
