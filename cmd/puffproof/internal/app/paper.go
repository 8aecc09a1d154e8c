package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/paper"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/setpoint"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// paper reads, computes once, builds and writes a paper in every format asked for.
func (c *Call) paper(ctx context.Context, name string, kind document.Paper) (status, error) {
	targets, err := c.paperTargets(name)
	if err != nil {
		return 0, err
	}
	for _, t := range targets { // better now than after the computing
		if t.file == "-" {
			continue
		}
		if err := c.target(t.file); err != nil {
			return 0, err
		}
	}
	in, err := c.paperInput(ctx, c.Args[0])
	if err != nil {
		return 0, err
	}
	if _, err := assess(ctx, &in, pairsIn(kind)); err != nil {
		return 0, err
	}
	doc, err := paper.Make(kind, in)
	if err != nil {
		return 0, fmt.Errorf("a figure: %w", err)
	}
	for i := range targets {
		if targets[i].data, err = document.Write(doc, targets[i].format); err != nil {
			return 0, err
		}
	}
	return c.deliver(ctx, targets, doc, in)
}

// paperInput reads the design and what is laid beside it.
func (c *Call) paperInput(ctx context.Context, name string) (in paper.Input, err error) {
	text, err := c.readFile(ctx, name)
	if err != nil {
		return in, err
	}
	beside, err := c.recordBeside(ctx, name)
	if err != nil {
		return in, err
	}
	if in, err = c.framePaper(name, string(text), beside); err != nil {
		return in, err
	}
	if err := ownRecord(name, &in, beside); err != nil {
		return in, err
	}
	in.Units = c.style.Units
	if in.Date, err = c.paperDay(); err != nil {
		return in, err
	}
	for _, role := range []string{paper.ShotsRole, paper.VentLogRole, paper.LeakLogRole} {
		if !c.flags.IsSet(role) {
			continue
		}
		name := c.flags.String(role)
		data, err := c.readFile(ctx, name)
		if err != nil {
			return in, err
		}
		in.Attached = append(in.Attached,
			document.Attached{Role: role, Name: filepath.Base(name), SHA256: fingerprintOf(data), Text: string(data)})
	}
	in.Attached = append(in.Attached, beside...)
	return in, readAttached(ctx, &in)
}

// recordBeside is the record of the commissioning beside a design, to be laid beside it in a paper; none where there is none. One
// with readings that the design lacks makes no paper.
func (c *Call) recordBeside(ctx context.Context, name string) ([]document.Attached, error) {
	record := proving.RecordName(name)
	info, err := os.Lstat(record)
	switch {
	case name == "-", errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err == nil && info.Mode()&fs.ModeSymlink != 0:
		return nil, inputErrorf("%s: %s; put the record itself beside the design", record, inputfile.Cause(atomicfile.ErrLink))
	}
	data, err := c.readUpTo(ctx, record, mostRecord, "record")
	if err == nil {
		err = proving.Unfinished(name, string(data))
	}
	if err != nil {
		return nil, err
	}
	return []document.Attached{{Role: paper.RecordRole, Name: filepath.Base(record), SHA256: fingerprintOf(data), Text: string(data)}}, nil
}

// ownRecord says that the record laid beside a design is that of another one; nil: it is not, or there is none.
func ownRecord(name string, in *paper.Input, beside []document.Attached) error {
	for _, a := range beside {
		if err := proving.NotForeign(name, a.Text, in.Launcher); err != nil {
			return err
		}
	}
	return nil
}

// proofIn is what the record among the files of a paper bears out; nil: there is none.
func proofIn(attached []document.Attached) *design.Proof {
	for _, a := range attached {
		if a.Role == paper.RecordRole {
			return record.Read([]byte(a.Text)).Proof()
		}
	}
	return nil
}

// sourceDate names the variable that gives papers their date, in seconds since 1970, so
// that they come out the same on every day (SOURCE_DATE_EPOCH, specification 1.1 of the
// reproducible-builds project). No other command asks it: what is past is past today.
const sourceDate = "SOURCE_DATE_EPOCH"

// paperDay is the date of a paper: that of --date, else that of the environment, else
// today.
func (c *Call) paperDay() (string, error) {
	epoch := lookup(c.Environ, sourceDate)
	if epoch == "" || c.flags.String("date") != "" {
		return c.day()
	}
	const year9999 = 253402300799 // the last second that a date of four digits can name
	seconds, err := strconv.ParseInt(epoch, 10, 64)
	if err != nil || seconds < 0 || seconds > year9999 {
		return "", inputErrorf("%s is a whole number of seconds since 1970, such as 1780185600; found %q; --date goes before it",
			sourceDate, epoch)
	}
	return time.Unix(seconds, 0).UTC().Format(time.DateOnly), nil
}

// framePaper is an input with its design, held against the record among what is attached, and this program only.
func (c *Call) framePaper(name, text string, attached []document.Attached) (paper.Input, error) {
	l, id, err := c.understand(name, []byte(text), proofIn(attached))
	return paper.Input{Design: id, Text: text, Launcher: l, Version: program(), DimensionOf: manual.DimensionOf}, err
}

// readAttached understands what is attached to an input.
func readAttached(ctx context.Context, in *paper.Input) error {
	for _, a := range in.Attached {
		var log vent.Log
		var err error
		switch a.Role {
		case paper.ShotsRole:
			in.Found, err = measured(ctx, in.Launcher, in.Units, a.Name, []byte(a.Text), in.Date)
		case paper.VentLogRole:
			if log, err = understandLog(in.Launcher, a.Name, []byte(a.Text)); err == nil {
				in.VentLog, err = stopwatch.Judge(in.Launcher, log, in.Date)
			}
		case paper.LeakLogRole:
			if log, err = understandLog(in.Launcher, a.Name, []byte(a.Text)); err == nil {
				in.LeakLog, err = vent.JudgeLeakDown(in.Launcher, log)
			}
		case paper.RecordRole:
			in.Record = record.Read([]byte(a.Text))
		default:
			err = inputErrorf("a file of the unknown kind %q is attached", a.Role)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// pairsIn says which pairs of faults a paper shows: a safety file states every pair with its figures, a card none.
func pairsIn(kind document.Paper) fault.PairChoice {
	if kind == document.CardPaper {
		return fault.LatentPairs
	}
	return fault.EveryPair
}

// assess computes everything that a safety file or a card shows of the design of
// an input; the measurements are in it already.
func assess(ctx context.Context, in *paper.Input, pairs fault.PairChoice) (*assessment.Assessment, error) {
	l := in.Launcher
	a, err := assessment.Make(ctx, l, assessment.Options{Measured: in.Found, Day: in.Date, Sheets: vent.FullSheets, Pairs: pairs,
		Logs: assessment.Logs{Vent: in.VentLog, Leak: in.LeakLog}})
	if err != nil {
		return nil, err
	}
	in.Report, in.Vent, in.Faults = limits.ReportOf(a), limits.VentReportOf(a), limits.FaultReportOf(a)
	set, err := setpoint.Find(ctx, l, setpoint.Options{Measured: in.Found, Day: in.Date, Assessed: a})
	if err != nil {
		return nil, err
	}
	in.Setpoint = &set
	in.Flights, in.NoFlight = a.Flights, a.NoFlight.String()
	if shot, err := worst.NominalShotAndSeats(ctx, l, nil, show.TraceLength); err == nil {
		view := show.ShotOf(shot)
		in.Shot = &view
	}
	return a, ctx.Err()
}
