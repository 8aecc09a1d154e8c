package verdict

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// emptying is the assessment of a launcher that empties in 20 of 60 s whatever
// happens, made by hand.
func emptying(change func(l *launcher.Launcher, e *vent.Report)) *assessment.Assessment {
	l := sample.VentedTank()
	e := &vent.Report{Target: 5000, Within: 60, LeftLimit: 0.5, LeftShot: 0.1, Cases: []vent.Case{
		{Scenario: "shutdown from armed", Kind: vent.Shutdown, From: pneumatics.Armed, Volume: "tank", Start: 1e5, Slowest: 20},
		{Scenario: "power lost from armed", Kind: vent.PowerLost, From: pneumatics.Armed, Volume: "tank", Start: 1e5, Slowest: 20}}}
	change(l, e)
	return &assessment.Assessment{Computed: assessed.All, Launcher: l, Stated: l, Emptying: e}
}

// Both time verdicts, on either side of each boundary.
func TestTimesToEmpty(t *testing.T) {
	armed := func(kind vent.Kind, energy float64) func(l *launcher.Launcher, e *vent.Report) {
		return func(l *launcher.Launcher, e *vent.Report) {
			l.Barrel.SealGuard = "slots"
			e.Pushes = []vent.BarrelPush{{Scenario: "emptying", Kind: kind, From: pneumatics.Armed, Speed: 3, Energy: energy / worst.ModelFactor,
				Judged: energy}}
		}
	}
	from := func(s pneumatics.State, guard string) func(l *launcher.Launcher, e *vent.Report) {
		return func(l *launcher.Launcher, e *vent.Report) {
			armed(vent.Shutdown, 0.02)(l, e)
			l.Barrel.SealGuard, e.Pushes[0].From = guard, s
		}
	}
	both := func(f func(c *vent.Case)) func(l *launcher.Launcher, e *vent.Report) {
		return func(_ *launcher.Launcher, e *vent.Report) { f(&e.Cases[0]); f(&e.Cases[1]) }
	}
	for _, c := range []struct {
		name                string
		change              func(l *launcher.Launcher, e *vent.Report)
		shutdown, powerLoss finding.Status
		value, limit        float64 // of the one that does not pass, or of both; NaN: it has none
		unit                finding.Quantity
		says                string
	}{
		{"in time", func(*launcher.Launcher, *vent.Report) {}, finding.Pass, finding.Pass, 20, 60, finding.InSecond,
			"tank from 1.00 bar to 0.050 bar"},
		{"just in time", both(func(c *vent.Case) { c.Slowest = 60 }), finding.Pass, finding.Pass, 60, 60, finding.InSecond, ""},
		{"just too late", both(func(c *vent.Case) { c.Slowest = 60.01 }), finding.Fail, finding.Fail, 60.01, 60, finding.InSecond, ""},
		{"late without power", func(_ *launcher.Launcher, e *vent.Report) { e.Cases[1].Slowest = 61 }, finding.Pass, finding.Fail, 61, 60,
			finding.InSecond,
			"power lost from armed"},
		{"the slowest volume decides", func(_ *launcher.Launcher, e *vent.Report) {
			e.Cases = append(e.Cases, vent.Case{Scenario: "shutdown from loading", Kind: vent.Shutdown, Volume: "dose", Slowest: 70})
		}, finding.Fail, finding.Pass, 70, 60, finding.InSecond, "shutdown from loading, dose"},
		{"trapped before slow", func(_ *launcher.Launcher, e *vent.Report) {
			e.Cases = append(e.Cases, vent.Case{Scenario: "shutdown from loading", Kind: vent.Shutdown, Volume: "dose", Trapped: true,
				Slowest: math.Inf(1)})
			e.Cases[0].Slowest = 1e9
		}, finding.Fail, finding.Pass, math.NaN(), 60, finding.InSecond, "dose: never down to the target"},
		{"never", both(func(c *vent.Case) { c.Slowest = math.Inf(1) }), finding.Fail, finding.Fail, math.NaN(), 60, finding.InSecond,
			"never down to the target"},
		{"no time asked", func(_ *launcher.Launcher, e *vent.Report) { e.Within = math.NaN() }, finding.Unknown, finding.Unknown, math.NaN(),
			math.NaN(), finding.InSecond,
			"within"},
		{"nothing computed", func(_ *launcher.Launcher, e *vent.Report) { e.Trouble, e.Cases = finding.Words("no dead head"), nil },
			finding.Unknown, finding.Unknown, math.NaN(),
			math.NaN(), finding.InSecond, "no dead head"},
		{"what is left shoots just within", func(_ *launcher.Launcher, e *vent.Report) { e.LeftShot = 0.5 }, finding.Pass, finding.Pass, 20, 60,
			finding.InSecond, ""},
		{"what is left shoots too hard", func(_ *launcher.Launcher, e *vent.Report) { e.LeftShot = 0.501 }, finding.Fail, finding.Fail, 0.501,
			0.5, finding.InJoule,
			"still has 0.51 J"},
		{"no empty target", func(l *launcher.Launcher, e *vent.Report) {
			l.Venting.Target, e.TooHigh = launcher.Exact("", 5001), finding.Words("it does not count as empty")
		}, finding.Fail, finding.Fail, 5001, 5000, finding.InPascalGauge, "does not count as empty"},
		{"switched off, any push is one too many", armed(vent.Shutdown, 1e-3), finding.Fail, finding.Pass, 1e-3, 0, finding.InJoule,
			"(shot.unasked): switching it off is the shot"},
		{"without power any push is one too many", armed(vent.PowerLost, 1e-3), finding.Pass, finding.Fail, 1e-3, 0, finding.InJoule,
			"takes no action at all"},
		{"with hands at the muzzle too", from(pneumatics.Loading, "slots"), finding.Fail, finding.Pass, 0.02, 0, finding.InJoule,
			"hands are at the muzzle"},
		{"and without a guard", from(pneumatics.Armed, ""), finding.Fail, finding.Pass, 0.02, 0, finding.InJoule, "is the shot"},
		{"a push that does not move it", func(l *launcher.Launcher, e *vent.Report) { armed(vent.PowerLost, 0)(l, e); e.Pushes[0].Speed = 0 },
			finding.Pass, finding.Pass, 20,
			60, finding.InSecond, ""},
		{"a push from loading goes before a harder one", func(l *launcher.Launcher, e *vent.Report) {
			armed(vent.Shutdown, 0.4)(l, e)
			e.Pushes = append(e.Pushes, vent.BarrelPush{Kind: vent.Shutdown, From: pneumatics.Loading, Speed: 1, Energy: 0.01, Judged: 0.0125})
		}, finding.Fail, finding.Pass, 0.0125, 0, finding.InJoule, "hands are at the muzzle"},
		{"nobody knows from what pressure", func(l *launcher.Launcher, _ *vent.Report) { l.Supply = nil }, finding.Unknown, finding.Unknown,
			math.NaN(), math.NaN(),
			finding.InSecond, "from 1.00 bar only, in 20.0 s"},
		{"nor that it is late then", func(l *launcher.Launcher, e *vent.Report) {
			l.Supply = nil
			both(func(c *vent.Case) { c.Slowest = 61 })(l, e)
		}, finding.Fail,
			finding.Fail, 61, 60, finding.InSecond, ""},
	} {
		a := emptying(c.change)
		for _, one := range []struct {
			finding.Verdict
			want finding.Status
		}{{Of(a, finding.VentShutdown), c.shutdown}, {Of(a, finding.VentPowerLoss), c.powerLoss}} {
			v := one.Verdict
			assert.Equal(t, one.want, v.Status, "%s: %s: %s", c.name, v.ID, v.Why.String())
			if v.Status == finding.Fail {
				assert.NotEmpty(t, v.Advice.String(), c.name)
			}
			if c.shutdown != c.powerLoss && v.Status == finding.Pass {
				continue
			}
			assert.Contains(t, v.Why.String(), c.says, c.name)
			assert.Equal(t, c.unit, v.Unit, c.name)
			assertFigure(t, c.value, v.Value, c.name)
			assertFigure(t, c.limit, v.Limit, c.name)
		}
	}
}

