//go:build unix

package app

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/limits/progress"
)

// start is a launcher that a builder may begin from, and what becomes of it.
type start struct {
	name  string   // of the file in testdata/starts; "" from nothing
	goal  []string // further words of the line
	never string   // what stands in the way of every way; "" one is found
	short string   // why no way reaches the goal; "" one does
	says  []string // the keys that the first way rests on, for the builder to declare
}

// starts are told in testdata/starts/README.md.
var starts = []start{
	{name: "whole-tank"}, {name: "hand-pump", says: byHand}, {name: "hollow-rocket"},
	{name: "hard-tip", never: "times the energy allowed"},
	{name: "long-barrel"},
	{name: "piloted-valve"}, {name: "high-relief"}, {name: "no-dose", says: byHand}, {name: "strong-pump"},
	{goal: []string{"--goal", "apex 3 m", "--bore", "41 mm"}, short: "more energy than is allowed", says: []string{
		"volumes.tank.rated_for_gas", "volumes.dose.rated_for_gas", "barrel.rated_for_gas", "projectile.breakaway_force",
		"barrel.object_control", "barrel.seal_guard",
		"event.nearest_person", "event.ear_to_muzzle", "event.youngest", "projectile.tip", "projectile.tip_proof",
		"projectile.contact_diameter", "pressure_switch.reaction_time", "ambient.temperature", "ambient.hottest"}},
	{name: "deep-rocket"},
	{name: "deep-rocket", goal: []string{"--keep", "projectile, paths.fire.Kv"}},
	{name: "template"},
}

// byHand is what a way rests on where a hand opens a tap of which only the bore is known.
var byHand = []string{"paths.fire.opening_time", "paths.fire.discharge_coefficient"}

// From each start advise comes to a design that check says holds on the model, whose nominal and weakest launcher leave the
// barrel, and that rests on no declaration but those named here; or it says what stands in the way. The whole takes a quarter of an
// hour of processor time:
//
//	PUFFPROOF_LONG=1 go test ./cmd/puffproof/internal/app -run EveryStart -v -timeout 0
func TestEveryStartIsBroughtToHold(t *testing.T) {
	if os.Getenv("PUFFPROOF_LONG") == "" {
		t.Skip("takes a quarter of an hour; PUFFPROOF_LONG=1 runs it")
	}
	files, err := filepath.Glob(startFile("*"))
	require.NoError(t, err)
	for _, f := range files {
		known := slices.ContainsFunc(starts, func(s start) bool { return startFile(s.name) == f })
		assert.True(t, known, "%s is no start of this test", f)
	}
	for _, s := range starts {
		t.Run(strings.Join(append([]string{s.name}, s.goal...), " "), func(t *testing.T) {
			line := s.goal
			if s.name != "" {
				line = append(line, startFile(s.name))
			}
			s.take(t.Context(), t, line)
		})
	}
}

// The quickest of such starts: a rocket that hardly moves, of a launcher whose figures are all exact.
func TestAStartIsBroughtToHold(t *testing.T) {
	feeble := designFile(t, least(t,
		`dead_head = "0.20 bar ± 0"`, `dead_head = "0.03 bar ± 0"`, `breakaway_force = "0.3 N ± 0"`, `breakaway_force = "0.9 N ± 0"`))
	start{name: "feeble"}.take(trial.Lightly(t.Context(), 0.003), t, []string{feeble})
}

// What is only assumed is declared closer only where no way holds without: this one holds however fast its valve opens.
func TestNothingIsDeclaredWithoutNeed(t *testing.T) {
	loose := designFile(t, least(t, "\nopening_time = \"20 ms ± 0\"", ``))
	start{name: "loose"}.take(trial.Lightly(t.Context(), 0.01), t, []string{loose})
}

// A tip of which nobody knows whether it is soft counts as hard; where no way holds so, that it is soft is listed for the builder to
// show, with what is lost without it. What is not needed for that is not listed: how hot it gets.
func TestATipThatIsNotKnownIsListedWithWhatItBuys(t *testing.T) {
	path := designFile(t, least(t, `tip = "resilient"`, `tip = "?"`, `tip_proof = "press test record"`, `tip_proof = "?"`,
		`contact_diameter = "22 mm ± 0.5 mm"`, `contact_diameter = "?"`, `hottest = "21 degC" `, `hottest = "?" `))
	st, out, errOut := puffproof(t, "advise", path, "--keep", "supply, paths, volumes, barrel, projectile")
	assert.Equal(t, statusOK, st, "%s", errOut)
	text := strings.Join(strings.Fields(out), " ")
	assert.Contains(t, text, "1 way holds on the model if 3 declarations prove true")
	assert.Regexp(t, `projectile\.tip = "declared resilient": [^;]*; without it .*fails \(0\.\d+ J of 0\.080 J\)`, text)
	assert.NotContains(t, text, "ambient.hottest")
	// Within a width: a print that is stated without one no measurement can bear out.
	assert.Regexp(t, `projectile\.contact_diameter = "\d+ mm ± 2 mm, declared": [^;]*; without it Energy per contact area, worst case unknown`,
		text)
}

