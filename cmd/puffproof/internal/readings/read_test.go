package readings

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/vent"
)

// Units by definition: 1 bar 1e5 Pa, 1 kPa 1000 Pa, 1 min 60 s (SI Brochure).
func TestReadings(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []vent.LogReading
	}{
		{"plain", "time [s],gauge [bar]\n0,0.5\n2,0.25\n", []vent.LogReading{{Time: 0, Gauge: 5e4}, {Time: 2, Gauge: 2.5e4}}},
		{"other spellings", "Gauge (kPa);Clock_min\n50;0,5\n", []vent.LogReading{{Time: 30, Gauge: 5e4}}},
		{"absolute gauge", "t [s]\tp [kPa abs]\n1\t151.325\n", []vent.LogReading{{Time: 1, Gauge: 5e4}}},
		{"gaps, comments, a mark in front", "\ufeff# test of May\ntime [s],gauge [bar],note\n0,,looked away\n1,0.5,\n,0.4,\n2,-,\n",
			[]vent.LogReading{{Time: 1, Gauge: 5e4}}},
		{"runs by an empty line", "time [s],gauge [bar]\n0,1\n1,0\n\n2,1\n", []vent.LogReading{{Run: 0, Time: 0, Gauge: 1e5}, {Run: 0, Time: 1,
			Gauge: 0}, {Run: 1, Time: 2, Gauge: 1e5}}},
		{"runs by the clock", "time [s],gauge [bar]\n0,1\n5,0\n0,1\n", []vent.LogReading{{Run: 0, Time: 0, Gauge: 1e5}, {Run: 0, Time: 5,
			Gauge: 0}, {Run: 1, Time: 0, Gauge: 1e5}}},
		{"empty cells between tabs, a lone carriage return", "note\ttime [s]\tgauge [bar]\r\t1\t0.5\r", []vent.LogReading{{Time: 1, Gauge: 5e4}}},
		{"commas for points", "time [s];gauge [kPa]\n0,5;1,250\n", []vent.LogReading{{Time: 0.5, Gauge: 1250}}},
		{"runs by a line of empty cells", "time [s],gauge [bar]\n0,1\n,\n2,1\n", []vent.LogReading{{Time: 0, Gauge: 1e5},
			{Run: 1, Time: 2, Gauge: 1e5}}},
		{"runs by name", "run,time [s],gauge [bar]\nB,0,1\nA,1,0\nB,2,0\n", []vent.LogReading{{Run: 0, Time: 0, Gauge: 1e5}, {Run: 1, Time: 1,
			Gauge: 0}, {Run: 0, Time: 2, Gauge: 0}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			log, problems := Read("log.csv", []byte(c.text), 101325)
			require.Empty(t, problems)
			require.Len(t, log.Readings, len(c.want))
			for i, w := range c.want {
				require.Equal(t, w.Run, log.Readings[i].Run)
				require.InDelta(t, w.Time, log.Readings[i].Time, 1e-9, "rounding")
				require.InDelta(t, w.Gauge, log.Readings[i].Gauge, 1e-6, "rounding")
			}
		})
	}
}

func TestFaultyReadings(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"empty", "", "no reading"},
		{"only a header", "time [s],gauge [bar]\n", "no reading"},
		{"no unit", "time,gauge [bar]\n0,1\n", "no unit"},
		{"time in bar", "time [bar],gauge [bar]\n0,1\n", "no unit of time"},
		{"unknown unit", "time [s],gauge [barz]\n0,1\n", "no unit of pressure"},
		{"no gauge column", "time [s],note\n0,1\n", "time and a gauge column"},
		{"a column of something else", "time [s],gauge [bar],temperature [K]\n0,1,2\n", "no such column"},
		{"a column twice", "time [s],gauge [bar],pressure [psi]\n0,1,2\n", "stands twice"},
		{"a bracket open", "time [s],gauge [bar\n0,1\n", "write gauge [bar]"},
		{"a tolerance for a unit", "time [s],gauge [bar ± 5 %]\n0,1\n", "a unit stands alone"},
		{"extra cells", "time [s],gauge [bar]\n270,0,7\n", "more fields than the header names"},
		{"a mark between digits", "time [s],gauge [bar]\n1_0,1\n", "is not a number"},
		{"a hexadecimal", "time [s],gauge [bar]\n0x5p0,1\n", "is not a number"},
		{"a quote", "time [s],gauge [bar]\n\"1,0.5\n", "quote"},
		{"a quote inside", "time [s],gauge [bar]\n1\"0,0.5\n", "quote"},
		{"minutes and seconds", "time [s],gauge [bar]\n1:30,0.5\n", "90 s, not 1:30"},
		{"points and commas", "time [s];gauge [bar]\n0.5;0,5\n", "write 0.5, not 0,5"},
		{"commas that may part thousands", "time [s];gauge [kPa]\n0;1,250\n", "write 1250 if thousands are meant"},
		{"words", "time [s],gauge [bar]\n0,full\n", "is not a number"},
		{"infinite", "time [s],gauge [bar]\n0,Inf\n", "is not a number"},
		{"short line", "time [s],gauge [bar]\n0\n", "too few columns"},
		{"not text", "time [s],gauge [bar]\n\xff\xfe,1\n", "not UTF-8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problems := Read("log.csv", []byte(c.text), 101325)
			require.NotEmpty(t, problems)
			require.Contains(t, problems[0].String(), c.says)
			for _, p := range problems {
				require.NotEmpty(t, p.Hint, p.String())
				require.NotEmpty(t, p.Want, p.String())
				require.Equal(t, "log.csv", p.File)
				require.Positive(t, p.Line)
				require.Positive(t, p.Column)
			}
		})
	}
}

