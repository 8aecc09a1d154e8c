package screen

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits"
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/measure"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
)

// inShort is the one screen of a report.
func inShort(t *testing.T, r limits.Report, s Style, edit func(*CheckScreen)) string {
	t.Helper()
	return checkText(t, r, s, func(c *CheckScreen) {
		c.Detail, c.File = OneScreen, "whale.toml"
		if edit != nil {
			edit(c)
		}
	})
}

func TestOneScreenLooksAsItDid(t *testing.T) {
	metric := Style{Width: 80}
	rolling, measured := conditionalReport(), confirmedReport()
	rolling.Energy.MovingAt, rolling.Energy.WorstEnergy, rolling.Energy.Model, rolling.Energy.Judged = 2, 0.4235, 0.5294, 0.44
	rolling.Energy.Basis = finding.OnCeiling
	measured.Measured = &measure.Report{Bound: f(0.31)}
	golden(t, "short-holds", inShort(t, holdingReport(), metric, nil))
	golden(t, "short-rolling-ceiling", inShort(t, rolling, metric, nil))
	golden(t, "short-confirmed", inShort(t, measured, metric, nil))
	golden(t, "short-fails-colour", inShort(t, failingReport(), Style{Width: 80, Colour: true}, nil))
	golden(t, "short-fails-us-lists", inShort(t, failingReport(), Style{Width: 200, Units: quantity.US}, func(c *CheckScreen) {
		c.Sources, c.Assumed = Listed, Listed
	}))
}

// heldToOneScreen holds a screen to what it promises: its size, each verdict that is not
// passed named or counted, the next command last.
func heldToOneScreen(t require.TestingT, screen string, r limits.Report) {
	lines := strings.Split(strings.TrimSuffix(screen, "\n"), "\n")
	require.LessOrEqual(t, len(lines), 24, screen)
	for _, line := range lines {
		require.LessOrEqual(t, show.Columns(line), 80, screen)
	}
	require.True(t, strings.HasPrefix(lines[len(lines)-1], "next: puffproof "), screen)
	for _, st := range []finding.Status{finding.Fail, finding.Unknown, finding.Conditional} {
		found := 0
		for _, v := range show.WithStatus(r.Verdicts, st) {
			for _, line := range lines {
				if told, ok := strings.CutPrefix(line, show.Word(st)+" "); ok && strings.HasPrefix(strings.TrimLeft(told, " ")+" ", v.Title+" ") {
					found++
				}
			}
		}
		if more := regexp.MustCompile(`and \d+ more \(.*?(\d+) ` + show.Word(st)).FindStringSubmatch(screen); more != nil {
			n, err := strconv.Atoi(more[1])
			require.NoError(t, err)
			found += n
		}
		require.Equal(t, show.Tally(r.Verdicts, st), found, "%s\n%s", st, screen)
	}
	require.Contains(t, screen, fmt.Sprintf("\n%d PASS", show.Tally(r.Verdicts, finding.Pass)))
}

// randomReport answers every question of the table somehow, with figures from tiny to
// absurd: what no design gives, but a wrong one might.
func randomReport(r *rand.Rand) limits.Report {
	figure := func() float64 { return math.Pow(10, 12*r.Float64()-5) }
	status := func() finding.Status {
		return []finding.Status{finding.Fail, finding.Unknown, finding.Conditional, finding.Pass, finding.NotApplicable}[r.IntN(5)]
	}
	text := func() finding.Text { return finding.Words(strings.Repeat("word and others, ", r.IntN(9))) }
	out := failingReport()
	out.Verdicts, out.Causes = nil, nil
	for _, q := range verdict.Table() {
		v := finding.NewVerdict(q.ID, q.Title, q.Unit)
		v.Source, v.Advice, v.AtLeast = "a source", text(), r.IntN(2) == 0
		v.Judge(figure(), figure())
		v.Status, v.Why = status(), text()
		if r.IntN(4) == 0 {
			v.Value, v.Limit, v.Margin = nil, nil, nil
		}
		out.Verdicts = append(out.Verdicts, v)
		if r.IntN(8) == 0 {
			out.Causes = append(out.Causes, limits.Cause{Step: text(), Verdicts: make([]string, r.IntN(30))})
		}
	}
	for i := range out.Causes {
		out.Causes[i].Step = out.Causes[i].Step.Say("%s", "last")
	}
	out.Holds = len(show.Troubled(out.Verdicts)) == 0
	e := out.Energy
	e.NominalShot.FinalSpeed, e.NominalShot.FinalEnergy, e.Worst.FinalSpeed, e.Worst.FinalEnergy = figure(), figure(), figure(), figure()
	e.WorstEnergy, e.Model, e.Judged, e.Limit, e.MovingAt = figure(), figure(), figure(), figure(), float64(r.IntN(2))*figure()
	e.Basis = []finding.Basis{finding.OnModel, finding.OnCeiling, finding.OnMeasured, ""}[r.IntN(4)]
	e.Worst.Outcome = []string{"", "left", "stalled", "time ran out"}[r.IntN(4)]
	if r.IntN(5) == 0 {
		out.Energy = nil
	}
	if r.IntN(2) == 0 {
		out.Budget = &budget.Report{Weakest: worst.Weakest{Known: true, Leaves: r.IntN(2) == 0, Speed: figure(), Energy: figure(),
			Start: figure()}}
	}
	if r.IntN(2) == 0 {
		out.Measured = &measure.Report{Disagrees: text()}
	}
	return out
}

