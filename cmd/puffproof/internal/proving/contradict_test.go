package proving

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/trial"
	"puffproof/limits/finding"
)

// told are answers to the steps of the whale of testdata/designs (invented): those in order, nearly in the words of what is expected, and
// those that contradict it, or say less or more than it asks. Made up for this test, most of the bad ones by somebody who wanted them to
// pass.
var told = map[string]struct{ good, bad []string }{
	"age.retire": {[]string{"no crack seen, nothing past its date", "no cracks, tank made 2025"},
		[]string{"no crack, made 1975", "no cracks in most of them", "chewed through"}},
	"end-caps": {[]string{"caps threaded fully in, tank 750 N, dose 480 N, barrel 140 N held"}, []string{"caps of cardboard, threads in"}},
	"relief.no-shut-off": {[]string{"pipe traced with a finger, no tap or valve between them", "traced, nothing between vessel and valve",
		"no shut-off, traced"},
		[]string{"a tap or valve between them", "no tap, but a valve between them", "nothing between vessel and valve but a cock"}},
	"unasked.guard": {[]string{"probe of 900 mm does not reach the bore", "openings of 4 mm, probe of 20 mm does not reach the bore"},
		[]string{"finger does not reach", "probe of 80 mm does not reach the bore", "probe does not reach the bore"}},
	"seal-guard": {[]string{"200 mm2 in all, air gets past"}, []string{"200 mm2 in all, no air gets past", "40 mm2, air gets past",
		"200 mm2, soft rubber"}},
	"mount.elevation": {[]string{"stops at 75 and 85 deg", "lower stop 75 deg, upper stop 85 deg, bolted"},
		[]string{"stops at 75 and 85 deg, of cardboard", "75 deg", "stops at 60 and 85 deg"}},
	"tip.press-test": {[]string{"dry 20 N 25 mm, wet 20 N 25 mm, cold 20 N 25 mm at 10 degC, nothing hard"},
		[]string{"dry 20 N 25 mm, wet 20 N 25 mm, cold 20 N 25 mm at 20 degC, stays flat", "dry 20 N 25 mm, wet 20 N 25 mm, cold 20 N 25 mm",
			"dry 20 N 25 mm, wet 20 N 25 mm, cold 20 N 25 mm at 10 degC, stays flat"}},
	"projectile.tug-and-bite": {[]string{"nothing came off, 8 of 8 came back", "pulled and bitten for ten seconds, nothing came off"},
		[]string{"nothing came off, 7 of 8 came back", "chewed through"}},
	"open.tag": {[]string{"tag on it, vent locked open"}, []string{"tag hangs in the workshop, vent is locked open most times",
		"tag on it, vent locked open while it rains"}},
	"relief.test": {[]string{"0.70 bar, 0.72 bar, 0.71 bar, full by 0.95 bar", "0.70, 0.72, 0.71 bar, full flow 0.95 bar"},
		[]string{"0.70 bar, 0.72 bar, 0.71 bar", "0.70 bar, 0.90 bar, 0.71 bar, full by 0.95 bar", "0.70, 0.72, 0.71 bar, full by 1.2 bar",
			"0.70 bar, 0.72 bar, full by 0.95 bar"}},
	"unasked.two-actions": {[]string{"no click of the firing valve in any of them"},
		[]string{"no click in any of them, second button bridged for the test", "one button"}},
	"control.without-air": {[]string{"as expected: open dump_tank, dump_dose; shut feed, fire; nothing fires, supply silent"},
		[]string{"all right", "nothing fires, 2 bar on the gauge"}},
	"vent.low": {[]string{"3 s, hissed, 0.04 bar", "3 s, its vent hissed and fell silent, every gauge at zero",
		"from 0.16 bar to 0.04 bar in 3 s, hissed"}, []string{"3 s, hissed", "3 s, hissed, 0.1 bar", "3 s, 0.04 bar"}},
	"control.key-and-stop": {[]string{"stop pressed while charging and while armed, it vents each time", "vents each time"},
		[]string{"vents at key and remote; the child at the wheel keeps the remote", "child holds the remote", "vents each time but one"}},
	"vent.outlets": {[]string{"all blow away from faces and ears, relief outlet free"},
		[]string{"all blow away, relief at the ground near the rider", "relief blows at the ground near the rider"}},
	"leak-down": {[]string{"0.01 bar from 23 s to 11 min"}, []string{"0.36 bar, 0.05 bar after 11 min", "0.01 bar", "0.01 bar after 1 min",
		"tight, from 0.36 bar to 0.05 bar, 9 readings over 11 min"}},
	"switch.test": {[]string{"0.36, 0.36, 0.35, 0.36, 0.37, 0.36, 0.36, 0.36, 0.36, 0.36 bar", "ten cycles, 0.35 to 0.37 bar, sealed"},
		[]string{"0.36, 0.36, 0.35 bar", "ten cycles, 0.35 to 0.42 bar"}},
	"vent.test": {[]string{"8 s, hissed, 0.04 bar", "8 s, hissed, every gauge at zero"}, []string{"8 s, hissed", "8 s, hissed, 0.3 bar",
		"80 s, hissed, 0.04 bar", "8 s, every gauge at zero", "8 s, no hiss, every gauge at zero", "8 s, never hissed, every gauge at zero"}},
	"vent.stays-empty": {[]string{"0 bar after 2 min", "stays at 0.00 bar for two minutes"}, []string{"0.04 bar", "0 bar",
		"0.04 bar after 2 min"}},
	"supply.off": {[]string{"0.04 bar on every gauge with the plug pulled, waited 15 s", "plug pulled, waited 15 s, every gauge at 0.00 bar"},
		[]string{"0.04 bar on every gauge, plug stays in, waited 15 s", "0.04 bar on every gauge, waited 15 s",
			"0.04 bar, plug not pulled, waited 15 s", "plug pulled, every gauge at 0.00 bar", "plug pulled, waited 5 s, every gauge at 0.00 bar"}},
	"faults.tried": {[]string{"nothing fires, 5 s, 0.03 bar"}, []string{"5 s, 0.03 bar", "nothing fires, 5 s"}},
	"barrel.no-pressure": {[]string{"no bubble at the muzzle in two minutes", "charged and armed, no bubble in 2 min"},
		[]string{"no bubble at the muzzle before it was loaded", "0.05 bar", "no bubble at the muzzle", "no bubble in ten seconds"}},
	"cold.drain": {[]string{"drained until dry, stored warm", "water came out, blown out dry, stored in the house at 18 degC"},
		[]string{"water came out, left to dry; stored in the shed at -5 degC", "drained until dry, stored warm at -5 degC", "drained"}},
	"drill.jam": {[]string{"practised, nobody near for 60 s", "all practised it, waited one minute, nobody in line with the barrel"},
		[]string{"practised, waited 1 s, then hand in, nobody in line", "done, waits 10 s", "practised, nobody in line"}},
	"muzzle.look-in": {[]string{"barrel empty, cover on, water poured in runs out"},
		[]string{"cover on, hole drains, barrel empty, looked in with the face over it while armed",
			"looked in with the face over it while armed"}},
	"object-control.1": {[]string{"the adult in charge is named, tried", "supervised loading by the adult in charge, named"},
		[]string{"children load, the adult in charge is named", "children load", "a teenager supervises, named"}},
	"loading.wait": {[]string{"15 s, then the rammer with a stop", "waited 15 s"},
		[]string{"12 s, rammed by thumb while charging", "12 s, hand rammed while charging", "2 s"}},
	"clear.round": {[]string{"clear 5 m all round, nobody behind", "taped five metres all round, also behind"},
		[]string{"clear 1 m, the band stands behind", "clear 5 m all round, the band stands behind", "children behind the float",
			"clear all round"}},
	"contact.print": {[]string{"22 mm"}, []string{"print 20 mm to 24 mm, centre hard"}},
	"sound.hearing": {[]string{"loudest recorded 108 dB(C)", "108 dB(C)", "loudest 108 dBC", "108 db (C) peak"},
		[]string{"loudest recorded 108 dB(A)", "108 dBA", "loudest recorded 120 dB(C)"}},
	"landing.clear": {[]string{"nobody within 10.5 m", "came down at 4 m, nobody within 12 m", "net hung, nobody within 5 m"},
		[]string{"nobody within 5 m", "5 m clear", "came down at 12 m, nobody within 5 m", "nobody within 5 m, no net",
			"nobody within 2 m, net hung"}},
	"second.look": {[]string{"looked at all of it, in order"}, []string{"looked at most of it"}},
}

