package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"puffproof/limits"
)

const benchTable = `
[bench]
gauge_error = "0.01 bar"
relief_steady = ["0.80 bar", "0.81 bar", "0.80 bar"]
cut_outs = ["0.40 bar", "0.41 bar", "0.40 bar", "0.41 bar", "0.40 bar", "0.40 bar", "0.41 bar", "0.40 bar", "0.40 bar", "0.40 bar"]
`

// A [bench] table replaces the bands of the design; expected values are the
// file's own figures, the gauge's error added by hand.
func TestBenchTableReplacesBands(t *testing.T) {
	l := read(t, append(demo(t, "whale.toml"), benchTable...))
	require.InEpsilon(t, 0.39e5, l.Switch.CutOut.Low, 1e-12)
	require.InEpsilon(t, 0.42e5, l.Switch.CutOut.High, 1e-12)
	require.Equal(t, limits.Measured, l.Switch.CutOut.Origin)
	require.InEpsilon(t, 0.82e5, l.Overcharge().Pressure, 1e-12)
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
		"error missing": {`gauge_error = "0.01 bar"`, ``, "missing"},
	} {
		text := strings.Replace(benchTable, c.old, c.new, 1)
		require.NotEqual(t, benchTable, text, name)
		l, problems := Read("test.toml", append(demo(t, "whale.toml"), text...))
		require.Nil(t, l, name)
		require.Contains(t, list(problems), c.want, name)
	}
}
