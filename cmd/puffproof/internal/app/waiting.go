package app

import (
	"context"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"

	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/progress"
)

// Terminal is the terminal behind stderr, with the clock of whoever waits before it.
type Terminal struct {
	Columns func() int // its width now
	// Ticks gives the time again and again, until it is told to stop.
	Ticks func(every time.Duration) (times <-chan time.Time, stop func())
}

// terminalOf is the terminal that stderr writes to; nil: it is a pipe or a file, or a
// terminal that cannot take a line back.
func terminalOf(stderr *os.File, environ []string) *Terminal {
	if !term.IsTerminal(int(stderr.Fd())) || lookup(environ, "TERM") == "dumb" {
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

// waiting shows on a terminal what a run is at, in one line that disappears at its end.
// The zero value shows nothing.
type waiting struct {
	mu     sync.Mutex
	to     io.Writer
	line   func(now time.Time, r progress.Report) string
	began  time.Time
	latest progress.Report
	shown  bool
	done   chan struct{} // closed at the end; nil: not begun
	ended  bool
}

// begin shows from now on what the work below the context that it gives is at, where
// stderr is a terminal and the line asks neither for quiet nor for one JSON document.
func (w *waiting) begin(ctx context.Context, c *Call, command string) context.Context {
	t := c.Terminal
	w.mu.Lock()
	defer w.mu.Unlock()
	if t == nil || c.quiet || c.json || w.ended {
		return ctx
	}
	w.to, w.began, w.done = c.Stderr, c.Now(), make(chan struct{})
	style := c.style
	w.line = func(now time.Time, r progress.Report) string {
		return show.WaitLine(style.Units, command, now.Sub(w.began), r, max(t.Columns()-1, screen.MinWidth/2))
	}
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
func (w *waiting) tell(r progress.Report) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.latest = r
}

// The control sequences that take a line back: to its first column, and erase to its end
// (ECMA-48, 5th edition, CR and EL).
const takeBack = "\r\x1b[K"

// draw writes the line. What cannot be written is not missed.
func (w *waiting) draw(now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ended || now.Sub(w.began) < silence {
		return
	}
	_, _ = io.WriteString(w.to, takeBack+w.line(now, w.latest))
	w.shown = true
}

// end takes the line back, and shows nothing any more whatever still works.
func (w *waiting) end() {
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
