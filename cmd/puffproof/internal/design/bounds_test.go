package design

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each kind of entry has a bound that is refused at reading, with its figure; the bound
// itself is accepted.
func TestEntriesAreBounded(t *testing.T) {
	path := "[paths.p%d]\nfrom = \"dose\"\nto = \"atmosphere\"\nkind = \"orifice\"\norifice = \"1 mm\"\n"
	supply := "[supply]\nkind = \"compressor\"\nfeeds = \"dose\"\ncurve = [%s]\n"
	many := func(format string, from, n int) string {
		var b strings.Builder
		for i := from; i < n; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	for key, c := range map[string]struct {
		most int
		text func(n int) string
	}{
		"paths": {mostPaths, func(n int) string { return many(path, 1, n) }}, // one stands already
		"gauge": {mostGauges, func(n int) string { return many("[[gauge]] # %d\non = \"dose\"\nrange = \"1 bar\"\n", 0, n) }},
		"objects": {mostObjects, func(n int) string {
			return many("[[objects]]\nname = \"o%d\"\ndiameter = \"9 mm\"\nmass = \"1 g\"\n", 0, n)
		}},
		"supply.curve": {mostPoints, func(n int) string { return fmt.Sprintf(supply, many("[\"%d mbar\", \"9 L/min\"], ", 0, n)) }},
	} {
		_, problems := Read("x.toml", []byte(minimal+c.text(c.most)))
		require.Empty(t, problems, "%s: the bound itself", key)
		_, problems = Read("x.toml", []byte(minimal+c.text(c.most+1)))
		require.Len(t, problems, 1, key)
		require.Equal(t, fmt.Sprintf("has %d entries", c.most+1), problems[0].Message)
		require.Equal(t, fmt.Sprintf("at most %d", c.most), problems[0].Want)
		require.Equal(t, key, problems[0].Key)
	}
}

// A valve with an exhaust is two ways: they are counted together.
func TestWaysAreBounded(t *testing.T) {
	valves := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "[paths.v%d]\nfrom = \"dose\"\nto = \"barrel\"\nkind = \"three_way\"\norifice = \"1 mm\"\nopen_in = []\n"+
				"unpowered = \"closed\"\n", i)
		}
		return b.String()
	}
	_, problems := Read("x.toml", []byte(minimal+valves((mostWays-1)/2)))
	require.Empty(t, problems)
	_, problems = Read("x.toml", []byte(minimal+valves(mostWays/2)))
	require.Len(t, problems, 1)
	require.Equal(t, fmt.Sprintf("at most %d", mostWays), problems[0].Want)
	require.Greater(t, problems[0].Line, 1)
}
