// Package waiting shows whoever waits before a terminal what a run is at, in one line that disappears at its end.
package waiting

import (
	"context"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/limits/progress"
)

// Terminal is the terminal behind stderr, with the clock of whoever waits before it.
type Terminal struct {
	Columns func() int // its width now
	// Ticks gives the time again and again, until it is told to stop.
	Ticks func(every time.Duration) (times <-chan time.Time, stop func())
}

// TerminalOf is the terminal that stderr writes to; nil: it is a pipe or a file, or a
// terminal that cannot take a line back, a dumb one.
func TerminalOf(stderr *os.File, kind string) *Terminal {
	if !term.IsTerminal(int(stderr.Fd())) || kind == "dumb" {
		return nil
	}
	return &Terminal{
		Columns: func() int {
			if w, _, err := term.GetSize(int(stderr.Fd())); err == nil && w > 0 {
				return w
			}
			return screen.DefaultWidth
		},
		Ticks: func(every time.Duration) (<-chan time.Time, func()) {
			t := time.NewTicker(every)
			return t.C, t.Stop
		},
	}
}

const (
	silence = 300 * time.Millisecond // how long a command may work without a word
	refresh = 100 * time.Millisecond // how often its line is written again
)

// Line shows on a terminal what a run is at, in one line that disappears at its end.
// The zero value shows nothing.
type Line struct {
	mu     sync.Mutex
	to     io.Writer
	line   Words
	wide   func() int
	began  time.Time
	latest progress.Report
	shown  bool
	done   chan struct{} // closed at the end; nil: not begun
	ended  bool
}

// Words are those of the line, of a run that took so long, in as many columns.
type Words func(took time.Duration, r progress.Report, columns int) string

// Begin shows from now on, a time, what the work below the context that it gives is at, where there is a terminal.
func (w *Line) Begin(ctx context.Context, to io.Writer, t *Terminal, now time.Time, words Words) context.Context {
	w.mu.Lock()
	defer w.mu.Unlock()
	if t == nil || w.ended {
		return ctx
	}
	w.to, w.began, w.done, w.line, w.wide = to, now, make(chan struct{}), words, t.Columns
	times, stop := t.Ticks(refresh)
	go func() {
		defer stop()
		for {
			select {
			case now := <-times:
				w.draw(now)
			case <-w.done:
				return
			}
		}
	}()
	return progress.With(ctx, w.tell)
}

// tell keeps what the work is at for the next time the line is written.
func (w *Line) tell(r progress.Report) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.latest = r
}

// The control sequences that take a line back: to its first column, and erase to its end
// (ECMA-48, 5th edition, CR and EL).
const takeBack = "\r\x1b[K"

// draw writes the line. What cannot be written is not missed.
func (w *Line) draw(now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ended || now.Sub(w.began) < silence {
		return
	}
	_, _ = io.WriteString(w.to, takeBack+w.line(now.Sub(w.began), w.latest, max(w.wide()-1, screen.MinWidth/2)))
	w.shown = true
}

// End takes the line back, and shows nothing any more whatever still works.
func (w *Line) End() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ended {
		return
	}
	w.ended = true
	if w.done != nil {
		close(w.done)
	}
	if w.shown {
		_, _ = io.WriteString(w.to, takeBack)
	}
}
