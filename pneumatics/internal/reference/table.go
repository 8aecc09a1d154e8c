// Package reference reads, for tests, the reference figures of testdata.
package reference

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Record is one row of a reference table by column name.
type Record map[string]string

// Table reads a CSV file. Lines that start with # say tool,
// version, command and date. A table that is missing or empty is a failure.
func Table(t testing.TB, path string) []Record {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", path)
	rows := make([]Record, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := Record{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// F is a column as a number; an empty cell is 0, a missing column or a word
// stops the test.
func (r Record) F(column string) float64 {
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
