package record

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

var noon = time.Date(2026, 5, 31, 12, 0, 0, 0, time.UTC)

// reading is an invented reading of a step.
func reading(step, what string) Entry {
	return Entry{Kind: Reading, Step: step, Reading: what, Who: "AB, CD", Date: "2026-05-31", Result: Passed, Value: what}
}

// added appends entries to the record of a name.
func added(t *testing.T, name string, entries ...Entry) *Log {
	t.Helper()
	l, err := Load(name)
	require.NoError(t, err)
	l, err = l.Append(context.Background(), name, noon, "of the tests", entries...)
	require.NoError(t, err)
	return l
}

// recorded is a record with three readings, and its bytes.
func recorded(t *testing.T) (name string, data []byte) {
	t.Helper()
	name = filepath.Join(t.TempDir(), "a.toml.record")
	added(t, name, Entry{Kind: Design, File: "f", Keys: map[string]string{"name": "A", "x.y": `"chain":"`}}, reading("one", "1 s"))
	added(t, name, Entry{Kind: Written, Of: []int{2}})
	added(t, name, reading("two", "quotes \" and \\ and ,\"chain\":\""), reading("one", "2 s"))
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return name, data
}

// What was appended is read back, numbered and chained; what the design lacks is pending; the newest reading counts.
func TestARecordIsReadBack(t *testing.T) {
	name, data := recorded(t)
	l, err := Load(name)
	require.NoError(t, err)
	assert.Empty(t, l.Altered)
	assert.Zero(t, l.Torn+l.Cut)
	require.Len(t, l.Entries, 5)
	for i, e := range l.Entries {
		assert.Equal(t, []any{i + 1, i + 1, "2026-05-31T12:00:00Z", "of the tests"}, []any{e.N, e.Line, e.At, e.Program})
	}
	assert.Equal(t, "2 s", l.Newest("one").Reading)
	assert.Nil(t, l.Newest("three"))
	assert.Len(t, l.Readings(), 3)
	var pending []int
	for _, e := range l.Pending() {
		pending = append(pending, e.N)
	}
	assert.Equal(t, []int{4, 5}, pending)
	assert.Equal(t, "A", l.LastDesign()["name"])
	assert.Nil(t, l.DesignBefore(1))
	assert.Equal(t, 5, bytes.Count(data, []byte("\n")))
	missing, err := Load(filepath.Join(t.TempDir(), "none"))
	require.NoError(t, err)
	assert.Empty(t, missing.Entries)
}

// Cut anywhere, as by a crash, a record keeps every line that was whole; the next entry goes behind what is left of the
// other, and then nothing is missing of either.
func TestACutRecordKeepsEveryWholeLine(t *testing.T) {
	_, data := recorded(t)
	for cut := range len(data) + 1 {
		whole := bytes.Count(data[:cut], []byte("\n"))
		rest := data[bytes.LastIndexByte(data[:cut], '\n')+1 : cut]
		l := Read(data[:cut])
		if next := bytes.IndexByte(data[cut:], '\n'); len(rest) > 0 && next == 0 {
			whole, rest = whole+1, nil // only the end of its line is missing
		}
		require.Len(t, l.Entries, whole, "cut at %d", cut)
		require.Empty(t, l.Altered, "cut at %d", cut)
		require.Equal(t, len(rest), l.Torn, "cut at %d", cut)
		if end := bytes.HasPrefix(data[cut:], []byte("\n")); !end && len(rest) > 1 && cut%29 != 0 {
			continue // the disk takes its time
		}
		name := filepath.Join(t.TempDir(), "r")
		require.NoError(t, os.WriteFile(name, data[:cut], 0o644))
		l = added(t, name, reading("after", "3 s"))
		require.Empty(t, l.Altered, "cut at %d", cut)
		require.Zero(t, l.Torn, "cut at %d", cut)
		require.Equal(t, "3 s", l.Newest("after").Reading)
		require.Len(t, l.Readings(), len(Read(data[:cut]).Readings())+1)
		now, err := os.ReadFile(name)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(now, data[:cut]), "it only grows")
	}
}

