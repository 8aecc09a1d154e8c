package limits

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/pneumatics"
)

// emptiesInTime is the assessment of a launcher that empties in 20 of 60 s whatever
// happens, made by hand.
func emptiesInTime(change func(l *Launcher, e *VentReport)) *Assessment {
	l := ventedTank()
	e := &VentReport{Target: 5000, Within: 60, LeftLimit: 0.5, LeftShot: 0.1, Cases: []VentCase{
		{Scenario: "shutdown from armed", Kind: Shutdown, From: pneumatics.Armed, Volume: "tank", Start: 1e5, Slowest: 20},
		{Scenario: "power lost from armed", Kind: PowerLost, From: pneumatics.Armed, Volume: "tank", Start: 1e5, Slowest: 20}}}
	change(l, e)
	return &Assessment{Launcher: l, Stated: l, Emptying: e}
}

// Both time verdicts, on either side of each boundary.
func TestTimesToEmpty(t *testing.T) {
	armed := func(kind VentKind, energy float64) func(l *Launcher, e *VentReport) {
		return func(l *Launcher, e *VentReport) {
			l.Barrel.SealGuard = "slots"
			e.Pushes = []BarrelPush{{Scenario: "emptying", Kind: kind, From: pneumatics.Armed, Speed: 3, Energy: energy / ModelFactor,
				Judged: energy}}
		}
	}
	from := func(s pneumatics.State, guard string) func(l *Launcher, e *VentReport) {
		return func(l *Launcher, e *VentReport) {
			armed(Shutdown, 0.02)(l, e)
			l.Barrel.SealGuard, e.Pushes[0].From = guard, s
		}
	}
	both := func(f func(c *VentCase)) func(l *Launcher, e *VentReport) {
		return func(_ *Launcher, e *VentReport) { f(&e.Cases[0]); f(&e.Cases[1]) }
	}
	for _, c := range []struct {
		name                string
		change              func(l *Launcher, e *VentReport)
		shutdown, powerLoss Status
		value, limit        float64 // of the one that does not pass, or of both; NaN: it has none
		unit                Quantity
		says                string
	}{
		{"in time", func(*Launcher, *VentReport) {}, Pass, Pass, 20, 60, InSecond, "tank from 1.00 bar to 0.050 bar"},
		{"just in time", both(func(c *VentCase) { c.Slowest = 60 }), Pass, Pass, 60, 60, InSecond, ""},
		{"just too late", both(func(c *VentCase) { c.Slowest = 60.01 }), Fail, Fail, 60.01, 60, InSecond, ""},
		{"late without power", func(_ *Launcher, e *VentReport) { e.Cases[1].Slowest = 61 }, Pass, Fail, 61, 60, InSecond,
			"power lost from armed"},
		{"the slowest volume decides", func(_ *Launcher, e *VentReport) {
			e.Cases = append(e.Cases, VentCase{Scenario: "shutdown from loading", Kind: Shutdown, Volume: "dose", Slowest: 70})
		}, Fail, Pass, 70, 60, InSecond, "shutdown from loading, dose"},
		{"trapped before slow", func(_ *Launcher, e *VentReport) {
			e.Cases = append(e.Cases, VentCase{Scenario: "shutdown from loading", Kind: Shutdown, Volume: "dose", Trapped: true,
				Slowest: math.Inf(1)})
			e.Cases[0].Slowest = 1e9
		}, Fail, Pass, math.NaN(), 60, InSecond, "dose: never down to the target"},
		{"never", both(func(c *VentCase) { c.Slowest = math.Inf(1) }), Fail, Fail, math.NaN(), 60, InSecond, "never down to the target"},
		{"no time asked", func(_ *Launcher, e *VentReport) { e.Within = math.NaN() }, Unknown, Unknown, math.NaN(), math.NaN(), InSecond,
			"within"},
		{"nothing computed", func(_ *Launcher, e *VentReport) { e.Trouble, e.Cases = "no dead head", nil }, Unknown, Unknown, math.NaN(),
			math.NaN(), InSecond, "no dead head"},
		{"what is left shoots just within", func(_ *Launcher, e *VentReport) { e.LeftShot = 0.5 }, Pass, Pass, 20, 60, InSecond, ""},
		{"what is left shoots too hard", func(_ *Launcher, e *VentReport) { e.LeftShot = 0.501 }, Fail, Fail, 0.501, 0.5, InJoule,
			"still has 0.50 J"},
		{"no empty target", func(l *Launcher, e *VentReport) {
			l.Venting.Target, e.TooHigh = Exact("", 5001), "it does not count as empty"
		}, Fail, Fail, 5001, 5000, InPascalGauge, "does not count as empty"},
		{"switched off, pushes within", armed(Shutdown, 0.5), Pass, Pass, 20, 60, InSecond, ""},
		{"switched off, pushes too hard", armed(Shutdown, 0.501), Fail, Pass, 0.501, 0.5, InJoule, "0.50 J (shot.unasked)"},
		{"without power any push is one too many", armed(PowerLost, 1e-3), Pass, Fail, 1e-3, 0, InJoule, "takes no action at all"},
		{"with hands at the muzzle too", from(pneumatics.Loading, "slots"), Fail, Pass, 0.02, 0, InJoule, "hands are at the muzzle"},
		{"and without a guard", from(pneumatics.Armed, ""), Fail, Pass, 0.02, 0, InJoule, "no guard keeps"},
		{"a push that does not move it", func(l *Launcher, e *VentReport) { armed(PowerLost, 0)(l, e); e.Pushes[0].Speed = 0 }, Pass, Pass, 20,
			60, InSecond, ""},
		{"a push from loading goes before a harder one", func(l *Launcher, e *VentReport) {
			armed(Shutdown, 0.4)(l, e)
			e.Pushes = append(e.Pushes, BarrelPush{Kind: Shutdown, From: pneumatics.Loading, Speed: 1, Energy: 0.01, Judged: 0.0125})
		}, Fail, Pass, 0.0125, 0, InJoule, "hands are at the muzzle"},
		{"nobody knows from what pressure", func(l *Launcher, _ *VentReport) { l.Supply = nil }, Unknown, Unknown, math.NaN(), math.NaN(),
			InSecond, "from 1.00 bar only, in 20.0 s"},
		{"nor that it is late then", func(l *Launcher, e *VentReport) { l.Supply = nil; both(func(c *VentCase) { c.Slowest = 61 })(l, e) }, Fail,
			Fail, 61, 60, InSecond, ""},
	} {
		a := emptiesInTime(c.change)
		for _, one := range []struct {
			Verdict
			want Status
		}{{ventShutdown(a), c.shutdown}, {ventPowerLoss(a), c.powerLoss}} {
			v := one.Verdict
			assert.Equal(t, one.want, v.Status, "%s: %s: %s", c.name, v.ID, v.Why)
			if v.Status == Fail {
				assert.NotEmpty(t, v.Advice, c.name)
			}
			if c.shutdown != c.powerLoss && v.Status == Pass {
				continue
			}
			assert.Contains(t, v.Why, c.says, c.name)
			assert.Equal(t, c.unit, v.Unit, c.name)
			assertFigure(t, c.value, v.Value, c.name)
			assertFigure(t, c.limit, v.Limit, c.name)
		}
	}
}

