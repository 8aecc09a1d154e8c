package fault

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// wired is a vented tank with one relay in everything's way: a key, a stop, a button to fire; invented. The dump has its current,
// and is shut by it, while it is charged, armed and fired. loads are name and way of each load, in the order pump, dump, fire.
func wired(t *testing.T, loads ...string) *launcher.Launcher {
	t.Helper()
	l := sample.VentedTank()
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: sample.Between("", 0.3e5, 0.32e5), CutIn: sample.Between("", 0.2e5, 0.22e5)}
	used := pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed, pneumatics.Firing)
	w := &control.Wiring{Parts: []control.Part{{Name: "f1", Kind: control.Fuse, Rating: 2, Wire: 3},
		{Name: "key", Kind: control.KeySwitch, ClosedIn: used}, {Name: "stop", Kind: control.Stop},
		{Name: "gauge", Kind: control.PressureSwitch},
		{Name: "start", Kind: control.StartButton, ClosedIn: used},
		{Name: "button", Kind: control.Button, ClosedIn: pneumatics.SetOf(pneumatics.Firing)},
		{Name: "k1", Kind: control.Relay, Through: through(t, "f1 key stop start/k1")},
		{Name: "k3", Kind: control.Relay, Through: through(t, "f1 gauge")}}}
	for i, name := range []string{control.Supply, "vent", "fire"} {
		w.Parts = append(w.Parts, control.Part{Name: []string{"pump", "vent", "shoot"}[i], Kind: control.Load, Moves: []string{name},
			Through: through(t, loads[i])})
	}
	l.Supply.RunsIn = used
	l.Control = w
	return l
}

// through reads a way with blanks between its steps, and a stroke between contacts side by side.
func through(t *testing.T, text string) (out []control.Step) {
	t.Helper()
	for _, one := range strings.Fields(text) {
		s, err := control.ParseStep(strings.ReplaceAll(one, "/", " or "))
		require.NoError(t, err)
		out = append(out, s)
	}
	return out
}

// onRelay are the ways of loads that one relay switches.
func onRelay() []string { return []string{"f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button"} }

// ids are the faults of the wiring that begin with a part, with what each comes to.
func ids(st *stage, part string) map[string]fault {
	out := map[string]fault{}
	for _, f := range st.wiringFaults() {
		if strings.HasPrefix(f.part, part) {
			out[faultID(&f)] = f
		}
	}
	return out
}

// By hand: the relay stuck pulled in keeps pump and vent on when it is switched off and while loading; the button still holds the
// shot. The tank is then as full as the supply fills it.
func TestAStuckRelayKeepsTheTankFull(t *testing.T) {
	st := stageOf(t, wired(t, onRelay()...))
	got := ids(st, "control.k1")
	assert.Contains(t, got, "control.k1.stuck-pulled-in")
	for _, state := range []string{"off", "loading"} {
		f, is := got["control.k1.stuck-pulled-in."+state]
		require.True(t, is, state)
		assert.False(t, f.unasked)
		require.NotNil(t, f.stands)
		assert.False(t, f.stands.empty)
		assert.Contains(t, f.consequence.String(), "pump has current while off, loading; vent has current while off, loading")
	}
	assert.NotContains(t, got, "control.k1.stuck-pulled-in.armed")
	whole := got["control.k1.stuck-pulled-in"] // the stop is pressed while the button is held, too
	assert.Equal(t, "with it the stop, pressed, does not cut pump, vent, shoot", whole.failing.String())
	assert.False(t, whole.latent)
	r := runFault(t, st, "control.k1.stuck-pulled-in")
	assert.Equal(t, finding.Fail, r.Status)
	r = runFault(t, st, "control.k1.stuck-pulled-in.loading")
	assert.Equal(t, finding.OpenItem, r.Status)
	assert.Equal(t, finding.ItemKeyAndStop, r.HeldBy)
	assert.Equal(t, "OPEN: its own plug, pulled, leaves vent shut; only all plugs and batteries off empty it (item control.key-and-stop); "+
		"the gauge shows it", r.Reason.String(), "the relay holds pump and vent: the pump's plug alone lets nothing out")
	assert.Greater(t, r.WorstGauge, 1e5, "to the dead head, and warmed up")

	relieved := wired(t, onRelay()...)
	sample.WithRelief(sample.Between("set", 0.4e5, 0.42e5), sample.Between("full", 0.5e5, 0.52e5), 8e-3, 0.62)(relieved)
	r = runFault(t, stageOf(t, relieved), "control.k1.stuck-pulled-in.loading")
	assert.LessOrEqual(t, r.WorstGauge, 0.52e5, "a relief valve lifts while loading too")
}

