package fault

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// modesOf lists the faults of a part by mode and state.
func modesOf(t *testing.T, l *launcher.Launcher, part string) (out []string) {
	t.Helper()
	for _, f := range stageOf(t, l).singleFaults() {
		if f.part == part {
			state := ""
			if !f.anyState {
				state = ", " + f.state.String()
			}
			out = append(out, string(f.mode)+state)
		}
	}
	return out
}

// A three-way valve can stick in either position and between them, and its exhaust
// can be blocked or leak; it is one body, so no fault opens one way and leaves the
// other as it was.
func TestFaultsOfAThreeWayValve(t *testing.T) {
	l := sample.VentedTank()
	sample.MakeThreeWay(l, "fire", "atmosphere", sample.Orifice(2e-3, 0.7))
	assert.ElementsMatch(t, []string{"stuck shut", "opens faster", "stuck between its positions",
		"stuck open, charging", "stuck open, armed", "leaking, charging", "leaking, armed", "energised unasked, charging",
		"energised unasked, armed", "stuck between its positions, charging", "stuck between its positions, armed",
		"stuck between its positions, loading",
		"stuck open, loading", "leaking, loading", "energised unasked, loading"}, modesOf(t, l, "fire"))
	assert.ElementsMatch(t, []string{"blocked", "leaking", "restrictor missing or drilled out"}, modesOf(t, l, "fire.exhaust"))

	hand := sample.VentedTank()
	hand.Paths[0].Kind = pneumatics.HandValve
	sample.MakeThreeWay(hand, "fire", "atmosphere", sample.Orifice(2e-3, 0.7))
	assert.NotContains(t, modesOf(t, hand, "fire"), "energised unasked, armed", "it has no coil")

	// The exhaust port into the barrel: at rest the dose is shot by itself.
	into := sample.Whale()
	sample.MakeThreeWay(into, "feed", "barrel", sample.Orifice(2e-3, 0.7))
	assert.Contains(t, modesOf(t, into, "feed.exhaust"), "stuck open, charging")
	assert.Contains(t, modesOf(t, into, "feed"), "stuck between its positions, charging")
}

// What opens the inlet by a fault is judged with the exhaust shut, and a blocked exhaust
// as if there were none: each is the shot of a valve without an exhaust, to the last
// digit. Stuck between, the exhaust may still be shut, so the search finds no less than
// half of that (it looks only briefly, and leaks a part of the air).
func TestAnExhaustWeakensNoFault(t *testing.T) {
	plain := sample.VentedTank()
	body := sample.VentedTank()
	sample.MakeThreeWay(body, "fire", "atmosphere", sample.Orifice(2e-3, 0.7))
	for _, id := range []string{"fire.stuck-open.armed", "fire.energised-unasked.loading", "fire.leaking.charging"} {
		want, got := runFault(t, stageOf(t, plain), id), runFault(t, stageOf(t, body), id)
		require.Equal(t, want.Effect, got.Effect, id)
		assert.Equal(t, want.Energy, got.Energy, id)
		assert.Equal(t, want.Status, got.Status, id)
	}
	between := runFault(t, stageOf(t, body), "fire.stuck-between-its-positions.armed")
	assert.Equal(t, FiresUnasked, between.Effect)
	assert.Greater(t, between.Energy, 0.5*runFault(t, stageOf(t, plain), "fire.stuck-open.armed").Energy)

	sample.PathNamed(body, "fire.exhaust").ClosingTime = launcher.Exact("", 10e-3)
	blocked := faultOf(t, stageOf(t, body), "fire.exhaust.blocked")
	assert.True(t, blocked.changes, "it no longer lets air out as the shot begins")
	assert.True(t, blocked.latent)
	assert.Equal(t, finding.ItemExhaust, blocked.revealed)
	w := stageOf(t, body).failed(&blocked)
	assert.Equal(t, launcher.FlowSpec{}, w.Paths[w.OtherWay(0)].Flow)
}

// A blocked exhaust of a volume keeps its air: the vent test shows it.
func TestABlockedExhaustTrapsAVolume(t *testing.T) {
	l := sample.Whale()
	sample.MakeThreeWay(l, "feed", "atmosphere", sample.Orifice(1e-3, 0.7))
	f := faultOf(t, stageOf(t, l), "feed.exhaust.blocked")
	assert.Contains(t, f.consequence.String(), "dose does not empty through feed.exhaust: trapped: ")
	assert.Equal(t, finding.ItemVentTest, f.revealed)
}