// A push whose end was not settled counts with what the air could still do, and
// that makes a verdict unknown, never a pass and never a figure of a shot.
func TestAPushThatWasNotSettledIsUnknown(t *testing.T) {
	bound := vent.BarrelPush{Path: "vent", Points: "barrel", Scenario: "power lost from armed", Kind: vent.PowerLost, From: pneumatics.Armed,
		Speed: 300, Energy: 200, Judged: 200 * worst.ModelFactor, Bound: true}
	a := emptying(func(l *launcher.Launcher, e *vent.Report) {
		l.Barrel.SealGuard, l.Paths[1].Points = "slots", "barrel"
		e.Pushes, e.Aimed = []vent.BarrelPush{bound}, []vent.BarrelPush{bound}
	})
	for _, v := range []finding.Verdict{Of(a, finding.VentPowerLoss), Of(a, finding.VentPoints)} {
		assert.Equal(t, finding.Unknown, v.Status, v.ID)
		assert.Contains(t, v.Why.String(), "could not be settled", v.ID)
		assert.Contains(t, v.Why.String(), "200 J", v.ID)
		assert.Nil(t, v.Value, v.ID)
	}
	assert.Equal(t, finding.Pass, Of(a, finding.VentShutdown).Status)
}

func TestTrappedVolumesAreCounted(t *testing.T) {
	a := emptying(func(*launcher.Launcher, *vent.Report) {})
	assert.Equal(t, finding.Pass, Of(a, finding.VentTrapped).Status)
	a = emptying(func(_ *launcher.Launcher, e *vent.Report) {
		for range 2 {
			e.Cases = append(e.Cases, vent.Case{Volume: "dose", Trapped: true, Missing: finding.Words("a vent of dose")})
		}
		e.Cases = append(e.Cases, vent.Case{Volume: "tank", Trapped: true, Missing: finding.Words("a vent of tank")})
	})
	v := Of(a, finding.VentTrapped)
	assert.Equal(t, finding.Fail, v.Status)
	assert.InDelta(t, 2, *v.Value, 0, "two volumes, one of them twice")
	assert.Equal(t, "trapped: dose, tank", v.Why.String())
	assert.Equal(t, "Missing: a vent of dose; a vent of tank.", v.Advice.String())
}

