package proving

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/limits/finding"
)

// least writes the least design that holds, with more behind it, into a folder of its own.
func least(t *testing.T, more string) string {
	t.Helper()
	head, err := os.ReadFile("../../testdata/least.toml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "least.toml")
	require.NoError(t, os.WriteFile(file, append(head, more...), 0o644))
	return file
}

// taken gives one reading to a design, and what came of it.
func taken(t *testing.T, file string, r Reading) (*Book, *record.Wrote, error) {
	t.Helper()
	b, err := bookOf(file)
	require.NoError(t, err)
	ctx := trial.Lightly(t.Context(), 0.00005)
	require.NoError(t, b.Compute(ctx, nil))
	wrote, err := b.Take(ctx, &r)
	return b, wrote, err
}

func label(value, date string) Reading {
	return Reading{Step: finding.ItemLabels, Value: value, Who: "AB", Date: date, As: "--step"}
}

// A reading is written into record and design, and the answer names it. What cannot be a reading is refused with what would be
// accepted, and nothing is written: neither a byte of the design nor a record.
func TestTake(t *testing.T) {
	file := least(t, "")
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	refused := func(why string, r Reading) {
		t.Helper()
		was, err := os.ReadFile(file)
		require.NoError(t, err)
		log, err := record.Load(RecordName(file))
		require.NoError(t, err)
		_, wrote, err := taken(t, file, r)
		assert.ErrorContains(t, err, why)
		assert.ErrorContains(t, err, "nothing was written")
		assert.Nil(t, wrote)
		now, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(was), string(now), why)
		after, err := record.Load(RecordName(file))
		require.NoError(t, err)
		assert.Len(t, after.Entries, len(log.Entries), why)
	}
	refused("--step label.ratings: its answer, \"photographed\", has no figure in bar; asked is the pressure on each label",
		label("photographed", "2026-05-30"))
	refused("says nothing", label("- -", "2026-05-30"))
	refused("has a figure of something else; expected is:", label("10 mm", "2026-05-30"))
	refused("not yet: first Photograph the rating label",
		Reading{Step: finding.ItemAgeRetire, Value: "no cracks", Who: "AB", Date: "2026-05-30"})
	refused("this launcher has no step \"relief.test\": there is no relief valve",
		Reading{Step: finding.ItemReliefTest, Value: "1 bar", Who: "AB, CD", Date: "2026-05-30"})
	low := label("0.01 bar", "2026-05-30")
	low.Failing = Refused
	refused("is less than the 10.000 bar at least", low)
	low.Value = "dose 10 bar and barrel 6 bar for air"
	refused("the design states barrel.rated_pressure as 10 bar, the label has 6 bar: change the design to the label's "+
		"figure", low)
	assert.NoFileExists(t, RecordName(file))

	b, wrote, err := taken(t, file, label("dose and barrel 10 bar for air", "2026-05-30"))
	require.NoError(t, err)
	assert.Equal(t, record.Passed, wrote.Result)
	answer := b.Design().Launcher().Checklist[0]
	assert.True(t, answer.Recorded)
	assert.Equal(t, b.State().Log.Newest(finding.ItemLabels).Name(), answer.Record)
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(now), strings.TrimSpace(string(before))), "all else stays as it was")

	age := Reading{Step: finding.ItemAgeRetire, Value: "no cracks", Who: "AB", Date: "2026-05-29"}
	refused("2026-05-29 lies before Photograph the rating label", age)
	refused("2026-05-29 lies before its newest reading, of 2026-05-30", label("dose and barrel 11 bar for air", "2026-05-29"))
	age.Date, age.Value = "2026-05-30", "all fine"
	refused("says too little", age)

	_, wrote, err = taken(t, file, label("0.01 bar", "2026-05-31"))
	require.NoError(t, err)
	assert.Equal(t, record.Failed, wrote.Result, "where failing is kept, it is written down")
	age.Value = "no cracks"
	refused("not yet: first Photograph the rating label", age)

	require.NoError(t, os.WriteFile(RecordName(file), []byte("no record\nat all\n"), 0o644))
	refused("not yet: first Clear up the record of the commissioning: it was altered (record.whole)",
		label("dose and barrel 10 bar for air", "2026-05-31"))
}

