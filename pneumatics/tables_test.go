package pneumatics

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// record is one row of a reference table by column name.
type record map[string]string

// table reads a CSV of testdata/reference. Lines that start with # say tool,
// version, command and date. A table that is missing or empty is a failure.
func table(t testing.TB, name string) []record {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "reference", name))
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", name)
	rows := make([]record, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := record{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// f is a column as a number; an empty cell is 0, a missing column or a word
// stops the test.
func (r record) f(column string) float64 {
	text, ok := r[column]
	if !ok {
		panic("no column " + column)
	}
	if text == "" {
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("column " + column + ": " + err.Error())
	}
	return v
}
