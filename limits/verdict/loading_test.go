package verdict

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

func TestBarriersWhileLoading(t *testing.T) {
	second := launcher.PathSpec{Name: "shut-off", From: "tank", To: "dose", Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed),
		Flow:   launcher.FlowSpec{Form: launcher.SonicConductance, Value: launcher.Exact("", 1e-8), CriticalRatio: launcher.Exact("", 0.3)}}
	twoValves := func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
		l.Paths[0].From = "dose"
		l.Paths = append(l.Paths, second)
	}
	for _, c := range []struct {
		name   string
		change func(l *launcher.Launcher)
		value  float64
		want   finding.Status
	}{
		{"one valve, tank charged", func(*launcher.Launcher) {}, 1, finding.Fail},
		{"one valve, tank vented", func(l *launcher.Launcher) { l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 2,
			finding.Conditional}, // on 16 s of waiting
		{"one valve, tank vented in no time", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = sample.Orifice(4e-3, 0.75)
		}, 2, finding.Pass},
		{"a vent that takes longer than the time allowed", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Venting.Within = launcher.Exact("venting.within", 10)
		}, 1, finding.Fail},
		{"a pinhole that is always open", func(l *launcher.Launcher) {
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "pin", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
				Flow: sample.Orifice(0.2e-3, 0.75)})
		}, 1, finding.Fail},
		{"two valves, no vent: the dose may hold air", twoValves, 1, finding.Fail},
		{"two valves and a vent on the dose", func(l *launcher.Launcher) {
			twoValves(l)
			second := l.Paths[1]
			second.Name, second.From, second.OpenIn = "dose vent", "dose", pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)
			l.Paths = append(l.Paths, second)
		}, 3, finding.Conditional},
		{"a check valve towards the dose is no barrier", func(l *launcher.Launcher) {
			twoValves(l)
			l.Paths[2].Kind = pneumatics.Check
		}, 1, finding.Fail},
		{"firing valve open while loading", func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Loading) }, 0,
			finding.Fail},
		// 12 L/min through a hole of 1.2 mm: the vent does not keep it empty (orifice
		// flow: about 0.4 bar).
		{"the supply runs while loading", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 1, finding.Fail},
		{"the supply runs while loading against a wide vent", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = sample.Orifice(4e-3, 0.75)
			l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		}, 2, finding.Pass},
		{"a vent that a piloted valve keeps shut", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].MinDifferential = launcher.Exact("", 0.2e5)
		}, 1, finding.Fail},
		{"a vent too narrow for an hour", func(l *launcher.Launcher) {
			l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
			l.Paths[1].Flow = sample.Orifice(0.05e-3, 0.75)
		}, 1, finding.Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := sample.VentedTank()
			c.change(l)
			target, _ := vent.Target(l, math.Inf(1))
			v := Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Loading: vent.LoadingOf(l, target)}, finding.LoadingEmpty)
			assert.Equal(t, c.want, v.Status, v.Why.String())
			require.NotNil(t, v.Value)
			assert.InDelta(t, c.value, *v.Value, 0, v.Why.String())
		})
	}
}

// A valve whose exhaust vents what it feeds is one body: by one fault it opens and vents
// no more, so that it counts once. A vent of its own counts.
func TestAThreeWayValveIsOneBarrier(t *testing.T) {
	for _, c := range []struct {
		name  string
		vent  bool // a valve of its own empties the dose too
		value float64
		want  finding.Status
	}{{"its exhaust alone", false, 1, finding.Fail}, {"and a vent", true, 2, finding.Pass}} {
		l := tankAndDose()
		l.Gauges[0].On = "dose"
		fire := sample.PathNamed(l, "fire")
		fire.OpenIn |= pneumatics.SetOf(pneumatics.Loading) // the body before it is all there is
		sample.MakeThreeWay(l, "feed", "atmosphere", sample.Orifice(2e-3, 0.75))
		if c.vent {
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "vent", From: "dose", To: "atmosphere", Kind: pneumatics.Valve,
				Flow: sample.Orifice(1e-3, 0.75), OpenIn: pneumatics.SetOf(pneumatics.Off, pneumatics.Loading)})
		}
		air := vent.LoadingOf(l, 5000)
		require.True(t, air.Empty[1], c.name)
		v := Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Loading: air}, finding.LoadingEmpty)
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why.String())
		assertFigure(t, c.value, v.Value, c.name)
	}
}