// Where something is under pressure nobody is alone, and nobody fills a launcher of which a verdict fails.
func TestTakeWithAir(t *testing.T) {
	answers := ""
	for id, value := range map[string]string{"label.ratings": "dose and barrel 10 bar for air",
		"age.retire":       "no cracks, dose, barrel and ball 2026",
		"end-caps":         "caps all seated",
		"restrictor.gauge": "0.4 mm", "electric.fuses": "2 A", "unasked.guard": "probe of 900 mm does not reach the bore",
		"seal-guard": "400 mm2, air gets past", "muzzle-admits": "3 mm", "seat-stop": "loaded ten times, 59 mm, 60 mm",
		"mount.elevation": "stands upright", "tip.press-test": "60 N 8 mm dry, 60 N 8 mm wet, 60 N 8 mm cold at 20 degC",
		"projectile.tug-and-bite": "nothing came off",
		"open.tag":                "tag on the bleed",
		"unasked.two-actions":     "no click", "control.without-air": "nothing fires, silent"} {
		answers += "[checklist.\"" + id + "\"]\nwho = \"AB\"\ndate = \"2026-05-30\"\nvalue = \"" + value + "\"\n"
	}
	vent := Reading{Step: finding.ItemVentLow, Value: "1 s, 0.02 bar", Who: "AB, ab.", Date: "2026-05-31"}
	_, _, err := taken(t, least(t, answers), vent)
	assert.ErrorContains(t, err, `it takes two people, who did it and who watched, as "AB, CD"; found "AB, ab."`)
	vent.Who = "AB, CD"
	_, wrote, err := taken(t, least(t, answers), vent)
	require.NoError(t, err)
	assert.Equal(t, record.Passed, wrote.Result)
	// Between the nominal shot, 0.066 J, and the one that is judged: a limit of its own that fails.
	_, _, err = taken(t, least(t, answers+"[limits]\ntotal_energy = \"0.075 J ± 0\"\n"), vent)
	assert.ErrorContains(t, err, "not yet: no air goes in before this is mended: ")
	assert.ErrorContains(t, err, "(energy.total)")
}

// What is said of a unit is said of the figure that was read, up to its comma, and only where the figure is what is wrong.
func TestTakeSpeaksOfTheUnitOnlyWhereThatIsWrong(t *testing.T) {
	file := least(t, "")
	_, _, err := taken(t, file, label("dose 10 bar, photographed", "2025-01-01"))
	assert.ErrorContains(t, err, "held until 2026-01-01")
	assert.NotContains(t, err.Error(), "comma")
	_, _, err = taken(t, file, label("dose 10 bara, photographed", "2026-05-30"))
	assert.ErrorContains(t, err, "(that is an absolute pressure: write what the gauge shows)")
	assert.NotContains(t, err.Error(), "comma")
}

// A reading of a day before its part was made is of another part: nothing is written that would be void at once.
func TestTakeRefusesAReadingOlderThanItsPart(t *testing.T) {
	file := least(t, "")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	data = bytes.Replace(data, []byte("[volumes.dose]\n"), []byte("[volumes.dose]\nmade_on = \"2026-05-20\"\n"), 1)
	require.NoError(t, os.WriteFile(file, data, 0o644))
	_, _, err = taken(t, file, label("dose and barrel 10 bar for air", "2026-05-19"))
	assert.ErrorContains(t, err, "is older than a part that it speaks of: volumes.dose.made_on is 2026-05-20")
	assert.NoFileExists(t, RecordName(file))
	_, wrote, err := taken(t, file, label("dose and barrel 10 bar for air", "2026-05-20"))
	require.NoError(t, err)
	assert.Equal(t, record.Passed, wrote.Result)
}