// By hand: a key that does not turn back, with a contact for the relay and one for the vent, keeps pump and vent on; the stop lets it
// out. A start button that jams in moves nothing, and starts pump and vent again behind the stop. A button with two contacts, held in
// as a whole, fires as soon as it is armed, though neither contact alone does.
func TestAPartThatSticksAsAWhole(t *testing.T) {
	l := wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button button.2")
	l.Control.Parts[l.Control.Index("k1")].Through = through(t, "f1 key stop start/k1")
	l.Control.Parts[l.Control.Index("k3")].Through = through(t, "f1 key.2 gauge")
	st := stageOf(t, l)
	key := runFault(t, st, "control.key.stuck-turned-on.off")
	assert.Equal(t, finding.OpenItem, key.Status)
	assert.Equal(t, "OPEN: its own plug, pulled, leaves vent shut; the stop, pressed, or all plugs and batteries off, empty it "+
		"(item control.key-and-stop); the gauge shows it", key.Reason.String())

	start := ids(st, "control.start")["control.start.stuck-pressed"] // its one contact
	assert.Equal(t, "other contacts are in series with it, and in each state all stands as it should; current is "+
		"back on pump, vent once the stop is released; on pump, vent once the power is back; nobody pressed anything", start.consequence.String())
	r := runFault(t, st, "control.start.stuck-pressed")
	assert.Equal(t, finding.OpenItem, r.Status)
	assert.Equal(t, finding.ItemKeyAndStop, r.HeldBy)
	assert.Equal(t, finding.ItemContacts, r.RevealedBy)

	got := ids(st, "control.button")
	assert.Contains(t, got, "control.button.1.welded")
	assert.NotContains(t, got, "control.button.1.welded.armed", "the other contact is open")
	f, is := got["control.button.stuck-pressed.armed"]
	require.True(t, is, "%v", got)
	assert.True(t, f.unasked && f.changes)
	assert.True(t, runFault(t, st, "control.button.stuck-pressed.armed").Wiring)
}

// The pump's relay behind the pressure switch, stuck, is a switch that never stops the supply: the same shot from as much.
func TestAStuckPumpRelayOverfills(t *testing.T) {
	st := stageOf(t, wired(t, onRelay()...))
	f := ids(st, "control.k3")["control.k3.stuck-pulled-in"]
	assert.True(t, f.overcharges && f.changes)
	assert.False(t, ids(st, "control.k1")["control.k1.stuck-pulled-in"].overcharges, "k3 still drops")
	results := runFaults(t, st, func(f *fault) bool {
		return f.id == "control.k3.stuck-pulled-in" || f.id == "pressure-switch.welded-never-stops-the-supply"
	})
	require.Len(t, results, 2)
	assert.Equal(t, results[0].ID, results[1].SameAs)
	assert.InDelta(t, results[0].Judged, results[1].Judged, 0)
}

// One wire for vent and shot, at plus, while hands are at the muzzle: the vent shuts, so the tank is no longer empty, and the valve
// opens. What loading leaves without the fault must not hide it.
func TestOneWireThatShutsTheVentAndFires(t *testing.T) {
	l := wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.3 button")
	l.Control.Parts[len(l.Control.Parts)-2].Moves = []string{"vent", "fire"} // both coils on one load
	l.Control.Parts = l.Control.Parts[:len(l.Control.Parts)-1]
	st := stageOf(t, l)
	got := ids(st, "control.k1.3")
	f, is := got["control.k1.3.wire-behind-it-shorted-to-plus.loading"]
	require.True(t, is, "%v", got)
	assert.True(t, f.unasked && f.changes)
	r := runFault(t, st, "control.k1.3.wire-behind-it-shorted-to-plus.loading")
	assert.Equal(t, FiresUnasked, r.Effect)
	assert.Greater(t, r.Judged, 0.0)

	// The valve alone, with the vent open, finds an empty tank.
	alone := stageOf(t, wired(t, onRelay()...))
	assert.False(t, faultOf(t, alone, "fire.energised-unasked.loading").changes)
}