// Any byte that is altered, and any line that is taken out but the last, is noticed: SHA-256 has no second text of the same
// sum that anybody knows.
func TestAnAlteredLineIsNoticed(t *testing.T) {
	_, data := recorded(t)
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(0, len(data)-2).Draw(t, "at")
		to := rapid.Byte().Filter(func(b byte) bool { return b != data[at] }).Draw(t, "to")
		bad := bytes.Clone(data)
		bad[at] = to
		l := Read(bad)
		if len(l.Altered) == 0 && l.Torn == 0 {
			t.Fatalf("byte %d as %q is not noticed", at, to)
		}
	})
	all := bytes.SplitAfter(data, []byte("\n"))
	for i := range len(all) - 2 { // behind the last end of a line is nothing
		l := Read(bytes.Join(append(append([][]byte{}, all[:i]...), all[i+1:]...), nil))
		assert.NotEmpty(t, l.Altered, "line %d taken out", i+1)
	}
	twice := Read(bytes.Join(append(append([][]byte{}, all[:2]...), all[1:]...), nil))
	assert.NotEmpty(t, twice.Altered, "a line put in")
	assert.Contains(t, Read([]byte("not a record\nat all\n")).Altered, "line 1 is no entry")
}

// The last letters of a record are those of its last chain, in groups; they are others as soon as anything before them is.
func TestTheLastLettersOfARecord(t *testing.T) {
	_, data := recorded(t)
	l := Read(data)
	chain := l.Entries[len(l.Entries)-1].Chain
	assert.Equal(t, chain[:4]+" "+chain[4:8]+" "+chain[8:12]+" "+chain[12:16], l.Ends())
	name := filepath.Join(t.TempDir(), "b.toml.record")
	other := added(t, name, reading("one", "1.1 s"))
	same := added(t, filepath.Join(t.TempDir(), "c.toml.record"), reading("one", "1 s"))
	assert.NotEqual(t, other.Ends(), same.Ends())
	assert.Empty(t, Read(nil).Ends())
	assert.Empty(t, (*Log)(nil).Ends())
}

// Of a record that was altered nothing is taken into a design: what it says was not written by this program.
func TestAnAlteredRecordRestoresNothing(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.toml.record")
	added(t, name, reading("drill.jam", "seen by both"))
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	d, problems := design.Reader{}.Open("least.toml", head)
	require.Empty(t, problems)
	for text, want := range map[string][]string{string(data): {"drill.jam"}, strings.Replace(string(data), "both", "none", 1): nil} {
		_, restored := Read([]byte(text)).Restore(d)
		assert.Equal(t, want, restored)
	}
}

// full is a disk on which so many bytes are left.
type full struct {
	bytes.Buffer
	left     int
	failSync bool
	stuck    bool // what came in part cannot be taken away
}

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.left {
		n, _ := f.Buffer.Write(p[:f.left])
		f.left = 0
		return n, syscall.ENOSPC
	}
	f.left -= len(p)
	return f.Buffer.Write(p)
}

func (f *full) Sync() error {
	if f.failSync {
		return syscall.EIO
	}
	return nil
}

func (f *full) Truncate(size int64) error {
	if f.stuck {
		return syscall.EIO
	}
	f.Buffer.Truncate(int(size))
	return nil
}

// A record is foreign beside a design that has none of its answers, if those stand in some design already, or were taken of one of
// another name; the first readings of a run that was cut off are not.
func TestAForeignRecord(t *testing.T) {
	type given = finding.Confirmation
	design, label, written := Entry{N: 1, Kind: Design, Keys: map[string]string{"name": "Whale"}}, Entry{N: 2, Kind: Reading, Step: "label",
		Who: "AB", Date: "2026-05-01", Value: "10 bar", Chain: "0123456789abcdef99"}, Entry{N: 3, Kind: Written, Of: []int{2}}
	all := []Entry{design, label, written}
	answer := given{Item: "label", Who: "AB", Date: "2026-05-01", Value: "10 bar"}
	with := func(change func(c *given)) []given {
		c := answer
		change(&c)
		return []given{c}
	}
	for name, c := range map[string]struct {
		entries []Entry
		called  string
		answers []given
		foreign bool
	}{
		"no reading":                {[]Entry{design}, "Other", nil, false},
		"cut off at the first":      {[]Entry{design, label}, "Whale", nil, false},
		"cut off, of another":       {[]Entry{design, label}, "Other", nil, true},
		"written, and not here":     {all, "Whale", nil, true},
		"its answer by name":        {all, "Renamed", with(func(c *given) { c.Record = "0123456789abcdef" }), false},
		"its answer, no name of it": {all, "Whale", with(func(*given) {}), false},
		"an answer of another day":  {all, "Whale", with(func(c *given) { c.Date = "2026-05-02" }), true},
		"one of another record":     {all, "Whale", with(func(c *given) { c.Record = "fedcba9876543210" }), true},
		"one of another item":       {all, "Whale", with(func(c *given) { c.Item = "age" }), true},
	} {
		l := &Log{Entries: c.entries}
		assert.Equal(t, c.foreign, l.Foreign(&launcher.Launcher{Name: c.called, Checklist: c.answers}), name)
	}
}

