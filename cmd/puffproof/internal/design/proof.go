package design

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// Proof is what the record of a commissioning says, for the answers of a design to be held against. The zero value, and nil, are
// those of a design without a record.
type Proof struct {
	Trouble  string   // why the record cannot be read; "" it can, or there is none
	Altered  []string // what is not as it was written, in words
	Readings []Proven // oldest first
}

// Proven is one reading of a record.
type Proven struct {
	Name             string // what an answer names it by
	Item             string
	Who, Date, Value string
	Build            string // fingerprint of what the item rests on, when it was read
	Passed           bool
	Whole            bool // it stands as it was written, where it was written
}

// newest is the last reading of an item, and its place from 1; nil: there is none.
func (p *Proof) newest(item string) (*Proven, int) {
	for i := len(p.Readings) - 1; i >= 0; i-- {
		if r := &p.Readings[i]; r.Item == item {
			return r, i + 1
		}
	}
	return nil, 0
}

// since is the place of the first reading of an item that has stood up to its newest one, which is at a place: of the same build, and
// with none in between that failed or is of another.
func (p *Proof) since(newest *Proven, place int) int {
	for i := place - 2; i >= 0; i-- {
		r := &p.Readings[i]
		switch {
		case r.Item != newest.Item:
		case !r.Passed || r.Build != newest.Build:
			return place
		default:
			place = i + 1
		}
	}
	return place
}

// holdAgainst marks in the answers of a launcher what its record, and its file, say of them.
func holdAgainst(l *launcher.Launcher, p *Proof, data []byte) {
	if p == nil {
		p = &Proof{}
	}
	l.Altered, l.RecordTrouble = slices.Clone(p.Altered), p.Trouble
	if len(l.Checklist) == 0 {
		return
	}
	flat, err := rests.Flatten(string(data))
	for i := range l.Checklist {
		c := &l.Checklist[i]
		build := c.Build
		if r, at := p.newest(c.Item); r != nil || c.Record != "" {
			if c.Unproved = p.unproved(c, r); c.Unproved == nil {
				c.Recorded, build = true, r.Build
				c.Entry, c.Since = at, p.since(r, at)
			}
		}
		c.Changed = build != "" && (err != nil || build != rests.BuildOf(flat, c.Item))
		c.Newer = rests.NewerPart(flat, c.Item, c.Date)
	}
}

// unproved says why an answer is not the newest reading of its item (nil: there is none) in the record; nil: it is.
func (p *Proof) unproved(c *finding.Confirmation, newest *Proven) finding.Text {
	const again = "do the step again, or put the file back"
	named := func(r Proven) bool { return r.Name == c.Record && r.Item == c.Item }
	switch {
	case p.Trouble != "":
		return finding.Words("the record of this reading cannot be read, " + p.Trouble + ": " + again)
	case c.Record != "" && !slices.ContainsFunc(p.Readings, named):
		return finding.Words("the record of this reading is missing: " + again)
	case c.Record != "" && newest.Name != c.Record:
		return finding.Say("the record has a newer reading of it, of %s: do the step again", newest.Date)
	case newest.Value != strings.TrimSpace(c.Value) || newest.Date != strings.TrimSpace(c.Date) || newest.Who != strings.TrimSpace(c.Who):
		return finding.Say("it is not what the record of the commissioning says, %q by %s on %s: do the step again", newest.Value, newest.Who,
			newest.Date)
	case !newest.Whole:
		return finding.Words("the record of this reading was altered: " + again)
	case !newest.Passed && !strings.HasPrefix(strings.ToLower(newest.Value), FailedLead):
		return finding.Words("the record says that this reading did not pass: do the step again")
	}
	return lengthened(c)
}

// lengthened says that an answer of a record is to hold for longer than a reading does; nil: it is not. A shorter time is somebody's
// to choose.
func lengthened(c *finding.Confirmation) finding.Text {
	alone := finding.Confirmation{Date: c.Date}
	if most := alone.HoldsUntil(); most != "" && c.HoldsUntil() > most {
		return finding.Say("its valid_until, %s, was set by hand: by its record the reading of %s holds until %s; take that line out, or do the "+
			"step again", c.HoldsUntil(), strings.TrimSpace(c.Date), most)
	}
	return nil
}

// FailedLead begins an answer that says of a reading that it did not pass.
const FailedLead = "failed"
