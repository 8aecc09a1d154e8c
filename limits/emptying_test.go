package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// The slow end is never faster than the expected course, that never faster than
// the fast end, and the band of the readings holds the expected one.
func TestEmptyingIsBracketed(t *testing.T) {
	e := emptied(t, sample.VentedTank())
	for _, c := range e.Cases {
		assert.Equal(t, vent.Vented, c.Status, c.Scenario)
		assert.GreaterOrEqual(t, c.Slowest, c.Isothermal)
		assert.GreaterOrEqual(t, c.Isothermal, c.Expected)
		assert.GreaterOrEqual(t, c.Expected, c.Fastest)
		assert.LessOrEqual(t, c.AfterWithin, e.Target)
		if c.Volume == "barrel" { // held by friction, below the target from the start: no course
			assert.LessOrEqual(t, c.Start, e.Target)
			continue
		}
		require.NotEmpty(t, c.Sheet)
		for _, r := range c.Sheet {
			assert.LessOrEqual(t, r.Low, r.Gauge)
			assert.LessOrEqual(t, r.Gauge, r.High)
		}
	}
	assert.Equal(t, finding.Conditional, assessed.Verdict(t, e.Verdicts, "vent.shutdown").Status, "while its supply stands still")
	assert.Equal(t, finding.Pass, assessed.Verdict(t, e.Verdicts, "vent.power-loss").Status)
	assert.Equal(t, finding.Pass, assessed.Verdict(t, e.Verdicts, "vent.trapped").Status)
}

// A firing valve that opens without power vents through the barrel: the
// projectile in it leaves, and without a gap it is what closes the barrel.
func TestVentingThroughTheBarrel(t *testing.T) {
	l := sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths = l.Paths[:1]
	e := emptied(t, l)
	require.NotEmpty(t, e.Pushes)
	for _, p := range e.Pushes {
		assert.Equal(t, "fire", p.Path)
		assert.Equal(t, "left", p.Outcome)
		assert.Greater(t, p.Speed, 1.0)
	}
	assert.Equal(t, finding.Fail, assessed.Verdict(t, e.Verdicts, "vent.power-loss").Status, "a tight projectile closes the only way out")

	// With a vent of its own the tank empties in time, but the projectile still goes.
	l = sample.VentedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths[0].Flow.Value = launcher.Exact("", 8e-8)
	e = emptied(t, l)
	v := assessed.Verdict(t, e.Verdicts, "vent.power-loss")
	assert.Equal(t, finding.Fail, v.Status, v.Why.String())
	assert.Contains(t, v.Why.String(), "pushes a loaded projectile out")
	assert.Equal(t, finding.Conditional, assessed.Verdict(t, e.Verdicts, "vent.shutdown").Status,
		"switched off the firing valve stays shut, and it empties while its supply stands still")
}

// A firing valve that opens when it is switched off: the time to empty stays that of the slower of an empty and a plugged barrel,
// so that a projectile without a gap leaves what the vent alone needs; and whatever the time, the shot fails it.
func TestSwitchingOffThroughTheBarrelIsAShot(t *testing.T) {
	l := sample.VentedTank()
	slow := emptied(t, l).WorstOf(vent.Shutdown).Slowest
	l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Off)
	l.Barrel.SealGuard = "ring with slots"
	e := emptied(t, l)
	for _, c := range e.Cases {
		if c.Kind == vent.Shutdown && c.From == pneumatics.Armed && c.Volume == "tank" {
			assert.GreaterOrEqual(t, c.Slowest, slow*(1-1e-6), "no credit for what leaves past the projectile")
		}
	}
	v := assessed.Verdict(t, e.Verdicts, "vent.shutdown")
	assert.Equal(t, finding.Fail, v.Status, v.Why.String())
	assert.Equal(t, finding.InJoule, v.Unit, v.Why.String())
	assert.Equal(t, 0.0, *v.Limit)
}

// The expected time lies in its own bracket, also where volumes empty through one
// another.
func TestTheExpectedTimeLiesInItsBracket(t *testing.T) {
	chained := sample.VentedTank()
	chained.Volumes = append(chained.Volumes, launcher.VolumeSpec{Name: "dose", Volume: sample.Between("", 0.9e-3, 1.1e-3)})
	chained.Paths = append(chained.Paths, launcher.PathSpec{Name: "join", From: "dose", To: "tank", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(1e-3, 0.75)})
	for name, l := range map[string]*launcher.Launcher{"two dumps": sample.Dumped(), "chained": chained} {
		for _, c := range emptied(t, l).Cases {
			assert.LessOrEqual(t, c.Expected, c.Slowest, name+" "+c.Scenario+" "+c.Volume)
			assert.LessOrEqual(t, c.Fastest, c.Expected, name+" "+c.Scenario+" "+c.Volume)
		}
	}
}

// An answer from a day to come closes nothing here either, nor does one that has expired,
// nor any without a day; and none of those proves a tip.
func TestEmptyKnowsTheDay(t *testing.T) {
	l := sample.VentedTank()
	l.Projectile.TipProof = ""
	answer := func(id, date string, figures ...finding.Figure) finding.Confirmation {
		return finding.Confirmation{Item: id, Who: "A. N.", Date: date, Figures: figures}
	}
	l.Checklist = []finding.Confirmation{answer(finding.ItemStaysEmpty, "2099-05-01", finding.Figure{Unit: finding.InPascalGauge},
		finding.Figure{Value: 120, Unit: finding.InSecond}),
		answer(finding.ItemOpenTag, "2026-05-01"),
		answer(finding.ItemTip, "2099-05-01", sample.Pressed()...)}
	l.Checklist[1].Value, l.Checklist[2].Value = "tag on it, vent locked open", sample.PressedWords
	for day, closes := range map[string]struct{ past, future bool }{"2026-06-01": {true, false}, "2099-05-01": {false, true}, "": {}} {
		e, err := Empty(assessed.Weakly(), l, day)
		require.NoError(t, err)
		future, past := e.Items[finding.IndexOfItem(e.Items, finding.ItemStaysEmpty)], e.Items[finding.IndexOfItem(e.Items, finding.ItemOpenTag)]
		assert.Equal(t, closes.past, past.Done != nil, day)
		assert.Equal(t, closes.future, future.Done != nil, day)
		assert.Equal(t, !closes.future, len(future.OpenWhy) != 0, day)
		tip := benchmark.BenchmarkOf(benchmark.TotalRigid)
		if closes.future {
			tip = benchmark.BenchmarkOf(benchmark.TotalResilient)
		}
		assert.InDelta(t, tip.Value, e.LeftLimit, 1e-12, day)
	}
}

func emptied(t *testing.T, l *launcher.Launcher) *vent.Report {
	t.Helper()
	e, err := Empty(assessed.Weakly(), l, "")
	require.NoError(t, err)
	return e
}
