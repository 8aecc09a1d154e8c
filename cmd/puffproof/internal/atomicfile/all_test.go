package atomicfile

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func TestWriteAllWritesEveryFile(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	_, err := WriteAll(t.Context(), []File{{a, []byte("one")}, {b, []byte("two")}}, Keep)
	require.NoError(t, err)
	assert.Equal(t, "one", read(t, a))
	assert.Equal(t, "two", read(t, b))
	assert.Equal(t, []string{"a", "b"}, names(t, dir))
}

// Where one of them cannot be written none is, and those that are there stay as they
// were: a target that exists, a folder that does not, one file under two names, the end of
// the context.
func TestWriteAllWritesAllOrNone(t *testing.T) {
	over, cancel := context.WithCancel(t.Context())
	cancel()
	for _, c := range []struct {
		name     string
		ctx      context.Context
		second   string
		existing Existing
		at       string // the path the error belongs to
	}{
		{"taken", t.Context(), "taken", Keep, "taken"},
		{"no folder", t.Context(), "no/b", Replace, "no/b"},
		{"twice", t.Context(), "./a", Keep, "./a"},
		{"twice, to replace", t.Context(), "./a", Replace, "./a"},
		{"interrupted", over, "b", Keep, ""},
	} {
		dir := t.TempDir()
		t.Chdir(dir)
		require.NoError(t, os.WriteFile("taken", []byte("mine"), 0o600))
		at, err := WriteAll(c.ctx, []File{{"a", []byte("one")}, {c.second, []byte("two")}}, c.existing)
		assert.Error(t, err, c.name)
		assert.Equal(t, c.at, at, c.name)
		assert.Equal(t, []string{"taken"}, names(t, dir), c.name)
		assert.Equal(t, "mine", read(t, "taken"), c.name)
	}
}

// A name that cannot be given any more after others were: those are given back.
func TestWriteAllGivesNamesBack(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	require.NoError(t, os.WriteFile("old", []byte("before"), 0o640))
	c, err := prepare(File{"old", []byte("after")}, Replace)
	require.NoError(t, err)
	c.before, err = contents(c.target)
	require.NoError(t, err)
	require.NoError(t, c.temp.place(c.target, Replace))
	c.temp.drop()
	assert.Equal(t, "after", read(t, "old"))
	require.NoError(t, c.undo())
	assert.Equal(t, "before", read(t, "old"))
	info, err := os.Stat("old")
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
	assert.Equal(t, []string{"old"}, names(t, dir))
}
