package atomicfile

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A run that is killed while it writes leaves no name behind on Linux: the file has
// none before it is whole.
func TestAHalfWrittenFileHasNoName(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("only Linux has files without a name (open(2), O_TMPFILE)")
	}
	dir := t.TempDir()
	half, err := newTemp(dir, defaultMode)
	require.NoError(t, err)
	defer half.drop()
	require.NoError(t, half.fill([]byte("half")))
	assert.Empty(t, names(t, dir))
}

// What a killed run left under a hidden name is cleared away by the next one that
// writes there: old files of our own name, nothing else.
func TestLeftoversAreClearedAway(t *testing.T) {
	dir := t.TempDir()
	old := time.Now().Add(-2 * stale)
	for name, age := range map[string]time.Time{
		".puffproof-0123456789abcdef.tmp":  old,
		".puffproof-fedcba9876543210.tmp":  time.Now(), // of a run that may still be at work
		".puffproof-0123456789abcdef.tmp~": old,
		".puffproof-notes.tmp":             old,
		"x.puffproof-0123456789abcdef.tmp": old,
	} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, nil, 0o600))
		require.NoError(t, os.Chtimes(path, age, age))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, ".puffproof-0000000000000000.tmp"), 0o700))
	require.NoError(t, os.Chtimes(filepath.Join(dir, ".puffproof-0000000000000000.tmp"), old, old))
	require.NoError(t, Write(t.Context(), filepath.Join(dir, "a"), nil, Keep))
	assert.ElementsMatch(t, []string{"a", ".puffproof-fedcba9876543210.tmp", ".puffproof-0123456789abcdef.tmp~", ".puffproof-notes.tmp",
		"x.puffproof-0123456789abcdef.tmp", ".puffproof-0000000000000000.tmp"}, names(t, dir))
}

// The way of the platforms without unnamed files works here too.
func TestAHiddenNameIsGoneAfterwards(t *testing.T) {
	for _, existing := range []Existing{Keep, Replace} {
		dir := t.TempDir()
		name, err := hiddenName(dir)
		require.NoError(t, err)
		require.Regexp(t, hidden, filepath.Base(name))
		f, err := os.Create(name)
		require.NoError(t, err)
		half := &temp{file: f, name: name}
		require.NoError(t, half.fill([]byte("x")))
		require.NoError(t, half.place(filepath.Join(dir, "a"), existing))
		half.drop()
		assert.Equal(t, []string{"a"}, names(t, dir))
	}
}

// What Write would refuse, Try refuses before there is data; it leaves nothing.
func TestTryRefusesWhatWriteWould(t *testing.T) {
	dir := t.TempDir()
	locked := filepath.Join(dir, "locked")
	require.NoError(t, os.WriteFile(locked, []byte("mine"), 0o444))
	for _, c := range []struct {
		name     string
		existing Existing
		want     error
	}{
		{dir, Replace, ErrNotRegular},
		{"/dev/null", Replace, ErrNotRegular},
		{locked, Keep, fs.ErrExist},
		{locked, Replace, ErrReadOnly},
		{filepath.Join(dir, "no", "a"), Keep, fs.ErrNotExist},
	} {
		assert.ErrorIs(t, Try(c.name, c.existing), c.want, c.name)
		assert.ErrorIs(t, Write(t.Context(), c.name, nil, c.existing), c.want, c.name)
	}
	require.NoError(t, Try(filepath.Join(dir, "new"), Keep))
	assert.Equal(t, []string{"locked"}, names(t, dir))
	text, err := os.ReadFile(locked)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(text))
}
