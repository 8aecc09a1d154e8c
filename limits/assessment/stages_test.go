package assessment_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

func made(t *testing.T, ctx context.Context, l *launcher.Launcher, o assessment.Options) *assessment.Assessment {
	t.Helper()
	a, err := assessment.Make(ctx, l, o)
	require.NoError(t, err)
	return a
}

// Each stage is computed where it is wanted; faults bring along what they are computed
// from; nothing wanted is everything wanted.
func TestStagesWanted(t *testing.T) {
	type has struct{ energy, stuck, objects, emptying, faults bool }
	for want, c := range map[assessment.Stages]has{
		assessment.EnergyStage:                          {energy: true},
		assessment.StuckStage:                           {stuck: true},
		assessment.EmptyingStage:                        {emptying: true},
		assessment.FaultStage:                           {energy: true, emptying: true, faults: true},
		assessment.EnergyStage | assessment.ObjectStage: {energy: true, objects: true},
		0: {true, true, true, true, true},
	} {
		a := made(t, assessed.Glance(), sample.VentedTank(), assessment.Options{Want: want})
		got := has{a.Energy != nil && a.Normal != nil && a.Normal.Result.Found,
			a.Plugged.Limit > 0 || len(a.Plugged.Unknown) != 0, len(a.Misuse) > 0,
			a.Emptying != nil && a.Loading != nil, a.Faults != nil}
		assert.Equal(t, c, got, "stages %b", want)
	}
}

// The strength reaches the searches.
func TestStrengthReachesTheSearches(t *testing.T) {
	l := sample.Plain(sample.Weak)
	runs := func(strength float64) int {
		return made(t, context.Background(), l, assessment.Options{Want: assessment.EnergyStage, Strength: strength}).Energy.Runs
	}
	assert.Less(t, 3*runs(0.02), runs(0), "a fiftieth of the effort, with a least one of each kind of search")
}

// Shots of a search already made are used: the search around them is short.
func TestKnownShotsAreUsed(t *testing.T) {
	l := sample.Plain(sample.Weak)
	o := assessment.Options{Want: assessment.EnergyStage}
	plain := made(t, context.Background(), l, o)
	require.Equal(t, 1, plain.Normal.Box.Dim)
	o.Seeds = []worst.StartSeed{{Labels: plain.Normal.Box.Labels, U: plain.Normal.Result.Best.Point, Start: plain.Energy.Worst.StartGauge}}
	known := made(t, context.Background(), l, o)
	assert.Less(t, known.Energy.Runs, plain.Energy.Runs)
	assert.InEpsilon(t, plain.Energy.Judged, known.Energy.Judged, 1e-6, "both settle one maximum to 2^-10 of the box and better")
}

// A press test proves the tip, and with it the higher limit, only from its date on and
// until it expires; without a day it proves nothing.
func TestTheDayReachesTheLimits(t *testing.T) {
	l := sample.Plain(sample.Weak, func(l *launcher.Launcher) {
		l.Projectile.TipProof = ""
		l.Checklist = []finding.Confirmation{{Item: finding.ItemTip, Who: "A. N.", Date: "2026-05-01",
			Value: sample.PressedWords, Figures: sample.Pressed()}}
	})
	for day, want := range map[string]float64{"2026-04-30": 0.08, "2026-05-01": 0.5, "2027-05-02": 0.08, "": 0.08} {
		a := made(t, assessed.Glance(), l, assessment.Options{Want: assessment.EnergyStage, Day: day})
		assert.Equal(t, want, a.Limits.Total.Value, day)
		assert.Equal(t, want, a.Energy.Limit, day)
		assert.Equal(t, day, a.Day)
	}
}

// The jam drill holds a jammed projectile back only from its date on, and until it expires.
func TestTheDayReachesTheFaults(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		sample.Bled(l)
		l.Venting = &launcher.VentingSpec{Within: launcher.Exact("venting.within", 60)}
		l.Checklist = []finding.Confirmation{{Item: finding.ItemJamDrill, Who: "A. N.", Date: "2026-05-01",
			Value: "practised, nobody near for 60 s", Figures: []finding.Figure{{Value: 60, Unit: finding.InSecond}}}}
	})
	jammed := func(day string) (finding.Status, string) {
		faults := made(t, assessed.Glance(), l, assessment.Options{Want: assessment.FaultStage, Day: day}).Faults.Faults
		assert.Equal(t, finding.Unknown, assessed.Fault(t, faults, "muzzle.plugged").Status, "that stage was not asked for")
		for _, f := range faults {
			if f.Mode == fault.Jammed {
				return f.Status, f.Reason.String()
			}
		}
		t.Fatal("no jam")
		return "", ""
	}
	early, why := jammed("2026-04-30")
	assert.Equal(t, finding.OpenItem, early)
	assert.Contains(t, why, "still to come")
	held, _ := jammed("2026-05-01")
	assert.Equal(t, finding.Pass, held)
	late, why := jammed("2027-05-02")
	assert.Equal(t, finding.OpenItem, late)
	assert.Contains(t, why, "held until 2027-05-01")
}

