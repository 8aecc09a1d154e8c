package app

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// recordEnding is that of the record beside a design.
const recordEnding = ".record"

// recordName is the record beside a design.
func recordName(design string) string { return design + recordEnding }

// tryRecord tells whether the record beside a design can be written.
func tryRecord(name string) error { return record.Try(recordName(name)) }

// recordError says what is wrong with a record; nil stays nil.
func recordError(name string, err error) error {
	switch {
	case err == nil, errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.Is(err, record.ErrChanged), errors.Is(err, record.ErrBusy), errors.Is(err, record.ErrLarge):
		return inputErrorf("%s: %v; nothing was written", name, err)
	}
	return inputErrorf("%s: %s; nothing was written", name, inputfile.Cause(err))
}

// givenReading is what somebody says of a step.
type givenReading struct {
	id, reading, who, date string
	log                    *vent.Log // of a file; nil: none
	source                 string    // its name and fingerprint
}

// commissioning is a design under commissioning: its file, the record beside it, and what comes of both.
type commissioning struct {
	call     *Call
	name     string
	file     []byte           // the design's file as it was read or written last
	d        *design.Editable // with the pending readings of the record
	log      *record.Log
	restored []string // the steps of those
	pending  []int    // their entries
	found    *measure.Findings
	now      *limits.Commissioning
	wrote    *record.Wrote
}

// openCommission reads design and record, and computes where the launcher stands.
func (c *Call) openCommission(ctx context.Context, name string) (*commissioning, error) {
	m, err := c.openDesignAndRecord(ctx, name)
	if err != nil {
		return nil, err
	}
	if m.found, err = c.shotsIfGiven(ctx, m.d.Launcher()); err != nil {
		return nil, err
	}
	return m, m.compute(ctx)
}

// openDesignAndRecord reads both; what the record has alone is taken over.
func (c *Call) openDesignAndRecord(ctx context.Context, name string) (*commissioning, error) {
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, err
	}
	d, _, err := c.openDesign(name, data)
	if err != nil {
		return nil, err
	}
	m := &commissioning{call: c, name: name, file: data, d: d, log: record.Read(nil)}
	if name != "-" {
		if m.log, err = record.Load(recordName(name)); err != nil {
			return nil, recordError(recordName(name), err)
		}
	}
	return m, m.restore()
}

// restore takes over what a run left in the record alone.
func (m *commissioning) restore() (err error) {
	m.pending = m.log.PendingNumbers()
	if m.d, m.restored, err = m.log.Restore(m.d); err != nil {
		return inputErrorf("%s: %v", m.name, err)
	}
	return nil
}

// compute finds out where the launcher stands.
func (m *commissioning) compute(ctx context.Context) (err error) {
	if m.now != nil {
		if next, ok := m.now.Answered(m.d.Launcher().Checklist); ok {
			m.now = next
			return nil
		}
	}
	m.now, err = limits.Commission(ctx, m.d.Launcher(), assessment.Options{Measured: m.found, Day: m.call.today()})
	return err
}

// finish writes into the design what a run left in the record alone.
func (m *commissioning) finish(ctx context.Context) error {
	if len(m.pending) == 0 {
		return nil
	}
	if err := m.call.rewritable(m.name); err != nil {
		return err
	}
	if err := recordError(recordName(m.name), tryRecord(m.name)); err != nil {
		return err
	}
	return m.intoDesign(ctx, m.pending)
}

