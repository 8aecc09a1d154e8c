package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

const benchTable = `
[bench]
gauge_error = "0.002 bar"
relief_steady = ["0.80 bar", "0.81 bar", "0.80 bar"]
cut_outs = ["0.360 bar", "0.361 bar", "0.360 bar", "0.361 bar", "0.360 bar", "0.360 bar",
  "0.361 bar", "0.360 bar", "0.360 bar", "0.360 bar"]
`

// A [bench] table replaces the bands of the design; expected values are reckoned by
// hand from the file's own figures: mean 0.3603 bar, standard deviation 48.305 Pa times
// 3.981 (Montgomery and Runger, table XII: ten readings, 95 %, 99 %), the gauge's error
// and half of the 0.02 bar of its divisions.
func TestBenchTableReplacesBands(t *testing.T) {
	l := read(t, append(demo(t, "whale.toml"), benchTable...))
	require.InDelta(t, 36030-3.981*48.305-1200, l.Switch.CutOut.Low, 0.1) // the digits of the factor
	require.InDelta(t, 36030+3.981*48.305+1200, l.Switch.CutOut.High, 0.1)
	require.Equal(t, launcher.Measured, l.Switch.CutOut.Origin)
	require.InEpsilon(t, 0.822e5, l.Overcharge().Pressure, 1e-12)
	require.NotNil(t, l.Bench)
	require.NotEmpty(t, l.Bench.Replaced)
	require.Nil(t, read(t, demo(t, "whale.toml")).Bench)
}

func TestBenchTableFaults(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"too few":       {`relief_steady = ["0.80 bar", "0.81 bar", "0.80 bar"]`, `relief_steady = ["0.80 bar"]`, "at least 3"},
		"tolerance":     {`"0.81 bar", "0.80 bar"]`, `"0.81 bar ± 0.1 bar", "0.80 bar"]`, "raw reading"},
		"no unit":       {`"0.81 bar", "0.80 bar"]`, `"0.81", "0.80 bar"]`, "has no unit"},
		"bare number":   {`"0.81 bar", "0.80 bar"]`, `0.81, "0.80 bar"]`, "readings in quotes"},
		"no list":       {`relief_steady = ["0.80 bar", "0.81 bar", "0.80 bar"]`, `relief_steady = "0.80 bar"`, "a list of readings"},
		"impossible":    {`"0.81 bar", "0.80 bar"]`, `"81 bar", "0.80 bar"]`, "outside what is possible"},
		"error missing": {`gauge_error = "0.002 bar"`, ``, "missing"},
		"times alone":   {`gauge_error`, "fill_times = [\"6 s\", \"6 s\", \"6 s\"]\ngauge_error", "fill_volume and fill_to"},
	} {
		text := strings.Replace(benchTable, c.old, c.new, 1)
		require.NotEqual(t, benchTable, text, name)
		l, problems := Read("test.toml", append(demo(t, "whale.toml"), text...))
		require.Nil(t, l, name)
		require.Contains(t, list(problems), c.want, name)
	}
}

// A supply that pushed beyond its dead head, even with the gauge's error, has another one: how far it pushes nobody knows then. What fill
// times contradict, and where they tell nothing, is said in the notes.
func TestFillReadingsOfAPump(t *testing.T) {
	rocket := string(demo(t, "rocket.toml"))
	with := func(to, times string) []byte {
		return []byte(rocket +
			"\n[bench]\ngauge_error = \"0.006 bar\"\nfill_volume = \"0.2 L, measured\"\nfill_to = \"" + to + "\"\nfill_times = " +
			times + "\n")
	}
	l, problems := Read("test.toml", with("0.26 bar", `["20 s", "20 s", "20 s"]`))
	require.Nil(t, l)
	require.Contains(t, list(problems), "lies above supply.dead_head")
	notes := func(to, times string) string {
		return finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: read(t, with(to, times))}), " ").String()
	}
	require.Contains(t, notes("0.23 bar", `["20 s", "20 s", "20 s"]`), "too near the dead head")
	require.Contains(t, notes("0.10 bar", `["0.1 s", "0.1 s", "0.1 s"]`), "supply.free_air: the test (fill time of a known volume) reads")
}
