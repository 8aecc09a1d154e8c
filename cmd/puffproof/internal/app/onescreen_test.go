package app

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/testdata/compare/random"
)

// without is a design without the lines of some keys.
func without(text, keys string) string {
	return regexp.MustCompile(`(?m)^ *(`+keys+`) *=.*\n`).ReplaceAllString(text, "")
}

// The answer on any design is one screen: 24 lines of 80 columns, in either system of
// units, in which each verdict that is not passed is named or counted, and whose last line
// is a command that the program understands. The dear designs are asked where PUFFPROOF_LONG is set.
func TestCheckFitsOneScreen(t *testing.T) {
	designs := map[string]string{"least": least(t)}
	names, seeds := []string{"whale", "careless"}, uint64(1)
	if os.Getenv("PUFFPROOF_MORE") != "" {
		names, seeds = []string{"whale", "rocket", "careless"}, 2
	}
	if os.Getenv("PUFFPROOF_LONG") != "" {
		names, seeds = append(names, "soapbox"), 30
	}
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join("../../../../testdata/designs", name+".toml"))
		require.NoError(t, err)
		designs[name] = string(text)
	}
	designs["nothing rated"] = without(designs["whale"], "rated_pressure|rated_for_gas")
	designs["no dead head, no people"] = without(designs["whale"], "dead_head|free_air|nearest_person|contact_diameter")
	if rocket := designs["rocket"]; rocket != "" {
		designs["no friction"] = without(rocket, "breakaway_force|sliding_force")
	}
	for seed := range seeds {
		designs["random "+strconv.FormatUint(seed, 10)] = string(random.Design(seed))
	}
	seen := map[finding.Status]int{}
	for name, text := range designs {
		l, problems := design.Reader{}.Read(name, []byte(text))
		require.Empty(t, problems, name)
		id := idOf(l, []byte(text))
		report, err := limits.Check(trial.Lightly(t.Context(), 0.00005), l, assessment.Options{Day: "2026-05-31"})
		require.NoError(t, err, name)
		for _, units := range []quantity.System{quantity.Metric, quantity.US} {
			var b strings.Builder
			require.NoError(t, (&screen.CheckScreen{Frame: screen.Frame{Style: screen.Style{Width: 100, Units: units}, Design: id,
				Detail: screen.OneScreen}, Report: report, File: "d.toml"}).Write(&b))
			heldToOneScreen(t, b.String(), report.Verdicts)
		}
		for _, v := range report.Verdicts {
			seen[v.Status]++
		}
	}
	for _, st := range []finding.Status{finding.Fail, finding.Unknown, finding.Conditional} {
		assert.NotZero(t, seen[st], "no design has a verdict that is %s", st)
	}
}

// heldToOneScreen holds a screen to what it promises.
func heldToOneScreen(t *testing.T, out string, verdicts []finding.Verdict) {
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), 24, out)
	for _, line := range lines {
		assert.LessOrEqual(t, show.Columns(line), 80, line)
	}
	open, told := show.WithStatus(verdicts, finding.Fail, finding.Unknown, finding.Conditional), 0
	for _, v := range open {
		if regexp.MustCompile(`(?m)^` + show.Word(v.Status) + ` +` + regexp.QuoteMeta(v.Title) + `( |$)`).MatchString(out) {
			told++
		}
	}
	if more := regexp.MustCompile(`(?m)^ +and (\d+) more `).FindStringSubmatch(out); more != nil {
		n, err := strconv.Atoi(more[1])
		require.NoError(t, err)
		told += n
	}
	assert.Equal(t, len(open), told, out)
	last, ok := strings.CutPrefix(lines[len(lines)-1], "next: ")
	assert.True(t, ok, out)
	_, err := usage.Parse(newRegistry(), strings.Fields(last))
	assert.NoError(t, err, last)
}

// All that the short screen leaves out stands under --full, and lists are printed with either.
func TestFullKeepsEverything(t *testing.T) {
	path := designFile(t, least(t))
	_, short, _ := puffproof(t, "check", path)
	_, listed, _ := puffproof(t, "check", path, "--sources", "--assumed")
	_, full, _ := puffproof(t, "check", path, "--full", "--sources")
	assert.Contains(t, listed, "Sources:\n  [1] ")
	assert.NotContains(t, short, "Sources:")
	assert.Contains(t, full, "Sources:\n  [1] ")
	assert.Contains(t, full, "CONDITIONAL Energy of the projectile, worst case")
	assert.Contains(t, full, "Plastic pipe that is not rated for gas")
	_, quiet, _ := puffproof(t, "check", path, "--full", "--quiet")
	assert.True(t, strings.HasPrefix(short, quiet))
}
