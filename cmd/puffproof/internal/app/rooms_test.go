package app

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// room is a package: what it uses of this module, and how long it is.
type room struct {
	uses  map[string]bool
	lines int
}

// rooms are the packages of this module by their folder, tests left out.
func rooms(t *testing.T) map[string]*room {
	t.Helper()
	const root = "../../../.."
	out := map[string]*room{}
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		file, err := parser.ParseFile(token.NewFileSet(), path, data, parser.ImportsOnly)
		require.NoError(t, err)
		folder, err := filepath.Rel(root, filepath.Dir(path))
		require.NoError(t, err)
		if out[folder] == nil {
			out[folder] = &room{uses: map[string]bool{}}
		}
		out[folder].lines += strings.Count(string(data), "\n")
		for _, i := range file.Imports {
			if name, own := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), "puffproof/"); own {
				out[folder].uses[name] = true
			}
		}
		return nil
	}))
	return out
}

// DEVELOPERS.md lists every package, and each uses those below it in the list, never one above or beside it. No package is above 4,000
// lines.
func TestRoomsAreInOrder(t *testing.T) {
	text, err := os.ReadFile("../../../../DEVELOPERS.md")
	require.NoError(t, err)
	_, list, _ := strings.Cut(string(text), "| folder | promise |")
	list, _, _ = strings.Cut(list, "\n\n")
	place := map[string]int{}
	for i, row := range strings.Split(list, "\n") {
		cells := strings.Split(row, "|")
		if len(cells) < 3 {
			continue
		}
		beside := ""
		for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(cells[1], -1) {
			name := m[1]
			if beside != "" { // "`a/b`, `c`" is a/b and a/c
				name = beside + "/" + name
			}
			beside = filepath.Dir(name)
			place[name] = i
		}
	}
	all := rooms(t)
	require.Greater(t, len(all), 50)
	for folder, r := range all {
		if strings.HasPrefix(folder, "testdata/") {
			continue
		}
		assert.Contains(t, place, folder, "no row in the list")
		assert.LessOrEqual(t, r.lines, 4000, folder)
		for used := range r.uses {
			if !strings.HasPrefix(used, "testdata/") {
				assert.Less(t, place[folder], place[used], "%s uses %s, which the list has above it", folder, used)
			}
		}
	}
}

// No line of code is wider than 140 characters: own rule of this project.
func TestLinesAreWithinTheWidth(t *testing.T) {
	files := 0
	require.NoError(t, filepath.WalkDir("../../../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		files++
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		for i, line := range strings.Split(string(data), "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), 140, "%s:%d", path, i+1)
		}
		return nil
	}))
	assert.Greater(t, files, 500)
}
