package design

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
)

// badWords are bad values of keys that have no figure to make larger or smaller.
var badWords = map[string][]string{
	"made_on": {`"1960-01-01"`, `"2031-01-01"`}, "retire_by": {`"2020-01-01"`}, "points": {`"barrel"`}, "drive": {`"piloted"`},
	"unpowered": {`"closed"`, `"open"`, `"stays"`}, "open_in": {`[]`, `["charging"]`}, "seating": {`"free"`}, "policy": {`"conservative"`},
}

// ownChoice are keys of which a bad value is worse than silence, and why that is right.
var ownChoice = map[string]string{
	"venting.target":                  "the builder's own aim: without one the program's is held to, whose figure is told",
	"paths.relief.full_flow_pressure": "assumed over a band that errs wide; four times of it is no valve that would be bought",
}

// Whatever an example states: where a bad value of it costs a verdict that passes, leaving it out costs it too, to a condition at least. A
// design is not made to hold by saying less. By construction, whatever the verdicts read; the searches are light, and only what passes is
// asked. All keys of three examples take ten minutes (PUFFPROOF_LONG); of the whale some do, of which silence was once milder.
func TestNothingLeftOutIsMilderThanABadValue(t *testing.T) {
	names, some, all := []string{"whale"}, []string{"ambient.coldest", "paths.dump_tank.drive"}, false
	if os.Getenv("PUFFPROOF_MORE") != "" {
		some = append(some, "volumes.tank.made_on", "supply.free_air")
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		names, all = []string{"whale", "rocket", "soapbox"}, true
	}
	tried := 0
	for _, name := range names {
		data, err := os.ReadFile(testdata + "/designs/" + name + ".toml")
		require.NoError(t, err)
		text := string(data)
		for _, part := range regexp.MustCompile(`(?m)^\[(volumes\.\w+|barrel|projectile)\]`).FindAllString(text, -1) {
			text = strings.Replace(text, part, part+"\nmade_on = \"2025-02-01\"", 1)
		}
		lines, table := strings.Split(text, "\n"), ""
		base := map[string]finding.Verdict{}
		for i, line := range lines {
			if strings.HasPrefix(line, "[") {
				table = strings.Trim(line[:strings.LastIndex(line, "]")], "[]")
				continue
			}
			m := statedLine.FindStringSubmatch(line)
			if m == nil || table == "" || ownChoice[table+"."+m[1]] != "" || !all && !slices.Contains(some, table+"."+m[1]) {
				continue
			}
			with := func(value string) map[string]finding.Verdict {
				other := slices.Clone(lines)
				if other[i] = ""; value != "" {
					other[i] = m[1] + " = " + value
				}
				if a := assessedOf(t, []byte(strings.Join(other, "\n"))); a != nil {
					return judged(a)
				}
				return nil
			}
			if len(base) == 0 {
				base = with(m[2])
			}
			tried += leftOut(t, name+": "+table+"."+m[1], base, with, append(moved(table+"."+m[1], m[2]), badWords[m[1]]...))
		}
	}
	assert.Greater(t, tried, 3, "verdicts that a bad value costs")
}

// leftOut holds a design without a key to what bad values of it do, and counts the verdicts that they cost.
func leftOut(t *testing.T, key string, base map[string]finding.Verdict, with func(string) map[string]finding.Verdict,
	bad []string) (costs int) {
	without := with("")
	if without == nil {
		return 0 // refused
	}
	passes := func(v finding.Verdict) bool {
		return v.Status == finding.Pass || v.Status == finding.NotApplicable || v.Status == ""
	}
	for _, value := range bad {
		if value == "" {
			continue
		}
		for id, v := range with(value) {
			if passes(v) || !passes(base[id]) {
				continue
			}
			costs++
			assert.False(t, passes(without[id]), "%s = %s: %s is %s, and left out %s", key, value, id, v.Status, without[id].Status)
		}
	}
	return costs
}
