package screen

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// golden holds a screen against testdata/NAME.golden. With PUFFPROOF_UPDATE set
// the files are written anew; the change is then read before it is kept.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".golden")
	if os.Getenv("PUFFPROOF_UPDATE") != "" {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func checkText(t *testing.T, r limits.Report, s Style, edit func(*CheckScreen)) string {
	t.Helper()
	c := CheckScreen{Frame: Frame{Style: s, Design: inventedID(), DimensionOf: dimensions}, Report: r,
		Scope: inventedScope(), Cautions: inventedCautions()}
	if edit != nil {
		edit(&c)
	}
	var b strings.Builder
	require.NoError(t, c.Write(&b))
	return b.String()
}

func shotText(t *testing.T, v show.ShotView, s Style) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, (&ShotScreen{Frame: Frame{Style: s, Design: v.Design}, Shot: v}).Write(&b))
	return b.String()
}

func TestScreensLookAsTheyDid(t *testing.T) {
	metric, us := Style{Width: 80}, Style{Width: 80, Units: quantity.US}
	lists := func(c *CheckScreen) { c.Sources, c.Assumed = Listed, Listed }
	golden(t, "check-holds", checkText(t, holdingReport(), metric, nil))
	golden(t, "check-holds-us-lists", checkText(t, holdingReport(), us, lists))
	golden(t, "check-conditional", checkText(t, conditionalReport(), metric, nil))
	golden(t, "check-conditional-us", checkText(t, conditionalReport(), us, nil))
	golden(t, "check-confirmed", checkText(t, confirmedReport(), metric, nil))
	golden(t, "check-fails", checkText(t, failingReport(), metric, nil))
	golden(t, "check-fails-colour", checkText(t, failingReport(), Style{Width: 80, Colour: true}, nil))
	golden(t, "shot", shotText(t, inventedShot(), metric))
	golden(t, "shot-us", shotText(t, inventedShot(), us))
	golden(t, "shot-stalled", shotText(t, stalledShot(), metric))
}

// everyScreen gives all screens in one style.
func everyScreen(t *testing.T, s Style) []string {
	lists := func(c *CheckScreen) { c.Sources, c.Assumed = Listed, Listed }
	var out []string
	for _, r := range []limits.Report{holdingReport(), conditionalReport(), confirmedReport(), failingReport()} {
		out = append(out, checkText(t, r, s, nil), checkText(t, r, s, lists))
	}
	return append(out, shotText(t, inventedShot(), s), shotText(t, stalledShot(), s))
}

func TestNoLineIsWiderThanTheStyle(t *testing.T) {
	for _, width := range []int{80, 100} {
		for _, colour := range []bool{false, true} {
			for _, u := range []quantity.System{quantity.Metric, quantity.US} {
				for _, screen := range everyScreen(t, Style{Width: width, Colour: colour, Units: u}) {
					for line := range strings.Lines(screen) {
						assert.LessOrEqual(t, show.Columns(strings.TrimRight(line, "\n")), width, "%q", line)
					}
				}
			}
		}
	}
}

// Colours are only paint: without the codes both screens are the same text.
func TestColourAddsNoWords(t *testing.T) {
	plain, coloured := everyScreen(t, Style{Width: 80}), everyScreen(t, Style{Width: 80, Colour: true})
	for i := range plain {
		assert.NotContains(t, plain[i], "\x1b")
		assert.Contains(t, coloured[i], "\x1b[")
		stripped := coloured[i]
		for _, code := range []string{"\x1b[0m", "\x1b[1m", "\x1b[1;31m", "\x1b[32m", "\x1b[1;33m", "\x1b[1;34m", "\x1b[2m"} {
			stripped = strings.ReplaceAll(stripped, code, "")
		}
		assert.Equal(t, plain[i], stripped)
	}
}

