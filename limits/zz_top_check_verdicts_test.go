package limits

import (
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Titles fit their column, and no sentence has an exponent.
func TestProseOfEveryVerdict(t *testing.T) {
	for _, l := range []*launcher.Launcher{sample.Plain(), sample.Whale()} {
		for _, v := range check(t, l).Verdicts {
			assert.LessOrEqual(t, len([]rune(v.Title)), 38, v.Title)
			for _, text := range []string{v.Why.String(), v.Advice.String(), v.Caveat.String()} {
				assert.NotRegexp(t, `[0-9]e[+-][0-9]`, text)
			}
			if v.Status == finding.Unknown || v.Status == finding.NotApplicable {
				assert.Nil(t, v.Value, v.ID)
				assert.Nil(t, v.Limit, v.ID)
				assert.Nil(t, v.Margin, v.ID)
			}
			if v.Status == finding.Fail {
				assert.NotEmpty(t, v.Advice.String(), v.ID)
				assert.LessOrEqual(t, *v.Margin, 0.0, v.ID)
			}
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "rocket": sample.Rocket()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				check(b, l)
			}
		})
	}
}
