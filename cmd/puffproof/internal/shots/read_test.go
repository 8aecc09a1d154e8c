package shots

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/cells"
	"puffproof/limits/measure"
)

func read(text string) (*measure.ShotLog, []Problem) {
	return Read("s.csv", []byte(text), 101325, "2026-06-01")
}

// One line of each way to measure, in several units. Conversions by definition:
// 1 psi = 6894.757 Pa (NIST SP 811), 1 ft = 0.3048 m.
func TestEveryReading(t *testing.T) {
	log, problems := read(`# invented
pressure [psi],speed [ft/s],chronograph distance [mm],frames,frame_rate [1/s],video_span [m],muzzle_height [m],` +
		`impact_distance [m],return_time [s],apex_height [m],board_time [ms],board_distance [m],microphone,` +
		`click_to_pop [ms],water_height [mm],coin_mass [g],slope_angle [deg],sink_distance [mm],sink_time [s],` +
		`empty_path,empty_to [psi],empty_time [s],projectile,temperature [degC],misfire,note,projectile_mass [oz],date
10,30,400,,,,,,,,,,,,,,,,,,,,A,20,,,0.14,2026-05-31
10,,,12,240,0.5,,,,,,,,,,,,,,,,,B,20,,
10,,,,,,1.2,3.5,,,,,,,,,,,,,,,A,20,,"wet, a little"
10,,,,,,,,1.8,,,,,,,,,,,,,,A,20,,
10,,,,,,,,,2.5,,,,,,,,,,,,,A,20,,
10,,,,,,,,,,250,2,board,,,,,,,,,,A,20,,
10,,,,,,,,,,,,,60,,,,,,,,,,,,
,,,,,,,,,,,,,,120,,,,,,,,,,,
,,,,,,,,,,,,,,,35,,,,,,,,,,
,,,,,,,,,,,,,,,,30,,,,,,,,,
,,,,,,,,,,,,,,,,,200,4,,,,,,,
10,,,,,,,,,,,,,,,,,,,dump,1,20,,,,,,2026-05-30
10,,,,,,,,,,,,,,,,,,,,,,A,20,yes,stuck
`)
	require.Empty(t, problems)
	require.Len(t, log.Shots, 7)
	require.Len(t, log.Bench, 6)
	s := log.Shots
	assert.InEpsilon(t, 10*6894.757293168, s[0].Gauge, 1e-12)
	assert.InEpsilon(t, 30*0.3048, s[0].Speed, 1e-12)
	assert.InEpsilon(t, 0.4, s[0].Distance, 1e-12)
	assert.InEpsilon(t, 293.15, s[0].Temperature, 1e-12)
	assert.InEpsilon(t, 0.14*0.028349523125, s[0].Mass, 1e-12, "1 oz = 28.349523125 g (NIST SP 811)")
	assert.Zero(t, s[1].Mass)
	assert.Equal(t, "2026-05-31", s[0].Date)
	assert.Equal(t, 3, s[0].Line)
	assert.Equal(t, measure.Video, s[1].Method)
	assert.Equal(t, 240.0, s[1].FrameRate)
	assert.Equal(t, "wet, a little", s[2].Note)
	assert.Equal(t, measure.SoundToBoard, s[5].Method)
	assert.Equal(t, measure.AtBoard, s[5].Microphone)
	assert.InEpsilon(t, 0.25, s[5].Interval, 1e-12)
	assert.True(t, s[6].Misfire)
	b := log.Bench
	assert.Equal(t, []measure.BenchKind{measure.ClickToPop, measure.UTube, measure.Coins, measure.Slope, measure.Sink, measure.Emptying},
		[]measure.BenchKind{b[0].Kind, b[1].Kind, b[2].Kind, b[3].Kind, b[4].Kind, b[5].Kind})
	assert.InEpsilon(t, 0.120, b[1].Height, 1e-12)
	assert.InEpsilon(t, 30*math.Pi/180, b[3].Angle, 1e-12)
	assert.Equal(t, "dump", b[5].Path)
	assert.Equal(t, "2026-05-30", b[5].Date)
	assert.InEpsilon(t, 6894.757293168, b[5].GaugeEnd, 1e-12)
}

