package app

import (
	"bytes"
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"puffproof/cmd/puffproof/internal/waiting"
	"puffproof/limits/finding"
	"puffproof/limits/progress"
)

// screenful is a fake terminal: what is written to it, and a clock that moves when it is
// told to. A tick is over when its line has been written.
type screenful struct {
	mu      sync.Mutex
	written bytes.Buffer
	now     time.Time
	ticks   chan time.Time
}

func newScreenful() *screenful {
	return &screenful{now: time.Date(2026, 5, 31, 12, 0, 0, 0, time.UTC), ticks: make(chan time.Time)}
}

func (s *screenful) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.written.Write(p)
}

func (s *screenful) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.written.String()
}

// after moves the clock on by so much; the second tick of the same time is taken when the
// first has been drawn.
func (s *screenful) after(d time.Duration) {
	s.now = s.now.Add(d)
	s.ticks <- s.now
	s.ticks <- s.now
}

func (s *screenful) terminal() *waiting.Terminal {
	return &waiting.Terminal{Columns: func() int { return 80 },
		Ticks: func(time.Duration) (<-chan time.Time, func()) { return s.ticks, func() {} }}
}

// look runs a command on a fake terminal.
func (s *screenful) look(t *testing.T, terminal *waiting.Terminal, do func(context.Context), args ...string) (stdout string) {
	t.Helper()
	var out bytes.Buffer
	began := s.now
	host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: s, Now: func() time.Time { return began }, Terminal: terminal}
	st := run(t.Context(), only(func(ctx context.Context, c *Call) (status, error) {
		do(ctx)
		c.Out.WriteString("the answer\n")
		return statusOK, nil
	}), host, append([]string{"p", "try"}, args...))
	assert.Equal(t, statusOK, st)
	return out.String()
}

// For 0.3 s nothing is said; then one line that says what is looked at, how far it is and
// what was found; at the end it is gone.
func TestWhoWaitsSeesWhatIsLookedAt(t *testing.T) {
	s := newScreenful()
	out := s.look(t, s.terminal(), func(ctx context.Context) {
		ctx = progress.Looking(ctx, finding.Words("normal operation"))
		s.after(250 * time.Millisecond)
		assert.Empty(t, s.text())
		progress.Of(ctx).Tell(30, 40, finding.Say("up to %s", finding.Joule(0.31)))
		s.after(150 * time.Millisecond)
		assert.True(t, strings.HasSuffix(s.text(), "\r\x1b[Ktry, 0 s: normal operation, 75 %, up to 0.31 J"), "%q", s.text())
		s.after(2 * time.Second)
		assert.True(t, strings.HasSuffix(s.text(), "\r\x1b[Ktry, 2 s: normal operation, 75 %, up to 0.31 J"), "%q", s.text())
	})
	assert.True(t, strings.HasSuffix(out, "the answer\n"), "%q", out)
	assert.True(t, strings.HasSuffix(s.text(), "J\r\x1b[K"), "%q", s.text())
	assert.NotContains(t, s.text(), "\n")
}

// A quick answer writes nothing, and nothing is said in a pipe, to who wants quiet, or
// beside a JSON document: then nobody listens to the work.
func TestNobodyIsToldWhoDoesNotLook(t *testing.T) {
	quick := newScreenful()
	quick.look(t, quick.terminal(), func(context.Context) { quick.after(299 * time.Millisecond) })
	assert.Empty(t, quick.text())
	for _, args := range [][]string{{"--quiet"}, {"-q"}, {"--json"}, {}} {
		s := newScreenful()
		terminal := s.terminal()
		if len(args) == 0 {
			terminal = nil // a pipe
		}
		s.look(t, terminal, func(ctx context.Context) { assert.Nil(t, progress.Of(ctx), "%q", args) }, args...)
		assert.Empty(t, s.text(), "%q", args)
	}
}

// What is left behind at an interrupt shows nothing after the line is taken back.
func TestInterruptTakesTheLineBack(t *testing.T) {
	s := newScreenful()
	ctx, cancel := context.WithCancel(t.Context())
	left := make(chan context.Context, 1)
	never := make(chan struct{})
	host := Host{Stdin: strings.NewReader(""), Stdout: new(bytes.Buffer), Stderr: s, Now: func() time.Time { return time.Time{} },
		Terminal: s.terminal()}
	st := run(ctx, only(func(ctx context.Context, _ *Call) (status, error) {
		s.after(time.Second)
		left <- ctx
		cancel()
		<-never
		return statusOK, nil
	}), host, []string{"p", "try"})
	progress.Looking(<-left, finding.Words("late"))
	close(never)
	assert.Equal(t, statusInterrupted, st)
	assert.True(t, strings.HasSuffix(s.text(), "\r\x1b[Kpuffproof: interrupted, nothing was written\n"), "%q", s.text())
}
