package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// What blocks several answers is told once, and that which blocks most comes first; each
// failure belongs to one cause.
func TestCausesAreToldOnce(t *testing.T) {
	verdict := func(id string, st finding.Status, why finding.Text) finding.Verdict {
		return finding.Verdict{ID: id, Title: id, Status: st, Why: why, Advice: finding.Words("mend " + id)}
	}
	unstated := finding.Key("supply.dead_head").Say(" is not stated")
	l := sample.Whale()
	for i := range l.Paths { // the tank straight into the barrel
		if p := &l.Paths[i]; p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) {
			p.From = l.Supply.Feeds
		}
	}
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	a := &assessment.Assessment{Launcher: l, Limits: limits, Energy: &worst.EnergyReport{CeilingDose: 1e-5}}
	r := Report{Causes: causesOf(a, []finding.Verdict{
		verdict(finding.EnergyTotal, finding.Fail, nil), verdict(finding.BarrelStalled, finding.Fail, nil),
		verdict(finding.GaugeReadable, finding.Fail, nil),
		verdict(finding.VesselRating, finding.Unknown, finding.Say("missing: the highest pressure of volumes.tank (%s)", unstated)),
		verdict(finding.StoredEnergy, finding.Unknown, finding.Say("missing: %s; supply.curve is no help", unstated)),
		verdict(finding.LadderOrder, finding.Unknown, launcher.NoHighest()),
		verdict(finding.SwitchBand, finding.Pass, unstated)})}
	require.Len(t, r.Causes, 3)
	assert.Equal(t, "supply.dead_head is not stated: it blocks 3 answers", r.Causes[0].What.String())
	assert.True(t, r.Causes[0].Missing())
	assert.Contains(t, r.Causes[1].What.String(), "open to the barrel")
	assert.Equal(t, []string{finding.EnergyTotal, finding.BarrelStalled}, r.Causes[1].Verdicts)
	assert.Equal(t, []string{finding.GaugeReadable}, r.Causes[2].Verdicts)
	assert.Equal(t, "mend "+finding.GaugeReadable, r.Causes[2].Do.String())
	assert.Equal(t, "State supply.dead_head", r.Causes[0].Step.String())
	assert.Equal(t, "Put a dose between tank and the firing valve", r.Causes[1].Step.String())
	assert.Equal(t, finding.GaugeReadable+": mend "+finding.GaugeReadable, r.Causes[2].Step.String())
	assert.Equal(t, "State a.b, c.d and 2 more", missingCause([]string{"a.b", "c.d", "e.f", "g.h"}, nil).Step.String())
	assert.Len(t, r.DoFirst(), 3)
	settle := causesOf(a, []finding.Verdict{verdict(finding.ReliefCapacity, finding.Unknown,
		launcher.Clash{Key: "paths.relief.full_flow_pressure"}.Says())})
	require.Len(t, settle, 1)
	assert.Equal(t, "Settle which is right, the test or the design: paths.relief.full_flow_pressure", settle[0].Step.String(), "it is stated")
	assert.Empty(t, (&Report{}).DoFirst())
}

// A pump by hand and a tap have no current: nothing would fill a dose and shut it off while it shoots, so none is advised. What their
// verdicts advise is told instead.
func TestNoDoseWithoutCurrent(t *testing.T) {
	l := sample.Whale()
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) {
			p.From = l.Supply.Feeds
		}
		if p.Kind == pneumatics.Valve {
			p.Kind = pneumatics.HandValve
		}
	}
	of := func() Cause {
		a := &assessment.Assessment{Launcher: l, Energy: &worst.EnergyReport{CeilingDose: 1e-5}}
		a.Limits, _ = l.EnergyLimits("")
		causes := causesOf(a, []finding.Verdict{{ID: finding.EnergyTotal, Status: finding.Fail, Advice: finding.Words("less pressure")}})
		require.Len(t, causes, 1)
		return causes[0]
	}
	assert.Equal(t, NoDose, of().Lies, "a switch stops its compressor: it has current")
	l.Switch = nil
	assert.Equal(t, NoDose, of().Lies, "its compressor has current")
	l.Supply.Kind = launcher.HandPump
	assert.Equal(t, OfVerdict, of().Lies)
	assert.Equal(t, "less pressure", of().Do.String())
}

// Figures of the template go before everything, whatever else is blocked, and a key that they name is not one that
// is missing.
func TestTheTemplateIsTheFirstCause(t *testing.T) {
	a := &assessment.Assessment{Launcher: &launcher.Launcher{}, Stated: &launcher.Launcher{Template: []string{"barrel.bore",
		"supply.dead_head"}},
		Limits: launcher.EnergyLimits{Tip: launcher.ResilientTip}}
	causes := causesOf(a, []finding.Verdict{
		{ID: finding.VesselRating, Status: finding.Unknown, Why: finding.Say("missing: %s", finding.Key("supply.curve"))},
		{ID: finding.StoredEnergy, Status: finding.Unknown, Why: finding.Say("missing: %s", finding.Key("supply.curve"))},
		{ID: finding.DesignTemplate, Status: finding.Unknown, Why: finding.Words("2 figures: barrel.bore, supply.dead_head")}})
	require.Len(t, causes, 2)
	assert.Equal(t, []string{finding.DesignTemplate}, causes[0].Verdicts)
	assert.Equal(t, "Replace 2 figures that are still the template's by your own", causes[0].Step.String())
	assert.Equal(t, []string{finding.VesselRating, finding.StoredEnergy}, causes[1].Verdicts)
}

// What empties too slowly has a way out: only what never empties lacks one.
func TestSlowIsNotShut(t *testing.T) {
	l := sample.Whale()
	limits, err := l.EnergyLimits("")
	require.NoError(t, err)
	slow := finding.Verdict{ID: finding.VentShutdown, Title: "slow", Status: finding.Fail, Advice: finding.Words("A wider vent.")}
	never := slow
	never.ID = finding.VentPowerLoss
	slow.Judge(3.7, 1)
	causes := causesOf(&assessment.Assessment{Launcher: l, Limits: limits}, []finding.Verdict{slow, never})
	require.Len(t, causes, 2)
	assert.Equal(t, []string{finding.VentPowerLoss}, causes[0].Verdicts)
	assert.Contains(t, causes[0].What.String(), "no open way out")
	assert.Equal(t, "slow: A wider vent.", causes[1].Step.String())
}

// Shots harder than the model allows are one cause of all that rests on them, and the first.
func TestADisprovedModelIsOneCause(t *testing.T) {
	a := &assessment.Assessment{Launcher: sample.Whale(), Energy: &worst.EnergyReport{CeilingDose: 1},
		Measured: &measure.Report{Contradicted: &measure.Contradiction{Text: finding.Words("a shot of 1.1 J")}}}
	r := Report{Causes: causesOf(a, []finding.Verdict{{ID: finding.GaugeReadable, Status: finding.Fail}, {ID: finding.EnergyTotal,
		Status: finding.Fail}, {ID: finding.ShotUnasked, Status: finding.Unknown}, {ID: finding.PeopleLanding, Status: finding.Pass}})}
	require.Len(t, r.Causes, 2)
	assert.Equal(t, []string{finding.EnergyTotal, finding.ShotUnasked}, r.Causes[0].Verdicts)
	assert.Equal(t, "The model or an input is wrong: a shot of 1.1 J", r.Causes[0].What.String())
}
