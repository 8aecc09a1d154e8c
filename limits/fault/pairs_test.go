package fault

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// relieved is a vented tank whose supply could push to 4 bar, with a switch that stops
// it early and a relief valve that carries it.
func relieved() *launcher.Launcher {
	l := sample.VentedTank()
	l.Supply.DeadHead = launcher.Exact("", 4e5)
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: sample.Between("", 0.1e5, 0.12e5), CutIn: sample.Between("", 0.05e5, 0.06e5),
		Adjustable: launcher.No}
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(8e-3, 0.62), SetPressure: launcher.Exact("", 0.2e5),
		FullFlowPressure: launcher.Exact("", 0.25e5), ReseatPressure: launcher.Exact("", 0.15e5)})
	return l
}

// pairOfIDs runs the pair of the faults of two ids.
func pairOfIDs(t *testing.T, st *stage, first, second string) Result {
	t.Helper()
	a, b := faultOf(t, st, first), faultOf(t, st, second)
	require.NoError(t, st.runPairs([][2]*fault{{&a, &b}}))
	return st.report.Pairs[len(st.report.Pairs)-1]
}

// Pairs: a relief valve that sticks is there when the switch welds. It passes only
// on the test that reveals it.
func TestPairsOfALatentFault(t *testing.T) {
	const welded = "pressure-switch.welded-never-stops-the-supply"
	st := stageOf(t, relieved())
	single := runFault(t, st, welded)
	pair := pairOfIDs(t, st, "relief.stuck-shut", welded)
	assert.Equal(t, welded, pair.ID)
	assert.Equal(t, "relief.stuck-shut", pair.With)
	assert.InDelta(t, st.Launcher.Soak(4e5), pair.WorstGauge, 1, "nothing but the dead head is left, and a stuck valve lets out no heat")
	assert.Less(t, single.WorstGauge, 0.4e5, "alone the relief valve holds it")
	assert.Greater(t, pair.Energy, single.Energy)
	assert.Greater(t, pair.Judged, st.report.Limit, "it would fail")
	assert.Equal(t, finding.Pass, pair.Status)
	assert.Equal(t, finding.Basis("test: relief.test"), pair.Basis)
	assert.Contains(t, pair.Consequence.String(), "the supply runs on: no working relief valve", "where the pressure of the two ends")
	assert.NotContains(t, pair.Consequence.String(), "full flow", "of a valve that is stuck shut")
	assert.NotContains(t, pair.PreventedBy.String(), "carries the supply")
	assert.Contains(t, single.Consequence.String(), "the supply runs on: the relief valve at full flow")
	assert.Equal(t, pair.Shots, st.report.Shots, "only the shots of the pair are the report's: the single fault was run apart")

	// Nobody notices the switch's weld but at the gauge: no test passes it.
	open := pairOfIDs(t, st, welded, "projectile.heavier")
	assert.InDelta(t, single.WorstGauge, open.WorstGauge, 1)
	assert.NotContains(t, string(open.Basis), "test:")
}

// A short that opens the feed while loading does not shoot by itself. A relief valve that
// is set too high is latent, and with a welded switch as bad as one that sticks.
func TestFeedAndReliefFaultsThatNeedASecondOne(t *testing.T) {
	const welded, stuck, high, feed = "pressure-switch.welded-never-stops-the-supply", "relief.stuck-shut",
		"relief.set-too-high-or-opens-late", "feed.energised-unasked.loading"
	in := inputOf(t, sample.Dumped())
	in.Only = func(id string) bool { return slices.Contains([]string{welded, stuck, high, feed}, id) }
	r, err := Compute(glance(), in, EveryPair)
	require.NoError(t, err)
	assert.Equal(t, NoEffect, faultNamed(t, r.Faults, feed).Effect)
	late := faultNamed(t, r.Faults, high)
	assert.True(t, late.Latent)
	assert.Equal(t, finding.ItemReliefTest, late.RevealedBy)
	judged := map[string]float64{}
	for _, p := range r.Pairs {
		if p.ID == welded {
			judged[p.With] = p.Judged
		}
	}
	assert.Positive(t, judged[stuck])
	assert.InDelta(t, judged[stuck], judged[high], 1e-9)
}