// What contradicts a step, or does not say what it asks, closes it neither by hand nor as a reading; what says so honestly closes it
// both ways.
func TestAnswersThatContradict(t *testing.T) {
	text, err := os.ReadFile("../../../../testdata/designs/whale.toml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "whale.toml")
	require.NoError(t, os.WriteFile(file, text, 0o644))
	b, err := bookOf(file)
	require.NoError(t, err)
	require.NoError(t, b.Compute(trial.Lightly(t.Context(), 0.004), nil))
	run := &b.Way.Run
	const day = "2026-05-31"
	for id, answers := range told {
		step := run.Step(id)
		if !assert.NotNil(t, step, id) {
			continue
		}
		check := func(value string, closes bool) {
			c := finding.Confirmation{Item: id, Who: "AB, CD", Date: day, Value: value, Figures: design.FiguresIn(value),
				Beside: design.BesideIn(value), Odd: design.OddIn(value)}
			why := finding.Refuses(&step.Item, &c, day)
			assert.Equal(t, closes, len(why) == 0, "%s by hand: %s: %s", id, value, why)
			judged, err := run.Judge(step, &c, nil)
			require.NoError(t, err)
			assert.Equal(t, closes, judged.Outcome == finding.Closes, "%s as a reading: %s: %s", id, value, judged.Says)
		}
		for _, value := range answers.good {
			check(value, true)
		}
		for _, value := range answers.bad {
			check(value, false)
		}
	}
}
