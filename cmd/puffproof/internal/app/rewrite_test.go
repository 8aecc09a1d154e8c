package app

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A file is written over only as it was read: what somebody changed meanwhile, protected or took away stays as it is.
func TestAFileIsRewrittenOnlyAsItWasRead(t *testing.T) {
	name := filepath.Join(t.TempDir(), "design.toml")
	holds := func(want string) {
		t.Helper()
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, want, string(data))
	}
	call := &Call{Out: &bytes.Buffer{}}
	require.NoError(t, os.WriteFile(name, []byte("as read"), 0o640))
	require.NoError(t, call.rewritable(name))
	require.NoError(t, call.rewrite(t.Context(), name, []byte("as read"), []byte("as written")))
	holds("as written")
	info, err := os.Stat(name)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	assert.Equal(t, []string{name}, call.wrote)

	assert.ErrorContains(t, call.rewrite(t.Context(), name, []byte("as read"), []byte("again")), "was changed while this ran")
	holds("as written")
	require.NoError(t, os.Chmod(name, 0o440))
	assert.ErrorContains(t, call.rewritable(name), "is read-only and is kept")
	assert.ErrorContains(t, call.rewrite(t.Context(), name, []byte("as written"), []byte("again")), "is read-only and is kept")
	holds("as written")
	require.NoError(t, os.Remove(name))
	assert.ErrorContains(t, call.rewrite(t.Context(), name, []byte("as written"), []byte("again")), "no such file")
	assert.NoFileExists(t, name)
	assert.ErrorContains(t, call.rewritable("-"), "standard input cannot be written")
}