func TestOneScreenIsOneScreen(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 24))
		report := randomReport(r)
		for _, s := range []Style{{Width: 80}, {Width: 100, Units: quantity.US}} {
			screen := inShort(t, report, s, func(c *CheckScreen) { c.File = strings.Repeat("folder/", r.IntN(20)) + "x.toml" })
			heldToOneScreen(t, screen, report)
		}
	}
}

// What to do first is never cut: a long step takes several lines, and steps that then find no room are counted.
func TestNoStepIsCut(t *testing.T) {
	r := failingReport()
	r.Causes = nil
	long := "Filled and left in the heat: paths.relief.set_pressure = \"1 bar ± 0.1 bar\", " +
		"full_flow_pressure = \"1.2 bar ± 0.1 bar\", as its spring allows"
	for range 3 {
		r.Causes = append(r.Causes, limits.Cause{Step: finding.Words(long), Verdicts: []string{"", ""}})
	}
	for width, want := range map[int]string{80: "Do first 1. " + long + " (2 verdicts) 2. ", 50: "Do first, and 2 more: --full 1. "} {
		flat := strings.Join(strings.Fields(inShort(t, r, Style{Width: width}, nil)), " ")
		assert.Contains(t, flat, want+long+" (2 verdicts)")
		assert.NotContains(t, flat[strings.Index(flat, "Do first"):], "…")
	}
	heldToOneScreen(t, inShort(t, r, Style{Width: 80}, nil), r)
}

// Where the weakest launcher's projectile stays in the barrel nothing is commissioned: the command that looks for changes comes next, with
// what the nominal shot does as the goal. Where something else comes next it stands under that launcher; not where advise, or the editor,
// is the next step anyway.
func TestWhatLetsTheWeakestLeave(t *testing.T) {
	stuck := func(edit func(*limits.Report)) limits.Report {
		r := conditionalReport()
		r.Budget = &budget.Report{Weakest: worst.Weakest{Known: true}}
		edit(&r)
		return r
	}
	metric := Style{Width: 80}
	named := inShort(t, stuck(func(*limits.Report) {}), metric, nil)
	assert.Regexp(t, `\nweakest, when filled +- +- does not leave\nworst (?s:.*)\nnext: puffproof advise whale.toml --goal "speed 4.0 m/s"\n$`,
		named)
	long := inShort(t, stuck(func(*limits.Report) {}), Style{Width: 80, Units: quantity.US}, func(c *CheckScreen) {
		c.File = strings.Repeat("folder/", 9) + "x.toml"
	})
	assert.Contains(t, long, "\nnext: puffproof advise DESIGN --goal \"speed 13.3 ft/s\"\n")
	narrow := inShort(t, stuck(func(*limits.Report) {}), Style{Width: MinWidth}, nil)
	assert.Contains(t, narrow, "\nnext: puffproof advise whale.toml\n")
	assert.Contains(t, narrow, "\n  does not leave\n")
	stalls := stuck(func(r *limits.Report) { r.Energy.NominalShot.Outcome = "stalled" })
	assert.Contains(t, inShort(t, stalls, metric, nil), "\nnext: puffproof advise whale.toml -o better.toml\n")
	fast := stuck(func(r *limits.Report) { r.Energy.NominalShot.FinalSpeed = 120 })
	assert.Contains(t, inShort(t, fast, metric, nil), "\nnext: puffproof advise whale.toml\n")
	disproved := stuck(func(r *limits.Report) {
		r.Measured = &measure.Report{Contradicted: &measure.Contradiction{}}
	})
	assert.Contains(t, inShort(t, disproved, metric, nil), "\n  for it to leave: puffproof advise whale.toml --goal \"speed 4.0 m/s\"\n")
	for name, r := range map[string]limits.Report{
		"leaves":   stuck(func(r *limits.Report) { r.Budget.Weakest.Leaves = true }),
		"template": stuck(func(r *limits.Report) { r.Template = []string{"barrel.bore"} }),
		"fails":    stuck(func(r *limits.Report) { r.Holds, r.Verdicts[0].Status = false, finding.Fail }),
	} {
		assert.NotContains(t, inShort(t, r, metric, nil), "for it to leave", name)
		assert.NotContains(t, inShort(t, r, metric, nil), "--goal", name)
	}
}

// A launcher whose nominal shot stays in the barrel is not commissioned, though it holds: what lets it leave comes next.
func TestWhatDoesNotShootIsNotCommissioned(t *testing.T) {
	r := conditionalReport()
	assert.True(t, strings.HasSuffix(inShort(t, r, Style{Width: 80}, nil), "\nnext: puffproof commission whale.toml\n"))
	for _, outcome := range []string{"stalled", "time ran out"} {
		r.Energy.NominalShot.Outcome = outcome
		assert.True(t, strings.HasSuffix(inShort(t, r, Style{Width: 80}, nil), "\nnext: puffproof advise whale.toml -o better.toml\n"), outcome)
	}
}

