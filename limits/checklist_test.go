package limits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// Every item of the checklist has one name, says why and how, and belongs to a
// verdict that exists.
func TestChecklistIsWhole(t *testing.T) {
	rep, err := whaleCheck()
	require.NoError(t, err)
	ids := map[string]bool{}
	for _, v := range rep.Verdicts {
		ids[v.ID] = true
	}
	seen := map[string]bool{}
	for _, it := range rep.Items {
		assert.False(t, seen[it.ID], it.ID)
		seen[it.ID] = true
		assert.NotEmpty(t, it.Title, it.ID)
		assert.NotEmpty(t, it.Why.String(), it.ID)
		assert.NotEmpty(t, it.How.String(), it.ID)
		assert.NotEmpty(t, it.Source, it.ID)
		if it.Verdict != "" {
			assert.True(t, ids[it.Verdict], it.ID+" rests on "+it.Verdict)
		}
	}
	for _, id := range []string{finding.ItemVentTest, finding.ItemLeakDown, finding.ItemReliefTest, finding.ItemBore, finding.ItemSwitchTest,
		"relief.no-shut-off",
		"control.key-and-stop", "mount.elevation", "electric.fuses", "landing.clear", "drill.jam", "loading.wait", "open.tag", "cold.drain",
		"age.retire", "clear.round"} {
		assert.True(t, seen[id], id)
	}
}

// Every hazard of the builder's list that a design can bear has its item, with the
// figure to expect where one can be computed.
func TestEveryHazardHasItsItem(t *testing.T) {
	l := sample.SealedTank()
	l.Barrel.SealGuard = "slots"
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Volumes[0].InnerDiameter = launcher.Exact("", 0.1)
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(8e-3, 0.62), Points: "away",
		SetPressure: launcher.Exact("", 0.9e5), FullFlowPressure: launcher.Exact("", 1e5), ReseatPressure: launcher.Exact("", 0.8e5)})
	rep, err := Check(assessed.Glance(), l, assessment.Options{})
	require.NoError(t, err)
	for id, figure := range map[string]string{
		"landing.clear": "", "muzzle.look-in": "", "loading.wait": " s between", "unasked.two-actions": "click", "unasked.guard": "",
		"seal-guard": "", finding.ItemSwitchTest: " bar", finding.ItemReliefTest: " bar", "projectile.tug-and-bite": "", "end-caps": " " +
			"N", "cold.drain": "", "age.retire": "",
		"open.tag": " J", "vent.stays-empty": " bar", finding.ItemLeakDown: "cooling", "drill.jam": "", "vent.outlets": "", "electric.fuses": "",
		"clear.round": "", "control.key-and-stop": "", finding.ItemGaugeCompare: " bar", finding.ItemBore: " " +
			"mm", "barrel.no-pressure": "bubble", finding.ItemVentTest: " s at the latest",
	} {
		assert.Contains(t, assessed.Item(t, rep.Items, id).Expect.String(), figure, id)
	}
}

// Force on an end cap: p A, 1 bar on 104 mm is 849 N (pi/4 x 0.104^2 x 1e5). Thrust
// of a loose hose as in TestThrust: 12 N at 0.95 bar through 10 mm. Air in a hose: pi/4 x
// 10 mm^2 x 0.6 m = 47 mL, more than many dead volumes; one shorter than 20 bores is
// a fitting.
func TestForcesAndAirOfHosesAndCaps(t *testing.T) {
	l := sample.VentedTank()
	l.Supply.DeadHead = launcher.Exact("", 1e5)
	l.Ambient.Hottest, l.Ambient.Coldest, l.Ambient.Temperature = launcher.Exact("", 293.15), launcher.Exact("", 293.15),
		launcher.Exact("", 293.15)
	l.Volumes[0].InnerDiameter = launcher.Exact("", 0.104)
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 10e-3), Length: launcher.Exact("", 0.6), Side: launcher.HoseBefore}
	r := faultsOf(t, l)
	caps := assessed.Item(t, r.Items, "end-caps").Expect.String()
	assert.Contains(t, caps, "tank 850 N")
	assert.NotContains(t, caps, "assumed")
	held := func(forces ...float64) finding.Outcome {
		c := &finding.Confirmation{Value: "held"}
		for _, f := range forces {
			c.Figures = append(c.Figures, finding.Figure{Value: f, Unit: finding.InNewton})
		}
		outcome, _ := assessed.Item(t, r.Items, "end-caps").May.Judge(c)
		return outcome
	}
	assert.Equal(t, finding.Closes, held(900, 900))
	assert.Equal(t, finding.Failing, held(1), "less than on any")
	assert.Equal(t, finding.Failing, held(700, 700), "less than on the tank's")
	off := assessed.Fault(t, r.Faults, "fire.hose-off")
	want := finding.Significant(fault.Thrust(launcher.Circle(10e-3), 1e5, 101325, 1.4), 2) + " N"
	assert.Contains(t, off.Consequence.String(), want)
	assert.Contains(t, assessed.Item(t, r.Items, "hose.restraint").Expect.String(), "fire "+want)

	hoses := vent.Hoses(l)
	require.Len(t, hoses, 1)
	assert.InEpsilon(t, 47.1e-6, hoses[0].Volume, 1e-3)
	assert.Equal(t, "tank", hoses[0].With)
	l.Paths[0].Hose.Length = launcher.Exact("", 0.19)
	assert.Empty(t, vent.Hoses(l), "a fitting")

	l.Volumes[0].InnerDiameter.Assumed = true
	assert.Contains(t, assessed.Item(t, faultsOf(t, l).Items, "end-caps").Expect.String(), "104 mm inside, assumed")
}

// An answer closes its item only with a name and a date, and belongs to one item.
func TestAnAnswerNeedsANameAndADate(t *testing.T) {
	for _, c := range []struct {
		answer finding.Confirmation
		closes bool
	}{
		{finding.Confirmation{Item: finding.ItemVentTest, Who: "A. N.", Date: "2026-05-01", Value: "9 s, every gauge at zero",
			Figures: []finding.Figure{{Value: 9, Unit: finding.InSecond}}}, true},
		{finding.Confirmation{Item: finding.ItemVentTest, Who: " ", Date: "2026-05-01"}, false},
		{finding.Confirmation{Item: finding.ItemVentTest, Who: "A. N."}, false},
		{finding.Confirmation{Item: "vent.tset", Who: "A. N.", Date: "2026-05-01"}, false},
	} {
		l := sample.VentedTank()
		l.Checklist = []finding.Confirmation{c.answer}
		r := Report{Items: launcher.Answered([]finding.Item{{ID: finding.ItemVentTest,
			Figure: finding.FigureBetween(finding.InSecond, 0, 20)}, {ID: finding.ItemLeakDown}}, l, "2026-06-01")}
		r.conclude(false)
		assert.Equal(t, c.closes, r.Items[0].Done != nil, "%+v", c.answer)
		assert.Nil(t, r.Items[1].Done)
		assert.False(t, r.Confirmed)
		if c.closes {
			assert.Equal(t, 1, r.OpenItems)
			assert.Equal(t, "9 s, every gauge at zero", r.Items[0].Done.Value)
		} else {
			assert.Equal(t, 2, r.OpenItems)
		}
	}
}
