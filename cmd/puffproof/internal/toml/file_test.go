package toml

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/problem"
)

func read(text string) *File {
	return Read("x.toml", []byte(text), func(table, found string) (problem.Problem, bool) {
		return problem.Problem{Message: "one " + table + " only", Found: found}, table == "barrel"
	})
}

// Lines and columns are counted by hand, columns in characters: with its quotes "± 1" has five.
func TestEverythingKnowsItsPlace(t *testing.T) {
	f := read("# ±\na = \"± 1\" # x\n[barrel.fit]\nb = [1, true]\n[[c]]\n[[c]]\nd = {e = 2026-01-31}\n")
	require.True(t, f.Sound())
	at := func(offset int) [2]int {
		line, column := f.place(offset)
		return [2]int{line, column}
	}
	assert.Equal(t, [2]int{2, 1}, at(f.Root.Get("a").Offset))
	assert.Equal(t, [2]int{2, 5}, at(f.Root.Get("a").Value.Offset))
	assert.Equal(t, [2]int{2, 10}, at(f.Root.Get("a").Value.Offset+len(`"± 1"`)), "the end of the quoted text")
	fit := f.Root.Get("barrel").Value.Table.Get("fit").Value
	assert.Equal(t, [2]int{3, 9}, at(fit.Offset))
	list := fit.Table.Get("b").Value
	assert.Equal(t, []Kind{IsArray, IsNumber, IsBool}, []Kind{list.Kind, list.Items[0].Kind, list.Items[1].Kind})
	tables := f.Root.Get("c").Value
	require.Len(t, tables.Items, 2)
	inline := tables.Items[1].Table.Get("d").Value
	assert.Equal(t, []Kind{IsTables, IsTable, IsDate}, []Kind{tables.Kind, inline.Kind, inline.Table.Get("e").Value.Kind})
	assert.Nil(t, f.Root.Get("nothing"))
	assert.Nil(t, (*Table)(nil).Get("a"))
}

// A fault hides none of those behind it; they are listed in the order of the file.
func TestAllFaultsAreFound(t *testing.T) {
	f := read("a = 1\na = 2\nb = 3 cm\n[barrel]\nc = 1\n[barrel]\n[a]\n")
	assert.True(t, f.Partial)
	assert.False(t, f.Sound())
	var said []string
	for _, p := range f.Problems() {
		said = append(said, p.String())
	}
	all := strings.Join(said, "\n")
	require.Len(t, said, 4, all)
	assert.Contains(t, said[0], "x.toml:2:1: a: written twice; first in line 1")
	assert.Contains(t, said[1], "x.toml:3:")
	assert.Contains(t, said[1], `write b = "3 cm"`)
	assert.Contains(t, said[2], "x.toml:6:2: one barrel only")
	assert.Contains(t, said[3], "x.toml:7:2: a: already has a value in line 1")
}