// Barriers are counted by hand: shut valves on the weakest way, and one more for a vent
// between where at least one valve is shut.
func TestBarriersAreCountedByHand(t *testing.T) {
	loading := pneumatics.SetOf(pneumatics.Loading)
	open := func(names ...string) func(l *launcher.Launcher) {
		return func(l *launcher.Launcher) {
			for _, n := range names {
				sample.PathNamed(l, n).OpenIn |= loading
			}
		}
	}
	for _, c := range []struct {
		name        string
		change      func(l *launcher.Launcher)
		tank, dose  bool // are empty
		value       float64
		want        finding.Status
		says, never string
	}{
		{"all full", func(*launcher.Launcher) {}, false, false, 1, finding.Fail,
			"from dose to the barrel: 1 shut; it holds up to 0.80 bar while loading", "vent"},
		{"dose vented", func(*launcher.Launcher) {}, false, true, 3, finding.Pass, "from tank to the barrel: 2 shut and a vent between",
			"holds up"},
		{"tank vented, dose full", func(*launcher.Launcher) {}, true, false, 1, finding.Fail, "from dose to the barrel: 1 shut; it holds", ""},
		{"all vented", func(*launcher.Launcher) {}, true, true, 2, finding.Pass, "no volume holds air", ""},
		{"a store that nothing joins to the barrel", func(l *launcher.Launcher) {
			l.Volumes[0].Name = "store"
			for i := range l.Paths {
				if l.Paths[i].From == "tank" {
					l.Paths[i].From = "store"
				}
			}
			l.Supply.Feeds = "dose"
			sample.PathNamed(l, "feed").To = "atmosphere"
		}, false, true, 2, finding.Pass, "no way leads to the barrel from store", "no volume holds air"},
		{"all vented, firing valve open", open("fire"), true, true, 1, finding.Fail, "no shut valve stands between", ""},
		{"feed open, dose vented", open("feed"), false, true, 2, finding.Pass, "1 shut and a vent between", ""},
		{"both open: a vent alone is no barrier", open("feed", "fire"), false, true, 0, finding.Fail, "0 shut and a vent between", ""},
		{"firing valve open, dose vented", open("fire"), false, true, 2, finding.Pass, "1 shut and a vent between", ""},
		{"a check valve against its direction", func(l *launcher.Launcher) {
			sample.PathNamed(l, "feed").Kind, sample.PathNamed(l, "feed").From, sample.PathNamed(l, "feed").To = pneumatics.Check, "dose", "tank"
		}, false, true, 3, finding.Pass, "2 shut and a vent", ""},
		{"a check valve in its direction", func(l *launcher.Launcher) { sample.PathNamed(l, "feed").Kind = pneumatics.Check }, false, true, 2,
			finding.Pass,
			"1 shut and a vent", ""},
		{"a relief valve is shut", func(l *launcher.Launcher) { sample.PathNamed(l, "feed").Kind = pneumatics.Relief }, false, true, 3,
			finding.Pass, "2 shut and a vent",
			""},
		{"the supply runs into what is empty", func(l *launcher.Launcher) { l.Supply.Feeds, l.Supply.RunsIn = "dose", loading }, true, true, 2,
			finding.Pass,
			"from dose to the barrel: 1 shut and a vent between", ""},
	} {
		l := tankAndDose()
		c.change(l)
		air := &vent.Loading{Known: true, Rest: []float64{1e5, 0.8e5}, Empty: []bool{c.tank, c.dose}}
		v := Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Loading: air}, finding.LoadingEmpty)
		assert.Equal(t, c.want, v.Status, "%s: %s", c.name, v.Why.String())
		assertFigure(t, c.value, v.Value, c.name)
		assert.Contains(t, v.Why.String(), c.says, c.name)
		if c.never != "" {
			assert.NotContains(t, v.Why.String(), c.never, c.name)
		}
		assert.Equal(t, c.want == finding.Fail, len(v.Advice) != 0, c.name)
	}
}