// Class and range give the error as EN 837-1 states it: percent of the range.
func TestGaugeThatCannotShowTheTarget(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(g *launcher.GaugeSpec)
		least  float64
		want   finding.Status
	}{
		{"class 1.6 of 1.6 bar", func(*launcher.GaugeSpec) {}, 2560, finding.Pass},
		{"stop pin", func(g *launcher.GaugeSpec) { g.StopPin = launcher.Yes }, 0.06 * 1.6e5, finding.Fail},
		{"stop pin not answered", func(g *launcher.GaugeSpec) { g.StopPin = launcher.Unanswered }, 0.06 * 1.6e5, finding.Fail},
		{"class not stated counts as 4", func(g *launcher.GaugeSpec) { g.Class = 0 }, 6400, finding.Fail},
		{"ten bar", func(g *launcher.GaugeSpec) { g.Range = launcher.Exact("", 1e6) }, 16000, finding.Fail},
		{"coarse divisions", func(g *launcher.GaugeSpec) { g.Graduation = launcher.Exact("", 2e4) }, 1e4, finding.Fail},
		{"stated error", func(g *launcher.GaugeSpec) { g.Error = launcher.Exact("", 3000) }, 3000, finding.Pass},
		{"stated error, lopsided", func(g *launcher.GaugeSpec) { g.Error = launcher.Band{Set: true, Low: -5001, High: 100} }, 5001, finding.Fail},
		{"just the target", func(g *launcher.GaugeSpec) { g.Error = launcher.Exact("", 5000) }, 5000, finding.Pass},
		{"half a division just more", func(g *launcher.GaugeSpec) { g.Graduation = launcher.Exact("", 10002) }, 5001, finding.Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := sample.VentedTank()
			c.change(&l.Gauges[0])
			least, _ := l.Gauges[0].LeastReading()
			assert.InEpsilon(t, c.least, least, 1e-9)
			v := Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Emptying: &vent.Report{Target: 5000}}, finding.GaugeReadable)
			assert.Equal(t, c.want, v.Status)
		})
	}
}

// The worst gauge decides, and what no gauge reads is named; nothing is passed that has
// no gauge or no range.
func TestEveryGaugeMustShowTheTarget(t *testing.T) {
	judged := func(change func(l *launcher.Launcher)) finding.Verdict {
		l := sample.VentedTank()
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
		change(l)
		return Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Emptying: emptied("tank", "dose")}, finding.GaugeReadable)
	}
	one := judged(func(*launcher.Launcher) {})
	assert.Equal(t, finding.Conditional, one.Status, "no air of it gets to the barrel")
	assert.Contains(t, one.Why.String(), "no gauge shows dose")
	second := launcher.GaugeSpec{On: "dose", Range: launcher.Exact("", 1e6), Class: 1, StopPin: launcher.No}
	for _, order := range []int{0, 1} {
		v := judged(func(l *launcher.Launcher) { l.Gauges = slices.Insert(l.Gauges, order, second) })
		assert.Equal(t, finding.Fail, v.Status)
		assert.InDelta(t, 1e4, *v.Value, 1e-9)
		assert.Contains(t, v.Why.String(), "the gauge on dose")
		assert.NotContains(t, v.Why.String(), "no gauge shows")
	}
	assert.Equal(t, finding.Unknown, judged(func(l *launcher.Launcher) { l.Gauges = nil }).Status)
	assert.Equal(t, finding.Unknown, judged(func(l *launcher.Launcher) { l.Gauges[0].Range = launcher.Band{} }).Status)
}

