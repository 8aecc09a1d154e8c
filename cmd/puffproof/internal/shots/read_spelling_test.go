package shots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Numbers that the Go language would read and nobody means, values that no
// instrument shows, and the line ends of old spreadsheets.
func TestSpellingsAndExtremes(t *testing.T) {
	const head = "pressure [bar],temperature [degC],speed [m/s],chronograph_distance [m]\n"
	for line, says := range map[string]string{
		"0.5,18,5_1,0.3":    "speed is not a number",
		"0.5,18,0x5p0,0.3":  "speed is not a number",
		"0.5,18,1e-300,0.3": "speed is smaller than can be meant",
		"0.5,-60,5,0.3":     "temperature is smaller than can be meant",
		"0.5,18,5,100":      "chronograph_distance is larger than can be meant",
	} {
		_, problems := Read("s.csv", []byte(head+line+"\n"), 101325, "2026-06-01")
		require.Len(t, problems, 1, line)
		assert.Contains(t, problems[0].String(), says)
	}
	log, problems := Read("s.csv", []byte(strings.ReplaceAll(head+"0.5,18,5.1,0.3\n", "\n", "\r")), 101325, "2026-06-01")
	require.Empty(t, problems)
	assert.Len(t, log.Shots, 1)
}