// The next step leads on: of a launcher that only lacks what people can say the verdicts whole, and where it stalls as well, or where its
// figures are partly the template's, to what lets it fly and hold, written with what that rests on; of a file that nobody has filled in to
// an editor.
func TestTheNextStepLeadsOn(t *testing.T) {
	unknown := func(edit func(*limits.Report)) limits.Report {
		r := conditionalReport()
		r.Holds, r.Verdicts[0].Status = false, finding.Unknown
		edit(&r)
		return r
	}
	for _, c := range []struct {
		name, file, want string
		edit             func(*limits.Report)
	}{
		{"only unknown", "whale.toml", "puffproof check whale.toml --full", func(*limits.Report) {}},
		{"stalls", "whale.toml", "puffproof advise whale.toml --declare -o better.toml",
			func(r *limits.Report) { r.Energy.NominalShot.Outcome = "stalled" }},
		{"its start is not known", "whale.toml", "puffproof advise whale.toml --declare -o better.toml",
			func(r *limits.Report) { r.Energy.NominalShot = worst.ShotFigures{} }},
		{"some of the template", "whale.toml", "puffproof advise whale.toml --declare -o better.toml",
			func(r *limits.Report) { r.Template = make([]string, 8) }},
		{"nothing overwritten", "a/better.toml", "puffproof advise a/better.toml --declare -o better2.toml",
			func(r *limits.Report) { r.Template = make([]string, 8) }},
		{"all of the template", "whale.toml", "edit whale.toml, then puffproof check whale.toml",
			func(r *limits.Report) { r.Template = make([]string, 40) }},
		{"fails", "whale.toml", "puffproof advise whale.toml -o better.toml",
			func(r *limits.Report) { r.Verdicts[0].Status = finding.Fail }},
	} {
		screen := inShort(t, unknown(c.edit), Style{Width: 80}, func(s *CheckScreen) { s.File = c.file })
		assert.True(t, strings.HasSuffix(screen, "\nnext: "+c.want+"\n"), "%s: %s", c.name, screen)
	}
}

// In the narrowest window no title is cut either.
func TestTitlesFitTheNarrowestScreen(t *testing.T) {
	for _, q := range verdict.Table() {
		r := holdingReport()
		r.Verdicts = []finding.Verdict{{ID: q.ID, Title: q.Title, Status: finding.Conditional}}
		assert.Regexp(t, `\nCONDITIONAL `+regexp.QuoteMeta(q.Title)+`( \(|\n)`, inShort(t, r, Style{Width: MinWidth}, nil))
	}
}

// What is judged comes about line by line: worst, vehicle, factor.
func TestHowHardAddsUp(t *testing.T) {
	r := holdingReport()
	r.Energy = &worst.EnergyReport{NominalShot: r.Energy.NominalShot,
		Worst:       worst.ShotFigures{Outcome: "left", FinalSpeed: 10, FinalEnergy: 0.2},
		WorstEnergy: 0.288, MovingAt: 2, Factor: 1.25, Model: 0.36, Judged: 0.36, Basis: finding.OnModel, Limit: 0.5}
	screen := inShort(t, r, Style{Width: 80}, nil) // 4 g at 10 m/s, and at 12 m/s: 0.5 m v^2
	assert.Regexp(t, `\nworst over the tolerances +10.0 m/s +0.20 J .*\nwith the vehicle's 2.0 m/s +0.29 J\n`+
		`model factor x 1.25 +0.36 J\njudged +0.36 J of 0.50 J, margin 28 %\n`, screen)
	r.Energy.MovingAt, r.Energy.WorstEnergy = 0, 0.2
	assert.NotContains(t, inShort(t, r, Style{Width: 80}, nil), "vehicle")
}

// The last line is typed as it stands, or names no file.
func TestNextIsTyped(t *testing.T) {
	for name, want := range map[string]string{"whale.toml": "whale.toml", "my whale.toml": "'my whale.toml'", "-": "DESIGN", "": "DESIGN",
		"a'b": "DESIGN", "\x1b[2J": "DESIGN", "$(reboot).toml": "'$(reboot).toml'", strings.Repeat("x", 80): "DESIGN"} {
		screen := inShort(t, failingReport(), Style{Width: 80}, func(c *CheckScreen) { c.File = name })
		if len(name) < 80 {
			want += " --declare -o better.toml"
		}
		assert.True(t, strings.HasSuffix(screen, "\nnext: puffproof advise "+want+"\n"), "%q: %s", name, screen)
	}
}

// A long name keeps its end, by which two designs are told apart.
func TestALongNameKeepsItsEnd(t *testing.T) {
	screen := inShort(t, holdingReport(), Style{Width: 80}, func(c *CheckScreen) { c.Design.Name = strings.Repeat("float ", 30) })
	assert.Contains(t, screen, "…")
	assert.Contains(t, screen, "revision C [file 3fa91c2b77de]\n")
}
