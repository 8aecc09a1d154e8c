package show

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/finding"
)

// A short screen says why nothing is known where no step that it tells would mend it: in three lines at most, and only where nothing fails.
func TestWhyAVerdictIsUnknownIsSaid(t *testing.T) {
	why := finding.Words("a stronger one goes on " + strings.Repeat("and on ", 40))
	unknown := finding.Verdict{ID: "vessel.rating", Status: finding.Unknown, Why: why}
	pass := finding.Verdict{Status: finding.Pass}
	text := finding.Text.String
	lines := WhyUnknown([]finding.Verdict{pass, unknown}, nil, text, 60)
	assert.Len(t, lines, 3)
	assert.True(t, strings.HasPrefix(lines[0], "Unknown: a stronger one goes on and on"), lines[0])
	for _, line := range lines {
		assert.LessOrEqual(t, Columns(line), 60)
	}
	unknown.Why = finding.Words("missing: a key")
	assert.Equal(t, []string{"Unknown: missing: a key."}, WhyUnknown([]finding.Verdict{unknown}, nil, text, 60))
	assert.Empty(t, WhyUnknown([]finding.Verdict{unknown}, []string{"State the key"}, text, 60), "a step says it")
	assert.Empty(t, WhyUnknown([]finding.Verdict{unknown, {Status: finding.Fail}}, nil, text, 60), "what fails goes first")
	assert.Empty(t, WhyUnknown([]finding.Verdict{pass}, nil, text, 60))
}