// Spreadsheets part columns by semicolons or tabs and put a mark in front.
func TestSpreadsheets(t *testing.T) {
	for _, text := range []string{
		"\ufeffpressure [bar];speed [m/s];chronograph_distance [m]\r\n0.4;5;0.3\r\n",
		"pressure (bar)\tspeed (m/s)\tchronograph distance (m)\n0.4\t5\t0.3\n",
		"Pressure [bara],Speed [m/s],Distance [m]\n",
	} {
		log, problems := read(text)
		if strings.Contains(text, "bara") {
			require.NotEmpty(t, problems)
			continue
		}
		require.Empty(t, problems)
		assert.InEpsilon(t, 0.4e5, log.Shots[0].Gauge, 1e-12)
	}
	// A tab is a blank too, and an empty cell between two is one all the same.
	log, problems := read("pressure [bar]\tnote\tspeed [m/s]\tchronograph_distance [m]\n0.4\t\t5\t0.3\n")
	require.Empty(t, problems)
	assert.Equal(t, 5.0, log.Shots[0].Speed)
	log, problems = read("pressure [bara],speed [m/s],chronograph_distance [m]\n1.41325,5,0.3\n")
	require.Empty(t, problems)
	assert.InDelta(t, 0.4e5, log.Shots[0].Gauge, 1e-6)
}

// Careless files: the place, the cause, the hint.
func TestFaultsNameTheirPlace(t *testing.T) {
	for _, c := range []struct{ name, text, place, says string }{
		{"no unit", "pressure,speed [m/s],chronograph_distance [m]\n", "s.csv:1:1", "no unit in the header"},
		{"unknown unit", "pressure [kg],speed [m/s]\n", "s.csv:1:1", "kgf/cm2"},
		{"fps for a speed", "pressure [bar],speed [fps],chronograph_distance [m]\n", "s.csv:1:16", "ft/s"},
		{"builder's word", "pressure [bar],velocity [m/s]\n", "s.csv:1:16", "did you mean speed [m/s]?"},
		{"twice", "pressure [bar],pressure [psi]\n", "s.csv:1:16", "twice"},
		{"decimal comma", "pressure [bar];speed [m/s];chronograph_distance [m]\n0,4;5;0.3\n", "s.csv:2:1", "0.4"},
		{"unit in the cell", "pressure [bar],speed [m/s],chronograph_distance [m]\n0.4 bar,5,0.3\n", "s.csv:2:1", "in the header only"},
		{"missing distance", "pressure [bar],speed [m/s],chronograph_distance [m]\n0.4,5,\n", "s.csv:2:1", "needs chronograph_distance"},
		{"two readings", "pressure [bar],speed [m/s],chronograph_distance [m],return_time [s]\n0.4,5,0.3,1\n", "s.csv:2:11", "two readings"},
		{"nothing", "pressure [bar],speed [m/s],chronograph_distance [m]\n0.4,,\n", "s.csv:2:1", "misfire yes"},
		{"too many fields", "pressure [bar],speed [m/s],chronograph_distance [m]\n0,4,5,0.3\n", "s.csv:2:7", "more fields"},
		{"negative", "pressure [bar],speed [m/s],chronograph_distance [m]\n-0.4,5,0.3\n", "s.csv:2:1", "below zero"},
		{"wrong word", "pressure [bar],speed [m/s],chronograph_distance [m],misfire\n0.4,5,0.3,maybe\n", "s.csv:2:11", "yes"},
		{"absurd", "pressure [bar],speed [m/s],chronograph_distance [m]\n0.4,5000,0.3\n", "s.csv:2:5", "larger than"},
		{"open quote", "pressure [bar],note\n0.4,\"x\n", "s.csv:", "quote"},
		{"a unit for a word", "pressure [bar],misfire [s]\n0.4,yes\n", "s.csv:1:16", "has no unit"},
		{"a date with a unit", "pressure [bar],date [s]\n0.4,2026-05-31\n", "s.csv:1:16", "date has no unit"},
		{"a spreadsheet's date", "pressure [bar],misfire,date\n0.4,yes,31.05.2026\n", "s.csv:2:9", "2026-05-31"},
		{"a day that is none", "pressure [bar],misfire,date\n0.4,yes,2026-02-30\n", "s.csv:2:9", "is no date"},
		{"still to come", "pressure [bar],misfire,date\n0.4,yes,2026-06-02\n", "s.csv:2:9", "still to come"},
		{"a mass of what?", "pressure [bar],misfire,mass [g]\n0.4,yes,4\n", "s.csv:1:24", "did you mean projectile_mass [g]?"},
		{"a mass of nothing", "pressure [bar],misfire,projectile_mass [g]\n0.4,yes,0.004\n", "s.csv:2:9", "smaller than can be meant"},
		{"a rate in bar", "pressure [bar],frame_rate [bar]\n0.4,30\n", "s.csv:1:16", "frames a second"},
		{"a count in bar", "pressure [bar],frames [bar]\n0.4,30\n", "s.csv:1:16", "plain number"},
		{"no name", "pressure [bar],[m/s]\n0.4,30\n", "s.csv:1:16", "no name"},
		{"open bracket", "pressure [bar,speed [m/s]\n0.4,30\n", "s.csv:1:1", "write pressure [bar]"},
		{"a tolerance for a unit", "pressure [bar ± 5 %],speed [m/s]\n0.4,30\n", "s.csv:1:1", "a unit stands alone"},
		{"too many lines", "pressure [bar]\n" + strings.Repeat("0.4\n", mostLines), "s.csv:5001:1", "more than 5000 lines"},
		{"empty", "", "s.csv:1:1", "no shot"},
		{"header only", "pressure [bar]\n", "s.csv:1:1", "no shot"},
		{"not text", "\xff\xfe", "s.csv:1:1", "UTF-8"},
	} {
		log, problems := read(c.text)
		require.NotEmpty(t, problems, c.name)
		assert.Nil(t, log, c.name)
		all := ""
		for _, p := range problems {
			all += p.String() + "\n"
			assert.NotEmpty(t, p.Want, p.String())
			assert.NotEmpty(t, p.Hint, p.String())
		}
		assert.Contains(t, all, c.place, c.name)
		assert.Contains(t, all, c.says, c.name)
	}
}

