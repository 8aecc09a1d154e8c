package verdict

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"math"
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"slices"
)

// totalsOf has the energies alone, weakly searched: what is asked is how they are judged.
func totalsOf(t *testing.T, changes ...func(*launcher.Launcher)) *assessment.Assessment {
	t.Helper()
	l := sample.Plain(append([]func(*launcher.Launcher){sample.Weak}, changes...)...)
	return assessed.Energies(t, l, assessment.Options{Strength: 0.05})
}

func TestEnergyVerdicts(t *testing.T) {
	r := totalsOf(t)
	total, area := Of(r, finding.EnergyTotal), Of(r, finding.EnergyArea)
	assert.Equal(t, finding.Pass, total.Status)
	assert.Equal(t, finding.OnModel, total.Basis)
	assert.InEpsilon(t, r.Energy.WorstEnergy*worst.ModelFactor, *total.Value, sample.Rounding)
	assert.Contains(t, total.Advice.String(), "5 measured shots")
	assert.Equal(t, 0.5, *total.Limit)
	require.LessOrEqual(t, *total.Value, 0.08)
	assert.Equal(t, finding.NotApplicable, area.Status, "at or below the floor of 0.08 J")

	strong := func(l *launcher.Launcher) {
		l.Paths[0].Flow, l.Barrel.Travel = sample.Cv(2.5), launcher.Exact("", 0.3)
		l.Volumes[0].Volume = launcher.Exact("", 2e-3)
	}
	r = totalsOf(t, sample.CutOut(0.9*sample.Bars), strong)
	require.Greater(t, r.Energy.Judged, 0.08)
	area = Of(r, finding.EnergyArea)
	assert.InEpsilon(t, r.Energy.Judged/launcher.Circle(30*sample.Millimetres), *area.Value, sample.Rounding)
	assert.Equal(t, 1600.0, *area.Limit)
	r = totalsOf(t, sample.CutOut(0.9*sample.Bars), strong, func(l *launcher.Launcher) { l.Projectile.ContactDiameter = launcher.Band{} })
	assert.Equal(t, finding.Unknown, Of(r, finding.EnergyArea).Status)
	assert.Contains(t, Of(r, finding.EnergyArea).Why.String(), "contact_diameter")
	for name, tip := range map[string]func(*launcher.Launcher){
		"rigid":    func(l *launcher.Launcher) { l.Projectile.Resilient = false },
		"unstated": func(l *launcher.Launcher) { l.Projectile.TipStated = false },
		"unproved": func(l *launcher.Launcher) { l.Projectile.TipProof = " " },
	} {
		assert.Equal(t, 0.08, *Of(totalsOf(t, tip), finding.EnergyTotal).Limit, name)
	}
	own := totalsOf(t, func(l *launcher.Launcher) { l.Limits.TotalEnergy = launcher.Exact("limits.total_energy", 1e-4) })
	assert.Equal(t, finding.Fail, Of(own, finding.EnergyTotal).Status, "the builder's own stricter limit")
	unknown := totalsOf(t, func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil })
	assert.Equal(t, finding.Unknown, Of(unknown, finding.EnergyTotal).Status)
	assert.Equal(t, finding.Unknown, Of(unknown, finding.EnergyArea).Status)
	tiny := totalsOf(t, sample.CutOut(0.02*sample.Bars), func(l *launcher.Launcher) {
		l.Supply.DeadHead = launcher.Exact("", 0.02*sample.Bars)
	})
	assert.Equal(t, finding.OnCeiling, Of(tiny, finding.EnergyTotal).Basis, "so little air that no valve can make 0.5 J of it")
}