// The first line is the finding, for every kind of report.
func TestFirstLineIsTheFinding(t *testing.T) {
	first := func(r limits.Report) string {
		l, _, _ := strings.Cut(checkText(t, r, Style{Width: 80}, nil), "\n")
		return l
	}
	assert.Equal(t, "DOES NOT HOLD: 2 verdicts fail, 1 unknown.", first(failingReport()))
	assert.Equal(t, "Holds on the model. NOT yet confirmed: 2 items open: not to be used yet.", first(holdingReport()))
	assert.Equal(t, "Holds, confirmed by measurement.", first(confirmedReport()))
	r := holdingReport()
	r.OpenItems = 0
	assert.NotContains(t, first(r), "Holds, confirmed")
	// A report that claims both to fail and to be confirmed is not believed.
	r = failingReport()
	r.Confirmed = true
	assert.Contains(t, first(r), "DOES NOT HOLD")
}

// A conditional answer is no pass: it stands with the figure that its condition holds
// back, the condition and its items, also in the document.
func TestConditionalIsNoPass(t *testing.T) {
	screen := checkText(t, conditionalReport(), Style{Width: 80}, nil)
	assert.Equal(t, 2, strings.Count(screen, "CONDITIONAL "))
	assert.NotContains(t, screen, "PASS*")
	assert.NotContains(t, screen, "PASS Can another object")
	assert.Contains(t, checkText(t, conditionalReport(), Style{Width: 80, Colour: true}, nil), "\x1b[1;34mCONDITIONAL")
	doc, err := export.Check(inventedID(), conditionalReport())
	require.NoError(t, err)
	all := decode(t, doc)
	assert.EqualValues(t, 2, all["conditions"])
	verdicts := all["verdicts"].([]any)
	held := verdicts[0].(map[string]any)
	assert.Equal(t, "conditional", held["status"])
	assert.EqualValues(t, 2.31, held["value"])
	assert.Equal(t, "an adult looks into the bore, all 300 mm of it, before each load.", held["condition"])
	assert.Equal(t, []any{"object-control.1", "muzzle.look-in"}, held["items"])
	passes := verdicts[2].(map[string]any)
	assert.Equal(t, "pass", passes["status"])
	assert.Nil(t, passes["condition"])
	assert.Contains(t, passes, "condition")
	assert.Equal(t, []any{}, passes["items"])
}

// An energy that could not be judged is never shown as 0 J.
func TestUnknownEnergyIsNotZero(t *testing.T) {
	r := failingReport()
	e := inventedEnergy()
	r.Energy = &worst.EnergyReport{NominalShot: e.NominalShot, Factor: e.Factor, Limit: 0.5, AreaLimit: 1600, ContactArea: 3e-4}
	r.Eye = nil
	screen := checkText(t, r, Style{Width: 80}, nil)
	golden(t, "check-unknown-energy", screen)
	assert.NotContains(t, screen, " 0 J")
	doc, err := export.Check(inventedID(), r)
	require.NoError(t, err)
	energy := decode(t, doc)["energy"].(map[string]any)
	for _, key := range []string{"worst", "nominal_max", "model_J", "ceiling_J", "judged_J", "area_judged_J_m2", "start_high_gauge_Pa",
		"gap_J"} {
		assert.Nil(t, energy[key], key)
		assert.Contains(t, energy, key)
	}
	assert.NotNil(t, energy["nominal_shot"])
}

// A launcher of which nothing says how far it is filled has no shot from 0 Pa.
func TestUnknownStartIsNotZero(t *testing.T) {
	r := failingReport()
	e := inventedEnergy()
	e.NominalShot = worst.ShotFigures{Outcome: "time ran out"}
	r.Energy = e
	for _, detail := range []Detail{Everything, OneScreen} {
		var b strings.Builder
		require.NoError(t, (&CheckScreen{Frame: Frame{Style: Style{Width: 80}, Design: inventedID(), Detail: detail}, Report: r}).Write(&b))
		assert.Contains(t, b.String(), "start pressure not known")
		assert.NotContains(t, b.String(), "time ran out")
	}
}

