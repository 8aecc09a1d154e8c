package app

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

// dialogue asks for one reading after the other, each written down before the next is asked. An empty line, or the end of the
// input, leaves; what was written stays.
func (m *commissioning) dialogue(ctx context.Context) (status, error) {
	m.call.waiting.end()
	in, who := lines(m.call.Stdin), ""
	for asked := screen.First; ; asked = screen.Again {
		s := m.screen()
		if s.Asked = asked; m.Way.Run.Complete {
			s.Asked = screen.NotAsked
		}
		if err := s.Write(m.call.Stdout); err != nil {
			return 0, inputErrorf("the output could not be written: %v", err)
		}
		open := m.Way.Run.Open()
		if open == nil || len(m.Way.Run.Refused) != 0 || len(m.Way.Run.Stops(open.ID)) != 0 || !finding.IsItem(open.ID) {
			return heldStatus(m.Way.Run.Complete), nil
		}
		g := &proving.Reading{Step: open.ID, Date: m.call.today(), As: "--step"}
		var ok bool
		if g.Value, ok = m.ask(ctx, in, s, "reading (empty: leave)"); !ok || g.Value == "" {
			return heldStatus(false), ctx.Err()
		}
		prompt := "initials of who did it"
		if open.People > 1 {
			prompt += ", and of who watched"
		}
		if who != "" {
			prompt += " (empty: " + who + ")"
		}
		if g.Who, ok = m.ask(ctx, in, s, prompt); !ok {
			return heldStatus(false), ctx.Err()
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

// taken takes a reading; what cannot be one is told, and asked again.
func (m *commissioning) taken(ctx context.Context, g *proving.Reading) error {
	m.wrote = nil
	err := error(nil)
	if finding.Declared(g.Who) == "" {
		err = inputErrorf("nobody's initials: nothing was written")
	} else if err = proving.Try(m.name); err == nil {
		err = m.take(ctx, g)
	}
	var input *inputError
	if errors.As(err, &input) {
		fmt.Fprintln(m.call.Stdout, show.Clean(input.Error()))
		return nil
	}
	return err
}

// ask prints a prompt and waits for a line; false: there is none, or nobody waits any more.
func (m *commissioning) ask(ctx context.Context, in <-chan string, s *screen.CommissionScreen, what string) (string, bool) {
	fmt.Fprint(m.call.Stdout, s.Asks(what))
	select {
	case line, ok := <-in:
		if !m.call.Interactive { // nobody's own end of the line stands there
			fmt.Fprintln(m.call.Stdout)
		}
		return strings.TrimSpace(line), ok
	case <-ctx.Done():
		return "", false
	}
}

// lines gives the lines of an input one by one; the channel is closed at its end.
func lines(in io.Reader) <-chan string {
	out := make(chan string)
	go func() {
		defer close(out)
		for r := bufio.NewScanner(in); r.Scan(); {
			out <- r.Text()
		}
	}()
	return out
}
