package wish

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/advise"
)

// A goal is a word and a figure, whichever stands first, with or without something between.
func TestGoal(t *testing.T) {
	apex := advise.Goal{Aim: advise.Apex, Value: 3}
	for text, want := range map[string]advise.Goal{
		"": {}, "  ": {}, "apex 3 m": apex, " Apex  3m ": apex, "apex=3 m": apex, "apex: 3 m": apex, "3 m apex": apex, "height 300 cm": apex,
		"speed 8 m/s": {Aim: advise.Speed, Value: 8}, "range 6 m": {Aim: advise.Range, Value: 6}, "distance 6 m": {Aim: advise.Range, Value: 6},
	} {
		got, err := Goal(text, quantity.Metric)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
}

// What is no goal is refused with what would be accepted, in the reader's units, and with what was probably meant.
func TestWhatIsNoGoal(t *testing.T) {
	const accepted = `; accepted: "apex 3 m", "speed 8 m/s" or "range 6 m"`
	for text, want := range map[string]string{
		"apexx 3 m":      `"apexx 3 m"` + accepted + `; did you mean "apex"?`,
		"velocity 8 m/s": `"velocity 8 m/s"` + accepted + `; did you mean "speed"?`,
		"high 3 m":       `"high 3 m"` + accepted + `; did you mean "apex"?`,
		"8 m/s":          `"8 m/s"` + accepted + `; did you mean "speed 8 m/s"?`,
		"3 m":            `"3 m"` + accepted,
		"energy 0.3 J":   `"energy 0.3 J"` + accepted,
		"speed":          `"speed" says not how much; accepted: a figure with its unit behind the word, such as "speed 8 m/s"`,
		"apex 3":         `"apex 3": no unit: "3" at byte 1; accepted: mm, cm, m, in, ft; put the unit behind the number, such as 50 mm`,
		"speed 3 m":      `"speed 3 m": wrong dimension: "m" at byte 2; accepted: speed: m/s, ft/s, km/h, mph; this is a length`,
		"apex 3 m ± 1 m": `"apex 3 m ± 1 m" has a tolerance; accepted: one figure, which is what is wanted at least, such as "apex 3 m"`,
		"apex -3 m":      `"apex -3 m"; accepted: above 0 and below 100 m, such as "apex 3 m"`,
		"range 300 m":    `"range 300 m"; accepted: above 0 and below 100 m, such as "range 6 m"`,
	} {
		_, err := Goal(text, quantity.Metric)
		assert.EqualError(t, err, want, text)
	}
	_, err := Goal("apex", quantity.US)
	assert.EqualError(t, err, `"apex" says not how much; accepted: a figure with its unit behind the word, such as "apex 9.84 ft"`)
}

// How long may be looked is one time.
func TestWithin(t *testing.T) {
	for text, want := range map[string]time.Duration{"": 0, "90 s": 90 * time.Second, "2 min": 2 * time.Minute} {
		got, err := Within(text, quantity.Metric)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	for text, want := range map[string]string{"3": "no unit", "0 s": "accepted: above 0", "-1 s": "accepted: above 0",
		"99999 s": "up to a day", "9 s ± 1 s": "has a tolerance", "3 bar": "wrong dimension"} {
		_, err := Within(text, quantity.Metric)
		assert.ErrorContains(t, err, want, text)
	}
}