// A button that sticks fires as soon as it is armed: the shot of a valve that does so by itself, searched once.
func TestAStuckButtonFires(t *testing.T) {
	st := stageOf(t, wired(t, onRelay()...))
	got := ids(st, "control.button")
	f, is := got["control.button.stuck-pressed.armed"]
	require.True(t, is)
	own := faultOf(t, st, "fire.energised-unasked.armed")
	assert.Equal(t, own.question(1e5), f.question(1e5))
	assert.NotContains(t, got, "control.button.stuck-pressed.loading", "the key is off then")
	second := stageOf(t, wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button button.2"))
	got = ids(second, "control.button")
	assert.NotContains(t, got, "control.button.1.welded.armed")
	assert.True(t, got["control.button.1.welded"].latent, "nobody notices it")
	assert.Equal(t, finding.ItemContacts, got["control.button.1.welded"].revealed)
}

// A valve in series that counts as open while armed stays so where a fault gives it its current then: taken for shut, it would stop the
// shot of the one behind it.
func TestAStuckButtonOfTwoValvesInSeriesFires(t *testing.T) {
	l := wired(t, onRelay()...)
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 30*sample.Millilitres)})
	fire := sample.PathNamed(l, "fire")
	safety := *fire
	fire.From, safety.Name, safety.To = "mid", "safety", "mid"
	l.Paths = append(l.Paths, safety)
	l.Control.Parts = append(l.Control.Parts, control.Part{Name: "free", Kind: control.Load, Moves: []string{"safety"},
		Through: through(t, "f1 button.2")})
	st := stageOf(t, l.InTurn())
	require.True(t, sample.PathNamed(l, "safety").OpensFirst)
	f, is := ids(st, "control.button")["control.button.stuck-pressed.armed"]
	require.True(t, is)
	assert.True(t, f.unasked && f.changes)
	w := st.Launcher.Clone()
	f.apply(w)
	assert.True(t, sample.PathNamed(w, "safety").OpenIn.Has(pneumatics.Firing) && sample.PathNamed(w, "fire").OpenIn.Has(pneumatics.Firing))
}

// A shuttle valve shoots when its inlet loses its pressure: a wire that opens the valve there fires, though that valve leads into the
// open.
func TestAWireThatEmptiesTheInletOfAShuttle(t *testing.T) {
	l := sample.VentedTank()
	sample.MakeQuickExhaust(l, "tank", "barrel")
	l.Paths = slices.DeleteFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == "fire" })
	inlet := l.Paths[slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == "quick" })].From
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "let", From: inlet, To: "atmosphere", Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.Firing), Flow: sample.Cv(1)})
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "button", Kind: control.Button, ClosedIn: pneumatics.SetOf(pneumatics.Firing)},
		{Name: "let", Kind: control.Load, Moves: []string{"let"}, Through: through(t, "button")}}}
	f, is := ids(stageOf(t, l), "control.button")["control.button.stuck-pressed.armed"]
	require.True(t, is)
	assert.True(t, f.unasked && f.changes)
	assert.Equal(t, "quick.exhaust", f.asks)
}

