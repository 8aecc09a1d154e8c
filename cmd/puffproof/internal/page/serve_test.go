package page

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// serve serves copies of example designs; their folder and the link.
func serve(t *testing.T, designs ...string) (folder, link string) {
	t.Helper()
	folder = t.TempDir()
	var names []string
	for _, d := range designs {
		data, err := os.ReadFile("../../../../testdata/designs/" + d + ".toml")
		require.NoError(t, err)
		name := filepath.Join(folder, d+".toml")
		require.NoError(t, os.WriteFile(name, data, 0o644))
		names = append(names, name)
	}
	return folder, begin(t, names...)
}

// begin serves files until the test ends; the link.
func begin(t *testing.T, names ...string) string {
	t.Helper()
	return beginIn(t, t.Context(), names...)
}

// beginIn is begin below a context.
func beginIn(t *testing.T, ctx context.Context, names ...string) string {
	t.Helper()
	ctx, stop := context.WithCancel(ctx)
	link, done := make(chan string, 1), make(chan error, 1)
	go func() {
		done <- Serve(ctx, Options{Names: names, Today: func() string { return "2026-05-31" }, Stay: Stays,
			Read:  func(_ context.Context, name string) ([]byte, error) { return os.ReadFile(name) },
			Ready: func(l, _, _ string) error { link <- l; return nil }})
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