// assertFigure compares a figure of a verdict; NaN: it has none.
func assertFigure(t *testing.T, want float64, got *float64, name string) {
	t.Helper()
	if math.IsNaN(want) {
		assert.Nil(t, got, name)
	} else if assert.NotNil(t, got, name) {
		assert.InDelta(t, want, *got, 1e-12, name)
	}
}

// A push whose end was not settled counts with what the air could still do, and
// that makes a verdict unknown, never a pass and never a figure of a shot.
func TestAPushThatWasNotSettledIsUnknown(t *testing.T) {
	bound := BarrelPush{Path: "vent", Points: "barrel", Scenario: "power lost from armed", Kind: PowerLost, From: pneumatics.Armed,
		Speed: 300, Energy: 200, Judged: 200 * ModelFactor, Bound: true}
	a := emptiesInTime(func(l *Launcher, e *VentReport) {
		l.Barrel.SealGuard, l.Paths[1].Points = "slots", "barrel"
		e.Pushes, e.Aimed = []BarrelPush{bound}, []BarrelPush{bound}
	})
	for _, v := range []Verdict{ventPowerLoss(a), ventPoints(a)} {
		assert.Equal(t, Unknown, v.Status, v.ID)
		assert.Contains(t, v.Why, "could not be settled", v.ID)
		assert.Contains(t, v.Why, "200 J", v.ID)
		assert.Nil(t, v.Value, v.ID)
	}
	assert.Equal(t, Pass, ventShutdown(a).Status)
}

