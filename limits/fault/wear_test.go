package fault

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// A gauge that no longer moves lets go on pumping whoever pumps to its mark, as far as nothing but the dead head stops; a switch
// goes on by itself.
func TestAGaugeThatStandsStill(t *testing.T) {
	marked := sample.VentedTank()
	marked.Supply.Kind, marked.Supply.PumpedTo = launcher.HandPump, sample.Between("supply.pumped_to", 0.2e5, 0.3e5)
	switched := sample.VentedTank()
	switched.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: sample.Between("", 0.3e5, 0.32e5), CutIn: sample.Between("", 0.2e5, 0.22e5)}
	for _, id := range []string{"gauge-on-tank.stuck-at-zero", "gauge-on-tank.line-blocked"} {
		f := faultOf(t, stageOf(t, marked), id)
		assert.True(t, f.changes && f.overcharges, id)
		f = faultOf(t, stageOf(t, switched), id)
		assert.False(t, f.changes || f.overcharges, id)
		assert.False(t, f.latent, "its pointer does not move while it fills")
	}
}

// Half the area takes twice as long: the time to a pressure goes with volume over area, at whatever heat the walls give
// (d ln p/dt of the ideal gas at a constant temperature goes with A); the heat, slower against it, shifts that by a few percent.
func TestAVentThatIsHalfBlockedTakesTwiceAsLong(t *testing.T) {
	l := sample.VentedTank()
	st := stageOf(t, l)
	_, whole, err := st.keeps(vent.PowerLost, func(*launcher.Launcher) {})
	require.NoError(t, err)
	_, half, err := st.keeps(vent.PowerLost, func(w *launcher.Launcher) { narrow(&w.Paths[1], halfOpen) })
	require.NoError(t, err)
	assert.InEpsilon(t, 2, half[0]/whole[0], 0.06)
	f := faultOf(t, st, "vent.half-blocked-or-iced")
	assert.Contains(t, f.consequence.String(), vent.Minutes(half[0]).String())
	assert.True(t, f.latent)
	assert.Equal(t, finding.ItemVentTest, f.revealed)
	hurry := stageOf(t, sample.VentedTank())
	hurry.Launcher.Venting.Within = launcher.Exact("", (whole[0]+half[0])/2)
	assert.Contains(t, faultOf(t, hurry, "vent.half-blocked-or-iced").consequence.String(), "more than the")
	assert.NotContains(t, f.consequence.String(), "more than the")
}

// The area of a bore goes with its square; a Cv is a flow.
func TestNarrow(t *testing.T) {
	p := launcher.PathSpec{Flow: sample.Orifice(2e-3, 0.7)}
	narrow(&p, 0.25)
	assert.InDelta(t, 1e-3, p.Flow.Value.High, 1e-12)
	p = launcher.PathSpec{Flow: sample.Cv(2)}
	narrow(&p, 0.25)
	assert.InDelta(t, 0.5, p.Flow.Value.Low, 1e-12)
	p = launcher.PathSpec{Hose: &launcher.HoseSpec{Conductance: launcher.Exact("", 1)}}
	narrow(&p, 0.25)
	assert.InDelta(t, 0.25, p.Hose.Conductance.Nominal, 1e-12)
}

// A soft tip that has hardened is held against the 0.08 J of a rigid one (EN 71-1 before 2018, 4.17.3): the press test alone
// stands against it, and nothing has to where the shot is weaker than that.
func TestAHardenedTip(t *testing.T) {
	st := stageOf(t, sample.Plain())
	r := &Result{Reason: finding.Words("it leaves as before")}
	st.NormalUnknown = nil
	for judged, status := range map[float64]finding.Status{0.081: finding.OpenItem, 0.079: finding.Pass, math.NaN(): finding.OpenItem} {
		one := *r
		one.Status = finding.Pass
		hard := *st
		hard.NormalUnknown = finding.Words("not asked")
		if !math.IsNaN(judged) {
			hard.NormalUnknown = nil
			hard.Normal = &worst.Case{Value: judged / worst.ModelFactor}
		}
		hard.hardTip(&one)
		assert.Equal(t, status, one.Status, "%g J", judged)
	}
	rigid := stageOf(t, sample.Plain(func(l *launcher.Launcher) { l.Projectile.Resilient = false }))
	assert.Empty(t, rigid.hardened())
}

// What is taken off is a fault where the design has it, found by the item that looks at it; without stops any elevation is tried.
func TestWhatIsTakenOff(t *testing.T) {
	st := stageOf(t, sample.Plain())
	assert.Empty(t, st.takenOff())
	st = stageOf(t, sample.Plain(sample.Weak, func(l *launcher.Launcher) {
		l.Mount.ElevationMin, l.Mount.ElevationMax = launcher.Exact("mount.elevation_min", 1.2), launcher.Exact("mount.elevation_max", 1.3)
	}))
	revealed := map[string]string{}
	for _, f := range st.takenOff() {
		assert.True(t, f.latent)
		revealed[f.part] = f.revealed
	}
	assert.Equal(t, map[string]string{"guard": finding.ItemSealGuard, "grid": finding.ItemMuzzleAdmits, "mount": finding.ItemElevation},
		revealed)
	f := faultOf(t, st, "mount.stop-gone")
	w := st.failed(&f)
	assert.InDelta(t, -math.Pi/2, w.LowestElevation(), 1e-12)
	assert.InDelta(t, math.Pi/2, w.HighestElevation(), 1e-12)
	assert.Contains(t, faultOf(t, st, "guard.missing").consequence.String(), "in a lung")
}

// Behind a regulator it is the regulator that fails, not the switch.
func TestAReliefValveOnARegulatedDose(t *testing.T) {
	l := sample.TwoTanks(sample.Regulator(0.5e5, 0.05e5))
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "dose", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(5e-3, 0.6), SetPressure: launcher.Exact("", 0.7e5), FullFlowPressure: launcher.Exact("", 0.8e5),
		ReseatPressure: launcher.Exact("", 0.6e5)})
	st := stageOf(t, l)
	for _, id := range []string{"relief.stuck-shut", "relief.set-too-high-or-opens-late"} {
		f := faultOf(t, st, id)
		assert.Contains(t, f.whyNot.String(), "feed still holds", id)
		assert.Contains(t, f.consequence.String(), "feed", id)
		assert.NotContains(t, f.consequence.String(), "switch", id)
	}
}
