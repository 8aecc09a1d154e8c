package app

import (
	"context"
	"path/filepath"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/limits/checklist"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// commissioning is a design under commissioning, with the reading that was just written down.
type commissioning struct {
	*proving.Book
	call  *Call
	name  string
	wrote *record.Wrote // nil: nothing was
}

// openBook opens a design, given as its file stands, with the record beside it.
func (c *Call) openBook(ctx context.Context, name string, data []byte) (*proving.Book, error) {
	host := proving.Host{Units: c.words(), Program: program(), Today: c.today(), Now: c.Now, Rewrite: c.rewrite,
		OwnRecord: c.flags.Bool("own-record"),
		Wrote:     func(name string) { c.wrote = append(c.wrote, name) }}
	return proving.Open(host, name, data, func(beside *design.Proof) (*design.Editable, error) {
		d, _, err := c.openDesign(name, data, beside)
		return d, err
	})
}

// openCommission reads design and record, and computes where the launcher stands.
func (c *Call) openCommission(ctx context.Context, name string) (*commissioning, error) {
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, err
	}
	b, err := c.openBook(ctx, name, data)
	if err != nil {
		return nil, err
	}
	found, err := c.shotsIfGiven(ctx, b.Design().Launcher())
	if err != nil {
		return nil, err
	}
	return &commissioning{Book: b, call: c, name: name}, b.Compute(ctx, found)
}

// finish writes into the design what a run left in the record alone.
func (m *commissioning) finish(ctx context.Context) error {
	if m.Unfinished() {
		if err := m.call.rewritable(m.name); err != nil {
			return err
		}
	}
	return m.Finish(ctx)
}

// signed holds who gives a reading and when against what needs no design, and tries whether design and record can be written.
func (c *Call) signed(g *proving.Reading, name string) (err error) {
	if finding.Declared(g.Who) == "" {
		return inputErrorf("%s needs --who, %s", g.As, proving.WhoWanted(g.Who))
	}
	if g.Date, err = c.day(); err != nil {
		return err
	}
	if g.Date > c.today() {
		return inputErrorf("--date %s is still to come; nothing was written", g.Date)
	}
	if err := c.rewritable(name); err != nil {
		return err
	}
	return proving.Try(name)
}

// take judges a reading and writes it down, as Book.Take; a launcher that may not be filled takes none.
func (m *commissioning) take(ctx context.Context, r *proving.Reading) (err error) {
	if len(m.Way.Run.Refused) == 0 {
		m.wrote, err = m.Take(ctx, r)
	}
	return err
}

// screen is what there is to show.
func (m *commissioning) screen() *screen.CommissionScreen {
	return &screen.CommissionScreen{Frame: m.call.frame(idOf(m.Design().Launcher(), m.File())), Report: m.Way.Report, Run: &m.Way.Run,
		File: m.name, Wrote: m.wrote, Record: m.State()}
}

// stepLog is the file of readings that --log names; nil: none.
func (c *Call) stepLog(ctx context.Context, l *launcher.Launcher, step *commission.Step) (*vent.Log, string, error) {
	if !c.flags.IsSet("log") {
		return nil, "", nil
	}
	if step == nil || !checklist.Logged(step.ID) {
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