// The wait is said as it was computed, rounded up, and what rests on a vent holds while people wait. A gauge elsewhere shows nothing of it:
// a clock tells it then. No wait to speak of is no condition where a gauge shows it, and one that nobody states is unknown.
func TestTheWaitIsSaid(t *testing.T) {
	with := func(air vent.Loading, change func(*launcher.Launcher)) finding.Verdict {
		l := tankAndDose()
		change(l)
		if air.Rest, air.Known = []float64{0, 0}, true; air.Empty == nil {
			air.Empty = []bool{true, true}
		}
		return Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Loading: &air}, finding.LoadingEmpty)
	}
	asIs := func(*launcher.Launcher) {}
	dose := []string{"dose"}
	assert.NotContains(t, with(vent.Loading{}, asIs).Why.String(), "wait")
	v := with(vent.Loading{Names: []string{"tank", "dose"}, Wait: 12.01}, asIs)
	assert.Contains(t, v.Why.String(), "wait 13 s after the last charge: tank, dose empties that long")
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, "no hand goes to the muzzle within 13 s of the last charge, by a clock: no gauge shows dose", v.Condition.String())
	assert.Equal(t, []string{finding.ItemLoadingWait}, v.Items)
	v = with(vent.Loading{Names: dose, Wait: 12.01}, func(l *launcher.Launcher) { l.Gauges[0].On = "dose" })
	assert.Equal(t, "no hand goes to the muzzle within 13 s of the last charge", v.Condition.String())
	v = with(vent.Loading{Names: dose, Wait: vent.Moment}, func(l *launcher.Launcher) { l.Gauges[0].On = "dose" })
	assert.Equal(t, finding.Pass, v.Status)
	v = with(vent.Loading{Names: dose, Wait: 0.9}, asIs) // that its vent has opened shows nowhere
	assert.Equal(t, "no hand goes to the muzzle within 1 s of the last charge, by a clock: no gauge shows dose", v.Condition.String())
	v = with(vent.Loading{Names: dose, Wait: 0.9}, func(l *launcher.Launcher) {
		sample.PathNamed(l, "feed").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	})
	assert.NotContains(t, v.Condition.String(), "no gauge shows", "the feed is open: the tank's gauge shows the dose")
	v = with(vent.Loading{Names: dose, Wait: 12.01}, func(l *launcher.Launcher) { l.Venting.Within = launcher.Band{} })
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Contains(t, v.Why.String(), "[venting] within")
	gate := launcher.PathSpec{Name: "gate", From: "dose", To: "mid", Kind: pneumatics.Valve, Flow: sample.Orifice(1e-3, 0.75)}
	v = with(vent.Loading{Names: dose, Wait: 12.01, Empty: []bool{true, true, true}}, func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("", 1e-4)})
		l.Paths = append(l.Paths, gate)
		l.Paths[0].From = "mid"
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "exhaust", From: "mid", To: "atmosphere", Kind: pneumatics.Valve,
			Flow: sample.Orifice(1e-3, 0.75), OpenIn: pneumatics.SetOf(pneumatics.Loading)})
	})
	assert.Equal(t, finding.Conditional, v.Status, "mid has one valve before the barrel: %s", v.Why)

	v = with(vent.Loading{Names: dose, Wait: 1, Slow: []string{"fire"}, Shuts: 4.6}, func(l *launcher.Launcher) { l.Gauges[0].On = "dose" })
	assert.Equal(t, "no hand goes to the muzzle within 5 s of the last charge or shot", v.Condition.String())
	assert.Contains(t, v.Why.String(), "shut only after 4.6 s: fire")

	full := []bool{false, false}
	for _, c := range []struct {
		air  vent.Loading
		says string
	}{
		{vent.Loading{Late: dose, LateBy: math.Inf(1)}, "dose does not get to the target"},
		{vent.Loading{Late: dose, LateBy: 61.2}, "dose counts as full: it takes 62 s to empty, longer than anybody waits"},
		{vent.Loading{Late: dose, LateBy: 61.2, Fine: []string{"pin"}}, "it would empty by pin alone, which is finer than 0.500 mm"},
	} {
		c.air.Empty = full
		v := with(c.air, asIs)
		assert.Equal(t, finding.Fail, v.Status, c.says)
		assert.Contains(t, v.Why.String(), c.says)
		assert.Contains(t, v.Advice.String(), "A wider vent on dose")
	}
}

// Both verdicts on loading see the same air. A check valve that leads from the dose
// to the tank lets no air of the tank back; a supply that runs through an open feed
// keeps the dose up against its vent.
func TestTheVerdictsOnLoadingAgree(t *testing.T) {
	loop := sample.Dumped()
	loop.Paths = append(loop.Paths, launcher.PathSpec{Name: "back", From: "dose", To: "tank", Kind: pneumatics.Check,
		Flow:             sample.Orifice(3e-3, 0.75),
		CrackingPressure: launcher.Exact("", 2e3)})
	fed := sample.Dumped()
	fed.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	sample.PathNamed(fed, "feed").OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	for _, c := range []struct {
		l    *launcher.Launcher
		want finding.Status
	}{{sample.Dumped(), finding.Conditional}, {loop, finding.Conditional}, {fed, finding.Fail}} {
		r := assessed.Faults(t, c.l, "", func(id string) bool { return strings.HasSuffix(id, ".loading") })
		a := assessed.WithFaults(c.l, r...)
		a.Loading = vent.LoadingOf(c.l, 5000)
		for _, v := range []finding.Verdict{Of(a, finding.LoadingEmpty), Of(a, finding.ShotUnasked)} {
			assert.Equal(t, c.want, v.Status, "%s: %s", v.ID, v.Why.String())
		}
	}
}

// tankAndDose is the vented tank with a shut valve before a dose, from which it fires.
// The air is that of hand-made answers.
func tankAndDose() *launcher.Launcher {
	l := sample.VentedTank()
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-3)})
	l.Paths[0].From = "dose"
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.Charging), Flow: sample.Orifice(1e-3, 0.75)})
	return l
}