// Two contacts of one button that stick at once: neither alone does anything, both together fire.
func TestTwoMaskedWeldsTogether(t *testing.T) {
	st := stageOf(t, wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button button.2"))
	got := ids(st, "control.button")
	a, b := got["control.button.1.welded"], got["control.button.2.welded"]
	require.NotEmpty(t, a.part)
	require.NotEmpty(t, b.part)
	assert.False(t, a.changes || b.changes)
	both := st.bothElectric(&a, &b)
	assert.True(t, both.unasked && both.changes)
	assert.Equal(t, "control.button.2", both.part)
	a.id, b.id = faultID(&a), faultID(&b)
	require.NoError(t, st.runPairs([][2]*fault{{&a, &b}}))
	require.Len(t, st.report.Pairs, 1)
	pair := st.report.Pairs[0]
	assert.Equal(t, FiresUnasked, pair.Effect)
	assert.Equal(t, "control.button.2.welded", pair.ID)
	assert.Equal(t, a.id, pair.With)
	assert.Greater(t, pair.Judged, 0.0)
}

// A wiring that starts again by itself, and one without fuses, fail whatever the shot does.
func TestWhatTheWiringItselfFailsBy(t *testing.T) {
	l := wired(t, "k1.2 k3.2", "f1 k1.3", "f1 k1.4 button")
	l.Control.Parts[6].Through = through(t, "f1 key stop")
	l.Control.Parts[0].Rating = 5
	st := stageOf(t, l)
	for id, says := range map[string]string{"control.starts-again-when-the-stop-is-released": "pump, vent starts again by itself",
		"control.starts-again-when-the-power-returns": "pump, vent starts again by itself",
		"control.pump.without-a-fuse":                 "no fuse stands first in the way of pump",
		"control.f1.above-the-wire's-rating":          "5 A is above the 3 A of the thinnest wire behind it"} {
		r := runFault(t, st, id)
		assert.Equal(t, finding.Fail, r.Status, id)
		assert.Equal(t, says, r.Reason.String())
	}
	whole := stageOf(t, wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 button"))
	r := runFault(t, whole, "control.has-a-stop-that-does-not-cut-everything")
	assert.Equal(t, "as built the stop does not cut shoot", r.Reason.String())
	assert.Equal(t, "with it the stop, pressed, does not cut pump, "+
		"vent", ids(whole, "control.k1")["control.k1.stuck-pulled-in"].failing.String())
	l.Control.Parts[0].Rating = 0
	assert.Equal(t, finding.OpenItem, runFault(t, stageOf(t, l), "control.f1.above-the-wire's-rating").Status)
}

// What is not known of a wiring says nothing of its faults; without one there are none.
func TestAnUnknownWiringHasNoFaults(t *testing.T) {
	l := wired(t, onRelay()...)
	before := len(stageOf(t, l).wiringFaults())
	assert.Greater(t, before, 15)
	l.Control.Parts[1].Missing = []string{"closed_in"}
	assert.Empty(t, stageOf(t, l).wiringFaults())
	l.Control = nil
	assert.Empty(t, stageOf(t, l).wiringFaults())
}

// No two faults of a wiring have one name.
func TestNamesOfWiringFaultsAreUnique(t *testing.T) {
	st := stageOf(t, wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button button.2"))
	seen := map[string]bool{}
	for _, f := range st.singleFaults() {
		assert.False(t, seen[f.id], f.id)
		seen[f.id] = true
	}
}

// An output that is wrong in one state: a vent that keeps its current switched off traps what it should let out; a valve without
// current as it is fired shoots nothing; one that joins the tank to the dose as it is fired makes another shot.
func TestAnOutputThatIsWrongInOneState(t *testing.T) {
	st := stageOf(t, wired(t, onRelay()...))
	got := ids(st, "control.vent")
	f, is := got["control.vent.wrong-in-one-state.off"]
	require.True(t, is)
	assert.Contains(t, f.consequence.String(), "trapped: tank")
	assert.Equal(t, finding.ItemKeyAndStop, f.heldBy)
	assert.Equal(t, finding.OpenItem, runFault(t, st, "control.vent.wrong-in-one-state.off").Status)
	assert.NotContains(t, ids(st, "control.shoot"), "control.shoot.wrong-in-one-state.firing", "no shot")

	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "fill", Kind: control.Switch, ClosedIn: pneumatics.SetOf(pneumatics.Charging)},
		{Name: "feed", Kind: control.Load, Moves: []string{"feed"}, Through: through(t, "fill")}}}
	f, is = ids(stageOf(t, l), "control.feed")["control.feed.wrong-in-one-state.firing"]
	require.True(t, is)
	assert.True(t, f.changes && !f.unasked)
	w := stageOf(t, l).failed(&f)
	assert.True(t, sample.PathNamed(w, "feed").OpenIn.Has(pneumatics.Firing))
}