// The plugged muzzle is a fault with the figure of its own stage.
func TestTheFaultsSeeThePluggedMuzzle(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Exact("", 1*sample.Bars) })
	a := made(t, assessed.Glance(), l, assessment.Options{Want: assessment.StuckStage | assessment.FaultStage})
	require.True(t, a.Plugged.Exceeds())
	for _, f := range a.Faults.Faults {
		if f.Mode == fault.MuzzlePlugged {
			assert.Equal(t, finding.Fail, f.Status)
			return
		}
	}
	t.Fatal("no plugged muzzle")
}

// What is not known of the energies is said, unless the ceiling decides or it fails anyhow.
func TestEnergyUnknown(t *testing.T) {
	found := search.Result{Found: true, Evaluations: 10}
	open := found
	open.Undefined = 1
	for _, c := range []struct {
		name   string
		basis  finding.Basis
		result search.Result
		judged float64
		says   string
	}{
		{"all known", finding.OnModel, found, 0.4, ""},
		{"one shot open", finding.OnModel, open, 0.4, "1 of 10 shots"},
		{"one shot open, at the limit", finding.OnMeasured, open, 0.5, "1 of 10 shots"},
		{"one shot open, above the limit", finding.OnModel, open, 0.51, ""},
		{"one shot open, the ceiling decides", finding.OnCeiling, open, 0.4, ""},
		{"none found", finding.OnCeiling, search.Result{}, 0.4, "no shot of the tolerance box"},
	} {
		a := &assessment.Assessment{Launcher: sample.Plain(), Normal: &worst.Case{Result: c.result},
			Energy: &worst.EnergyReport{Basis: c.basis, Judged: c.judged, Limit: 0.5}}
		if c.says == "" {
			assert.Empty(t, a.EnergyUnknown().String(), c.name)
		} else {
			assert.Contains(t, a.EnergyUnknown().String(), c.says, c.name)
		}
		a.NoStart = finding.Words("no pressure")
		assert.Equal(t, "no pressure", a.EnergyUnknown().String(), c.name)
	}
}

// What measurements narrow is computed with, what the design states stays beside it.
func TestMeasurementsNarrowTheLauncher(t *testing.T) {
	l := sample.Gentle()
	found := &measure.Findings{Log: "b.csv"}
	found.UseBench(l, &measure.BenchValue{Kind: measure.Emptying, Lines: []int{2},
		Band: measure.MeasuredBand("paths.fire.Cv", 0.9, 1.0, 1.1, finding.Words("emptying"))})
	require.Empty(t, found.Clashes)
	a := made(t, assessed.Glance(), l, assessment.Options{Want: assessment.EmptyingStage, Measured: found})
	assert.Same(t, l, a.Stated)
	assert.Equal(t, 1.2, a.Stated.Paths[0].Flow.Value.High)
	assert.Equal(t, 1.1, a.Launcher.Paths[0].Flow.Value.High)
}

// Stuck projectiles and other objects are asked from the highest start pressure, figures of
// the eye follow from the judged energy: what each stage hands on.
func TestWhatTheStagesHandOn(t *testing.T) {
	l := sample.Plain(sample.Friction(80, 0.6), func(l *launcher.Launcher) { l.Projectile.Restart = launcher.Exact("", 80) })
	ctx := assessed.Glance()
	a := made(t, ctx, l, assessment.Options{Want: assessment.EnergyStage | assessment.StuckStage | assessment.ObjectStage})
	require.Empty(t, a.EnergyUnknown().String())
	require.Equal(t, 0.95*sample.Bars, a.Energy.StartHigh)
	stuck, err := worst.WorstStuck(ctx, l, worst.EnergyQuestion(l, 0.95*sample.Bars), 0)
	require.NoError(t, err)
	assert.Equal(t, stuck, a.Stuck)
	assert.Greater(t, a.Stuck.Start, 0.6*sample.Bars, "80 N on 13.2 cm2")
	misuse, err := worst.Misuse(ctx, l, a.Normal, 0.95*sample.Bars)
	require.NoError(t, err)
	assert.Equal(t, misuse, a.Misuse)
	assert.Equal(t, benchmark.EyeFigures(a.Energy.Judged/launcher.Circle(41*sample.Millimetres)), a.Eye)
	require.NotEmpty(t, a.Eye)
}
