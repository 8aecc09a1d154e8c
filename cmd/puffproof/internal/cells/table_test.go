package cells

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every cell knows its place, counted in characters, behind quotes, comments and the line
// ends of any spreadsheet (RFC 4180 has CR LF).
func TestCellsKnowTheirPlace(t *testing.T) {
	for _, end := range []string{"\n", "\r\n", "\r"} {
		table := Read("x.csv", []byte("# é"+end+`"größe [m]",note`+end+end+`1.5,"two, ""½"" quoted"`+end+"2"+end), 10)
		require.Empty(t, table.Problems, "%q", end)
		assert.Equal(t, []Cell{{"größe [m]", 2, 1}, {"note", 2, 13}}, table.Head)
		require.Len(t, table.Rows, 2)
		assert.Equal(t, Row{Line: 4, Given: 2, Fresh: true, Cells: []Cell{{"1.5", 4, 1}, {`two, "½" quoted`, 4, 5}}}, table.Rows[0])
		assert.Equal(t, Row{Line: 5, Given: 1, Cells: []Cell{{"2", 5, 1}, {"", 5, 1}}}, table.Rows[1], "a missing cell is empty")
	}
}

// A line that cannot be parted is a problem of its own: the others are read all the same.
func TestOneBadLineHidesNoOther(t *testing.T) {
	table := Read("x.csv", []byte("a,b\n1\"2,3\n4,5,6\n7,8\n"), 10)
	require.Len(t, table.Problems, 2)
	assert.Equal(t, []int{2, 3}, []int{table.Problems[0].Line, table.Problems[1].Line})
	assert.Equal(t, 5, table.Problems[1].Column)
	require.Len(t, table.Rows, 1)
	assert.Equal(t, "7", table.Rows[0].Cells[0].Text)
}
