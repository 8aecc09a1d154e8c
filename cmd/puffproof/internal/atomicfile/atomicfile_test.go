package atomicfile

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// names lists a folder, so that a temporary file left behind is seen.
func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestNewFileHoldsExactlyTheData(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, Write(t.Context(), path, []byte("one\n"), Keep))
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "one\n", string(got))
	assert.Equal(t, []string{"a.toml"}, names(t, dir))
}

func TestKeepLeavesAnExistingFileAlone(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	assert.ErrorIs(t, Write(t.Context(), path, []byte("new"), Keep), fs.ErrExist)
	got, _ := os.ReadFile(path)
	assert.Equal(t, "mine", string(got))
	assert.Equal(t, []string{"a.toml"}, names(t, dir))
}

func TestKeepTreatsADanglingLinkAsTaken(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), path))
	assert.ErrorIs(t, Write(t.Context(), path, []byte("new"), Keep), fs.ErrExist)
	assert.Equal(t, []string{"a.toml"}, names(t, dir))
}

func TestReplaceKeepsPermissions(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	require.NoError(t, Write(t.Context(), path, []byte("new"), Replace))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
	got, _ := os.ReadFile(path)
	assert.Equal(t, "new", string(got))
}

func TestReplaceWritesThroughALink(t *testing.T) {
	dir, other := t.TempDir(), t.TempDir()
	real := filepath.Join(other, "real.toml")
	link := filepath.Join(dir, "link.toml")
	require.NoError(t, os.WriteFile(real, []byte("old"), 0o644))
	require.NoError(t, os.Symlink(real, link))
	require.NoError(t, Write(t.Context(), link, []byte("new"), Replace))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink, "the link must stay a link")
	got, _ := os.ReadFile(real)
	assert.Equal(t, "new", string(got))
	assert.Equal(t, []string{"real.toml"}, names(t, other))
}

func TestFolderAndDeviceAreNeverReplaced(t *testing.T) {
	dir := t.TempDir()
	assert.ErrorIs(t, Write(t.Context(), dir, nil, Replace), ErrNotRegular)
	assert.ErrorIs(t, Write(t.Context(), dir, nil, Keep), ErrNotRegular)
	assert.ErrorIs(t, Write(t.Context(), "/dev/null", nil, Replace), ErrNotRegular)
}

func TestMissingFolderIsAnError(t *testing.T) {
	err := Write(t.Context(), filepath.Join(t.TempDir(), "no", "a.toml"), nil, Keep)
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

func TestReadOnlyFolderIsAnError(t *testing.T) {
	if os.Geteuid() == 0 {
		// The super-user may write anywhere, /proc alone refuses even that.
		require.Error(t, Write(t.Context(), "/proc/puffproof.toml", []byte("x"), Keep))
		return
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	assert.ErrorIs(t, Write(t.Context(), filepath.Join(dir, "a"), nil, Keep), fs.ErrPermission)
}

func TestEndedContextChangesNothing(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o644))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	assert.ErrorIs(t, Write(ctx, path, []byte("new"), Replace), context.Canceled)
	got, _ := os.ReadFile(path)
	assert.Equal(t, "old", string(got))
	assert.Equal(t, []string{"a.toml"}, names(t, dir))
}

// Of many writers that race for one new name exactly one may win, and the file
// must be wholly the winner's.
func TestOneWriterWinsARace(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.toml")
	errs := make([]error, 16)
	var wg sync.WaitGroup
	for i := range errs {
		wg.Go(func() {
			errs[i] = Write(t.Context(), path, []byte(strings.Repeat(string(rune('a'+i)), 4096)), Keep)
		})
	}
	wg.Wait()
	won := -1
	for i, err := range errs {
		if err == nil {
			require.Equal(t, -1, won, "two writers won")
			won = i
		} else {
			assert.ErrorIs(t, err, fs.ErrExist)
		}
	}
	require.NotEqual(t, -1, won)
	got, _ := os.ReadFile(path)
	assert.Equal(t, strings.Repeat(string(rune('a'+won)), 4096), string(got))
	assert.Equal(t, []string{"a.toml"}, names(t, dir))
}

func TestVeryLongNameLeavesRoomForTheTemporaryName(t *testing.T) {
	path := filepath.Join(t.TempDir(), strings.Repeat("n", 250))
	assert.NoError(t, Write(t.Context(), path, []byte("x"), Keep))
}
