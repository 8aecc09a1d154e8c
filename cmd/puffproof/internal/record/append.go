package record

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"puffproof/cmd/puffproof/internal/atomicfile"
)

var (
	// ErrChanged is returned where somebody wrote into the record since it was read.
	ErrChanged = errors.New("was added to while this ran; run it again")
	// ErrBusy is returned where another run holds the record for too long.
	ErrBusy = errors.New("is held by another run; end that first")
	// ErrLarge is returned for a file that is too large to be a record.
	ErrLarge = errors.New("is larger than 16 MiB and so no record")
)

// most is how many bytes of a record are read.
const most = 16 << 20

// Load reads the record of a name; one that is not there is empty. The errors are those of package os, those of package
// atomicfile for a link and for what is no regular file, and ErrLarge.
func Load(name string) (*Log, error) {
	f, err := open(name, os.O_RDONLY)
	if errors.Is(err, fs.ErrNotExist) {
		return Read(nil), nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := all(f)
	if err != nil {
		return nil, err
	}
	return Read(data), nil
}

// open opens a regular file; of anything else it does not wait for a byte.
func open(name string, flag int) (*os.File, error) {
	if info, err := os.Lstat(name); err == nil && info.Mode()&os.ModeSymlink != 0 { // what a link points to is no record
		return nil, fmt.Errorf("%s: %w", name, atomicfile.ErrLink)
	}
	f, err := os.OpenFile(name, flag|careful, 0o644)
	if errors.Is(err, syscall.ELOOP) { // a link that was put there meanwhile
		return nil, fmt.Errorf("%s: %w", name, atomicfile.ErrLink)
	}
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s: %w", name, atomicfile.ErrNotRegular)
	}
	if err == nil && flag&os.O_RDWR != 0 && info.Mode().Perm()&0o222 == 0 { // the superuser may; somebody locked it all the same
		err = fmt.Errorf("%s: %w", name, atomicfile.ErrReadOnly)
	}
	if err != nil {
		_ = f.Close()
		return nil, err
	}
	return f, nil
}

// all reads a record that is open.
func all(f io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && len(data) > most {
		err = ErrLarge
	}
	return data, err
}

// Try tells whether Append could write now, as far as can be known without data, and leaves nothing behind. The errors are
// those of Append.
func Try(name string) error {
	f, err := open(name, os.O_RDWR)
	if errors.Is(err, fs.ErrNotExist) {
		if err := folderWritable(name); err != nil {
			return err
		}
		return atomicfile.TryFolder(filepath.Dir(name))
	}
	if err != nil {
		return err
	}
	return f.Close()
}

// folderWritable tells whether a file may be made in a folder. The superuser may; somebody locked it all the same.
func folderWritable(name string) error {
	info, err := os.Stat(filepath.Dir(name))
	if err == nil && info.Mode().Perm()&0o222 == 0 {
		err = fmt.Errorf("%s: its folder %w", name, atomicfile.ErrReadOnly)
	}
	return err
}

// Append writes entries behind those that were read, forces them to the disk, and gives the record as it stands then. It
// numbers and chains them. Where they cannot be written whole nothing stays of them. The errors are ErrChanged, ErrBusy,
// those of Load and of package os; ctx's where that ended before anything was written.
func (l *Log) Append(ctx context.Context, name string, now time.Time, program string, entries ...Entry) (*Log, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
		if err := folderWritable(name); err != nil {
			return nil, err
		}
	}
	f, err := open(name, os.O_RDWR|os.O_CREATE|os.O_APPEND)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	release, err := hold(f)
	if err != nil {
		return nil, err
	}
	defer release()
	data, err := all(f)
	if err != nil {
		return nil, err
	}
	if sha256.Sum256(data) != l.sum {
		return nil, ErrChanged
	}
	more, err := l.lines(now, program, entries)
	if err != nil {
		return nil, err
	}
	if err := put(f, int64(len(data)), more); err != nil {
		return nil, err
	}
	if l.size == 0 {
		syncFolder(filepath.Dir(name))
	}
	return Read(append(data, more...)), nil
}

// Would is the record as Append would leave it behind the same entries at the same time; nothing is written.
func (l *Log) Would(now time.Time, program string, entries ...Entry) (*Log, error) {
	more, err := l.lines(now, program, entries)
	if err != nil {
		return nil, err
	}
	next := *l
	next.Entries, next.Altered = slices.Clone(l.Entries), slices.Clone(l.Altered)
	for line := range bytes.SplitSeq(more, []byte("\n")) {
		if e, body, ok := parse(line); ok {
			next.take(e, body)
		}
	}
	return &next, nil
}

// lines are the bytes to append: what a crash left is ended and told of first.
func (l *Log) lines(now time.Time, program string, entries []Entry) (out []byte, err error) {
	if l.torn != nil {
		entries = append([]Entry{{Kind: Torn, Bytes: len(l.torn), SHA256: sumOf(l.torn)}}, entries...)
	}
	if l.torn != nil || !l.ended {
		out = append(out, '\n')
	}
	n, chain := 0, l.chain
	if k := len(l.Entries); k > 0 {
		n = l.Entries[k-1].N
	}
	for _, e := range entries {
		n++
		e.N, e.At, e.Program = n, now.UTC().Format(time.RFC3339), program
		line, next, err := e.chained(chain)
		if err != nil {
			return nil, err
		}
		out, chain = append(append(out, line...), '\n'), next
	}
	return out, nil
}

// file is what is written to.
type file interface {
	io.Writer
	Sync() error
	Truncate(size int64) error
}

// put writes bytes in one piece behind size others and forces them to the disk. What came only in part is taken away again:
// it is no entry yet.
func put(f file, size int64, more []byte) error {
	n, err := f.Write(more)
	if err == nil && n < len(more) {
		err = io.ErrShortWrite
	}
	if err == nil {
		err = f.Sync()
	}
	if err != nil {
		_ = f.Truncate(size) // where that fails too, the next reader finds what a crash would leave
		return err
	}
	return nil
}

// syncFolder makes the new name last through a power cut, where the file system can.
func syncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
