package page

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// beginIn serves files below a context until the test ends; the link.
func beginIn(t *testing.T, ctx context.Context, names ...string) string {
	t.Helper()
	return beginOn(t, ctx, "2026-05-31", names...)
}

// beginOn does so on a day.
func beginOn(t *testing.T, ctx context.Context, day string, names ...string) string {
	t.Helper()
	return beginReading(t, ctx, day, func(_ context.Context, name string) ([]byte, error) { return os.ReadFile(name) }, names...)
}

// beginReading does so with a reader of files.
func beginReading(t *testing.T, ctx context.Context, day string, read func(context.Context, string) ([]byte, error),
	names ...string) string {
	t.Helper()
	ctx, stop := context.WithCancel(ctx)
	link, done := make(chan string, 1), make(chan error, 1)
	go func() {
		done <- Serve(ctx, Options{Names: names, Today: func() string { return day }, Stay: Stays,
			Read: read, Ready: func(l, _, _ string) error { link <- l; return nil }})
	}()
	t.Cleanup(func() { stop(); require.NoError(t, <-done) })
	select {
	case l := <-link:
		return l
	case err := <-done:
		t.Fatal(err)
	}
	return ""
}