func startFile(name string) string { return filepath.Join("../../../../testdata/starts", name+".toml") }

// told is what advise and check say in JSON.
type told struct {
	Advice struct {
		Found   bool
		WhyNot  *string `json:"why_not"`
		Instead *string
		Reaches bool    `json:"reaches_goal"`
		Short   *string `json:"short_of_goal"`
		Ways    []struct {
			Changes      []struct{ Key, New string }
			Declarations []struct{ Key string }
			Parts        []string
			Nominal      struct {
				Speed *float64 `json:"final_speed_m_s"`
				Apex  *float64 `json:"apex_m"`
			}
		}
	}
	Holds  bool
	Energy struct {
		Judged float64 `json:"judged_J"`
	}
	Budget struct {
		Weakest struct {
			Outcome string
			Speed   float64 `json:"final_speed_m_s"`
		}
	}
}

// take asks advise, and then check of the file that it wrote.
func (s start) take(ctx context.Context, t *testing.T, line []string) {
	out := filepath.Join(t.TempDir(), "out.toml")
	ask := func(args ...string) (status, told) {
		var stdout, stderr bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr,
			Now: func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) }}
		st := run(ctx, newRegistry(), host, append([]string{"puffproof", "--json"}, args...))
		var of told
		require.NoError(t, json.Unmarshal(stdout.Bytes(), &of), "%s", stderr.String())
		return st, of
	}
	began := processorTime()
	words := []string{"advise", "-o", out}
	if len(s.says) > 0 {
		words = append(words, "--declare")
	}
	st, answer := ask(append(words, line...)...)
	took := processorTime() - began
	if s.never != "" {
		assert.Equal(t, statusNotHeld, st)
		require.NotNil(t, answer.Advice.WhyNot)
		t.Logf("| %s | no way | %.0f s | %s", s.name, took.Seconds(), *answer.Advice.WhyNot)
		assert.Contains(t, *answer.Advice.WhyNot, s.never)
		assert.NoFileExists(t, out)
		return
	}
	if answer.Advice.WhyNot != nil {
		t.Log(*answer.Advice.WhyNot)
	}
	want := statusOK
	if s.short != "" {
		want = statusNotHeld
	}
	require.Equal(t, want, st)
	if assert.Equal(t, s.short == "", answer.Advice.Reaches, "the goal"); s.short != "" && assert.NotNil(t, answer.Advice.Short) {
		assert.Contains(t, *answer.Advice.Short, s.short)
	}
	w := answer.Advice.Ways[0]
	var says []string
	for _, d := range w.Declarations {
		says = append(says, d.Key)
	}
	assert.Equal(t, s.says, says, "what the first way rests on")
	st, checked := ask("check", out)
	assert.Equal(t, statusOK, st, "check of what advise wrote")
	assert.True(t, checked.Holds)
	assert.Equal(t, "left", checked.Budget.Weakest.Outcome, "the weakest launcher leaves the barrel")
	require.NotNil(t, w.Nominal.Speed, "the nominal launcher leaves the barrel")
	var changed []string
	for _, c := range w.Changes {
		changed = append(changed, fmt.Sprint(c.Key, " ", c.New))
	}
	t.Logf("| %s | %s | %.1f m/s, %.1f m | %.1f m/s | %.2f J | %.0f s | buy: %s", s.name, strings.Join(changed, "; "),
		*w.Nominal.Speed, *w.Nominal.Apex,
		checked.Budget.Weakest.Speed, checked.Energy.Judged, took.Seconds(), strings.Join(w.Parts, "; "))
}

