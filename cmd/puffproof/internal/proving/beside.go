package proving

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits/launcher"
)

// RecordName is the record beside a design. Of a link to a design it is the one beside the design itself: whatever name somebody
// takes, there is one record.
func RecordName(name string) string {
	if info, err := os.Lstat(name); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if real, err := filepath.EvalSymlinks(name); err == nil {
			name = real
		}
	}
	return name + atomicfile.RecordEnding
}

// Try tells whether the record beside a design can be written; the error says why not.
func Try(name string) error { return recordError(RecordName(name), record.Try(RecordName(name))) }

// Beside is what the record beside a design bears out; of standard input ("-") nothing, for nothing stands beside that.
func Beside(name string) *design.Proof {
	if name == "-" {
		return nil
	}
	log, err := record.Load(RecordName(name))
	if err != nil {
		return &design.Proof{Trouble: inputfile.Cause(err)}
	}
	return log.Proof()
}

// Mark tells two states of the record beside a design apart, also where it cannot be read.
func Mark(name string) string {
	log, err := record.Load(RecordName(name))
	if err != nil {
		return "cannot be read: " + inputfile.Cause(err)
	}
	return log.Mark()
}

// WithPending is a design with the answers that a run left in the record beside it alone: they count for every command.
func WithPending(name string, d *design.Editable) *design.Editable {
	if name == "-" {
		return d
	}
	log, err := record.Load(RecordName(name))
	if err != nil {
		return d // who cannot read it is told by Beside
	}
	d, _ = log.Restore(d)
	return d
}

// Unfinished says that a record, given as its text, has readings that its design lacks: no paper is made of that; nil: it has none.
func Unfinished(name, text string) error {
	if n := len(record.Read([]byte(text)).Pending()); n > 0 {
		return usage.Errorf("%s has %s that %s lacks: a run was cut off; puffproof commission %s finishes it", RecordName(name),
			show.Plural(n, "reading", "readings"), name, name)
	}
	return nil
}

// NotForeign says that a record, given as its text, is that of another design, of which no paper of this one is made; nil: it is not.
func NotForeign(name, text string, l *launcher.Launcher) error {
	if log := record.Read([]byte(text)); log.Foreign(l) {
		return usage.Errorf("%s", log.ForeignWords(RecordName(name), name))
	}
	return nil
}

// recordError says what is wrong with a record; nil stays nil.
func recordError(name string, err error) error {
	switch {
	case err == nil, errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.Is(err, record.ErrChanged), errors.Is(err, record.ErrBusy), errors.Is(err, record.ErrLarge):
		return usage.Errorf("%s: %v; nothing was written", name, err)
	}
	return usage.Errorf("%s: %s; nothing was written", name, inputfile.Cause(err))
}