// The exhaust of a shuttle valve into the open is a vent; into the barrel it is the firing
// valve, which every part that holds its inlet's pressure can fire: each of these faults is
// the shot of an exhaust that opens by itself.
func TestFaultsOfAQuickExhaustValve(t *testing.T) {
	vented := sample.VentedTank()
	sample.MakeQuickExhaust(vented, "tank", "atmosphere")
	assert.ElementsMatch(t, []string{"blocked", "leaking", "restrictor missing or drilled out"}, modesOf(t, vented, "quick.exhaust"))
	assert.Contains(t, modesOf(t, vented, "quick"), "passes backwards")

	l := sample.VentedTank()
	sample.MakeQuickExhaust(l, "tank", "barrel")
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "trigger", From: "line", To: "atmosphere", Kind: pneumatics.Valve,
		Flow: sample.Orifice(3e-3, 0.7), OpenIn: pneumatics.SetOf(pneumatics.Firing),
		Hose: &launcher.HoseSpec{Bore: launcher.Exact("", 4e-3), Length: launcher.Exact("", 0.3)}})
	assert.Subset(t, modesOf(t, l, "quick.exhaust"), []string{"stuck shut", "stuck open, armed", "leaking, charging",
		"loses its inlet pressure, loading"})
	assert.Subset(t, modesOf(t, l, "trigger"), []string{"stuck open, armed", "leaking, armed", "energised unasked, armed", "hose off, armed"})

	st := stageOf(t, l)
	opens := runFault(t, st, "quick.exhaust.loses-its-inlet-pressure.armed")
	assert.Equal(t, FiresUnasked, opens.Effect)
	assert.Greater(t, opens.Energy, 0.0)
	off := runFault(t, st, "trigger.hose-off.armed")
	assert.Equal(t, opens.Energy, off.Energy, "the same shot")
	assert.Contains(t, off.Consequence.String(), "takes the pressure from the inlet of quick")
}

// A diaphragm valve can be opened by its pilot, by a blocked filling hole and by a tear,
// each of them the same shot as of one that sticks open; a blocked pilot keeps it shut.
func TestFaultsOfADiaphragmValve(t *testing.T) {
	l := sample.VentedTank()
	l.Paths[0].SeatShare, l.Paths[0].OpensAt, l.Paths[0].FullAt = launcher.Exact("", 0.4), launcher.Exact("", 0), launcher.Exact("", 0)
	modes := modesOf(t, l, "fire")
	for _, m := range []string{"pilot stuck open or leaking", "filling hole of its chamber blocked", "diaphragm torn"} {
		assert.Contains(t, modes, m+", armed")
		assert.Contains(t, modes, m+", charging")
	}
	assert.Contains(t, modes, "pilot blocked")
	st := stageOf(t, l)
	stuck := runFault(t, st, "fire.stuck-open.armed")
	assert.Greater(t, stuck.Energy, 0.0)
	assert.Equal(t, stuck.Energy, runFault(t, st, "fire.diaphragm-torn.armed").Energy)

	vent := sample.VentedTank()
	vent.Paths[1].SeatShare = launcher.Exact("", 0.4)
	vent.Paths[1].OpensAt, vent.Paths[1].FullAt = launcher.Exact("", 0), launcher.Exact("", 0)
	blocked := faultOf(t, stageOf(t, vent), vent.Paths[1].Name+".pilot-blocked")
	assert.True(t, blocked.latent)
	assert.Equal(t, finding.ItemVentTest, blocked.revealed)
}

// A valve that current moves may open in half of its shortest time, at once where that is longer than its drive takes as a rule; one
// that a hand moves at once, however slowly somebody else turned it when it was timed.
func TestAHandValveIsSlapped(t *testing.T) {
	for _, c := range []struct {
		kind                   pneumatics.PathKind
		stated, usual, fastest float64 // [s]
	}{{pneumatics.Valve, 0.6, 0, 0.3}, {pneumatics.HandValve, 0.6, 0, 0}, {pneumatics.Valve, 0.039, 0.04, 0.0195},
		{pneumatics.Valve, 0.041, 0.04, 0}} {
		l := sample.VentedTank()
		fire := l.PathIndex("fire")
		l.Paths[fire].Kind, l.Paths[fire].Usual = c.kind, c.usual
		l.Paths[fire].OpeningTime = launcher.Exact("paths.fire.opening_time", c.stated)
		faults := stageOf(t, l).singleFaults()
		i := slices.IndexFunc(faults, func(f fault) bool { return f.part == "fire" && f.mode == OpensFaster })
		require.GreaterOrEqual(t, i, 0)
		faults[i].apply(l)
		assert.InDelta(t, c.fastest, l.Paths[fire].OpeningTime.Low, 1e-12)
	}
}