func BenchmarkWorstCase(b *testing.B) {
	l := sample.Whale()
	high, _ := l.SoakedHigh()
	for b.Loop() {
		if _, err := worst.Maximise(context.Background(), l, worst.EnergyQuestion(l, high), search.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Both verdicts on hand-made energies, a row on each side of each limit: the total 1 J, the
// floor 0.08 J and 1600 J/m2.
func TestEnergyVerdictsAtTheirLimits(t *testing.T) {
	const print = 1e-3 // [m2]
	for _, c := range []struct {
		judged      float64
		contact     float64
		total, area finding.Status
	}{
		{0.08, print, finding.Pass, finding.NotApplicable},
		{above(0.08), print, finding.Pass, finding.Pass},
		{above(0.08), 0, finding.Pass, finding.Unknown},
		{1, print, finding.Pass, finding.Pass},
		{above(1), print, finding.Fail, finding.Pass},
		{1.6, print, finding.Fail, finding.Pass},
		{1.601, print, finding.Fail, finding.Fail},
	} {
		a := assessed.WithFaults(sample.Plain())
		a.Limits.Floor.Value, a.Limits.Tip = 0.08, launcher.ResilientTip
		a.Energy = &worst.EnergyReport{Basis: finding.OnModel, Judged: c.judged,
			WorstEnergy: c.judged / worst.ModelFactor, Limit: 1, AreaLimit: 1600,
			ContactArea: c.contact, AreaJudged: c.judged / print}
		total, area := Of(a, finding.EnergyTotal), Of(a, finding.EnergyArea)
		assert.Equal(t, c.total, total.Status, "%g J", c.judged)
		assertFigure(t, c.judged, total.Value, "what is judged is with the factor")
		assert.Equal(t, c.area, area.Status, "%g J: %s", c.judged, area.Why.String())
		a.Measured = &measure.Report{Wrong: finding.Words("too fast"), Contradicted: &measure.Contradiction{Energy: 3, Allowed: 2}}
		for _, id := range []string{finding.EnergyTotal, finding.EnergyArea} {
			assert.Equal(t, finding.Fail, Of(a, id).Status, "%s: shots that contradict the model", id)
		}
		a.Measured = &measure.Report{Clashes: []launcher.Clash{{Key: "paths.fire.Cv", Test: "emptying"}}}
		for id, was := range map[string]finding.Status{finding.EnergyTotal: c.total, finding.EnergyArea: c.area} {
			want := finding.Unknown
			if was == finding.Fail {
				want = finding.Fail
			}
			assert.Equal(t, want, Of(a, id).Status, "%s: a bench test that contradicts the design", id)
		}
	}
}

// The area of a point is none: whatever its energy, a tip that is not shown to be soft holds only while it is rounded (EN 71-1, 4.17.2,
// from memory: a radius of 2 mm at least).
func TestARigidTipIsRounded(t *testing.T) {
	for _, c := range []struct {
		tip    launcher.Tip
		judged float64
		want   finding.Status
	}{
		{launcher.ResilientTip, 0.07, finding.NotApplicable},
		{launcher.RigidTip, 0.07, finding.Conditional},
		{launcher.UnprovedTip, 0.07, finding.Conditional},
		{launcher.RigidTip, 0.09, finding.Conditional},
		{launcher.RigidTip, 2, finding.Fail},
	} {
		a := assessed.WithFaults(sample.Plain())
		a.Limits.Floor.Value, a.Limits.Tip = 0.08, c.tip
		a.Energy = &worst.EnergyReport{Basis: finding.OnModel, Judged: c.judged, WorstEnergy: c.judged / worst.ModelFactor, Limit: 1,
			AreaLimit: 1600, ContactArea: 1e-3, AreaJudged: c.judged / 1e-3}
		v := Of(a, finding.EnergyArea)
		assert.Equal(t, c.want, v.Status, "%v, %g J", c.tip, c.judged)
		if c.want == finding.Conditional {
			assert.Equal(t, []string{finding.ItemTipRadius}, v.Items)
			assert.Contains(t, v.Condition.String(), "2.00 mm")
		}
	}
}

// Shots that the model cannot make: the figure that is judged stays the largest in energy.total and energy.fault, and no verdict that
// rests on the model's shots holds any more.
func TestADisprovedModelHoldsNothing(t *testing.T) {
	a := assessed.WithFaults(sample.Plain())
	a.Energy = &worst.EnergyReport{Basis: finding.OnMeasured, Judged: 13, WorstEnergy: 0.2, Limit: 0.5, AreaLimit: 1600}
	a.Measured = &measure.Report{Wrong: finding.Words("too fast"), Contradicted: &measure.Contradiction{Energy: 1.15, Allowed: 0.2,
		Text: finding.Words("a shot of 1.1 J")}}
	for _, id := range []string{finding.EnergyTotal, finding.EnergyFault} {
		v := Of(a, id)
		assert.Equal(t, finding.Fail, v.Status, id)
		assertFigure(t, 13, v.Value, id)
		assertFigure(t, 0.5, v.Limit, id)
		assert.Contains(t, v.Why.String(), "The model or an input is wrong", id)
	}
	a.Energy.Judged = 0.1 // the shot itself is the worst that is known
	assertFigure(t, 1.15, Of(a, finding.EnergyTotal).Value, "what fails on no figure of its own")
	for _, q := range Table() {
		if slices.Contains(onShots[:], q.ID) {
			q.Judge, q.Stage = func(_ *assessment.Assessment, v *finding.Verdict) { v.Judge(1, 2) }, 0
			v := q.of(a)
			assert.Equal(t, finding.Unknown, v.Status, q.ID)
			assert.Contains(t, v.Why.String(), "a shot of 1.1 J", q.ID)
			q.Judge = func(_ *assessment.Assessment, v *finding.Verdict) { v.Judge(2, 1) }
			v = q.of(a)
			assert.Equal(t, finding.Fail, v.Status, q.ID)
			assert.Contains(t, v.Why.String(), "may be far worse", q.ID)
		}
	}
	a.Measured = &measure.Report{Clashes: []launcher.Clash{{Key: "paths.fire.Cv", Test: "emptying"}}}
	q := Question{ID: finding.ShotUnasked, Judge: func(_ *assessment.Assessment, v *finding.Verdict) { v.Judge(1, 2) }}
	assert.Equal(t, finding.Unknown, q.of(a).Status, "a bench test that contradicts the design")
}

// source.limited: an energy at the dead head up to what is allowed passes; one
// above, one above a rating, or one that is not known says nothing.
func TestSourceLimited(t *testing.T) {
	of := func(energy float64, changes ...func(*launcher.Launcher)) finding.Verdict {
		a := assessed.WithFaults(sample.Plain(changes...))
		a.DeadHead, a.Limits.Area.Value = energy, 1e9
		return Of(a, finding.SourceLimited)
	}
	assert.Equal(t, finding.Pass, of(1).Status)
	assertFigure(t, 1, of(1).Limit, "what is allowed")
	assert.Contains(t, of(1).Why.String(), "keeps switch and relief valve needed", "a fault of another part is not in it")
	assert.Equal(t, finding.NotApplicable, of(above(1)).Status)
	assert.Equal(t, finding.NotApplicable, of(math.NaN()).Status)
	rated := func(p float64) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) {
			l.Supply.DeadHead, l.Barrel.RatedPressure = sample.Between("", 3*sample.Bars, 4*sample.Bars), launcher.Exact("", p)
		}
	}
	assert.Equal(t, finding.Pass, of(1, rated(4*sample.Bars)).Status)
	assert.Equal(t, finding.NotApplicable, of(1, rated(3.99*sample.Bars)).Status, "the top of its band is above the rating")
	cylinder := func(l *launcher.Launcher) { l.Supply.Kind = launcher.RegulatedCylinder }
	assert.Equal(t, finding.NotApplicable, of(1, cylinder).Status, "its regulator can fail")
	// (400000 + 101325) 318.15/293.15 - 101325 = 442754 Pa: heat on top of the dead head, both said.
	hot := func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45) }
	assert.Contains(t, of(above(1), hot).Why.String(), "it can push to 4.00 bar, left in the heat to 4.43 bar, which is too much")
	assert.Contains(t, of(above(1)).Why.String(), "it can push to 4.00 bar, which is too much")
}
