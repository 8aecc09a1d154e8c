package design

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/rests"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
)

// An answer that came from a record counts as long as the record has it, whole, as its newest, and saying the same; one that stands
// nowhere but in the design is said, not recorded; and what the record says of the build counts, whatever the design says of it.
func TestAnAnswerIsHeldAgainstItsRecord(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	plain, problems := Reader{}.Open("least.toml", head)
	require.Empty(t, problems)
	flat, err := rests.Flatten(string(head))
	require.NoError(t, err)
	read := Proven{Name: "0123456789abcdef", Item: "vent.test", Who: "AB, CD", Date: "2026-05-02", Value: "2 s",
		Build: rests.BuildOf(flat, "vent.test"), Passed: true, Whole: true}
	written, err := plain.Answered(Given{Item: read.Item, Who: read.Who, Date: read.Date, Value: read.Value, Record: read.Name})
	require.NoError(t, err)
	with := func(change func(r *Proven)) *Proof {
		r := read
		change(&r)
		return &Proof{Readings: []Proven{r}}
	}
	same := func(*Proven) {}
	later := func(name string) Proven {
		r := read
		r.Name, r.Value, r.Passed = name, "failed: 9 s", false
		return r
	}
	stripped := []string{"\nrecord = \"0123456789abcdef\"", "", "\nbuild = \"" + read.Build + "\"", ""}
	until := func(day string) []string {
		return []string{`value = "2 s"`, `value = "2 s"` + "\nvalid_until = \"" + day + "\""}
	}
	twice := &Proof{Readings: []Proven{read, later("00000000000000ff")}}
	for name, c := range map[string]struct {
		proof    *Proof
		edit     []string // of the design, pairs of old and new
		why      string   // "" it counts
		recorded bool
		changed  bool
	}{
		"as written":                         {with(same), nil, "", true, false},
		"no record":                          {nil, nil, "reading is missing: do the step again, or put the file back", false, false},
		"an empty record":                    {&Proof{}, nil, "the record of this reading is missing", false, false},
		"a record that cannot be read":       {&Proof{Trouble: "no permission"}, nil, "cannot be read, no permission", false, false},
		"cut off before it":                  {with(func(r *Proven) { r.Item = "drill.jam" }), nil, "is missing", false, false},
		"of another design":                  {with(func(r *Proven) { r.Name = "fedcba9876543210" }), nil, "is missing", false, false},
		"altered":                            {with(func(r *Proven) { r.Whole = false }), nil, "was altered", false, false},
		"it did not pass":                    {with(func(r *Proven) { r.Passed = false }), nil, "did not pass", false, false},
		"the design says another value":      {with(same), []string{`value = "2 s"`, `value = "1 s"`}, "not what the record", false, false},
		"another day":                        {with(same), []string{`"2026-05-02"`, `"2026-06-02"`}, "not what the record", false, false},
		"somebody else":                      {with(same), []string{`who = "AB, CD"`, `who = "EF, CD"`}, "not what the record", false, false},
		"a newer reading":                    {twice, nil, "has a newer reading of it", false, false},
		"by hand, a newer one in it":         {twice, stripped, "not what the record", false, false},
		"its lines taken out":                {with(same), stripped, "", true, false},
		"its lines taken out, no record":     {nil, stripped, "", false, false},
		"to hold for longer":                 {with(same), until("2030-01-01"), "the reading of 2026-05-02 holds until 2027-05-02", false, false},
		"longer, its lines taken out":        {with(same), append(until("2027-05-03"), stripped...), "was set by hand", false, false},
		"for as long as it would":            {with(same), until("2027-05-02"), "", true, false},
		"for a shorter time":                 {with(same), until("2026-12-31"), "", true, false},
		"longer, by hand, with no record":    {nil, append(until("2030-01-01"), stripped...), "", false, false},
		"another build":                      {with(same), []string{`"0.4 mm ± 0"`, `"0.5 mm ± 0"`}, "", true, true},
		"another build, its lines taken out": {with(same), append([]string{`"0.4 mm ± 0"`, `"0.5 mm ± 0"`}, stripped...), "", true, true},
	} {
		text := strings.NewReplacer(append([]string{"\x00", ""}, c.edit...)...).Replace(string(written.Bytes()))
		l, problems := Reader{Proof: c.proof}.Read("least.toml", []byte(text))
		require.Empty(t, problems, name)
		a := l.Checklist[0]
		if assert.Contains(t, a.Unproved.String(), c.why, name); c.why == "" {
			assert.Empty(t, a.Unproved, name)
		}
		assert.Equal(t, c.recorded, a.Recorded, name)
		assert.Equal(t, !c.recorded, a.Said(), name)
		assert.Equal(t, c.changed, a.Changed, name)
		outcome, _ := finding.Judge(&finding.Item{ID: "vent.test"}, &a, "2026-06-03")
		assert.Equal(t, c.why != "" || c.changed, outcome != finding.Closes, name)
	}
}

// What is held against a record stays so in every file that is made of it.
func TestAChangedFileKeepsItsRecord(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	p := &Proof{Altered: []string{"line 2: entry 2 is not as it was written"}}
	d, problems := Reader{Proof: p}.Open("least.toml", head)
	require.Empty(t, problems)
	with, err := d.Answered(Given{Item: "drill.jam", Who: "A.", Date: "2026-05-02", Value: "all did it"})
	require.NoError(t, err)
	assert.Equal(t, p.Altered, with.Launcher().Altered)
	under, err := with.Under(nil)
	require.NoError(t, err)
	assert.Empty(t, under.Launcher().Altered)
	assert.Equal(t, with.Bytes(), under.Bytes())
}