// On a full disk, at whatever byte, nothing that was there is lost and nothing that is half is an entry.
func TestAFullDiskLosesNothing(t *testing.T) {
	_, data := recorded(t)
	l := Read(data)
	more, err := l.lines(noon, "of the tests", []Entry{reading("after", "3 s")})
	require.NoError(t, err)
	for left := range len(more) {
		for _, stuck := range []bool{false, true} {
			disk := &full{left: left, stuck: stuck}
			disk.Buffer.Write(data)
			require.ErrorIs(t, put(disk, int64(len(data)), more), syscall.ENOSPC)
			after := Read(disk.Bytes())
			require.Equal(t, len(l.Entries), min(len(l.Entries), len(after.Entries)))
			require.Empty(t, after.Altered)
			if !stuck {
				require.Equal(t, data, disk.Bytes())
			}
		}
	}
	disk := &full{left: len(more), failSync: true}
	disk.Buffer.Write(data)
	require.ErrorIs(t, put(disk, int64(len(data)), more), syscall.EIO)
	assert.Equal(t, data, disk.Bytes())
	short := struct{ file }{shortWriter{}}
	assert.ErrorIs(t, put(short, 0, more), io.ErrShortWrite)
}

// shortWriter takes one byte and says nothing.
type shortWriter struct{}

func (shortWriter) Write([]byte) (int, error) { return 1, nil }
func (shortWriter) Sync() error               { return nil }
func (shortWriter) Truncate(int64) error      { return nil }

// What cannot be written is told, and nothing is changed.
func TestWhatCannotBeWritten(t *testing.T) {
	name, data := recorded(t)
	ctx := context.Background()
	old := Read(data)
	added(t, name, reading("three", "3 s"))
	_, err := old.Append(ctx, name, noon, "p", reading("lost", "4 s"))
	require.ErrorIs(t, err, ErrChanged, "somebody else wrote meanwhile")
	require.NoError(t, os.Chmod(name, 0o444))
	l, err := Load(name)
	require.NoError(t, err)
	_, err = l.Append(ctx, name, noon, "p", reading("lost", "4 s"))
	assert.True(t, errors.Is(err, atomicfile.ErrReadOnly) || errors.Is(err, os.ErrPermission), err)
	assert.Error(t, Try(name))
	over, stop := context.WithCancel(ctx)
	stop()
	_, err = l.Append(over, name, noon, "p", reading("lost", "4 s"))
	require.ErrorIs(t, err, context.Canceled)

	folder := filepath.Join(t.TempDir(), "locked")
	require.NoError(t, os.Mkdir(folder, 0o555))
	none := Read(nil)
	_, err = none.Append(ctx, filepath.Join(folder, "r"), noon, "p", reading("lost", "4 s"))
	assert.True(t, errors.Is(err, atomicfile.ErrReadOnly) || errors.Is(err, os.ErrPermission), err)
	assert.Error(t, Try(filepath.Join(folder, "r")))
	for _, place := range []string{"/dev/full", t.TempDir()} {
		_, err = none.Append(ctx, place, noon, "p", reading("lost", "4 s"))
		assert.Error(t, err, place)
		_, err = Load(place)
		assert.ErrorIs(t, err, atomicfile.ErrNotRegular, place)
	}
	fresh := filepath.Join(t.TempDir(), "new")
	require.NoError(t, Try(fresh))
	assert.NoFileExists(t, fresh, "trying leaves nothing behind")
	now, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.False(t, strings.Contains(string(now), "lost"))
}

// Whatever a record holds, reading it ends, and what can be read of it can be written behind.
func FuzzRead(f *testing.F) {
	f.Add([]byte(nil))
	f.Add([]byte("\n\n"))
	f.Add([]byte(`{"n":1,"kind":"torn","at":"","program":"","chain":"0"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		l := Read(data)
		more, err := l.lines(noon, "p", []Entry{reading("a", "b")})
		require.NoError(t, err)
		again := Read(append(bytes.Clone(data), more...))
		require.GreaterOrEqual(t, len(again.Readings()), len(l.Readings())+1)
		require.Equal(t, "b", again.Newest("a").Reading)
	})
}