// take judges a reading and writes it down; the error says why it cannot be one, and then nothing was written. A launcher that
// may not be filled takes no reading.
func (m *commissioning) take(ctx context.Context, g *givenReading) error {
	run := &m.now.Run
	if len(run.Refused) != 0 {
		return nil
	}
	step, err := m.allowed(g.id)
	if err != nil {
		return err
	}
	if g.log == nil && !strings.ContainsFunc(g.reading, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		return inputErrorf("--step %s: the reading, %q, says nothing; asked is %s; nothing was written", g.id, g.reading,
			m.call.words().Text(step.Read))
	}
	c := finding.Confirmation{Item: g.id, Who: g.who, Date: g.date, Value: g.reading, Figures: design.FiguresIn(g.reading)}
	judged, err := run.Judge(step, &c, g.log)
	if err != nil {
		return err
	}
	if judged.Outcome == finding.Void || judged.Outcome == finding.Unusable {
		return inputErrorf("--step %s: %s%s; nothing was written", g.id, strings.TrimRight(m.call.words().Text(judged.Says), "."),
			m.call.unitHint(step, g.reading))
	}
	after := *m
	if after.d, err = m.d.Answered(g.id, g.who, g.date, judged.Value); err != nil {
		return inputErrorf("--step: %v; nothing was written", err)
	}
	if err := after.compute(ctx); err != nil {
		return err
	}
	passed := judged.Outcome == finding.Closes
	if passed {
		if err := m.call.closes(after.now.Report.Items, g.id, "--step"); err != nil {
			return err
		}
	}
	after.wrote = &record.Wrote{Step: g.id, Result: record.Failed, Says: judged.Says}
	if passed {
		after.wrote.Result = record.Passed
	}
	if err := after.write(ctx, m.entry(step, g, judged, after.wrote.Result)); err != nil {
		return err
	}
	*m = after
	return nil
}

// allowed is a step that may be taken, now or again.
func (m *commissioning) allowed(id string) (*commission.Step, error) {
	run := &m.now.Run
	step := run.Step(id)
	if step == nil {
		for _, l := range run.LeftOut {
			if l.ID == id {
				return nil, inputErrorf("--step: this launcher has no step %q: %s", id, m.call.words().Text(l.Why))
			}
		}
		return nil, inputErrorf("--step: this launcher has no step %q; puffproof commission --all lists its steps", id)
	}
	if first := run.Before(id); first != nil {
		return nil, inputErrorf("--step %s: not yet: first %s (%s); nothing was written", id, m.call.words().Text(first.Title), first.ID)
	}
	return step, nil
}

// entry is the line of a reading.
func (m *commissioning) entry(step *commission.Step, g *givenReading, judged commission.Judged, result string) record.Entry {
	e := record.Entry{Kind: record.Reading, File: fingerprintOf(m.file), Step: g.id, Title: step.Title.String(), Expect: step.Expect.String(),
		Reading: g.reading, Source: g.source, Who: g.who, Date: g.date, Result: result, Says: judged.Says.String(), Value: judged.Value}
	if g.log != nil {
		for _, r := range g.log.Readings {
			e.Series = append(e.Series, [2]float64{r.Time, r.Gauge})
		}
	}
	if flat, err := design.Flatten(string(m.file)); err == nil {
		e.Build = design.BuildOf(flat, g.id)
	}
	return e
}

// write puts a reading into the record, then its answer into the design, and says in the record that it did. A run that ends
// between leaves a reading that the next one writes.
func (m *commissioning) write(ctx context.Context, reading record.Entry) error {
	name := recordName(m.name)
	entries := []record.Entry{reading}
	before, err := m.log.DesignOf(m.file)
	if err != nil {
		return inputErrorf("%s: %v", m.name, err)
	}
	if before != nil {
		entries = []record.Entry{*before, reading}
	}
	log, err := m.log.Append(ctx, name, m.call.Now(), program(), entries...)
	if err != nil {
		return recordError(name, err)
	}
	m.log = log
	m.call.wrote = append(m.call.wrote, name)
	return m.intoDesign(ctx, append(slices.Clone(m.pending), log.Entries[len(log.Entries)-1].N))
}