func TestTrappedVolumesAreCounted(t *testing.T) {
	a := emptiesInTime(func(*Launcher, *VentReport) {})
	assert.Equal(t, Pass, ventTrapped(a).Status)
	a = emptiesInTime(func(_ *Launcher, e *VentReport) {
		for range 2 {
			e.Cases = append(e.Cases, VentCase{Volume: "dose", Trapped: true, Missing: "a vent of dose"})
		}
		e.Cases = append(e.Cases, VentCase{Volume: "tank", Trapped: true, Missing: "a vent of tank"})
	})
	v := ventTrapped(a)
	assert.Equal(t, Fail, v.Status)
	assert.InDelta(t, 2, *v.Value, 0, "two volumes, one of them twice")
	assert.Equal(t, "trapped: dose, tank", v.Why)
	assert.Equal(t, "Missing: a vent of dose; a vent of tank.", v.Advice)
}

// Class and range give the error as EN 837-1 states it: percent of the range.
func TestGaugeThatCannotShowTheTarget(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(g *GaugeSpec)
		least  float64
		want   Status
	}{
		{"class 1.6 of 1.6 bar", func(*GaugeSpec) {}, 2560, Pass},
		{"stop pin", func(g *GaugeSpec) { g.StopPin = Yes }, 0.06 * 1.6e5, Fail},
		{"stop pin not answered", func(g *GaugeSpec) { g.StopPin = Unanswered }, 0.06 * 1.6e5, Fail},
		{"class not stated counts as 4", func(g *GaugeSpec) { g.Class = 0 }, 6400, Fail},
		{"ten bar", func(g *GaugeSpec) { g.Range = Exact("", 1e6) }, 16000, Fail},
		{"coarse divisions", func(g *GaugeSpec) { g.Graduation = Exact("", 2e4) }, 1e4, Fail},
		{"stated error", func(g *GaugeSpec) { g.Error = Exact("", 3000) }, 3000, Pass},
		{"stated error, lopsided", func(g *GaugeSpec) { g.Error = Band{Set: true, Low: -5001, High: 100} }, 5001, Fail},
		{"just the target", func(g *GaugeSpec) { g.Error = Exact("", 5000) }, 5000, Pass},
		{"half a division just more", func(g *GaugeSpec) { g.Graduation = Exact("", 10002) }, 5001, Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(&l.Gauges[0])
			least, _ := l.Gauges[0].leastReading()
			assert.InEpsilon(t, c.least, least, 1e-9)
			v := gaugeReadable(&Assessment{Launcher: l, Emptying: &VentReport{Target: 5000}})
			assert.Equal(t, c.want, v.Status)
		})
	}
}

// The worst gauge decides, and what no gauge reads is named; nothing is passed that has
// no gauge or no range.
func TestEveryGaugeMustShowTheTarget(t *testing.T) {
	judged := func(change func(l *Launcher)) Verdict {
		l := ventedTank()
		l.Volumes = append(l.Volumes, VolumeSpec{Name: "dose", Volume: Exact("", 1e-3)})
		change(l)
		return gaugeReadable(&Assessment{Launcher: l, Emptying: &VentReport{Target: 5000}})
	}
	one := judged(func(*Launcher) {})
	assert.Equal(t, Pass, one.Status)
	assert.Contains(t, one.Why, "no gauge shows dose")
	second := GaugeSpec{On: "dose", Range: Exact("", 1e6), Class: 1, StopPin: No}
	for _, order := range []int{0, 1} {
		v := judged(func(l *Launcher) { l.Gauges = slices.Insert(l.Gauges, order, second) })
		assert.Equal(t, Fail, v.Status)
		assert.InDelta(t, 1e4, *v.Value, 1e-9)
		assert.Contains(t, v.Why, "the gauge on dose")
		assert.NotContains(t, v.Why, "no gauge shows")
	}
	assert.Equal(t, Unknown, judged(func(l *Launcher) { l.Gauges = nil }).Status)
	assert.Equal(t, Unknown, judged(func(l *Launcher) { l.Gauges[0].Range = Band{} }).Status)
}
