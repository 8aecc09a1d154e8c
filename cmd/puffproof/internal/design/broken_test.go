package design

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const testdata = "../../../../testdata"

// Each file of testdata/broken says in its first line which faults it has:
//
//	# expect: LINE:COLUMN words | LINE:COLUMN words
//
// Exactly these faults must be listed, in this order, each at its place and with
// its words.
func TestBrokenFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(testdata, "broken", "*.toml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 25)
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			first, _, _ := strings.Cut(string(data), "\n")
			expect, ok := strings.CutPrefix(first, "# expect: ")
			require.True(t, ok, "no expectation in the first line")
			launcher, problems := Read(name, data)
			require.Nil(t, launcher)
			wanted := strings.Split(expect, " | ")
			require.Len(t, problems, len(wanted), "%s", list(problems))
			for i, want := range wanted {
				place, words, _ := strings.Cut(want, " ")
				p := problems[i]
				require.Equal(t, place, fmt.Sprintf("%d:%d", p.Line, p.Column), "%s", p)
				require.Contains(t, p.String(), words)
				require.True(t, strings.HasPrefix(p.String(), name+":"+place+": "))
				require.LessOrEqual(t, strings.Count(p.String(), "\n"), 2, "a problem has up to three lines")
				require.True(t, p.Want != "" || p.Hint != "", "what would be accepted: %s", p)
			}
		})
	}
}

func list(problems []Problem) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n")
	}
	return b.String()
}

// One file with eleven faults lists eleven.
func TestElevenFaults(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "broken", "eleven-faults.toml"))
	require.NoError(t, err)
	_, problems := Read("eleven-faults.toml", data)
	require.Len(t, problems, 11)
}