// A goal that nothing reaches is told first, with the most that was found and what forbids more, and status 1; what is given is nearer
// than the design as it stands, or that design itself where nothing may be changed.
func TestAGoalOutOfReachIsToldFirst(t *testing.T) {
	ctx := trial.Lightly(t.Context(), 0.001)
	path := designFile(t, least(t))
	said := func(args ...string) string {
		var out, stderr bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &stderr, Now: time.Now}
		st := run(ctx, newRegistry(), host, append([]string{"puffproof", "advise", path, "--goal", "speed 60 m/s"}, args...))
		assert.Equal(t, statusNotHeld, st, stderr.String())
		return out.String()
	}
	text := func(args ...string) string { return strings.Join(strings.Fields(said(args...)), " ") }
	inJSON := func(args ...string) (of told) {
		require.NoError(t, json.Unmarshal([]byte(said(append(args, "--json")...)), &of))
		return of
	}
	keep := []string{"--keep", "supply, paths, volumes, barrel, projectile"}
	kept, as := text(keep...), inJSON(keep...)
	assert.Regexp(t, `^GOAL NOT REACHED: [0-9.]+ m/s of the 60 m/s wanted is the most that was found, and that is the design as it is: `+
		`nothing that holds comes nearer\. In the way of more: nothing of what may be changed`, kept)
	assert.Contains(t, kept, "As it is: ")
	require.Len(t, as.Advice.Ways, 1)
	assert.Empty(t, as.Advice.Ways[0].Changes)

	if os.Getenv("PUFFPROOF_MORE") != "" { // the whole search once more, for its words
		nearest := text()
		assert.Regexp(t, `^GOAL NOT REACHED: [0-9.]+ m/s of the 60 m/s wanted is the most that was found \(as it is it has [0-9.]+ m/s\)\. `+
			`(With more, |More would take )`, nearest)
		assert.Contains(t, nearest, "--goal 'speed 60 m/s' -o better.toml", "the line to go on with asks the same")
	}
	answer := inJSON()
	assert.False(t, answer.Advice.Reaches)
	require.NotEmpty(t, answer.Advice.Ways)
	last := math.Inf(1)
	for _, w := range answer.Advice.Ways {
		assert.Greater(t, *w.Nominal.Speed, *as.Advice.Ways[0].Nominal.Speed)
		assert.LessOrEqual(t, *w.Nominal.Speed, last, "the nearest first")
		last = *w.Nominal.Speed
	}
}

// A search that an interrupt ends, or that has used up the time it was given, tells what it tried and has found, with the interrupt's
// status or with 1 where no way holds, and writes no file.
func TestASearchThatIsStoppedTellsWhatItHas(t *testing.T) {
	feeble := designFile(t, least(t,
		`dead_head = "0.20 bar ± 0"`, `dead_head = "0.03 bar ± 0"`, `breakaway_force = "0.3 N ± 0"`, `breakaway_force = "0.9 N ± 0"`))
	out := filepath.Join(t.TempDir(), "out.toml")
	ask := func(ctx context.Context, args ...string) (status, string, string) {
		var stdout, stderr bytes.Buffer
		host := Host{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr, Now: time.Now}
		st := run(ctx, newRegistry(), host, append([]string{"puffproof", "advise", feeble, "-o", out}, args...))
		return st, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
	}
	ctx, stop := context.WithCancel(trial.Lightly(t.Context(), 0.003))
	st, said, errOut := ask(progress.With(ctx, func(r progress.Report) {
		if len(r.Looking) > 0 && strings.HasPrefix(r.Looking[0].String(), "ways, 2 of") {
			stop()
		}
	}))
	assert.Equal(t, statusInterrupted, st)
	assert.Regexp(t, `^NOT FINISHED: stopped after 1 of at most \d+ kinds of change; none of them holds so far\.`, said)
	assert.Contains(t, errOut, "interrupted, nothing was written")
	assert.NoFileExists(t, out)

	begun := feeble
	feeble = designFile(t, least(t)) // one that holds as it is, and is short of a goal
	ctx, stop = context.WithCancel(trial.Lightly(t.Context(), 0.003))
	_, said, errOut = ask(progress.With(ctx, func(r progress.Report) {
		if len(r.Looking) > 0 && strings.HasPrefix(r.Looking[0].String(), "ways, 2 of") {
			stop()
		}
	}), "--goal", "speed 60 m/s")
	assert.Regexp(t, `^NOT FINISHED: stopped after 1 of at most \d+ kinds of change\. It holds on the model as it is, and nothing `+
		`has to change for that\. It does not reach the goal\..*As it is: `, said, errOut)
	feeble = begun
	assert.NoFileExists(t, out)

	st, said, errOut = ask(trial.Lightly(t.Context(), 0.003), "--within", "1 ms")
	assert.Equal(t, statusNotHeld, st, errOut)
	assert.Regexp(t, `^NOT FINISHED: stopped before anything was judged to its end: whether it holds as it is, `+
		`check tells\. .* next: puffproof advise \S+, with more time, or to its end$`, said)
	assert.NoFileExists(t, out)

	ctx, stop = context.WithCancel(trial.Lightly(t.Context(), 0.003))
	st, said, _ = ask(progress.With(ctx, func(r progress.Report) {
		if len(r.Looking) > 0 && strings.HasPrefix(r.Looking[0].String(), "what each declaration") {
			stop()
		}
	}))
	assert.Equal(t, statusInterrupted, st)
	assert.Regexp(t, `^NOT FINISHED: .* \d ways? holds? on the model so far\..*Way 1: `, said)
	assert.NoFileExists(t, out)
}