// emptied is an emptying of some volumes, each from 0.8 bar and in 11.2 s at the slowest.
func emptied(volumes ...string) *vent.Report {
	e := &vent.Report{Target: 5000}
	for _, name := range volumes {
		for _, k := range []vent.Kind{vent.Shutdown, vent.PowerLost} {
			e.Cases = append(e.Cases, vent.Case{Kind: k, From: pneumatics.Armed, Volume: name, Start: 0.8 * sample.Bars, Slowest: 11.2})
		}
	}
	return e
}

// A gauge on a tank shows the dose behind it for as long as an open way joins them that passes both ways (own rule of this project). What
// none ever shows can stand full, unseen; what one shows while it fills, a clock tells of later. What holds nothing needs no gauge.
func TestWhatNoGaugeShows(t *testing.T) {
	judged := func(change func(l *launcher.Launcher, feed *launcher.PathSpec, e *vent.Report)) finding.Verdict {
		l, e := tankAndDose(), emptied("tank", "dose")
		change(l, sample.PathNamed(l, "feed"), e)
		return Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Emptying: e}, finding.GaugeReadable)
	}
	v := judged(func(*launcher.Launcher, *launcher.PathSpec, *vent.Report) {})
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "for an empty dose: after 12 s by a clock")
	assert.Equal(t, []string{finding.ItemVentTest}, v.Items)

	v = judged(func(_ *launcher.Launcher, feed *launcher.PathSpec, _ *vent.Report) { feed.Kind = pneumatics.Check })
	assert.Equal(t, finding.Fail, v.Status, "the check valve holds the dose up while the gauge falls")
	assert.Equal(t, 0.8*sample.Bars, *v.Value)
	assert.Contains(t, v.Why.String(), "no gauge ever shows dose: it can stand at up to 0.80 bar unseen")

	for name, c := range map[string]struct {
		change func(l *launcher.Launcher, feed *launcher.PathSpec, e *vent.Report)
		want   finding.Status
	}{
		"always joined, widely": {func(_ *launcher.Launcher, feed *launcher.PathSpec, _ *vent.Report) {
			feed.Kind, feed.Flow = pneumatics.Orifice, sample.Orifice(8e-3, 0.75)
		}, finding.Pass},
		"always joined, no wider than the vent of the tank": {func(_ *launcher.Launcher, feed *launcher.PathSpec, _ *vent.Report) {
			feed.Kind = pneumatics.Orifice
		}, finding.Conditional},
		"one on the dose too": {func(l *launcher.Launcher, _ *launcher.PathSpec, _ *vent.Report) {
			g := l.Gauges[0]
			g.On = "dose"
			l.Gauges = append(l.Gauges, g)
		}, finding.Pass},
		"joined but while armed": {func(_ *launcher.Launcher, feed *launcher.PathSpec, _ *vent.Report) {
			feed.OpenIn, feed.Unpowered = pneumatics.SetOf(pneumatics.Charging, pneumatics.Off, pneumatics.Loading), pneumatics.Open
		}, finding.Conditional},
		"it holds nothing": {func(_ *launcher.Launcher, _ *launcher.PathSpec, e *vent.Report) { *e = *emptied("tank") }, finding.Pass},
		"nobody knows how long it takes": {func(_ *launcher.Launcher, _ *launcher.PathSpec, e *vent.Report) {
			e.Cases[3].Slowest = math.Inf(1)
		}, finding.Unknown},
		"nobody knows how far it is filled": {func(_ *launcher.Launcher, _ *launcher.PathSpec, e *vent.Report) {
			e.Cases = nil
		}, finding.Unknown},
	} {
		assert.Equal(t, c.want, judged(c.change).Status, name)
	}
}