// While the verdict is unknown no line of the energies claims a margin.
func TestUnknownVerdictHasNoMargin(t *testing.T) {
	r := holdingReport()
	r.Holds = false
	r.Verdicts[0].Status, r.Verdicts[1].Status = finding.Unknown, finding.Unknown
	screen := checkText(t, r, Style{Width: 80}, nil)
	assert.NotContains(t, screen, "judged: limit")
	assert.NotContains(t, screen, "On the contact area")
	assert.Contains(t, screen, "not judged: energy.total is unknown")
}

func TestForbiddenWordsAreNeverPrinted(t *testing.T) {
	for _, screen := range everyScreen(t, Style{Width: 80}) {
		for _, word := range []string{"complies", "compliant", "certified", "safe toy", "toy-safe", "approved"} {
			assert.NotContains(t, strings.ToLower(screen), word)
		}
	}
}

func TestHostileTextIsHarmless(t *testing.T) {
	evil := "\x1b[2J\x1b]0;owned\x07\u202egnihsup\u2066 \u009b31m \xff\x00 a\nPASS all is well " + strings.Repeat("long",
		400) + "e" + strings.Repeat("\u0301", 500)
	r := failingReport()
	for i := range r.Verdicts {
		v := &r.Verdicts[i]
		v.ID, v.Title, v.Source, v.Caveat, v.Why, v.Advice, v.Basis = evil, evil, evil, finding.Words(evil), finding.Words(evil),
			finding.Words(evil), finding.Basis(evil)
	}
	r.Notes, r.Items = finding.AllWords([]string{evil}), []finding.Item{{Title: finding.Words(evil)}}
	r.Eye = []benchmark.EyeFigure{{Injury: evil}}
	r.Assumed = []launcher.Band{{Key: evil, Reason: finding.Words(evil)}}
	r.Energy.WorstPoint = worst.Point{{Key: evil, Side: evil}}
	r.Energy.Worst.Outcome = evil
	v := stalledShot()
	v.Start, v.After = []show.NodeGauge{{Name: evil, Gauge: 1}}, []show.NodeGauge{{Name: evil, Gauge: 1}}
	v.Account, v.Notes, v.Outcome = []budget.Entry{{Name: evil, Energy: 1}}, finding.AllWords([]string{evil}), evil
	id := show.DesignID{Name: evil, Revision: evil, SHA256: strings.Repeat("a", 64)}
	v.Design = id
	screens := []string{
		checkText(t, r, Style{Width: 80}, func(c *CheckScreen) { c.Design, c.Sources, c.Assumed = id, Listed, Listed }),
		shotText(t, v, Style{Width: 80}),
	}
	for _, screen := range screens {
		for _, c := range screen {
			assert.False(t, c != '\n' && c < 0x20 || c >= 0x7f && c < 0xa0 || c == 0x202e || c == 0x2066 || c == 0xfffd, "%U", c)
		}
		assert.NotContains(t, screen, "\nPASS all is well")
		assert.LessOrEqual(t, strings.Count(screen, "\u0301"), 3*strings.Count(screen, "e"),
			"three marks on a letter are all that show.Clean leaves")
		for line := range strings.Lines(screen) {
			assert.LessOrEqual(t, show.Columns(strings.TrimRight(line, "\n")), 80, "%q", line)
		}
	}
}

// A long name of a design is wrapped, not cut: its end may be what tells two designs apart.
// So are the titles of verdicts that pass.
func TestALongNameIsWrapped(t *testing.T) {
	for _, name := range []string{"short", strings.Repeat("float ", 9), strings.Repeat("float ", 30)} {
		id := inventedID()
		id.Name, id.Revision = strings.TrimSpace(name)+" with the long barrel", "B"
		shown := checkText(t, holdingReport(), Style{Width: 80}, func(c *CheckScreen) { c.Design = id })
		assert.Contains(t, strings.Join(strings.Fields(shown), " "), id.Title()+" [file "+id.Fingerprint()+"]")
		assert.NotContains(t, shown, "…")
		for _, line := range strings.Split(shown, "\n") {
			assert.LessOrEqual(t, show.Columns(line), 80, line)
		}
	}
}
