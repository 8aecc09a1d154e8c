package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// runningOn are the faults of a supply that runs on, by state, in June 2026.
func runningOn(t *testing.T, change func(l *launcher.Launcher)) map[string]Result {
	t.Helper()
	l := sample.VentedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	change(l)
	out := map[string]Result{}
	st := stageOf(t, l)
	st.Day = "2026-06-01"
	for _, r := range runFaults(t, st, func(f *fault) bool { return f.mode == RunsOn }) {
		out[r.ID] = r
	}
	return out
}

// A supply that goes on keeps the tank up against its vent, in state off and while loading:
// only the plug holds that. The balance itself is checked in package vent; here it is below
// the dead head, 1.05 bar, and above what counts as empty.
func TestASupplyThatRunsOnIsHeldByItsPlug(t *testing.T) {
	all := runningOn(t, func(*launcher.Launcher) {})
	assert.Len(t, all, 2)
	for id, says := range map[string]string{"supply.runs-on.off": "is never empty", "supply.runs-on.loading": "is no longer empty"} {
		r := all[id]
		assert.Equal(t, finding.OpenItem, r.Status, id)
		assert.Equal(t, NoEffect, r.Effect, id)
		assert.Equal(t, finding.ItemSupplyOff, r.HeldBy, id)
		assert.Equal(t, finding.OnProcedure, r.Basis, id)
		assert.Contains(t, r.Consequence.String(), says, id)
		assert.Contains(t, r.DetectedBy.String(), "gauge", id)
		assert.Equal(t, "tank", r.Where, id)
		assert.Greater(t, r.WorstGauge, 5000.0, id)
		assert.Less(t, r.WorstGauge, 1.05*sample.Bars, id)
		assert.False(t, r.Latent, "it is heard and seen")
	}
	answered := func(date string, gauge float64, value string) map[string]Result {
		return runningOn(t, func(l *launcher.Launcher) {
			l.Checklist = []finding.Confirmation{{Item: finding.ItemSupplyOff, Who: "A. N.", Date: date, Value: value,
				Figures: []finding.Figure{{Value: gauge, Unit: finding.InPascalGauge}}}}
		})
	}
	for id, r := range answered("2026-05-01", 0, "0 bar on both, plug pulled") {
		assert.Equal(t, finding.Pass, r.Status, id)
		assert.Equal(t, finding.OnProcedure, r.Basis, "%s: on what people do", id)
	}
	for id, r := range answered("2025-05-01", 0, "0 bar on both, plug pulled") {
		assert.Equal(t, finding.OpenItem, r.Status, "%s: an answer that has expired holds nothing", id)
		assert.Contains(t, r.Reason.String(), "held until 2026-05-01", id)
	}
	for id, r := range answered("2026-05-01", 0.3*sample.Bars, "0.3 bar left, plug pulled") {
		assert.Equal(t, finding.OpenItem, r.Status, "%s: what the checklist refuses holds no fault either", id)
	}
	for id, r := range runningOn(t, func(l *launcher.Launcher) { l.Paths[1].Flow = sample.Orifice(6e-3, 0.75) }) {
		assert.Equal(t, finding.Pass, r.Status, "%s: a vent that carries the supply", id)
		assert.Empty(t, r.HeldBy, id)
	}
	for id, r := range runningOn(t, func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }) {
		assert.Equal(t, finding.OpenItem, r.Status, "%s: nobody knows how far", id)
	}
}

func TestWhichSuppliesRunOn(t *testing.T) {
	assert.Empty(t, runningOn(t, func(l *launcher.Launcher) { l.Supply.Kind = launcher.HandPump }), "nobody pumps on")
	assert.Empty(t, runningOn(t, func(l *launcher.Launcher) { l.Supply = nil }))
	meant := runningOn(t, func(l *launcher.Launcher) { l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading) })
	assert.NotContains(t, meant, "supply.runs-on.loading", "it is no fault where it is meant to run")
	assert.Contains(t, meant, "supply.runs-on.off")
	closed := runningOn(t, func(l *launcher.Launcher) { l.Paths[1].OpenIn &^= pneumatics.SetOf(pneumatics.Loading) })
	assert.Equal(t, finding.Pass, closed["supply.runs-on.loading"].Status, "what is full while loading anyway stays so")
}

// Where the launcher empties through its barrel, what the supply gives goes there too: a
// shot that nobody asked for, with the supply running. It is searched with the positions of
// that state; normal shots and other faults are left as they are.
func TestASupplyThatRunsOnIntoTheBarrelShootsUnasked(t *testing.T) {
	into := func(s pneumatics.State) map[string]Result {
		return runningOn(t, func(l *launcher.Launcher) { l.Paths[0].OpenIn |= pneumatics.SetOf(s) })
	}
	off := into(pneumatics.Off)
	assert.Equal(t, FiresUnasked, off["supply.runs-on.off"].Effect)
	assert.Greater(t, off["supply.runs-on.off"].Energy, 0.0)
	assert.Equal(t, NoEffect, off["supply.runs-on.loading"].Effect)
	loading := into(pneumatics.Loading)
	assert.Equal(t, FiresUnasked, loading["supply.runs-on.loading"].Effect)
	assert.Equal(t, NoEffect, loading["supply.runs-on.off"].Effect)

	l := sample.VentedTank()
	st := stageOf(t, l)
	f := faultOf(t, st, "supply.runs-on.off")
	w := st.failed(&f)
	assert.True(t, w.Supply.RunsIn.Has(pneumatics.Off))
	assert.Equal(t, l.Paths[0].OpenIn, w.Paths[0].OpenIn, "a shot with it, as one of a pair, opens the firing valve as ever")
	assert.False(t, l.Supply.RunsIn.Has(pneumatics.Off), "the launcher itself is left alone")
}

