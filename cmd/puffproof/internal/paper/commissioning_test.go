package paper

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/rests"
)

// The file prints the record reading by reading, with what did not pass, what is of another build, and what somebody altered;
// what a file of readings gave is counted. Without a record there is no such part.
func TestTheFileHoldsTheRecord(t *testing.T) {
	in := invented(t, nil)
	flat, err := rests.Flatten(in.Text)
	require.NoError(t, err)
	build := func(step string) string { return rests.BuildOf(flat, step) }
	name := filepath.Join(t.TempDir(), "r")
	log, err := record.Read(nil).Append(context.Background(), name, time.Unix(0, 0), "p",
		record.Entry{Kind: record.Reading, Step: "relief.test", Title: "Lift it", Reading: "0.98 bar", Who: "AB, CD", Date: "2026-05-30",
			Result: record.Failed, Says: "it lifts too late", Build: build("relief.test")},
		record.Entry{Kind: record.Reading, Step: "relief.test", Title: "Lift it", Reading: "0.74 | bar", Who: "AB, CD", Date: "2026-05-31",
			Result: record.Passed, Build: build("relief.test")},
		record.Entry{Kind: record.Reading, Step: "leak-down", Title: "Leak-down", Series: [][2]float64{{0, 1}, {1, 1}}, Value: "tight", Who: "EF",
			Date: "2026-05-31", Result: record.Passed, Takes: 600, Build: "of another"})
	require.NoError(t, err)
	in.Record = log
	in.Attached = append(in.Attached, document.Attached{Role: RecordRole, Name: "r", SHA256: "0123456789abcdef", Text: "the bytes"})
	text, err := document.Markdown(built(t, in))
	require.NoError(t, err)
	out := string(text)
	for _, want := range []string{"### Record of the commissioning",
		"3 readings in the order in which they were written down, 1 of which did not pass",
		"**did not pass**: it lifts too late", "0.74 \\| bar", "2 readings of a file: tight", "of another build than this file describes",
		"written down sooner after the one before than it takes, 10 min at least",
		"No measurement was given to this file"} {
		assert.Contains(t, out, want)
	}
	assert.Contains(t, out, "Its last line is chained as "+log.Ends()+". The chain holds no secret")
	assert.Contains(t, out, "Last letters of the record, written by the second person")
	assert.NotContains(t, out, "was altered")
	assert.NotContains(t, out, "the bytes", "a record is not printed raw")

	data, err := os.ReadFile(name)
	require.NoError(t, err)
	data[len(data)/2] ^= 1
	in.Record = record.Read(data)
	text, err = document.Markdown(built(t, in))
	require.NoError(t, err)
	assert.Contains(t, string(text), "**The record was altered:**")
	in.Record = nil
	text, err = document.Markdown(built(t, in))
	require.NoError(t, err)
	assert.NotContains(t, string(text), "Record of the commissioning")
	assert.NotContains(t, string(text), "Last letters")
	in.Launcher.Serial = "3, stamped beneath the tank"
	text, err = document.Markdown(built(t, in))
	require.NoError(t, err)
	assert.Regexp(t, `Serial number or mark on the launcher.*3, stamped beneath the tank`, string(text))
}