// Who goes by a gauge when it is switched off is told where none shows what empties.
func TestTheGaugesReadZeroOnlyWhereTheyShowIt(t *testing.T) {
	const says = "the gauges read zero; who goes near waits 12 s by a clock first: no gauge shows "
	for on, other := range map[string]string{"tank": "dose", "dose": "tank"} {
		l, e := tankAndDose(), emptied("tank", "dose")
		l.Gauges[0].On = on
		e.RunsOn = &vent.RunsOn{Known: true, Most: 0.5 * sample.Bars, Volume: "dose"}
		a, v := &assessment.Assessment{Launcher: l, Emptying: e}, finding.Verdict{Status: finding.Pass}
		emptyWithoutSupply(a, &v)
		assert.Contains(t, v.Condition.String(), says+other)
		feed := sample.PathNamed(l, "feed") // always open, and far wider than the vents: either gauge shows both
		feed.Kind, feed.Flow = pneumatics.Orifice, sample.Orifice(8e-3, 0.75)
		emptyWithoutSupply(a, &v)
		assert.NotContains(t, v.Condition.String(), "clock")
	}
}

// A supply that runs on keeps a launcher full that is switched off: the time to empty then
// holds only while its plug is pulled. Without power it stands still by itself, and what
// fails does so whatever the plug.
func TestASupplyThatRunsOnMakesTheShutdownConditional(t *testing.T) {
	with := func(r *vent.RunsOn, slowest float64) (shutdown, powerLoss finding.Verdict) {
		a := emptying(func(_ *launcher.Launcher, e *vent.Report) { e.RunsOn, e.Cases[0].Slowest = r, slowest })
		return Of(a, finding.VentShutdown), Of(a, finding.VentPowerLoss)
	}
	full := &vent.RunsOn{Known: true, Most: 0.78e5, Volume: "tank"}
	for name, c := range map[string]struct {
		on      *vent.RunsOn
		slowest float64
		want    finding.Status
		says    string
	}{
		"none by itself":       {nil, 20, finding.Pass, ""},
		"vents that carry it":  {&vent.RunsOn{Known: true, Most: 4000, Volume: "tank", Empty: true}, 20, finding.Pass, ""},
		"vents that do not":    {full, 20, finding.Conditional, "keeps tank at up to 0.78 bar"},
		"nobody knows how far": {&vent.RunsOn{Most: math.Inf(1), Volume: "tank"}, 20, finding.Conditional, "nobody knows how far"},
		"too slow anyway":      {full, 61, finding.Fail, ""},
	} {
		v, power := with(c.on, c.slowest)
		assert.Equal(t, c.want, v.Status, name)
		assert.Equal(t, finding.Pass, power.Status, name)
		assertFigure(t, c.slowest, v.Value, name)
		assert.Contains(t, v.Why.String(), c.says, name)
		if c.want != finding.Conditional {
			assert.Empty(t, v.Items, name)
			continue
		}
		assert.Equal(t, []string{finding.ItemSupplyOff}, v.Items, name)
		assert.Contains(t, v.Condition.String(), "plug of the supply", name)
		assert.Equal(t, finding.OnProcedure, v.Basis, name)
	}
}

// Of several pushes the one with the most energy is judged, whichever comes first; one while hands are at the muzzle goes
// before all others, and one of the other kind or that moves nothing out does not count.
func TestTheHardestPushIsJudged(t *testing.T) {
	push := func(kind vent.Kind, from pneumatics.State, speed, energy float64) vent.BarrelPush {
		return vent.BarrelPush{Kind: kind, From: from, Speed: speed, Energy: energy}
	}
	weak, hard := push(vent.Shutdown, pneumatics.Armed, 1, 0.1), push(vent.Shutdown, pneumatics.Firing, 2, 0.2)
	hands, handsHard := push(vent.Shutdown, pneumatics.Loading, 1, 0.01), push(vent.Shutdown, pneumatics.Loading, 1, 0.02)
	others := []vent.BarrelPush{push(vent.PowerLost, pneumatics.Armed, 9, 9), push(vent.Shutdown, pneumatics.Armed, 0, 9)}
	for _, c := range []struct {
		pushes []vent.BarrelPush
		want   vent.BarrelPush
	}{{[]vent.BarrelPush{weak, hard}, hard}, {[]vent.BarrelPush{hands, handsHard}, handsHard}, {[]vent.BarrelPush{hard, hands}, hands},
		{[]vent.BarrelPush{weak}, weak}} {
		for _, pushes := range [][]vent.BarrelPush{slices.Concat(others, c.pushes), slices.Concat(c.pushes, others)} {
			assert.Equal(t, &c.want, hardestPush(&vent.Report{Pushes: pushes}, vent.Shutdown))
			slices.Reverse(pushes)
			assert.Equal(t, &c.want, hardestPush(&vent.Report{Pushes: pushes}, vent.Shutdown), "the other way round")
		}
	}
	assert.Nil(t, hardestPush(&vent.Report{Pushes: others}, vent.Shutdown))
}