// A pair that was not computed has no figures: those of one fault alone are not its.
// It passes on the test that reveals the latent fault, and is unknown without one.
func TestAPairThatWasNotComputedHasNoFigures(t *testing.T) {
	st := stageOf(t, relieved())
	faults := st.singleFaults()
	for i := range faults {
		st.report.Faults = append(st.report.Faults, Result{ID: faults[i].id, Latent: faults[i].latent, RevealedBy: faults[i].revealed,
			Energy: 1, Judged: 2, Freed: 3, WorstGauge: 4, Status: finding.Pass})
	}
	st.report.Faults[0].RevealedBy, st.report.Faults[0].Latent, faults[0].latent = "", true, true
	st.latentPairs(faults)
	require.NotEmpty(t, st.report.Pairs)
	latent := map[string]bool{}
	for i := range faults {
		latent[faults[i].id] = faults[i].latent
	}
	for _, p := range st.report.Pairs {
		assert.True(t, latent[p.With], "the latent one is there first: "+p.With)
		assert.Equal(t, NotComputed, p.Effect)
		assert.NotEmpty(t, p.Reason.String())
		for _, figure := range []float64{p.Energy, p.Judged, p.Freed, p.WorstGauge} {
			assert.True(t, math.IsNaN(figure), "%s with %s", p.ID, p.With)
		}
		if p.RevealedBy == "" {
			assert.Equal(t, finding.Unknown, p.Status, p.With)
		} else {
			assert.Equal(t, finding.Pass, p.Status, p.With)
			assert.Equal(t, finding.Basis("test: "+p.RevealedBy), p.Basis)
		}
	}
}

// Two faults that open nothing each can open a way together: then they bear on the
// shot.
func TestTwoFaultsCanOpenWhatNeitherDoes(t *testing.T) {
	l := sample.VentedTank()
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "side", Volume: launcher.Exact("", 1e-3)})
	flow := sample.Orifice(3e-3, 0.75)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "outer", From: "side", To: "middle", Kind: pneumatics.Valve, Flow: flow},
		launcher.PathSpec{Name: "inner", From: "middle", To: "barrel", Kind: pneumatics.Valve, Flow: flow})
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "middle", Volume: launcher.Exact("", 1e-4)})
	st := stageOf(t, l)
	outer, inner := faultOf(t, st, "outer.stuck-open"), faultOf(t, st, "inner.stuck-shut")
	assert.False(t, outer.changes)
	assert.False(t, st.pairChanges(&outer, &inner), "one stays shut")
	inner.changes, inner.apply = false, func(w *launcher.Launcher) { stuckOpen(sample.PathNamed(w, "inner")) }
	assert.True(t, st.pairChanges(&outer, &inner))
}

func TestEveryTwoFaultsOfDifferentPartsPairUp(t *testing.T) {
	faults := []fault{{id: "seen", part: "a"}, {id: "latent", part: "b", latent: true}, {id: "same part", part: "a", latent: true},
		{id: "shoots", part: "c", unasked: true}, {id: "shoots too", part: "d", unasked: true}}
	var got [][2]string
	for _, p := range everyTwo(faults) {
		got = append(got, [2]string{p[0].id, p[1].id})
	}
	assert.ElementsMatch(t, [][2]string{{"latent", "seen"}, {"seen", "shoots"}, {"seen", "shoots too"}, {"latent", "same part"},
		{"latent", "shoots"}, {"latent", "shoots too"}, {"same part", "shoots"}, {"same part", "shoots too"}}, got)
}

// Two faults at once do what each of them does.
func TestAJoinedFaultDoesWhatBothDo(t *testing.T) {
	a := fault{part: "a", mode: StuckOpen, changes: true, noRelief: true, overcharges: true, raises: 1,
		share: func(float64) float64 { return 0.5 },
		extra: []string{"one"}, adjust: func(c *pneumatics.Circuit, u []float64) { c.Barrel.Mass += u[0] },
		apply: func(w *launcher.Launcher) { w.Name += "a" }, consequence: finding.Words("first")}
	b := fault{part: "b", mode: StuckShut, changes: true, raises: 2, extra: []string{"two"},
		adjust: func(c *pneumatics.Circuit, u []float64) { c.Barrel.Breakaway += u[0] },
		apply:  func(w *launcher.Launcher) { w.Name += "b" }, consequence: finding.Words("second")}
	for _, f := range []fault{joined(&a, &b), joined(&b, &a)} {
		assert.True(t, f.noRelief)
		assert.True(t, f.overcharges)
		assert.InDelta(t, 3, f.raises, 0)
		require.NotNil(t, f.share)
		assert.Len(t, f.extra, 2)
		var c pneumatics.Circuit
		u := []float64{4, 5}
		if f.extra[0] == "two" {
			u = []float64{5, 4}
		}
		f.adjust(&c, u)
		assert.InDelta(t, 4, c.Barrel.Mass, 0)
		assert.InDelta(t, 5, c.Barrel.Breakaway, 0)
		w := &launcher.Launcher{}
		f.apply(w)
		assert.Len(t, w.Name, 2)
	}
	st := stageOf(t, sample.Plain())
	quiet := fault{}
	for _, p := range [][2]*fault{{&a, &quiet}, {&quiet, &a}} {
		assert.True(t, st.pairChanges(p[0], p[1]), "one of them changes the shot")
	}
	assert.False(t, st.pairChanges(&quiet, &quiet))

	// The one that fires decides the state, and rewrites the states last.
	fires := fault{part: "c", state: pneumatics.Armed, unasked: true, apply: func(w *launcher.Launcher) { w.Name += "c" }}
	f := joined(&fires, &b)
	assert.True(t, f.unasked)
	assert.Equal(t, pneumatics.Armed, f.state)
	assert.Equal(t, "b", f.part)
	w := &launcher.Launcher{}
	f.apply(w)
	assert.Equal(t, "bc", w.Name)
}