// A supply that is said to stand still while it is fired may run all the same: its shot is judged, of a hand pump too.
func TestASupplyThatPushesOnWhileItIsFired(t *testing.T) {
	const id = "supply.runs-on.firing"
	with := func(changes ...func(*launcher.Launcher)) (Result, bool) {
		st := stageOf(t, sample.Plain(append([]func(*launcher.Launcher){sample.Weak, func(l *launcher.Launcher) {
			l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", 1500*sample.LitreMinute), launcher.Exact("", 0.3*sample.Bars)
		}}, changes...)...))
		for _, f := range st.singleFaults() {
			if f.id == id {
				assert.True(t, st.failed(&f).SupplyFires(), "its shot is one with the supply running")
			}
		}
		for _, r := range runFaults(t, st, func(f *fault) bool { return f.mode == RunsOn && f.state == pneumatics.Firing }) {
			return r, r.ID == id
		}
		return Result{}, false
	}
	runs := func(states ...pneumatics.State) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Supply.RunsIn, l.Supply.RunsInStated = pneumatics.SetOf(states...), true }
	}
	for _, kind := range []launcher.SupplyKind{launcher.Compressor, launcher.HandPump} {
		r, is := with(runs(pneumatics.Charging), func(l *launcher.Launcher) { l.Supply.Kind = kind })
		assert.True(t, is)
		assert.Equal(t, ChangesShot, r.Effect)
	}
	// Its shot is that of a launcher whose supply runs while it is fired, and harder than that of one whose supply stands still.
	delivers := func(states ...pneumatics.State) *launcher.Launcher {
		return sample.Plain(sample.Weak, runs(states...), func(l *launcher.Launcher) {
			l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", 1500*sample.LitreMinute), launcher.Exact("", 0.3*sample.Bars)
		})
	}
	shoots := func(l *launcher.Launcher) float64 {
		high, _ := l.SoakedHigh()
		w, err := worst.Maximise(sample.Weakly(), l, worst.EnergyQuestion(l, high), search.Options{})
		require.NoError(t, err)
		return w.Value
	}
	r, _ := with(runs(pneumatics.Charging))
	assert.InEpsilon(t, shoots(delivers(pneumatics.Charging, pneumatics.Firing)), r.Energy, 1e-4, "two searches of one question")
	assert.Greater(t, r.Energy, 1.2*shoots(delivers(pneumatics.Charging)))
	_, is := with(runs(pneumatics.Charging, pneumatics.Firing))
	assert.False(t, is, "every shot counts it")
	_, is = with(runs(pneumatics.Charging), func(l *launcher.Launcher) {
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "side", Volume: launcher.Exact("", 1e-3)})
		l.Supply.Feeds = "side"
	})
	assert.False(t, is, "no way leads from it to the barrel")
}

func TestASupplyOfUnknownDeliveryThatPushesOnIsUnknown(t *testing.T) {
	st := stageOf(t, sample.Plain(sample.Weak, func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }))
	all := runFaults(t, st, func(f *fault) bool { return f.mode == RunsOn && f.state == pneumatics.Firing })
	if assert.Len(t, all, 1) {
		assert.Equal(t, finding.Unknown, all[0].Status)
		assert.Contains(t, all[0].Reason.String(), "supply.free_air")
	}
}

// What keeps something up that should be empty shows by a gauge only where one shows that volume then: on it, or through what is open and
// passes both ways (own rule of this project). Elsewhere the noise alone tells.
func TestAFaultIsShownOnlyByAGaugeThatShowsIt(t *testing.T) {
	gauged := func(on string) *launcher.Launcher {
		l := sample.Dumped()
		l.Gauges = []launcher.GaugeSpec{{On: on, Range: launcher.Exact("", sample.Bars), Class: 1.6}}
		return l
	}
	for on, shown := range map[string]bool{"tank": true, "dose": false} {
		st := stageOf(t, gauged(on))
		f := st.runsOn(pneumatics.Off)
		require.Equal(t, "tank", f.stands.volume)
		require.False(t, f.stands.empty)
		want, told := "its noise; the gauge, which does not come to zero", "the gauge shows it"
		if !shown {
			want, told = "its noise; no gauge shows tank then", "no gauge shows tank then, only the noise of the supply tells"
		}
		assert.Equal(t, want, f.detected.String())
		assert.Equal(t, told, f.stands.shown().String())
		var r Result
		st.keptUp(&r, &f)
		assert.Contains(t, r.Reason.String(), told)
	}
	regulated := gauged("dose")
	assert.Equal(t, "no gauge shows tank then", shownBy(regulated, "tank", dial.Ready, "the gauge").String(), "its feed is shut when armed")
	assert.Equal(t, "the gauge", shownBy(regulated, "tank", dial.Filling, "the gauge").String(), "its feed is open while it fills")
}
