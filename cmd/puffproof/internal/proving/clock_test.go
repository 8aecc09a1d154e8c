package proving

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/record"
	"puffproof/limits/commission"
	"puffproof/limits/vent"
)

// A step of ten minutes: written down sooner after the reading before it is noted, and no more, for people write a day's notes at once;
// the times that a reading tells have to leave room for it, and are not still to come. A file of readings tells its own.
func TestAStepTakesItsTime(t *testing.T) {
	noon := time.Date(2026, 5, 31, 12, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		value     string
		since     time.Duration // the reading before; negative: there is none
		takes     float64
		log       *vent.Log
		note, why string
	}{
		"seconds later":             {"0.36 bar", 9 * time.Second, 600, nil, "written down 9.0 s after the reading before, and takes 10 min", ""},
		"when it could be done":     {"0.36 bar", 10 * time.Minute, 600, nil, "", ""},
		"the first of all":          {"0.36 bar", -1, 600, nil, "", ""},
		"a step at once":            {"2 A", time.Second, 0, nil, "", ""},
		"with its times":            {"0.36 bar from 9:05 to 9:15", time.Second, 600, nil, "", ""},
		"over midnight":             {"0.36 bar, 23:55-00:05", time.Second, 600, nil, "", ""},
		"with too short a time":     {"0.36 bar from 9:05 to 9:10", time.Second, 600, nil, "", "its times leave 5 min, less than the 10 min"},
		"a minute too short":        {"0.36 bar from 9:05 to 9:14", time.Second, 600, nil, "", "its times leave 9 min"},
		"too short, and long after": {"0.36 bar from 9:05 to 9:10", time.Hour, 600, nil, "", "less than"},
		"still to come":             {"0.36 bar from 11:55 to 12:10", time.Second, 600, nil, "", "still to come"},
		"no times of the day":       {"0.36 bar from 2 min to 12 min", time.Second, 600, nil, "takes 10 min", ""},
		"a file of readings":        {"", time.Second, 600, &vent.Log{}, "", ""},
	} {
		b := &Book{host: Host{Today: "2026-05-31", Now: func() time.Time { return noon }}, log: record.Read(nil)}
		if c.since >= 0 {
			b.log.Entries = []record.Entry{{N: 1, Kind: record.Reading, Step: "vent.low", At: noon.Add(-c.since).Format(time.RFC3339)}}
		}
		note, why := b.hurried(&commission.Step{Takes: c.takes}, &Reading{Value: c.value, Date: "2026-05-31", Log: c.log})
		for got, want := range map[string]string{note.String(): c.note, why.String(): c.why} {
			if want == "" {
				assert.Empty(t, got, name)
			} else {
				assert.Contains(t, got, want, name)
			}
		}
	}
	b := &Book{host: Host{Today: "2026-06-01", Now: func() time.Time { return noon }}, log: record.Read(nil)}
	b.log.Entries = []record.Entry{{N: 1, Kind: record.Reading, Step: "leak-down", Date: "2026-05-31", Reading: "0.36 bar from 9:00 to 9:20"}}
	for times, before := range map[string]string{"from 9:10 to 9:30": "leak-down", "from 8:00 to 8:20": "leak-down", "from 9:20 to 9:40": ""} {
		_, why := b.hurried(&commission.Step{}, &Reading{Value: "0.00 bar " + times, Date: "2026-05-31"})
		assert.Equal(t, before != "", len(why) != 0, times)
		_, why = b.hurried(&commission.Step{}, &Reading{Value: "0.00 bar " + times, Date: "2026-06-01"})
		assert.Empty(t, why, "on another day")
	}
	_, _, told := clock("0.36 bar at 25:05 to 26:05")
	require.False(t, told)
}