// What only a test holds is open until the test is done, whether it was computed or not; what holds by its own
// figures, and what fails, stays.
func TestAPairOnATestIsOpenUntilTheTestIsDone(t *testing.T) {
	held := Result{ID: "held", With: "latent", RevealedBy: finding.ItemReliefTest, Basis: "test: relief.test", Status: finding.Pass}
	own := Result{ID: "own", With: "latent", RevealedBy: finding.ItemReliefTest, Basis: finding.OnModel, Status: finding.Pass}
	bad := Result{ID: "bad", With: "seen", Basis: finding.OnModel, Status: finding.Fail}
	jam := Result{ID: "jam", With: "seen", Basis: finding.OnProcedure, Status: finding.OpenItem, HeldBy: finding.ItemJamDrill}
	r := &Report{Pairs: []Result{own, jam, held, bad}}
	for _, done := range []bool{false, true} {
		got := map[string]Result{}
		for _, p := range r.WithOpenTests(func(item string) bool { return item == finding.ItemReliefTest && !done }) {
			got[p.ID] = p
		}
		want := finding.Pass
		if !done {
			want = finding.OpenItem
			assert.Equal(t, finding.ItemReliefTest, got["held"].HeldBy)
		}
		assert.Equal(t, want, got["held"].Status)
		assert.Equal(t, finding.Pass, got["own"].Status)
		assert.Equal(t, finding.Fail, got["bad"].Status)
		asAlone, ofTest := got["jam"], got["held"]
		assert.True(t, asAlone.AsAlone(), "it says no more than the jam alone")
		assert.False(t, ofTest.AsAlone())
	}
	assert.Equal(t, finding.Pass, r.Pairs[2].Status, "the assessment stays as it was")
}

// One part is open or shut: no two of its failures that say so happen at once, nor one of them twice. What says neither goes
// with any.
func TestOnePartFailsOneWayAtATime(t *testing.T) {
	for _, c := range []struct {
		a, b Mode
		want bool
	}{{StuckOpen, StuckShut, true}, {StuckShut, StuckOpen, true}, {StuckOpen, LeakingValve, true}, {ReliefStuckShut, SetTooHigh, true},
		{Blocked, BoreMissing, true}, {HoseKinked, HoseKinked, true}, {StuckShut, HoseOff, false}, {HoseWider, BoreMissing, false},
		{HoseWider, HoseKinked, false}} {
		assert.Equal(t, c.want, exclude(c.a, c.b), "%s and %s", c.a, c.b)
	}
}

// The search of a pair begins where its two faults were found to be hardest.
func TestAPairBeginsWhereItsFaultsAreHardest(t *testing.T) {
	st := stageOf(t, relieved())
	high, ok := st.Launcher.SoakedHigh()
	require.True(t, ok)
	var err error
	st.Normal, err = worst.Maximise(glance(), st.Launcher, worst.EnergyQuestion(st.Launcher, high), search.Quick())
	require.NoError(t, err)
	var two []fault
	for _, f := range st.singleFaults() {
		if f.mode == HeavyBall || f.mode == SwitchWelded {
			two = append(two, f)
		}
	}
	require.Len(t, two, 2)
	_, err = st.run(two)
	require.NoError(t, err)
	pair := st.both(&two[0], &two[1])
	w := st.failed(&pair)
	start, ok := st.faultStart(w, &pair)
	require.True(t, ok)
	b := worst.NewBox(w, st.faultQuestion(&pair, w, start))
	seeds := st.faultSeeds(&pair, w, st.faultQuestion(&pair, w, start))
	for i := range two {
		one := st.found[two[i].asked]
		require.NotNil(t, one, two[i].id)
		assert.Contains(t, seeds, b.Carry(one.Box.Labels, one.Result.Best.Point, 1), two[i].id)
	}
	assert.Nil(t, st.pairSeeds(&two[0], b), "one fault alone is no pair")
}
