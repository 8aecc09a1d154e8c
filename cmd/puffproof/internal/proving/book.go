package proving

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"time"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/measure"
)

// Host is who asks, and what a book takes from the machine.
type Host struct {
	Units   quantity.System // of what is said
	Program string          // name and version, for the record
	Today   string          // an ISO date
	Now     func() time.Time
	// Rewrite puts now in the place of a file that was read as was; the error says why nothing was written.
	// OwnRecord says that a record which looks like that of another design is of this launcher.
	OwnRecord bool
	Rewrite   func(ctx context.Context, name string, was, now []byte) error
	Wrote     func(name string) // is told each file that was written
}

// Book is a design under commissioning: its file, the record beside it, and what comes of both.
type Book struct {
	Way      *limits.Commissioning // nil before Compute
	Restored []string              // steps whose readings a run left in the record alone

	host    Host
	name    string
	file    []byte           // the design's file as it was read or written last
	d       *design.Editable // with the pending readings of the record
	log     *record.Log
	pending []int // entries that the design's file lacks
	foreign bool  // the record is that of another design, as far as can be told
	found   *measure.Findings

	entries []record.Entry // to be appended, at that time, and what the record then is
	at      time.Time
	next    *record.Log
}

// Open takes a design as it stands in its file, and reads the record beside it; what the record has alone is taken over. The
// design is read by a function that is given the record. The errors are that function's, and say why the record cannot be read.
func Open(host Host, name string, file []byte, read func(*design.Proof) (*design.Editable, error)) (*Book, error) {
	b := &Book{host: host, name: name, file: file, log: record.Read(nil)}
	var err error
	if name != "-" {
		if b.log, err = record.Load(RecordName(name)); err != nil {
			return nil, recordError(RecordName(name), err)
		}
	}
	d, err := read(b.log.Proof())
	if err != nil {
		return nil, err
	}
	b.foreign = b.log.Foreign(d.Launcher())
	b.d, b.Restored = b.log.Restore(d)
	if len(b.log.Altered) == 0 && !b.foreign {
		b.pending = b.log.PendingNumbers()
	}
	return b, nil
}

// Design is the design with all that was read, File its file as it stands.
func (b *Book) Design() *design.Editable { return b.d }

// File is the design's file as it stands.
func (b *Book) File() []byte { return b.file }

// State is what there is to say of the record.
func (b *Book) State() record.State {
	return record.State{File: RecordName(b.name), Log: b.log, Foreign: b.foreign, Restored: b.Restored,
		Due: b.log.Due(b.d.Launcher().Checklist, b.file)}
}

// Judged takes over what was found of this very design already.
func (b *Book) Judged(way *limits.Commissioning) { b.Way = way }

// Compute finds out where the launcher stands; found are its measured shots, nil: none. The error is as of limits.Commission.
func (b *Book) Compute(ctx context.Context, found *measure.Findings) error {
	b.found = found
	return b.compute(ctx)
}

func (b *Book) compute(ctx context.Context) (err error) {
	if b.Way != nil {
		if next, ok := b.Way.Answered(b.d.Launcher()); ok {
			b.Way = next
			return nil
		}
	}
	b.Way, err = limits.Commission(ctx, b.d.Launcher(), assessment.Options{Measured: b.found, Day: b.host.Today})
	return err
}

// Unfinished tells whether a run left readings in the record alone.
func (b *Book) Unfinished() bool { return len(b.pending) > 0 }

// Finish writes into the design what a run left in the record alone.
func (b *Book) Finish(ctx context.Context) error {
	if !b.Unfinished() {
		return nil
	}
	if err := Try(b.name); err != nil {
		return err
	}
	return b.intoDesign(ctx, b.pending)
}

// with is the book as it would stand with one reading more; nothing is written yet.
func (b *Book) with(e record.Entry) (*Book, error) {
	after := *b
	before, err := b.log.DesignOf(b.file)
	if err != nil {
		return nil, usage.Errorf("%s: %v", b.name, err)
	}
	after.entries = []record.Entry{e}
	if before != nil {
		after.entries = []record.Entry{*before, e}
	}
	after.at = b.host.Now()
	if after.next, err = b.log.Would(after.at, b.host.Program, after.entries...); err != nil {
		return nil, err
	}
	proven, err := b.d.Under(after.next.Proof())
	if err != nil {
		return nil, usage.Errorf("%v; nothing was written", err)
	}
	if after.d, err = proven.Answered(after.next.Newest(e.Step).Answer()); err != nil {
		return nil, usage.Errorf("%v; nothing was written", err)
	}
	return &after, nil
}

// write puts the reading of a book made by with into the record, then its answer into the design, and says in the record that it
// did. A run that ends between leaves a reading that the next one writes.
func (b *Book) write(ctx context.Context) error {
	name := RecordName(b.name)
	log, err := b.log.Append(ctx, name, b.at, b.host.Program, b.entries...)
	if err != nil {
		return recordError(name, err)
	}
	b.log, b.foreign = log, false
	b.host.Wrote(name)
	return b.intoDesign(ctx, append(slices.Clone(b.pending), log.Entries[len(log.Entries)-1].N))
}

// intoDesign writes the design, and into the record that it has the answers of some readings.
func (b *Book) intoDesign(ctx context.Context, of []int) error {
	name := RecordName(b.name)
	if err := b.host.Rewrite(ctx, b.name, b.file, b.d.Bytes()); err != nil {
		var input *usage.Error
		if errors.As(err, &input) {
			return usage.Errorf("%s; the reading is kept in %s, and the next run writes it", input.Error(), name)
		}
		return err
	}
	b.file, b.pending = b.d.Bytes(), nil
	log, err := b.log.Append(ctx, name, b.host.Now(), b.host.Program,
		record.Entry{Kind: record.Written, File: fingerprintOf(b.file), Of: of})
	if err != nil {
		return recordError(name, fmt.Errorf("both files have the reading, only the last line is missing: %w", err))
	}
	b.log = log
	return nil
}

func fingerprintOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