// intoDesign writes the design, and into the record that it has the answers of some readings.
func (m *commissioning) intoDesign(ctx context.Context, of []int) error {
	name := recordName(m.name)
	if err := m.call.rewrite(ctx, m.name, m.file, m.d.Bytes()); err != nil {
		var input *inputError
		if errors.As(err, &input) {
			return inputErrorf("%s; the reading is kept in %s, and the next run writes it", input.Error(), name)
		}
		return err
	}
	m.file, m.pending = m.d.Bytes(), nil
	log, err := m.log.Append(ctx, name, m.call.Now(), program(),
		record.Entry{Kind: record.Written, File: fingerprintOf(m.file), Of: of})
	if err != nil {
		return recordError(name, fmt.Errorf("both files have the reading, only the last line is missing: %w", err))
	}
	m.log = log
	return nil
}

// withPending is a design with the answers that a run left in the record beside it alone: they count for every command.
func (c *Call) withPending(name string, d *design.Editable) (*design.Editable, error) {
	if name == "-" {
		return d, nil
	}
	log, err := record.Load(recordName(name))
	if err != nil || len(log.Pending()) == 0 {
		return d, nil // who cannot read it is told by the commands that need it
	}
	m := &commissioning{call: c, name: name, file: d.Bytes(), d: d, log: log}
	err = m.restore()
	return m.d, err
}

// unfinished says that a record has readings that its design lacks: no paper is made of that.
func unfinished(design string, text string) error {
	if n := len(record.Read([]byte(text)).Pending()); n > 0 {
		return inputErrorf("%s has %s that %s lacks: a run was cut off; puffproof commission %s finishes it", recordName(design),
			show.Plural(n, "reading", "readings"), design, design)
	}
	return nil
}

// screen is what there is to show.
func (m *commissioning) screen() *screen.CommissionScreen {
	l := m.d.Launcher()
	id := idOf(l, m.file)
	return &screen.CommissionScreen{Frame: m.call.frame(id), Report: m.now.Report, Run: &m.now.Run, File: m.name, Wrote: m.wrote,
		Record: record.State{File: recordName(m.name), Log: m.log, Restored: m.restored, Due: m.log.Due(m.d.Launcher().Checklist, m.file)}}
}

// stepLog is the file of readings that --log names; nil: none.
func (c *Call) stepLog(ctx context.Context, l *launcher.Launcher, step *commission.Step) (*vent.Log, string, error) {
	if !c.flags.IsSet("log") {
		return nil, "", nil
	}
	if step == nil || !commission.Logged(step.ID) {
		return nil, "", inputErrorf("--log goes with the steps %s and %s; give what was read with --reading", finding.ItemVentTest,
			finding.ItemLeakDown)
	}
	name := c.flags.String("log")
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, "", err
	}
	log, err := understandLog(l, name, data)
	if err == nil {
		err = knownVolume(l, &log, name)
	}
	return &log, filepath.Base(name) + " " + fingerprintOf(data), err
}

// unitHint says of a reading without the figure that is asked what is wrong with its unit; "" nothing is known.
func (c *Call) unitHint(step *commission.Step, reading string) string {
	if step.Band == nil {
		return ""
	}
	d, known := map[finding.Quantity]unit.Dimension{finding.InPascalGauge: unit.Pressure, finding.InSecond: unit.Time,
		finding.InMetre: unit.Length, finding.InMetrePerSecond: unit.Speed, finding.InJoule: unit.Energy}[step.Band.Unit]
	at := strings.IndexAny(reading, "0123456789")
	if !known || at < 0 {
		return ""
	}
	figure := strings.Fields(reading[at:])
	_, wrong := c.quantityOf(strings.Join(figure[:min(2, len(figure))], " "), d)
	switch {
	case wrong == nil:
		return ""
	case wrong.Kind == unit.UnknownUnit && wrong.Hint == "":
		known := strings.FieldsFunc(unit.Accepted(d), func(r rune) bool { return r == ',' || r == ' ' })
		if meant := usage.Nearest(wrong.Text, known, nil); meant != "" {
			return fmt.Sprintf(" (%q is no unit; did you mean %s?)", wrong.Text, meant)
		}
		return fmt.Sprintf(" (%q is no unit; there are %s)", wrong.Text, unit.Accepted(d))
	case wrong.Hint == "":
		return ""
	}
	return " (" + wrong.Hint + ")"
}
