package app

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is known of a paper is found by the very same letters and the very same program
// only; what is damaged is not known.
func TestOnlyTheSamePaperOfTheSameProgramIsKnown(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	m := &memory{dir, "this program"}
	want := answers{Holds: true, OpenItems: 3, Finding: "Holds on the model."}
	m.keep(t.Context(), []byte("a paper"), want)
	got, known := m.recall([]byte("a paper"))
	assert.True(t, known)
	assert.Equal(t, want, got)
	_, known = m.recall([]byte("a paper."))
	assert.False(t, known)
	_, known = (&memory{dir, "another program"}).recall([]byte("a paper"))
	assert.False(t, known)
	for _, damaged := range []string{"", "{}", `{"holds":tr`, `{"holds":true}`, `{"Holds":true,"finding":"x","more":1}`} {
		require.NoError(t, os.WriteFile(m.place([]byte("a paper")), []byte(damaged), 0o600))
		_, known = m.recall([]byte("a paper"))
		assert.False(t, known, damaged)
	}
	var none *memory
	none.keep(t.Context(), []byte("a paper"), want)
	_, known = none.recall([]byte("a paper"))
	assert.False(t, known)
}

// A folder that cannot be written to is no reason to fail.
func TestWhatCannotBeKeptIsNotKnown(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	m := &memory{filepath.Join(file, "below"), "this program"}
	m.keep(t.Context(), []byte("a paper"), answers{Finding: "x"})
	_, known := m.recall([]byte("a paper"))
	assert.False(t, known)
}

func TestTheCacheIsTheUsersOwn(t *testing.T) {
	assert.Equal(t, "/x/cache", cacheFolder([]string{"HOME=/home/b", "XDG_CACHE_HOME=/x/cache"}))
	assert.Contains(t, cacheFolder([]string{"HOME=/home/b", "XDG_CACHE_HOME=relative"}), "/home/b/")
	assert.Empty(t, cacheFolder([]string{"HOME=", "PATH=/bin"}))
}
