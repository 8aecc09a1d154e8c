package memory

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is known of a paper is found by the very same letters and the very same program
// only; what is damaged is not known.
func TestOnlyTheSamePaperOfTheSameProgramIsKnown(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	m := &Papers{dir, "this program"}
	want := Answers{Holds: true, OpenItems: 3, Finding: "Holds on the model."}
	m.Keep(t.Context(), []byte("a paper"), want)
	got, known := m.Recall([]byte("a paper"))
	assert.True(t, known)
	assert.Equal(t, want, got)
	_, known = m.Recall([]byte("a paper."))
	assert.False(t, known)
	_, known = (&Papers{dir, "another program"}).Recall([]byte("a paper"))
	assert.False(t, known)
	for _, damaged := range []string{"", "{}", `{"holds":tr`, `{"holds":true}`, `{"Holds":true,"finding":"x","more":1}`} {
		require.NoError(t, os.WriteFile(m.place([]byte("a paper")), []byte(damaged), 0o600))
		_, known = m.Recall([]byte("a paper"))
		assert.False(t, known, damaged)
	}
	var none *Papers
	none.Keep(t.Context(), []byte("a paper"), want)
	_, known = none.Recall([]byte("a paper"))
	assert.False(t, known)
}

// A folder that cannot be written to is no reason to fail.
func TestWhatCannotBeKeptIsNotKnown(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	m := &Papers{filepath.Join(file, "below"), "this program"}
	m.Keep(t.Context(), []byte("a paper"), Answers{Finding: "x"})
	_, known := m.Recall([]byte("a paper"))
	assert.False(t, known)
}

func TestTheCacheIsTheUsersOwn(t *testing.T) {
	assert.Equal(t, "/x/cache", folderOf(environ("HOME=/home/b", "XDG_CACHE_HOME=/x/cache")))
	assert.Contains(t, folderOf(environ("HOME=/home/b", "XDG_CACHE_HOME=relative")), "/home/b/")
	assert.Empty(t, folderOf(environ("HOME=", "PATH=/bin")))
}

// environ gives the values of such an environment.
func environ(pairs ...string) func(string) string {
	return func(key string) string {
		for _, one := range pairs {
			if v, is := strings.CutPrefix(one, key+"="); is {
				return v
			}
		}
		return ""
	}
}