// All faults of a file are listed at once, up to a bound.
func TestAllFaultsAtOnce(t *testing.T) {
	_, problems := read("pressure [bar],speed [m/s],chronograph_distance [m]\nx,5,0.3\n0.4,y,0.3\n0.4,5,z\n")
	assert.Len(t, problems, 3)
	_, problems = read("pressure [bar]\n" + strings.Repeat("x\n", 500))
	assert.Len(t, problems, cells.MostProblems)
}

// Every column is found by its example header and takes its own unit.
func TestColumnTable(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range columns() {
		require.False(t, seen[c.name], c.name)
		seen[c.name] = true
		r := &reader{all: columns()}
		h, p := r.headOf(cells.Cell{Text: c.example})
		require.Nil(t, p, c.name)
		assert.Equal(t, c.name, r.all[h.index].name)
	}
	for _, one := range readings() {
		for _, n := range append(one.needs, one.signature) {
			assert.True(t, seen[n], n)
		}
	}
	assert.Len(t, Reference(), len(columns()))
}

func FuzzRead(f *testing.F) {
	f.Add("pressure [bar],speed [m/s],chronograph_distance [m]\n0.4,5,0.3\n")
	f.Add("pressure [psi];frames;frame_rate [fps];video_span [in]\n5;3;30;12\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, problems := read(text)
		if (log == nil) == (len(problems) == 0) {
			t.Fatal("neither a log nor a problem")
		}
		for _, p := range problems {
			if p.Line < 1 || p.Column < 1 || p.Message == "" {
				t.Fatalf("a problem without place or cause: %+v", p)
			}
		}
	})
}