// Whatever the file holds, the reader lists problems or gives readings.
func FuzzRead(f *testing.F) {
	f.Add("time [s],gauge [bar]\n0,0.5\n\n1,0.4\n")
	f.Add("run;time_s;gauge_psi\nA;0;1\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, problems := Read("log.csv", []byte(text), 101325)
		if len(problems) == 0 && len(log.Readings) == 0 {
			t.Fatal("neither readings nor a problem")
		}
	})
}

// Figures that no gauge and no clock shows are a slip, not a reading; a clock that
// counts the seconds of a calendar is one.
func TestImpossibleReadingsAreNamed(t *testing.T) {
	_, problems := Read("a.csv", []byte("time [s],gauge [bar]\n0,1e300\n1e300,0.3\n2,0.2\n"), 101325)
	require.Len(t, problems, 2)
	require.Contains(t, problems[0].String(), "no gauge shows such a pressure")
	require.Equal(t, 2, problems[0].Line)
	require.Contains(t, problems[1].String(), "no clock shows such a time")
	require.Equal(t, 3, problems[1].Line)
	log, problems := Read("b.csv", []byte("time [s],gauge [bar]\n1785000000,0.3\n1785000001,0.2\n"), 101325)
	require.Empty(t, problems)
	require.Len(t, log.Readings, 2)
}

// The sheet that vent writes, with its last column filled in, is a log; a cell left
// empty is a gap, a quoted cell may hold a comma, two tests in one file are refused.
func TestAFilledInSheetIsALog(t *testing.T) {
	head := "volume,scenario,time [s],lowest [Pa gauge],expected [Pa gauge],highest [Pa gauge],read [Pa]\n"
	log, problems := Read("sheet.csv",
		[]byte(head+"tank,power lost from armed,0.00,1,2,3,36000\ntank,power lost from armed,1.00,1,2,3,\ntank,power lost from "+
			"armed,2.00,1,2,3,20000\n"+
			"dose,power lost from armed,0.00,1,2,3,\n"), 101325)
	require.Empty(t, problems)
	require.Equal(t, "tank", log.Volume)
	require.Equal(t, []vent.LogReading{{Time: 0, Gauge: 36000}, {Time: 2, Gauge: 20000}}, log.Readings)

	log, problems = Read("sheet.csv", []byte(head+"tank,\"leak-down, armed\",10.00,1,2,3,30000\n"), 101325)
	require.Empty(t, problems)
	require.Equal(t, []vent.LogReading{{Time: 10, Gauge: 30000}}, log.Readings)

	_, problems = Read("sheet.csv",
		[]byte(head+"tank,power lost from armed,0.00,1,2,3,36000\ndose,power lost from armed,0.00,1,2,3,36000\n"), 101325)
	require.Len(t, problems, 1)
	require.Contains(t, problems[0].Message, "more than one test")
}

// Each run costs a fit: so many nobody has read off a gauge.
func TestRunsAreBounded(t *testing.T) {
	text := "time [s],gauge [bar]\n" + strings.Repeat("0,1\n1,0\n", mostRuns)
	log, problems := Read("log.csv", []byte(text), 101325)
	require.Empty(t, problems)
	require.Equal(t, mostRuns-1, log.Readings[len(log.Readings)-1].Run)
	_, problems = Read("log.csv", []byte(text+strings.Repeat("0,1\n", 9)), 101325)
	require.Len(t, problems, 1)
	require.Contains(t, problems[0].Message, "more than 50 runs")
	require.Equal(t, 2*mostRuns+2, problems[0].Line)
}
