package paper

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/finding"
)

// Comparison is what a safety file says against a design or against a new run.
type Comparison struct {
	Describes  bool            // nothing of the build differs, and no item is open that the file has as done
	SameBytes  bool            // the design file is the same, byte for byte
	Changed    []Change        // keys in alphabetical order
	Verdicts   []VerdictChange // those that changed, worst first
	ByAnswers  bool            // answers of the checklist, written down since, are all that changed them
	Items      []VoidItem      // tests that the changes void
	Undone     int             // the first so many of Items: the paper has them as done, and they are open now or lost their record
	Signatures []string        // signatures that the changes void
	Holds      bool            // of the new run
	Confirmed  bool            // of the new run
	OpenItems  int             // of the new run
	Finding    string          // the line that a paper of the new run carries; "" not made
	OtherWork  string          // another version of the program made the file; "" the same
}

// FailNow are the verdicts that fail in the new run and did not before.
func (c *Comparison) FailNow() []VerdictChange {
	var out []VerdictChange
	for _, v := range c.Verdicts {
		if v.After == finding.Fail && v.Before != finding.Fail {
			out = append(out, v)
		}
	}
	return out
}

// VoidItem is a test of the paper that has to be done again.
type VoidItem struct {
	ID    string
	Title finding.Text // of the new run; of an item that it does not have as archived
}

// Change is one key of the design that changed; "" where it is not there.
type Change struct{ Key, Before, After string }

// VerdictChange is one verdict that changed; "" where it is not there.
type VerdictChange struct {
	ID                      string
	Before, After           finding.Status
	ValueBefore, ValueAfter *float64
	Unit                    string
	Lower                   bool // the limit is one to stay above
}

// Compare holds an archive against a design file and its report. The error is
// that of a file that is no TOML; the reader of designs has seen it before.
func Compare(a *document.Archive, text, version string, now limits.Report) (*Comparison, error) {
	c := &Comparison{SameBytes: a.Design == text, Holds: now.Holds, Confirmed: now.Confirmed, OpenItems: now.OpenItems,
		Verdicts: changedVerdicts(a.Verdicts, VerdictsOf(now))}
	if a.Version != version {
		c.OtherWork = a.Version
	}
	var err error
	if c.Changed, err = changedKeys(a.Design, text); err != nil {
		return nil, err
	}
	build := slices.ContainsFunc(c.Changed, ofTheBuild)
	c.Items = undone(a, now.Items)
	c.Undone = len(c.Items)
	c.Describes = !build && c.Undone == 0
	for _, it := range a.Items {
		known := slices.ContainsFunc(c.Items, func(v VoidItem) bool { return v.ID == it.ID })
		if !known && slices.ContainsFunc(c.Changed, func(k Change) bool { return rests.Bears(k.Key, it.ID) }) {
			title := finding.Words(it.Title)
			if i := slices.IndexFunc(now.Items, func(n finding.Item) bool { return n.ID == it.ID }); i >= 0 {
				title = now.Items[i].Title
			}
			c.Items = append(c.Items, VoidItem{it.ID, title})
		}
	}
	if a.Paper != document.CardPaper && build {
		c.Signatures = []string{"second person, page 1", "adult in charge, page 1", "builder, part 11", "adult in charge, part 11",
			"second person, part 11", "organiser, part 11"}
	}
	return c, nil
}

// undone are the items that a paper has as done and that are open now, in the order of the paper. One of which the paper's own record has
// a reading counts as open where nothing but words stands behind it now: its record is lost.
func undone(a *document.Archive, now []finding.Item) (out []VoidItem) {
	log := recordIn(a)
	for _, it := range a.Items {
		i := finding.IndexOfItem(now, it.ID)
		if i < 0 || !it.Done {
			continue
		}
		if d := now[i].Done; d == nil || d.Said() && log.Newest(it.ID) != nil {
			out = append(out, VoidItem{it.ID, now[i].Title})
		}
	}
	return out
}

// recordIn is the record of the commissioning that a paper carries; an empty one where it carries none.
func recordIn(a *document.Archive) *record.Log {
	for _, f := range a.Attached {
		if f.Role == RecordRole {
			return record.Read([]byte(f.Text))
		}
	}
	return record.Read(nil)
}

// Lost says in words what of a paper no longer describes the design; "" where it does.
func (c *Comparison) Lost() string {
	if c.Describes {
		return ""
	}
	var out []string
	if n := len(c.Changed); n > 0 {
		out = append(out, show.Plural(n, "key", "keys")+" changed")
	}
	if n := c.Undone; n > 0 {
		out = append(out, show.Plural(n, "item that it has as done is open again or has lost its record",
			"items that it has as done are open again or have lost their record"))
	}
	return strings.Join(out, ", ")
}

// Due tells whether the paper has to be made again. That one more answer was written down makes it due for nothing, though it
// may change a verdict that rests on it.
func (c *Comparison) Due() bool { return !c.Describes || len(c.Verdicts) > 0 && !c.ByAnswers }

// ofTheBuild tells whether a change is one of the launcher or of the words about it. An answer of the checklist is neither:
// what was true when the paper was made is as true after one more test was written down.
func ofTheBuild(k Change) bool { return !strings.HasPrefix(k.Key, "checklist.") }

// changedKeys compares two design files key by key: comments, order and blanks
// do not count.
func changedKeys(before, after string) ([]Change, error) {
	a, err := rests.Flatten(before)
	if err != nil {
		return nil, errors.New("the design in the file is no TOML")
	}
	b, err := rests.Flatten(after)
	if err != nil {
		return nil, errors.New("the design is no TOML")
	}
	var out []Change
	for _, k := range rests.Differing(a, b) {
		out = append(out, Change{k, a[k], b[k]})
	}
	return out, nil
}

// changedVerdicts pairs verdicts by their names and keeps those whose answer or
// value changed. A value counts as changed from half a per cent on: less is not
// shown in two digits and may come from another computer.
func changedVerdicts(before, after []document.ArchiveVerdict) []VerdictChange {
	const visible = 0.005
	var out []VerdictChange
	old := map[string]document.ArchiveVerdict{}
	for _, v := range before {
		old[v.ID] = v
	}
	for _, v := range after {
		was, known := old[v.ID]
		delete(old, v.ID)
		if !known || was.Status != v.Status || apart(was.Value, v.Value, visible) {
			out = append(out, VerdictChange{v.ID, was.Status, v.Status, was.Value, v.Value, v.Unit, v.Lower()})
		}
	}
	for _, v := range before {
		if _, gone := old[v.ID]; gone {
			out = append(out, VerdictChange{ID: v.ID, Before: v.Status, ValueBefore: v.Value, Unit: v.Unit, Lower: v.Lower()})
		}
	}
	slices.SortStableFunc(out, func(a, b VerdictChange) int { return cmp.Compare(show.Rank(a.After), show.Rank(b.After)) })
	return out
}

func apart(a, b *float64, share float64) bool {
	if a == nil || b == nil {
		return (a == nil) != (b == nil)
	}
	return math.Abs(*a-*b) > share*math.Max(math.Abs(*a), math.Abs(*b))
}
