package keys

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Every builder's word of the table is refused with our word.
func TestSynonymsAreExplained(t *testing.T) {
	known := New()
	for _, c := range [][3]string{{"pressure_switch", "shut-off", "cut_out"}, {"pressure_switch", "kicks in", "cut_in"},
		{"pressure_switch", "hysteresis", "differential"}, {"paths.*", "jet", "orifice"}, {"paths.*", "lag", "opening_time"},
		{"barrel", "barrel_length", "travel"}, {"supply", "stall_pressure", "dead_head"}, {"supply", "CFM", "free_air"},
		{"projectile", "stiction", "breakaway_force"}, {"projectile", "slop", "clearance"}, {"paths.*", "seat_boer", "seat_bore"}} {
		require.Contains(t, known.SuggestKey(c[0], c[1], ""), c[2], c[1])
	}
	require.Contains(t, known.SuggestTable("bottle"), "[volumes.NAME]")
	require.Contains(t, known.SuggestTable("projectil"), "[projectile]")
	require.Contains(t, known.SuggestKey("barrel", "mass", ""), "belongs in [projectile]")
}

func TestDistance(t *testing.T) {
	// Textbook pairs of the edit distance; the last two swap neighbours.
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"", "abc", 3}, {"same", "same", 0}, {"ab", "ba", 1}, {"cut_uot", "cut_out", 1}} {
		require.Equal(t, c.want, distance(c.a, c.b), c.a)
		require.Equal(t, c.want, distance(c.b, c.a), c.b)
	}
}