// A shot that keeps the limit says nothing of the stop: with a fault that takes the stop away it fails, or people alone hold it.
func TestAShotWithinTheLimitExcusesNoStop(t *testing.T) {
	st := stageOf(t, wired(t, "f1 k1.2 k3.2", "f1 k1.3", "f1 k1.4 button"))
	electric := []control.Failure{{Mode: control.Shorted, Part: "k1", No: 2}}
	judged := func(f fault, was finding.Status) *Result {
		r := &Result{Status: was}
		st.besideItsShot(&f, r)
		return r
	}
	why := finding.Words("the stop does not cut it")
	for name, c := range map[string]struct {
		f         fault
		was, want finding.Status
	}{
		"fails":                   {fault{electric: electric, changes: true, failing: why}, finding.Pass, finding.Fail},
		"people hold it":          {fault{electric: electric, changes: true, heldBy: finding.ItemSupplyOff}, finding.Pass, finding.OpenItem},
		"the shot alone":          {fault{electric: electric, changes: true}, finding.Pass, finding.Pass},
		"fails by its shot":       {fault{electric: electric, changes: true, heldBy: finding.ItemSupplyOff}, finding.Fail, finding.Fail},
		"no fault of the wiring":  {fault{changes: true, heldBy: finding.ItemSupplyOff}, finding.Pass, finding.Pass},
		"judged without its shot": {fault{electric: electric, failing: why}, finding.Pass, finding.Pass},
	} {
		assert.Equal(t, c.want, judged(c.f, c.was).Status, name)
	}
}

// By hand: a contact that does not close takes the current from all that it is in the way of. Of the button: nothing fires. Of the relay's
// third contact: the vent, which is open without current, lets the shot's air out. Of the key: relay, pump, vent and shot. Of a blown
// fuse all of it. None fires unasked, and none hides: each shows at the first try.
func TestAContactThatDoesNotClose(t *testing.T) {
	st := stageOf(t, wired(t, onRelay()...))
	const all = "pump has no current while charging, armed, firing; vent has no current while charging, armed, firing; shoot"
	for id, says := range map[string]string{
		"control.button.does-not-close": "shoot has no current while firing",
		"control.k1.3.does-not-close":   "vent has no current while charging, armed, firing",
		"control.key.does-not-close":    all,
		"control.f1.blown":              all,
	} {
		part := strings.TrimSuffix(strings.TrimSuffix(id, ".blown"), ".does-not-close")
		f, is := ids(st, part)[id]
		require.True(t, is, "%s: %v", id, ids(st, part))
		assert.Contains(t, f.consequence.String(), says, id)
		assert.False(t, f.latent || f.unasked || f.overcharges, id)
		assert.Contains(t, f.detected.String(), "does not, at the first try", id)
	}
	other, is := ids(st, "control.k1")["control.k1.3.does-not-close.firing"]
	require.True(t, is, "the shot loses air by the vent")
	assert.Contains(t, other.consequence.String(), "another shot: vent has no current")
	assert.Equal(t, ids(st, "control.vent")["control.vent.gets-no-current.firing"].pairOf, other.pairOf, "the same shot as with its coil dead")
	assert.Empty(t, ids(st, "control.gauge"), "pressure_switch has that")
}

// A contact side by side with another one is not missed while that one closes: a meter finds it.
func TestADeadContactThatHides(t *testing.T) {
	l := wired(t, "f1 k1.2 k3.2", "f1 k1.3/k1.5", "f1 k1.4 button")
	hidden, is := ids(stageOf(t, l), "control.k1")["control.k1.5.does-not-close"]
	require.True(t, is)
	assert.True(t, hidden.latent)
	assert.Equal(t, finding.ItemContacts, hidden.revealed)
	assert.Contains(t, hidden.consequence.String(), "another one side by side takes its place")
}