// Since when a reading has stood tells the record: from the first that passed for the same build, with none in between that failed or
// is of another.
func TestSinceWhenAReadingStands(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	flat, err := rests.Flatten(string(head))
	require.NoError(t, err)
	plain, problems := Reader{}.Open("least.toml", head)
	require.Empty(t, problems)
	written, err := plain.Answered(Given{Item: "vent.test", Who: "AB", Date: "2026-05-02", Value: "2 s"})
	require.NoError(t, err)
	read := func(item, build string, passed bool) Proven {
		return Proven{Item: item, Who: "AB", Date: "2026-05-02", Value: "2 s", Build: build, Passed: passed, Whole: true}
	}
	now := rests.BuildOf(flat, "vent.test")
	good, other, failed := read("vent.test", now, true), read("vent.test", "another", true), read("vent.test", now, false)
	beside := read("drill.jam", "another", false)
	for name, c := range map[string]struct {
		readings     []Proven
		entry, since int
	}{
		"once":            {[]Proven{good}, 1, 1},
		"twice":           {[]Proven{good, beside, good, beside}, 3, 1},
		"a build between": {[]Proven{good, other, beside, good}, 4, 4},
		"a failed one":    {[]Proven{good, failed, good, beside, good}, 5, 3},
	} {
		l, problems := Reader{Proof: &Proof{Readings: c.readings}}.Read("least.toml", written.Bytes())
		require.Empty(t, problems, name)
		a := l.Checklist[0]
		require.Empty(t, a.Unproved, name)
		assert.Equal(t, []int{c.entry, c.since}, []int{a.Entry, a.Since}, name)
	}
}

// Whoever looked at all of it looked at one launcher: its name, revision and serial bear on that step, and on no other.
func TestTheSecondLookIsAtOneLauncher(t *testing.T) {
	for _, key := range []string{"name", "revision", "serial"} {
		assert.True(t, rests.Bears(key, finding.ItemSecondLook), key)
		assert.False(t, rests.Bears(key, finding.ItemVentTest), key)
		assert.False(t, rests.Bears(key, finding.ItemLandingClear), key)
	}
	assert.False(t, rests.Bears("description", finding.ItemSecondLook))
	l, problems := Read("x.toml", []byte("serial = \"3\"\n"+minimal))
	require.Empty(t, problems)
	assert.Equal(t, "3", l.Serial)
}

// An answer that is older than a part it speaks of was given for another one: it is due again, whatever build it names.
func TestAnAnswerOlderThanItsPartIsVoid(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	dated := bytes.Replace(head, []byte("[projectile]\n"), []byte("[projectile]\nmade_on = \"2026-05-20\"\n"), 1)
	for _, c := range []struct {
		item, date string
		older      bool
	}{
		{finding.ItemTip, "2026-05-19", true}, {finding.ItemTip, "2026-05-20", false}, {finding.ItemShots, "2026-05-19", true},
		{finding.ItemLabels, "2026-05-19", false}, {finding.ItemElevation, "2026-05-19", false},
	} {
		d, problems := Reader{}.Open("least.toml", dated)
		require.Empty(t, problems)
		with, err := d.Answered(Given{Item: c.item, Who: "AB", Date: c.date, Value: "as read"})
		require.NoError(t, err)
		l := with.Launcher()
		require.Len(t, l.Checklist, 1)
		outcome, why := finding.Judge(&finding.Item{ID: c.item}, &l.Checklist[0], "2026-06-01")
		assert.Equal(t, c.older, outcome == finding.Void, "%s of %s", c.item, c.date)
		if c.older {
			assert.Contains(t, why.String(), "its answer of 2026-05-19 is older than a part that it speaks of: projectile.made_on is 2026-05-20")
		}
	}
}

// Measured shots are void by the same rule as an answer that rests on them: wherever a design says when a part was made.
func TestShotsOlderThanAPartAreVoidAsAnswersAre(t *testing.T) {
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	var tables []string
	for table, of := range keys.New().Index {
		if of["made_on"] != nil {
			tables = append(tables, strings.ReplaceAll(table, "*", "dose"))
		}
	}
	require.NotEmpty(t, tables)
	for _, table := range tables {
		text := bytes.Replace(head, []byte("["+table+"]\n"), []byte("["+table+"]\nmade_on = \"2026-05-20\"\n"), 1)
		require.NotEqual(t, head, text, table)
		l, problems := Read("least.toml", text)
		require.Empty(t, problems)
		flat, err := rests.Flatten(string(text))
		require.NoError(t, err)
		for _, date := range []string{"2026-05-19", "2026-05-20"} {
			found, err := measure.Evaluate(lightly(t.Context(), 0.02), l, &measure.ShotLog{Shots: []measure.Shot{{Line: 2, Gauge: 2e4,
				Method: measure.Chronograph, Speed: 4, Date: date}}})
			require.NoError(t, err)
			part := rests.NewerPart(flat, finding.ItemShots, date)
			key, made := part.Key, part.Made
			says := ""
			for _, f := range found.Groups[0].Faults {
				if strings.Contains(f.String(), "another part") {
					says = f.String()
				}
			}
			if assert.Equal(t, key == "", says == "", "%s, shot on %s: %s", table, date, says) && key != "" {
				assert.Contains(t, says, key+" is "+made)
			}
		}
	}
}
